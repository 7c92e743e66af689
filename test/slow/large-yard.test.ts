/**
 * A yard of 20,000 boards on the runtime itself: lists, filters and the snapshot for planning give what they should, page by
 * page. Their times are printed, not judged: a busy machine says little; `test/bench/large-yard.ts` measures.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { boardDraft } from '../../worker/contract/board.ts';
import type { BoardFilter } from '../../worker/yard/command.ts';
import { randomFrom } from '../yard/random-history.ts';
import { FarYard, INCH } from './far-yard.ts';
import { RawWorkerd } from './raw-workerd.ts';

const BOARDS = 20_000;
let runtime: RawWorkerd;
let yard: FarYard;

/** Boards as a shop has them: a reading or two, a knot or two, a place, a note. */
function drafts(from: number, count: number) {
  const random = randomFrom(from + 1);
  const upTo = (most: number) => Math.floor(random() * most);
  return Array.from({ length: count }, (_, at) =>
    boardDraft.parse({
      tag: `Q-${from + at}`,
      species: ['white-oak', 'walnut', 'cherry', 'hard-maple'][upTo(4)],
      lengthNm: (48 + upTo(100)) * INCH,
      widthNm: (4 + upTo(8)) * INCH,
      thicknessNm: (1 + upTo(3)) * INCH,
      place: `rack ${upTo(12)}`,
      note: upTo(50) === 0 ? 'curly figure at one end' : '',
      readings: [{ moisturePercent: 6 + upTo(20), on: '2026-02-01', meter: 'pin' }],
      defects: [{ kind: 'knot-sound', face: 'a', fromNm: INCH, toNm: 3 * INCH, leftNm: 0, rightNm: INCH }],
    }),
  );
}

beforeAll(async () => {
  runtime = await RawWorkerd.with(new URL('yard-worker.ts', import.meta.url));
  yard = await FarYard.found(runtime.url);
  for (let from = 0; from < BOARDS; from += 2_000) {
    const rows = drafts(from, 2_000).map((draft, row) => ({ row, draft }));
    await yard.tell({ do: 'take-in-boards', rows, allOrNothing: true, faults: [] });
  }
  const jobId = await yard.job('Hall table');
  for (let from = 0; from < 2_000; from += 200) {
    const boards = Array.from({ length: 200 }, (_, at) => ({ tag: `Q-${(from + at) * 10}` }));
    await yard.tell({ do: 'reserve', jobId, boards });
  }
}, 300_000);
afterAll(() => runtime.end());

/** The middle of eleven tries, milliseconds. */
async function medianMs(act: () => Promise<unknown>): Promise<number> {
  const taken: number[] = [];
  for (let no = 0; no < 11; no++) {
    const fromMs = performance.now();
    await act();
    taken.push(performance.now() - fromMs);
  }
  return taken.sort((a, b) => a - b)[5] ?? Number.POSITIVE_INFINITY;
}

type Listed = Awaited<ReturnType<typeof yard.ask<'boards'>>>['items'][number];
const lastPercent = (one: Listed) => one.readings.at(-1)?.moisturePercent ?? Number.POSITIVE_INFINITY;

/** Each filter with what it must be true of. */
const filters: Readonly<Record<string, readonly [BoardFilter, (one: Listed) => boolean]>> = {
  all: [{}, () => true],
  'one species, thick enough': [
    { species: 'walnut', thicknessNmMin: 2 * INCH },
    (one) => one.species === 'walnut' && one.thicknessNm >= 2 * INCH,
  ],
  'free, long and dry': [
    { free: true, lengthNmMin: 140 * INCH, moisturePercentMax: 7 },
    (one) => one.held.length === 0 && one.lengthNm >= 140 * INCH && lastPercent(one) <= 7,
  ],
  held: [{ free: false }, (one) => one.held.length > 0],
  'a word in the note': [{ q: 'curly' }, (one) => one.note.includes('curly')],
  'nothing at all': [{ q: 'no board says this' }, () => false],
};

for (const [name, [filter, holds]] of Object.entries(filters)) {
  test(`a page of 100 of 20,000 boards: ${name}`, async () => {
    const page = { after: null, limit: 100 };
    const first = await yard.ask('boards', { filter, page });
    const ms = await medianMs(() => yard.ask('boards', { filter, page }));
    console.log(`${name}: ${first.items.length} boards, ${ms.toFixed(1)} ms`);
    expect(first.items.length).toBe(name === 'nothing at all' ? 0 : 100);
    expect(first.items.filter((one) => !holds(one)).map((one) => one.tag)).toEqual([]);
  });
}

test('page by page every board comes once', async () => {
  let after: string | null = null;
  let before: string | null = null;
  const tags = new Set<string>();
  do {
    before = after;
    const page: Awaited<ReturnType<typeof yard.ask<'boards'>>> = await yard.ask('boards', {
      filter: {},
      page: { after, limit: 200 },
    });
    for (const one of page.items) tags.add(one.tag);
    after = page.next;
  } while (after !== null);
  expect(tags.size).toBe(BOARDS);
  const ms = await medianMs(() => yard.ask('boards', { filter: {}, page: { after: before, limit: 100 } }));
  console.log(`last page: ${ms.toFixed(1)} ms`);
});

test('the status of 500 tags and the whole snapshot', async () => {
  const tags = Array.from({ length: 500 }, (_, at) => `q-${at * 37}`);
  const statusMs = await medianMs(() => yard.ask('tag-status', { tags }));
  const fromMs = performance.now();
  const snapshot = await yard.ask('snapshot', { jobIds: null, boards: { which: 'all' } });
  const snapshotMs = performance.now() - fromMs;
  console.log(
    `500 tags: ${statusMs.toFixed(1)} ms; snapshot of ${snapshot.boards.length} boards: ${snapshotMs.toFixed(0)} ms`,
  );
  expect(snapshot.boards).toHaveLength(BOARDS);
});
