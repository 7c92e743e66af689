/** Lines of a plan under way leave the real runtime one after the other, while it is still searching. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Plan } from '../../worker/contract/plan.ts';
import { board } from '../api/shop.ts';
import { ADMIN_KEY, RawWorkerd } from './raw-workerd.ts';

let runtime: RawWorkerd;
let key = '';
let sends = 0;

async function send(path: string, body: unknown, bearer = key, signal?: AbortSignal): Promise<Response> {
  sends += 1;
  return fetch(`${runtime.url}${path}`, {
    method: path.endsWith('cut-list') ? 'PUT' : 'POST',
    headers: {
      authorization: `Bearer ${bearer}`,
      'content-type': 'application/json',
      'idempotency-key': `progress-${sends}`,
      accept: 'application/x-ndjson, application/json',
    },
    body: JSON.stringify(body),
    ...(signal ? { signal } : {}),
  });
}

beforeAll(async () => {
  runtime = await RawWorkerd.with(new URL('yard-worker.ts', import.meta.url));
  const founded = (await (await send('/v1/yards', { name: 'Oak' }, ADMIN_KEY)).json()) as { key: string };
  key = founded.key;
  const boards = Array.from({ length: 24 }, (_, at) => board(`P-${at}`, { lengthNm: `${60 + 3 * at} in` }));
  expect((await send('/v1/boards', { boards })).status).toBe(201);
});
afterAll(() => runtime.end());

async function openJob(): Promise<string> {
  const job = (await (await send('/v1/jobs', { name: 'Hall table' })).json()) as { id: string };
  const part = { species: 'white oak', thicknessNm: '1 3/8 in', widthNm: '2 1/2 in' };
  const parts = [31, 37, 22, 15, 44].map((length, at) => {
    return { ...part, key: `p${at}`, label: `Part ${at}`, quantity: 9, lengthNm: `${length} in` };
  });
  expect((await send(`/v1/jobs/${job.id}/cut-list`, { parts })).status).toBe(200);
  return job.id;
}

test('lines arrive while the search goes on, and a reader who leaves ends it without a plan', async () => {
  const jobId = await openJob();
  const began = performance.now();
  const response = await send(`/v1/jobs/${jobId}/plans`, { effort: 'normal' });
  expect(response.headers.get('content-type')).toBe('application/x-ndjson');
  const arrivals: number[] = [];
  let text = '';
  const decoder = new TextDecoder();
  for await (const chunk of response.body ?? []) {
    arrivals.push(performance.now() - began);
    text += decoder.decode(chunk as Uint8Array, { stream: true });
  }
  const lines = text.trim().split('\n');
  const wholeMs = performance.now() - began;
  console.info(
    `${lines.length} lines in ${arrivals.length} chunks: first at ${Math.round(arrivals[0] ?? 0)} ms, last at ${Math.round(wholeMs)} ms`,
  );
  // How many lines there are and when they come hangs on the machine; that they do not all come at the end does not.
  expect(lines.length).toBeGreaterThan(2);
  expect(arrivals.length).toBeGreaterThan(2);
  expect(arrivals[0]).toBeLessThan(wholeMs * 0.8);
  expect(JSON.parse(lines.at(-1) ?? '').answer.placedCount).toBeGreaterThan(30);
});

test('a reader who leaves after the first line ends the search; no plan is kept', async () => {
  const jobId = await openJob();
  const stop = new AbortController();
  const response = await send(`/v1/jobs/${jobId}/plans`, { effort: 'normal' }, key, stop.signal);
  const reader = response.body?.getReader();
  const first = new TextDecoder().decode((await reader?.read())?.value);
  stop.abort();
  const { best } = JSON.parse(first.split('\n')[0] ?? '').progress;
  const kept = await send(`/v1/jobs/${jobId}/plans`, { effort: 'normal', taken: best });
  expect(kept.status).toBe(201);
  const plans = await fetch(`${runtime.url}/v1/jobs/${jobId}/plans`, { headers: { authorization: `Bearer ${key}` } });
  expect(((await plans.json()) as { items: unknown[] }).items).toHaveLength(1);
});

test('asked for again on the runtime, the plan in hand is not given away for a worse one', async () => {
  const jobId = await openJob();
  const plan = async (seed: number) => {
    const lines = (await (await send(`/v1/jobs/${jobId}/plans`, { effort: 'quick', seed })).text()).trim().split('\n');
    return (JSON.parse(lines.at(-1) ?? '') as { answer: Plan }).answer;
  };
  let now = await plan(1);
  for (let seed = 2; seed < 6; seed++) {
    const before = now;
    now = await plan(seed);
    expect(now.placedCount).toBeGreaterThanOrEqual(before.placedCount);
    expect(now.stockUsedM3).toBeLessThanOrEqual(before.stockUsedM3 + 1e-12);
  }
});
