/**
 * Requests made from the OpenAPI document, valid, nearly valid and hostile, against the whole service over node:sqlite:
 * nothing answers 5xx or outside its contract, nothing refused changes the yard, no secret reaches the log.
 * CONTRACT_REQUESTS says how many (100000 for the full run), CONTRACT_SEED which.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { faultOf } from '../api/contract/check-answer.ts';
import { operations } from '../api/contract/document.ts';
import type { Pool } from '../api/contract/from-schema.ts';
import { type Credentials, type Request, requestsOf } from '../api/contract/requests.ts';
import { seedYard } from '../api/contract/seed.ts';
import { openShop } from '../api/shop.ts';
import type { NodeYard } from '../yard/node-yard.ts';

const REQUESTS = Number(process.env.CONTRACT_REQUESTS ?? 4_000);
const SEED = Number(process.env.CONTRACT_SEED ?? 20_261_125);
/** A yard grows under valid requests; a new one keeps each request quick. */
const REQUESTS_PER_YARD = 1_000;

/** Everything of the yard that a refused request must leave alone: all but receipts and the time that a key was last used. */
const TABLES = [
  'yard',
  'board',
  'job',
  'part',
  'plan',
  'plan_text',
  'reservation',
  'session',
  'journal',
  'journal_text',
];
const KEYS = 'SELECT key_id, label, scopes, expires_at_ms, revoked_at_ms, feed FROM api_key ORDER BY key_id';

function watchYard(yard: NodeYard): () => boolean {
  const isWritten = yard.sql.watch(TABLES);
  const keys = () => JSON.stringify(yard.sql.rows(KEYS));
  let before = keys();
  return () => {
    const after = keys();
    const isChanged = isWritten() || after !== before;
    before = after;
    return isChanged;
  };
}

interface Bench {
  readonly shop: ReturnType<typeof openShop>;
  readonly yard: NodeYard;
  readonly credentials: Credentials;
  readonly pool: Pool;
  readonly secrets: readonly string[];
}

async function openBench(log: string[]): Promise<Bench> {
  const shop = openShop(undefined, { log: (line) => log.push(JSON.stringify(line)) });
  const client = await shop.foundYard('Fuzz yard');
  const send = async (method: string, path: string, body?: unknown) => {
    const answer = await client.send(method, path, body);
    if (answer.status >= 300) throw new Error(answer.text);
    return answer.json as unknown;
  };
  const pool = await seedYard({ send, mark: 'fuzz' });
  const feed = (await send('POST', '/v1/feeds', { label: 'f', list: 'stock' })) as { readonly secret: string };
  const yard = shop.yards.get(client.yardId);
  if (!yard) throw new Error('no yard');
  const secretOf = (text: string) =>
    text
      .replace(/\.csv$/, '')
      .split('_')
      .at(-1) ?? '';
  const feedFile = new URL(feed.secret).pathname.replace('/feeds/', '');
  const credentials = { owner: client.key, admin: 'admin-key-of-the-tests', yardId: client.yardId, feedFile };
  const secrets = [secretOf(client.key), secretOf(feed.secret), credentials.admin];
  return { shop, yard, credentials, pool, secrets };
}

const show = ({ operation, kind, path, headers, body }: Request) =>
  `${kind} ${operation.name} ${operation.method} ${path.slice(0, 200)} ${JSON.stringify(headers)} ${(body ?? '').slice(0, 400)}`;

test(`${REQUESTS} requests out of the document`, async () => {
  const faults: string[] = [];
  const log: string[] = [];
  const counts = { valid: 0, near: 0, hostile: 0 };
  const byStatus = new Map<number, number>();
  const succeeded = new Set<string>();
  let refusals = 0;
  let done = 0;
  for (let round = 0; done < REQUESTS && faults.length < 20; round++) {
    const bench = await openBench(log);
    const any = fc.oneof(...operations.map((operation) => requestsOf(operation, bench.pool, bench.credentials)));
    const count = Math.min(REQUESTS_PER_YARD, REQUESTS - done);
    const isChanged = watchYard(bench.yard);
    for (const request of fc.sample(any, { numRuns: count, seed: SEED + round })) {
      const { operation, path, headers, body, kind } = request;
      const answer = await bench.shop.request(operation.method, path, body ?? undefined, headers);
      done += 1;
      counts[kind] += 1;
      byStatus.set(answer.status, (byStatus.get(answer.status) ?? 0) + 1);
      const fault = faultOf(operation, answer);
      const stack = answer.status >= 500 ? (log.findLast((line) => line.includes('"stack"')) ?? '') : '';
      if (fault) faults.push(`${fault}\n    ${show(request)}\n    ${stack}`);
      if (answer.status < 400) succeeded.add(operation.name);
      const hasChanged = isChanged();
      if (answer.status >= 400) {
        refusals += 1;
        if (hasChanged) faults.push(`${answer.status} changed the yard\n    ${show(request)}`);
      }
    }
    const leaked = log.filter((line) => bench.secrets.some((secret) => line.includes(secret)));
    faults.push(...leaked.map((line) => `a secret in the log: ${line}`));
    log.length = 0;
  }
  const never = operations.map(({ name }) => name).filter((name) => !succeeded.has(name));
  console.log(
    `${done} requests (${JSON.stringify(counts)}), ${refusals} refused, by status ${JSON.stringify(Object.fromEntries([...byStatus].sort()))}, never successful: ${never.join(', ') || 'none'}`,
  );
  expect(faults.slice(0, 20)).toEqual([]);
  expect(done).toBe(REQUESTS);
  // Each kind is there, and the valid ones do reach their routes.
  expect(Math.min(...Object.values(counts))).toBeGreaterThan(REQUESTS / 5);
  expect(never.length).toBeLessThan(operations.length / 5);
});
