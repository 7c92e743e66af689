/** "Stop waiting": a question is broken off; a write goes on, stays in sight and is settled under its key. */
import { beforeEach, describe, expect, test } from 'vitest';
import { type CallResult, Stopped, type YardApi } from '../../addon/panel/api.ts';
import { makeClient } from '../../addon/panel/client.ts';
import { makeBoardRows } from '../../addon/panel/state/board-rows.ts';
import { makeCuts } from '../../addon/panel/state/cuts.ts';
import { makeOutbox, type Outbox, withLeftWrites } from '../../addon/panel/state/outbox.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { makeTask, taken } from '../../addon/panel/state/task.ts';
import { makeWriteBack } from '../../addon/panel/state/write-back.ts';
import { board, type Client, openShop } from '../api/shop.ts';
import { fakeHost, type Grid } from './fake-host.ts';
import { fakeYard } from './fake-yard.ts';
import { samplePlan } from './sample.ts';

/** What the line does to an answer that the service has given already. */
type Line = 'through' | 'lost';

/** A line that holds every answer back until it is told what becomes of it; a request that is broken off never answers. */
class HeldLine {
  readonly sent: { readonly path: string; readonly key: string | null; readonly signal: AbortSignal | null }[] = [];
  holds = true;
  readonly #open: ((how: Line) => void)[] = [];
  readonly #arrivals: (() => void)[] = [];
  readonly #shop: ReturnType<typeof openShop>;

  constructor(shop: ReturnType<typeof openShop>) {
    this.#shop = shop;
  }

  /** Kept once so many requests have reached the service. */
  async arrived(count: number): Promise<void> {
    while (this.sent.length < count) await new Promise<void>((resolve) => this.#arrivals.push(resolve));
  }

  async release(how: Line): Promise<void> {
    for (const open of this.#open.splice(0)) open(how);
    // What follows from the answer is done in a few turns of the same loop.
    for (let turn = 0; turn < 10; turn += 1) await new Promise((resolve) => setTimeout(resolve, 0));
  }

  readonly fetch = async (url: string, init: RequestInit): Promise<Response> => {
    const path = url.replace('https://yard.example', '');
    const headers = Object.fromEntries(new Headers(init.headers));
    const answer = await this.#shop.request(init.method ?? 'GET', path, init.body ?? undefined, headers);
    const how = await new Promise<Line>((resolve, reject) => {
      if (this.holds) this.#open.push(resolve);
      else resolve('through');
      init.signal?.addEventListener('abort', () => reject(new DOMException('aborted', 'AbortError')));
      this.sent.push({ path, key: headers['idempotency-key'] ?? null, signal: init.signal ?? null });
      for (const told of this.#arrivals.splice(0)) told();
    });
    if (how === 'lost') throw new TypeError('Failed to fetch');
    return new Response(answer.text, { status: answer.status, headers: answer.headers });
  };
}

let yard: Client;
let line: HeldLine;
let went: number;
let kept: Map<string, string>;

beforeEach(async () => {
  const shop = openShop();
  yard = await shop.foundYard('Oak');
  line = new HeldLine(shop);
  went = 0;
  kept = new Map();
});

let ids = 0;
const newId = () => {
  ids += 1;
  return `stopped-${ids}`;
};

/** A sidebar as it opens: nothing in memory, the rest from the device. */
function open(): { readonly api: YardApi; readonly outbox: Outbox } {
  const client = makeClient({
    address: 'https://yard.example',
    key: yard.key,
    fetch: line.fetch,
    newId,
    wait: async () => {},
    random: () => 0,
  });
  const outbox = makeOutbox({
    api: client,
    texts: {
      get: async (name) => kept.get(name) ?? null,
      async set(name, text) {
        if (text === null) kept.delete(name);
        else kept.set(name, text);
      },
    },
    nowMs: () => Date.parse('2026-11-20T10:00:00Z'),
    newId,
    went: (count) => {
      went += count;
    },
  });
  return { api: withLeftWrites(client, outbox), outbox };
}

const inStock = async () => (await yard.send('GET', '/v1/yard')).json.boards.inStock as number;
const whats = (outbox: Outbox) => outbox.waiting.value.map(({ what, refused }) => [what, refused?.status ?? null]);
const help = (task: { readonly trouble: { readonly value: unknown } }) => JSON.stringify(task.trouble.value);

/** Takes one board in by a task of its own, and stops waiting once the service has done it. */
async function stoppedTakeIn(api: YardApi, tag = 'WO-1') {
  const task = makeTask();
  const before = line.sent.length;
  const ran = task.run('Taking in 1 board', async (stop) =>
    taken(await api.call('takeInBoards', { stop, body: { boards: [board(tag)] } }), () => {}),
  );
  await line.arrived(before + 1);
  task.stop();
  return { task, done: await ran };
}

describe('a question', () => {
  test('is broken off on the line, not asked again, and nothing of it is kept', async () => {
    const { api, outbox } = open();
    const task = makeTask();
    const ran = task.run('Reading the stock', async (stop) => taken(await api.call('listBoards', { stop }), () => {}));
    await line.arrived(1);
    task.stop();
    expect([task.busy.value, await ran]).toEqual([false, false]);
    await line.release('through');
    expect(line.sent.map(({ signal }) => signal?.aborted)).toEqual([true]);
    expect(help(task)).toContain('Nothing more of it is on its way');
    expect([whats(outbox), kept.size]).toEqual([[], 0]);
  });

  test('that would come after the stop is never sent, nor a write', async () => {
    const { api } = open();
    const stop = new AbortController();
    stop.abort();
    const input = { stop: { signal: stop.signal, doing: '' } };
    await expect(api.call('readYard', input)).rejects.toThrow(Stopped);
    await expect(api.call('openJob', { ...input, body: { name: 'Table', dueOn: null } })).rejects.toThrow(Stopped);
    expect(line.sent).toEqual([]);
  });

  test('done in time is no different for its stop', async () => {
    line.holds = false;
    const { api } = open();
    const stop = new AbortController();
    const answer = await api.call('readYard', { stop: { signal: stop.signal, doing: '' } });
    stop.abort();
    expect(answer).toMatchObject({ ok: true, answer: { name: 'Oak' } });
  });
});

describe('a write', () => {
  test('gives the panel back, stays in sight, and is settled by its answer', async () => {
    const { api, outbox } = open();
    const { task, done } = await stoppedTakeIn(api);
    expect([task.busy.value, done, line.sent[0]?.signal]).toEqual([false, false, null]);
    expect(help(task)).toContain('never done twice');
    expect(whats(outbox)).toEqual([['Taking in 1 board', null]]);
    await line.release('through');
    expect([whats(outbox), went, await inStock(), line.sent.length]).toEqual([[], 1, 1, 1]);
    expect(kept.size).toBe(0);
  });

  test('whose answer is lost is sent again under its key, also by a sidebar that was opened anew', async () => {
    const { api, outbox } = open();
    await stoppedTakeIn(api);
    // The client asks once more by itself.
    await line.release('lost');
    await line.arrived(2);
    await line.release('lost');
    expect([whats(outbox), went]).toEqual([[['Taking in 1 board', null]], 0]);
    line.holds = false;
    const next = open();
    expect(await next.outbox.send()).toBe(1);
    expect([whats(next.outbox), await inStock()]).toEqual([[], 1]);
    expect(new Set(line.sent.map(({ key }) => key)).size).toBe(1);
  });

  test('that the yard refuses in the end stays until it was seen', async () => {
    line.holds = false;
    const { api, outbox } = open();
    await api.call('takeInBoards', { body: { boards: [board('WO-1')] } });
    line.holds = true;
    await stoppedTakeIn(api, 'WO-1');
    await line.release('through');
    expect([whats(outbox), went, await inStock()]).toEqual([[['Taking in 1 board', 409]], 0, 1]);
  });

  test('pressed again while it is out is the same write', async () => {
    const { api, outbox } = open();
    await stoppedTakeIn(api);
    const again = api.call('takeInBoards', { body: { boards: [board('WO-1')] } });
    await line.arrived(2);
    await line.release('through');
    expect((await again).ok).toBe(true);
    expect([whats(outbox), await inStock(), new Set(line.sent.map(({ key }) => key)).size]).toEqual([[], 1, 1]);
  });

  test('keeps what is written later behind it while it is out', async () => {
    const { api, outbox } = open();
    await stoppedTakeIn(api);
    const reading = { readings: [{ moisturePercent: 9, on: '2026-11-19' }] };
    const later = { route: 'readMoisture', pathId: 'bd_none', body: reading, what: 'Reading', about: [] } as const;
    expect(await outbox.submit(later)).toEqual({ ok: false, waits: true });
    expect([whats(outbox).map(([what]) => what), line.sent.length]).toEqual([['Taking in 1 board', 'Reading'], 1]);
  });
});

test('a reading that a person stopped waiting for, and that the yard refuses, is not lost', async () => {
  const { outbox } = open();
  const task = makeTask();
  const body = { readings: [{ moisturePercent: 9, on: '2026-11-19' }] };
  const ran = task.run('Writing the reading down', async (stop) => {
    const thing = { route: 'readMoisture', pathId: 'bd_nowhere', body, what: 'Reading of WO-1', about: [] } as const;
    const result = await outbox.submit(thing, stop);
    return 'waits' in result ? null : taken(result, () => {});
  });
  await line.arrived(1);
  task.stop();
  expect(await ran).toBe(false);
  expect(help(task)).toContain('never done twice');
  await line.release('through');
  expect(whats(outbox)).toEqual([['Reading of WO-1', 404]]);
});

test('a long list stops between its parts; the next press asks what is in and sends only the rest', async () => {
  const { api, outbox } = open();
  const rows = Array.from({ length: 900 }, (_, row) => [`WO-${row}`, 'white oak', '84', '9', '8/4']);
  const grid: Grid = [['Tag', 'Species', 'Length', 'Width', 'Thickness'], ...rows];
  const host = fakeHost(grid, 'Rack');
  const shell = makeShell(() => 0);
  const boardRows = makeBoardRows(api, host, shell, makeWriteBack(host, shell));
  await boardRows.reading.read();
  const first = boardRows.takeIn();
  await line.arrived(1);
  boardRows.task.stop();
  expect([await first, boardRows.progress.value]).toEqual([false, null]);
  await line.release('through');
  expect([await inStock(), line.sent.length, whats(outbox)]).toEqual([500, 1, []]);
  line.holds = false;
  expect(await boardRows.takeIn()).toBe(true);
  expect(boardRows.result.value).toEqual({ count: 400, faults: [] });
  expect([await inStock(), line.sent.map(({ path }) => path)]).toEqual([
    900,
    ['/v1/boards', '/v1/boards/status', '/v1/boards'],
  ]);
});

test('stopping a search ends it at the yard and takes no plan; ending it takes the best so far', async () => {
  const signals: AbortSignal[] = [];
  const plans: unknown[] = [];
  const followPlan: YardApi['followPlan'] = (_input, _tell, stop) => {
    signals.push(stop);
    return new Promise((resolve) => stop.addEventListener('abort', () => resolve(null)));
  };
  const planned = fakeYard({
    planJob: (input) => {
      plans.push(input.body);
      return samplePlan;
    },
  });
  const api: YardApi = { ...planned, followPlan };
  const shell = makeShell(() => 0);
  const cuts = makeCuts(api, fakeHost([[]]), shell, open().outbox);
  const stopped = cuts.makePlan('jb_1', 'normal');
  cuts.planning.stop();
  expect([await stopped, signals[0]?.aborted, plans, cuts.plan.value]).toEqual([false, true, [], null]);
  expect(help(cuts.planning)).toContain('Nothing more of it is on its way');
  const ended = cuts.makePlan('jb_1', 'normal');
  cuts.stop();
  expect([await ended, plans]).toEqual([true, [{ effort: 'normal' }]]);
});

test('what a fast second run says is not overwritten by a run that was stopped before', async () => {
  const task = makeTask();
  let end: (result: CallResult<'readYard'>) => void = () => {};
  const slow = task.run('Slow', () => new Promise((resolve) => (end = () => resolve({ kind: 'offline' }))));
  task.stop();
  await task.run('Fast', async () => ({ kind: 'told', help: 'Choose a job first.' }));
  end({ ok: false, offline: true });
  expect([await slow, help(task)]).toEqual([false, JSON.stringify({ kind: 'told', help: 'Choose a job first.' })]);
});
