/**
 * The same requests as contract-fuzz.test.ts, over HTTP against the runtime itself: what its sockets, its RPC and its
 * SQLite make of them. CONTRACT_RUNTIME_REQUESTS says how many, CONTRACT_SEED which.
 */
import { request as httpRequest } from 'node:http';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Answer } from '../api/contract/check-answer.ts';
import { operations } from '../api/contract/document.ts';
import { type FuzzBench, fuzz, secretIn } from '../api/contract/fuzz.ts';
import type { Request as Fuzzed } from '../api/contract/requests.ts';
import { seedYard } from '../api/contract/seed.ts';
import { FarYard } from './far-yard.ts';
import { ADMIN_KEY, RawWorkerd } from './raw-workerd.ts';

const REQUESTS = Number(process.env.CONTRACT_RUNTIME_REQUESTS ?? 1_500);
const SEED = Number(process.env.CONTRACT_SEED ?? 20_261_126);

let runtime: RawWorkerd;
beforeAll(async () => {
  runtime = await RawWorkerd.with(new URL('yard-worker.ts', import.meta.url));
});
afterAll(() => runtime.end());

/** Exactly these headers and this path: fetch would tidy them up before they are sent. */
function sent({ operation, path, headers, body }: Fuzzed): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const bytes = body === null ? null : Buffer.from(body);
    const lengths = bytes === null ? {} : { 'content-length': String(bytes.length) };
    const request = httpRequest(
      runtime.url + path,
      { method: operation.method, headers: { ...headers, ...lengths } },
      (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.on('error', reject);
        response.on('end', () => {
          const given = Object.entries(response.headers).map(([name, value]): [string, string] => [
            name,
            String(value),
          ]);
          const text = Buffer.concat(parts).toString('utf8');
          resolve({ status: response.statusCode ?? 0, headers: new Headers(given), text });
        });
      },
    );
    request.on('error', reject);
    request.end(bytes ?? undefined);
  });
}

async function open(): Promise<FuzzBench> {
  const yard = await FarYard.found(runtime.url);
  const send = async (method: string, path: string, body?: unknown) => {
    const answer =
      method === 'GET'
        ? await yard.get(path)
        : method === 'PUT'
          ? await yard.put(path, body)
          : await yard.post(path, body);
    if (answer.status >= 300) throw new Error(`${method} ${path}: ${answer.status}`);
    return answer instanceof Response ? ((await answer.json()) as unknown) : answer.body;
  };
  const pool = await seedYard({ send, mark: 'fuzz' });
  const feed = (await send('POST', '/v1/feeds', { label: 'f', list: 'stock' })) as { readonly secret: string };
  const feedFile = new URL(feed.secret).pathname.replace('/feeds/', '');
  /** Every change of a yard is a movement; the counts beside it would show one that is none. */
  const look = async () => JSON.stringify(await yard.ask('yard-facts', {}));
  let before = await look();
  return {
    credentials: { owner: yard.key, admin: ADMIN_KEY, yardId: yard.yardId, feedFile },
    pool,
    secrets: [secretIn(yard.key), secretIn(feed.secret), ADMIN_KEY],
    send: sent,
    isChanged: async () => {
      const after = await look();
      const isChanged = after !== before;
      before = after;
      return isChanged;
    },
    takeLog: () => [],
  };
}

test(`${REQUESTS} requests out of the document, on the runtime`, async () => {
  const { faults, counts, done, never, words } = await fuzz({
    requests: REQUESTS,
    seed: SEED,
    requestsPerYard: 1_500,
    open,
  });
  console.log(words);
  expect(faults.slice(0, 20)).toEqual([]);
  expect(done).toBe(REQUESTS);
  expect(Math.min(...Object.values(counts))).toBeGreaterThan(REQUESTS / 5);
  expect(never.length).toBeLessThan(operations.length / 4);
});
