/**
 * Every route of the OpenAPI document, with every kind of key, on the key's own yard and on another's, against the real
 * objects in the real runtime. A route that is not in the document fails here; who may do what stands below by hand, and
 * not as the code has it.
 */
import { env } from 'cloudflare:workers';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { createApp } from '../../worker/api/app.ts';
import { keyText, mintKey, peppersIn, readKey } from '../../worker/api/key.ts';
import type { NewKey } from '../../worker/yard/command.ts';
import { type Operation, operations } from '../api/contract/document.ts';
import { type Pool, valid } from '../api/contract/from-schema.ts';
import { idKind, seedYard } from '../api/contract/seed.ts';

const secrets = { ADMIN_KEY: 'admin-key-of-this-test', KEY_PEPPER: 'the pepper of this test' };
const app = createApp<typeof secrets>({ door: (_env, yardId) => env.YARD.getByName(yardId), nowMs: () => Date.now() });

const may = {
  owner: ['read', 'stock', 'plan', 'hold', 'admin'],
  hand: ['read', 'stock', 'plan', 'hold'],
  viewer: ['read'],
  link: ['link'],
  feed: [],
  expired: [],
  revoked: [],
  none: [],
} as const satisfies Record<string, readonly string[]>;
type Role = keyof typeof may;
const roles = Object.keys(may) as Role[];
/** Known to the yard, so told what it may not; all else learns only that the key is wrong. */
const known: ReadonlySet<Role> = new Set(['owner', 'hand', 'viewer', 'link', 'feed']);

interface Yard {
  readonly yardId: string;
  readonly mark: string;
  readonly pool: Pool;
  /** Null for none. */
  readonly keys: Readonly<Record<Role, string | null>>;
  readonly feedPath: string;
  readonly revokedFeedPath: string;
}

let sends = 0;

async function send(key: string | null, method: string, path: string, body?: string, type = 'application/json') {
  sends += 1;
  const response = await app.request(
    path,
    {
      method,
      headers: {
        ...(key === null ? {} : { authorization: `Bearer ${key}` }),
        ...(body === undefined ? {} : { 'content-type': type }),
        'idempotency-key': `send-of-roles-${sends}`,
        // Only edits of single fields cannot do without.
        ...(method === 'PATCH' ? { 'if-match': '"s1"' } : {}),
      },
      ...(body === undefined ? {} : { body }),
    },
    secrets,
  );
  return { status: response.status, text: await response.text() };
}

async function foundYard(mark: string): Promise<Yard> {
  const founded = await send(secrets.ADMIN_KEY, 'POST', '/v1/yards', JSON.stringify({ name: mark }));
  const { yardId, key: owner } = JSON.parse(founded.text) as { yardId: string; key: string };
  const asOwner = async (method: string, path: string, body?: unknown): Promise<unknown> => {
    const answer = await send(owner, method, path, body === undefined ? undefined : JSON.stringify(body));
    if (answer.status >= 300) throw new Error(`${method} ${path}: ${answer.text}`);
    return JSON.parse(answer.text);
  };
  type Made = { readonly secret: string; readonly key: { readonly id: string } };
  const made = async (path: string, body: object) =>
    (await asOwner('POST', path, { label: 'key of the test', ...body })) as Made;
  const pool = await seedYard({ send: asOwner, mark });
  const revoked = await made('/v1/keys', { role: 'owner' });
  await asOwner('POST', `/v1/keys/${revoked.key.id}/revoke`);
  const feed = await made('/v1/feeds', { list: 'stock' });
  const revokedFeed = await made('/v1/feeds', { list: 'stock' });
  await asOwner('POST', `/v1/keys/${revokedFeed.key.id}/revoke`);
  const feedPath = new URL(feed.secret).pathname;
  const keys = {
    owner,
    hand: (await made('/v1/keys', { role: 'hand', days: 1 })).secret,
    viewer: (await made('/v1/keys', { role: 'viewer' })).secret,
    link: `yl_${yardId}_${((await asOwner('POST', '/v1/link-codes', { label: 'Ann', role: 'hand' })) as { code: string }).code}`,
    // A link's token, dressed as a key.
    feed: feedPath.replace('/feeds/yf_', 'yk_').replace('.csv', ''),
    expired: await expiredKey(yardId, owner),
    revoked: revoked.secret,
    none: null,
  };
  return { yardId, mark, pool, keys, feedPath, revokedFeedPath: new URL(revokedFeed.secret).pathname };
}

/** An owner's key that ran out a second ago; only the yard itself can make one. */
async function expiredKey(yardId: string, owner: string): Promise<string> {
  const read = await readKey(`Bearer ${owner}`, peppersIn(secrets));
  if (!read) throw new Error('the owner’s key cannot be read');
  const minted = await mintKey(peppersIn(secrets));
  const { keyId, digest } = minted;
  const key: NewKey = { keyId, digest, label: 'old', scopes: [...may.owner], expiresAtMs: Date.now() - 1_000 };
  const asker = { keyId: read.keyId, digest: read.digest, scope: 'admin' } as const;
  const occasion = { atMs: Date.now(), today: '2026-11-20' };
  const receipt = { idempotencyKey: 'expired-key', fingerprint: yardId };
  await env.YARD.getByName(yardId).command(asker, receipt, { do: 'make-key', key }, occasion);
  return keyText(yardId, minted);
}

/** All that a refused request must leave alone. */
async function stateOf(yard: Yard): Promise<string> {
  const facts = JSON.parse((await send(yard.keys.owner, 'GET', '/v1/yard')).text);
  const list = JSON.parse((await send(yard.keys.owner, 'GET', '/v1/keys')).text) as {
    keys: readonly { readonly id: string; readonly works: boolean; readonly expiresAtMs: number | null }[];
  };
  const keys = list.keys.map(({ id, works, expiresAtMs }) => [id, works, expiresAtMs]);
  return JSON.stringify({ facts, keys });
}

let own: Yard;
let foreign: Yard;

beforeAll(async () => {
  own = await foundYard('MARK-OWN');
  foreign = await foundYard('MARK-FOREIGN');
}, 60_000);

const pathFor = (operation: Operation, pool: Pool) =>
  operation.path.replace(/\{\w+\}/, () => pool[idKind(operation.path)][0] ?? 'nothing');

function bodyFor(operation: Operation, pool: Pool): string | undefined {
  if (!operation.body) return undefined;
  const [value] = fc.sample(valid(operation.body.schema, pool), { numRuns: 1, seed: 7 });
  return typeof value === 'string' ? value : JSON.stringify(value);
}

const ofYards = operations.filter(({ scope }) => [...may.owner, ...may.link].some((one) => one === scope));

test('the document names every route that is registered, and no other', () => {
  const registered = app.routes
    .filter(({ method }) => method !== 'ALL')
    .map(({ method, path }) => `${method} ${path.replaceAll(/:(\w+)/g, '{$1}')}`);
  expect(operations.map(({ method, path }) => `${method} ${path}`).sort()).toEqual([...new Set(registered)].sort());
  const scopes = new Set([...may.owner, ...may.link, 'open', 'service', 'feed']);
  for (const operation of operations) expect(scopes, operation.name).toContain(operation.scope);
});

describe.each(ofYards.map((operation) => [operation.name, operation] as const))('%s', (_name, operation) => {
  const ask = (key: string | null, pool: Pool) =>
    send(key, operation.method, pathFor(operation, pool), bodyFor(operation, pool), operation.body?.type);

  test('own yard', async () => {
    for (const role of roles) {
      const isAllowed = may[role].some((scope) => scope === operation.scope);
      const before = isAllowed ? null : await stateOf(own);
      const answer = await ask(own.keys[role], own.pool);
      if (isAllowed) {
        expect([401, 403], `${role}: ${answer.text}`).not.toContain(answer.status);
        expect([...operation.answers.keys()], `${role}: ${answer.text}`).toContain(answer.status);
        expect(answer.status, answer.text).toBeLessThan(500);
      } else {
        expect([role, answer.status]).toEqual([role, known.has(role) ? 403 : 401]);
        expect(answer.text).not.toContain(own.mark);
        expect(await stateOf(own)).toBe(before);
      }
    }
  });

  test('foreign yard', async () => {
    const before = await stateOf(foreign);
    for (const role of roles) {
      // A key that says another yard opens nothing there.
      const key = own.keys[role];
      const forged = key?.replace(own.yardId, foreign.yardId) ?? null;
      expect([role, (await ask(forged, foreign.pool)).status]).toEqual([role, 401]);
      // The ids of another yard name nothing here.
      const answer = await ask(key, foreign.pool);
      expect(answer.text).not.toContain(foreign.mark);
      const namesForeign = operation.path.includes('{') && idKind(operation.path) !== 'seq';
      if (namesForeign) expect(answer.status, `${role}: ${answer.text}`).toBeGreaterThanOrEqual(400);
    }
    expect(await stateOf(foreign)).toBe(before);
  });
});

describe('the service’s own routes', () => {
  const ofService = operations.filter(({ scope }) => scope === 'service');

  test.each(ofService.map((operation) => [operation.name, operation] as const))(
    '%s opens to the admin key alone',
    async (_name, operation) => {
      const path = operation.path.replace('{id}', own.yardId);
      const body = operation.body ? JSON.stringify({ name: 'Another' }) : undefined;
      const before = await stateOf(own);
      for (const role of roles) {
        expect([role, (await send(own.keys[role], operation.method, path, body)).status]).toEqual([role, 401]);
      }
      expect(await stateOf(own)).toBe(before);
      expect((await send(secrets.ADMIN_KEY, operation.method, path, body)).status).toBeLessThan(300);
    },
  );

  test('the admin key opens no yard', async () => {
    for (const operation of ofYards) {
      const answer = await send(secrets.ADMIN_KEY, operation.method, pathFor(operation, own.pool));
      expect([operation.name, answer.status]).toEqual([operation.name, 401]);
    }
  });

  test('what is open says nothing of a yard', async () => {
    for (const { path, method } of operations.filter(({ scope }) => scope === 'open')) {
      const answer = await send(null, method, path);
      expect(answer.status).toBe(200);
      expect(answer.text).not.toContain('MARK-');
    }
  });

  test('a link opens by its own token: no key, no revoked token, no token of another yard', async () => {
    expect((await send(null, 'GET', own.feedPath)).text).toContain(own.mark);
    const forged = own.feedPath.replace(own.yardId, foreign.yardId);
    for (const path of [own.revokedFeedPath, forged, ...roles.map((role) => `/feeds/${own.keys[role]}.csv`)]) {
      expect((await send(null, 'GET', path)).status, path).toBe(404);
    }
    const asKey = String(own.keys.owner).replace('yk_', 'yf_');
    expect((await send(null, 'GET', `/feeds/${asKey}.csv`)).status).toBe(404);
  });
});
