import { describe, expect, test } from 'vitest';
import { makeClient } from '../../addon/panel/client.ts';

interface Sent {
  readonly url: string;
  readonly init: RequestInit;
}

/** A network that gives these answers in turn; 'lost' is an answer that never came. */
function network(answers: (Response | 'lost')[]) {
  const sent: Sent[] = [];
  const waits: number[] = [];
  let ids = 0;
  const api = makeClient({
    address: 'https://yard.example/',
    key: 'yk_secret',
    fetch: async (url, init) => {
      sent.push({ url, init });
      const answer = answers.shift();
      if (answer === undefined || answer === 'lost') throw new TypeError('no network');
      return answer;
    },
    newId: () => {
      ids += 1;
      return `intent-${ids}`;
    },
    wait: async (ms) => {
      waits.push(ms);
    },
    random: () => 0.5,
  });
  const header = (at: number, name: string) => new Headers(sent[at]?.init.headers).get(name);
  return { api, sent, waits, header };
}

const json = (body: unknown, status = 200) =>
  new Response(JSON.stringify(body), {
    status,
    headers: { 'content-type': status < 400 ? 'application/json' : 'application/problem+json' },
  });
const busy = () =>
  json({ type: '/problems/busy', title: 'Busy', status: 503, detail: 'Try again.', instance: 'r1' }, 503);
const held = { reservations: [], seq: 7 };
const hold = { body: { jobId: 'jb_00000000hall', boards: [{ tag: 'WO-14' }] } };

describe('a plan is followed line by line', () => {
  const plan = { id: 'pl_00000001' };
  const lines = (chunks: readonly string[]) => {
    const bytes = chunks.map((chunk) => new TextEncoder().encode(chunk));
    const body = new ReadableStream({
      pull(to) {
        const next = bytes.shift();
        if (next) to.enqueue(next);
        else to.close();
      },
    });
    return new Response(body, { headers: { 'content-type': 'application/x-ndjson' } });
  };
  const follow = async (answers: (Response | 'lost')[], stop = new AbortController()) => {
    const told: number[] = [];
    const { api, header } = network(answers);
    const input = { path: { id: 'jb_1' }, body: {} };
    const result = await api.followPlan(input, (now) => told.push(now.share), stop.signal);
    return { told, result, header };
  };

  test('lines that arrive in any pieces', async () => {
    const { told, result, header } = await follow([
      lines(['{"progress":{"share":0.1}}\n{"prog', 'ress":{"share":0.5}}\n{"answer":{"id":"pl_0', '0000001"}}\n']),
    ]);
    expect([told, result]).toEqual([[0.1, 0.5], { ok: true, answer: plan }]);
    expect(header(0, 'accept')).toContain('application/x-ndjson');
  });

  test('a plan that was done before there was anything to tell', async () => {
    expect((await follow([json(plan, 201)])).result).toEqual({ ok: true, answer: plan });
  });

  test('a refusal on the way, and one at once', async () => {
    const problem = {
      type: '/problems/boards-changed',
      title: 'Changed',
      status: 409,
      detail: 'Plan again.',
      instance: 'r1',
    };
    const onTheWay = await follow([lines([`{"progress":{"share":0.1}}\n{"problem":${JSON.stringify(problem)}}\n`])]);
    expect(onTheWay.result).toEqual({ ok: false, problem });
    expect((await follow([json(problem, 409)])).result).toEqual({ ok: false, problem });
  });

  test('a connection that breaks is no answer; one that was stopped is nothing at all', async () => {
    expect((await follow([lines(['{"progress":{"share":0.1}}\n'])])).result).toEqual({ ok: false, offline: true });
    const stop = new AbortController();
    stop.abort();
    expect((await follow(['lost'], stop)).result).toBeNull();
  });
});

describe('a write keeps one key for one intent', () => {
  test('a lost answer is asked for again with the same key, after a wait with jitter', async () => {
    const { api, header, waits } = network(['lost', json(held)]);
    const result = await api.call('reserve', hold);
    expect(result).toEqual({ ok: true, answer: held });
    expect(header(0, 'idempotency-key')).toBe('intent-1');
    expect(header(1, 'idempotency-key')).toBe('intent-1');
    expect(waits).toEqual([550]);
  });

  test('pressing again after the network was away sends the key of the first press', async () => {
    const { api, header } = network(['lost', 'lost', json(held)]);
    expect(await api.call('reserve', hold)).toEqual({ ok: false, offline: true });
    expect((await api.call('reserve', hold)).ok).toBe(true);
    expect(header(2, 'idempotency-key')).toBe('intent-1');
  });

  test('a busy yard is tried once more, and its refusal told if it stays busy', async () => {
    const { api, sent } = network([busy(), busy()]);
    const result = await api.call('reserve', hold);
    expect(sent).toHaveLength(2);
    expect(result.ok === false && 'problem' in result && result.problem.status).toBe(503);
  });

  test('after a definite answer the same thing done again is a new intent', async () => {
    const { api, header } = network([json(held), json(held)]);
    await api.call('reserve', hold);
    await api.call('reserve', hold);
    expect(header(0, 'idempotency-key')).toBe('intent-1');
    expect(header(1, 'idempotency-key')).toBe('intent-2');
  });

  test('a refusal is definite: it is not tried again', async () => {
    const problem = { type: '/problems/board-held', title: 'Held', status: 409, detail: 'WO-14', instance: 'r2' };
    const { api, sent } = network([json(problem, 409)]);
    expect(await api.call('reserve', hold)).toEqual({ ok: false, problem });
    expect(sent).toHaveLength(1);
  });

  test('reading sends no key of intent', async () => {
    const { api, header } = network([json({ items: [], next: null })]);
    await api.call('listBoards', { query: { q: 'WO 14', free: 'true' } });
    expect(header(0, 'idempotency-key')).toBeNull();
  });
});

describe('what goes over the wire', () => {
  test('path, query, bearer key and the version that was edited', async () => {
    const { api, sent, header } = network([json({ items: [], next: null }), json({})]);
    await api.call('listBoards', { query: { q: 'WO 14', free: 'true' } });
    await api.call('correctBoard', { path: { id: 'bd_1/2' }, version: 12, body: { place: 'rack' } });
    expect(sent[0]?.url).toBe('https://yard.example/v1/boards?q=WO+14&free=true');
    expect(sent[1]?.url).toBe('https://yard.example/v1/boards/bd_1%2F2');
    expect(sent[1]?.init.method).toBe('PATCH');
    expect(header(1, 'authorization')).toBe('Bearer yk_secret');
    expect(header(1, 'if-match')).toBe('"s12"');
    expect(sent[1]?.init.body).toBe('{"place":"rack"}');
  });

  test('cut cards come as a page', async () => {
    const page = new Response('<!doctype html><p>WO-14', { headers: { 'content-type': 'text/html; charset=utf-8' } });
    const { api } = network([page]);
    expect(await api.call('readCutCards', { path: { id: 'cs_1' } })).toEqual({
      ok: true,
      answer: '<!doctype html><p>WO-14',
    });
  });

  test('an address that is no yard is told in words, whatever it answers', async () => {
    for (const answer of [
      new Response('<h1>Not found</h1>', { status: 404, headers: { 'content-type': 'text/html' } }),
      new Response('{"oops":1}', { status: 400, headers: { 'content-type': 'application/json' } }),
      new Response('not json', { status: 200, headers: { 'content-type': 'application/json' } }),
    ]) {
      const { api } = network([answer]);
      const result = await api.call('readYard');
      expect(result.ok === false && 'problem' in result && result.problem.title).toBe(
        'That address did not answer like a yard',
      );
    }
  });
});
