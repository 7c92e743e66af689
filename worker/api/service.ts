/** What only who runs the service may do, by the admin key: found a yard, and give an owner's key to a shop that lost its last. */
import * as z from 'zod';
import { roleScopes } from '../contract/key.ts';
import { check, parseJson, type Read, readText } from './body.ts';
import { digestsEqual, fingerprintOf, isOurYardId, keyText, mintKey, newYardId, peppersIn } from './key.ts';
import { problemResponse, refusalResponse } from './problem.ts';
import type { Ctx, Deps, Env } from './serve.ts';
import type { Tally } from './tally.ts';

export const foundBody = z.strictObject({ name: z.string().trim().min(1, 'a yard needs a name').max(120) });
export const foundAnswer = z.strictObject({ yardId: z.string(), key: z.string() });

/** Compared by their digests, so that not even the length of the admin key shows in the time it takes. */
async function isAdmin<E extends Env>(c: Ctx<E>): Promise<boolean> {
  const said = /^Bearer +(\S+)$/i.exec(c.req.header('authorization') ?? '')?.[1] ?? '';
  const [a, b] = await Promise.all([fingerprintOf(said), fingerprintOf(c.env.ADMIN_KEY ?? '')]);
  return Boolean(c.env.ADMIN_KEY) && digestsEqual(a, b);
}

async function bodyOf<S extends z.ZodType>(c: Ctx<Env>, schema: S): Promise<Read<z.output<S>>> {
  const text = await readText(c.req.raw);
  if (!text.ok) return text;
  const json = parseJson(c.req.raw, text.value);
  return json.ok ? check(schema, json.value) : json;
}

const madeResponse = (yardId: string, key: string) =>
  Response.json({ yardId, key }, { status: 201, headers: { 'cache-control': 'no-store' } });

export function foundYard<E extends Env>(deps: Deps<E>) {
  return async function foundYardRoute(c: Ctx<E>): Promise<Response> {
    const instance = c.get('requestId');
    c.set('seen', { route: 'foundYard' });
    if (!(await isAdmin(c))) {
      return problemResponse('wrong-key', 'Founding a yard needs the admin key of this service.', instance);
    }
    const body = await bodyOf(c as unknown as Ctx<Env>, foundBody);
    if (!body.ok) return refusalResponse(body.refusal, instance);
    const yardId = await newYardId(peppersIn(c.env));
    const minted = await mintKey(peppersIn(c.env));
    const { keyId, digest } = minted;
    const key = { keyId, digest, label: 'first key', scopes: roleScopes.owner };
    await deps.door(c.env, yardId).found({ yardId, name: body.value.name, key });
    return madeResponse(yardId, keyText(yardId, minted));
  };
}

export function giveOwnerKey<E extends Env>(deps: Deps<E>) {
  return async function giveOwnerKeyRoute(c: Ctx<E>): Promise<Response> {
    const instance = c.get('requestId');
    c.set('seen', { route: 'giveOwnerKey' });
    if (!(await isAdmin(c))) {
      return problemResponse('wrong-key', "Giving out an owner's key needs the admin key of this service.", instance);
    }
    const yardId = c.req.param('id') ?? '';
    const minted = await mintKey(peppersIn(c.env));
    const { keyId, digest } = minted;
    const key = { keyId, digest, label: 'owner, given by the service', scopes: roleScopes.owner };
    const given = (await isOurYardId(yardId, peppersIn(c.env))) && (await deps.door(c.env, yardId).giveOwnerKey(key));
    return given !== false && given.given
      ? madeResponse(yardId, keyText(yardId, minted))
      : problemResponse('not-found', 'There is no such yard.', instance);
  };
}

export const healthAnswer = z.strictObject({ ok: z.boolean(), missing: z.array(z.string()) });
const SECRET_CHARS_MIN = 16;

/** Whether the service can work: it runs, and its secrets are set. */
export function health<E extends Env>(c: Ctx<E>): Response {
  c.set('seen', { route: 'health' });
  const secrets = { ADMIN_KEY: c.env.ADMIN_KEY, KEY_PEPPER: c.env.KEY_PEPPER };
  const missing = Object.entries(secrets).flatMap(([name, value]) =>
    (value ?? '').length < SECRET_CHARS_MIN ? [name] : [],
  );
  const body: z.output<typeof healthAnswer> = { ok: missing.length === 0, missing };
  return Response.json(body, { status: body.ok ? 200 : 503, headers: { 'cache-control': 'no-store' } });
}

export function metrics(tally: Tally) {
  return async function metricsRoute<E extends Env>(c: Ctx<E>): Promise<Response> {
    c.set('seen', { route: 'metrics' });
    if (!(await isAdmin(c))) {
      return problemResponse('wrong-key', 'The figures need the admin key of this service.', c.get('requestId'));
    }
    return Response.json(tally.all(), { headers: { 'cache-control': 'no-store' } });
  };
}
