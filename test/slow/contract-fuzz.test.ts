/**
 * Requests made from the OpenAPI document, valid, nearly valid and hostile, against the whole service over node:sqlite:
 * nothing answers 5xx or outside its contract, nothing refused changes the yard, no secret reaches the log.
 * CONTRACT_REQUESTS says how many (100000 for the full run), CONTRACT_SEED which.
 */
import { expect, test } from 'vitest';
import { operations } from '../api/contract/document.ts';
import { type FuzzBench, fuzz, secretIn } from '../api/contract/fuzz.ts';
import { seedYard } from '../api/contract/seed.ts';
import { openShop } from '../api/shop.ts';
import type { NodeYard } from '../yard/node-yard.ts';

const REQUESTS = Number(process.env.CONTRACT_REQUESTS ?? 4_000);
const SEED = Number(process.env.CONTRACT_SEED ?? 20_261_125);

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

async function open(): Promise<FuzzBench> {
  const log: string[] = [];
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
  const feedFile = new URL(feed.secret).pathname.replace('/feeds/', '');
  const credentials = { owner: client.key, admin: 'admin-key-of-the-tests', yardId: client.yardId, feedFile };
  const isChanged = watchYard(yard);
  return {
    credentials,
    pool,
    secrets: [secretIn(client.key), secretIn(feed.secret), credentials.admin],
    send: ({ operation, path, headers, body }) => shop.request(operation.method, path, body ?? undefined, headers),
    isChanged: async () => isChanged(),
    takeLog: () => log.splice(0),
  };
}

test(`${REQUESTS} requests out of the document`, async () => {
  const { faults, counts, done, never, words } = await fuzz({
    requests: REQUESTS,
    seed: SEED,
    requestsPerYard: 1_000,
    open,
  });
  console.log(words);
  expect(faults.slice(0, 20)).toEqual([]);
  expect(done).toBe(REQUESTS);
  // Each kind is there, and the valid ones do reach their routes.
  expect(Math.min(...Object.values(counts))).toBeGreaterThan(REQUESTS / 5);
  expect(never.length).toBeLessThan(operations.length / 5);
});
