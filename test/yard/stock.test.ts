/** Boards: coming in, corrected, read, written off. */
import { expect, test } from 'vitest';
import type { Defect } from '../../worker/contract/board.ts';
import { boardOf, INCH, owner, Shop } from './shop.ts';

const knot = (toNm: number): Defect => ({
  kind: 'knot-loose',
  face: 'a',
  fromNm: INCH,
  toNm,
  leftNm: 0,
  rightNm: INCH,
});

test('a row with a taken tag is named with what to do, and the good rows come in', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const rows = [boardOf('q-1'), boardOf('Q-2'), boardOf('Q-2 ')].map((draft, row) => ({ row: row + 4, draft }));
  const told = shop.tell({ do: 'take-in-boards', rows, allOrNothing: false, faults: [] });
  expect(told.taken?.map((taken) => [taken.row, taken.tag])).toEqual([[5, 'Q-2']]);
  expect(told.faults?.map((fault) => [fault.pointer, fault.row, fault.field, fault.read])).toEqual([
    ['/boards/4/tag', 4, 'tag', 'q-1'],
    ['/boards/6/tag', 6, 'tag', 'Q-2'],
  ]);
  expect(told.faults?.[1]?.help).toContain('row 6');
  shop.expectSound();
});

test('all or nothing: one taken tag keeps the whole delivery out', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const rows = [boardOf('Q-2'), boardOf('Q-1')].map((draft, row) => ({ row, draft }));
  const refusal = shop.refused({ do: 'take-in-boards', rows, allOrNothing: true, faults: [] });
  expect(refusal.why).toBe('tag-taken');
  expect(refusal.faults).toHaveLength(1);
  expect(shop.state().boardsByTag('Q-2')).toEqual([]);
});

test('faults found while reading the rows come back with those found here', async () => {
  const shop = await Shop.open();
  const unread = { pointer: '/boards/1/species', row: 1, field: 'species', read: 'oka', help: 'did you mean oak?' };
  const rows = [{ row: 0, draft: boardOf('Q-1', { defects: [knot(101 * INCH)] }) }];
  const refusal = shop.refused({ do: 'take-in-boards', rows, allOrNothing: false, faults: [unread] });
  expect(refusal.why).toBe('invalid-input');
  expect(refusal.faults?.map((fault) => fault.pointer)).toEqual(['/boards/1/species', '/boards/0/defects/0']);
  expect(refusal.faults?.[1]?.help).toBe('the board ends at 8\' 4" along and 8" across');
});

test('the tag of a board that was written off is free for another', async () => {
  const shop = await Shop.open();
  const [first = ''] = shop.takeIn(boardOf('Q-1'));
  shop.tell({ do: 'write-off-board', boardId: first, why: 'wormed through' });
  const [second = ''] = shop.takeIn(boardOf('Q-1', { widthNm: 5 * INCH }));
  expect(shop.ask('tag-status', { tags: ['q-1', 'Q-9'] }).boards.map((board) => board?.id ?? null)).toEqual([
    second,
    null,
  ]);
  const undo = shop.refused({ do: 'undo', seq: shop.seq() - 1 });
  expect(undo.why).toBe('cannot-undo');
  expect(undo.detail).toContain('bears the tag Q-1');
});

test('a correction on an old version is refused, so that nobody else’s is lost', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'));
  const { version } = shop.board(boardId);
  shop.tell({ do: 'correct-board', boardId, ifVersion: version, patch: { place: 'rack 3' } });
  const refusal = shop.refused({ do: 'correct-board', boardId, ifVersion: version, patch: { place: 'rack 4' } });
  expect(refusal.why).toBe('version-stale');
  expect(shop.board(boardId).place).toBe('rack 3');
  expect(shop.board(boardId).version).toBe(shop.seq());
});

test('a delivery names forty of its boards in the journal, and counts the rest', async () => {
  const shop = await Shop.open();
  const delivery = (letter: string, count: number) => {
    shop.takeIn(...Array.from({ length: count }, (_, no) => boardOf(`${letter}-${no + 1}`)));
    return shop.ask('movement', { seq: shop.seq() }).boardTags;
  };
  expect(delivery('A', 40).slice(38)).toEqual(['A-39', 'A-40']);
  expect(delivery('B', 43).slice(39)).toEqual(['B-40', 'and 3 more']);
});

test('a board, a job or a plan that is not there is said to be not there', async () => {
  const shop = await Shop.open();
  const bd = 'bd_nothing1';
  for (const command of [
    { do: 'correct-board', boardId: bd, ifVersion: 1, patch: { place: 'rack 2' } },
    { do: 'read-moisture', boardId: bd, readings: [{ moisturePercent: 9, on: '2026-03-01', meter: 'pin' }] },
    { do: 'write-off-board', boardId: bd, why: 'rot' },
    { do: 'change-job', jobId: 'jb_nothing1', ifVersion: 1, patch: { note: 'later' } },
    { do: 'move-pieces', jobId: 'jb_nothing1', steps: [] },
    { do: 'reserve-plan', planId: 'pl_nothing1', how: 'whole' },
    { do: 'open-session', planId: 'pl_nothing1', boardIds: null },
  ] as const) {
    expect(shop.refused(command).why, command.do).toBe('not-found');
  }
});

test('a board cannot be corrected shorter than a run that is held of it', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table');
  shop.tell({ do: 'reserve', jobId, boards: [{ tag: 'Q-1', fromNm: 0, toNm: 80 * INCH }] });
  const ifVersion = shop.board(boardId).version;
  const refusal = shop.refused({ do: 'correct-board', boardId, ifVersion, patch: { lengthNm: 79 * INCH } });
  expect(refusal.why).toBe('board-held');
  expect(refusal.conflicts?.[0]?.jobName).toBe('Hall table');
  shop.tell({ do: 'correct-board', boardId, ifVersion, patch: { lengthNm: 80 * INCH } });
  shop.expectSound();
});

test('a board held whole stays held whole when it is measured anew', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1', { defects: [knot(90 * INCH)] }));
  shop.reserve(shop.job('Hall table'), 'Q-1');
  const ifVersion = shop.board(boardId).version;
  shop.tell({ do: 'correct-board', boardId, ifVersion, patch: { lengthNm: 84 * INCH } });
  const view = shop.ask('board', { boardId });
  expect(view.held.map((held) => [held.fromNm, held.toNm])).toEqual([[0, 84 * INCH]]);
  // The knot ran past the new end; what of it is left on the board stays.
  expect(view.defects[0]?.toNm).toBe(84 * INCH);
  shop.expectSound();
});

test('a board that came in whole can be called an offcut, and back; undone it is what it was', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'));
  const say = (offcut: boolean) => {
    const ifVersion = shop.board(boardId).version;
    return shop.tell({ do: 'correct-board', boardId, ifVersion, patch: { offcut } });
  };
  const made = say(true);
  expect(shop.board(boardId).origin).toEqual({ kind: 'offcut', parentId: null, sessionId: null });
  const page = { after: null, limit: 10 };
  const offcuts = () => shop.ask('boards', { filter: { offcuts: true }, page }).items.map(({ tag }) => tag);
  expect(offcuts()).toEqual(['Q-1']);
  shop.tell({ do: 'undo', seq: made.seq });
  expect(shop.board(boardId).origin).toEqual({ kind: 'received' });
  expect(offcuts()).toEqual([]);
  say(true);
  say(false);
  expect(shop.board(boardId).origin).toEqual({ kind: 'received' });
  shop.expectSound();
});

test('a board cannot take the tag of another in stock', async () => {
  const shop = await Shop.open();
  const [first = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const ifVersion = shop.board(first).version;
  const refusal = shop.refused({ do: 'correct-board', boardId: first, ifVersion, patch: { tag: 'q-2' } });
  expect(refusal.why).toBe('tag-taken');
  shop.tell({ do: 'correct-board', boardId: first, ifVersion, patch: { tag: 'q-1' } });
  expect(shop.board(first).tag).toBe('q-1');
});

test('readings stand by their date, and the latest decides in lists', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const reading = (moisturePercent: number, on: string) => ({ moisturePercent, on, meter: 'pin' as const });
  shop.tell({ do: 'read-moisture', boardId, readings: [reading(9, '2026-03-01'), reading(24, '2025-11-01')] });
  expect(shop.board(boardId).readings.map((each) => each.on)).toEqual(['2025-11-01', '2026-03-01']);
  const page = { after: null, limit: 10 };
  const dry = shop.ask('boards', { filter: { moisturePercentMax: 10 }, page });
  expect(dry.items.map((board) => board.tag)).toEqual(['Q-1']);
});

test('a reading of a day that is still to come is refused, the other rows of a delivery come in', async () => {
  const shop = await Shop.open();
  const reading = (on: string) => ({ moisturePercent: 8, on, meter: 'pin' as const });
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'));
  const refusal = shop.refused({
    do: 'read-moisture',
    boardId,
    readings: [reading('2026-03-03'), reading('2027-03-01')],
  });
  expect(refusal.why).toBe('invalid-input');
  expect(refusal.faults).toEqual([
    {
      pointer: '/readings/1/on',
      field: 'readings',
      read: '1 Mar 2027',
      help: 'this day is still to come; give the day on which the moisture was read',
    },
  ]);
  // East of Greenwich it may be tomorrow already.
  shop.tell({ do: 'read-moisture', boardId, readings: [reading('2026-03-03')] });
  shop.refused({ do: 'read-moisture', boardId, readings: [reading('2026-03-04')] });

  const drafts = [
    boardOf('Q-2', { readings: [reading('2027-03-01')] }),
    boardOf('Q-3', { readings: [reading('2026-03-02')] }),
  ];
  const rows = drafts.map((draft, row) => ({ row, draft }));
  const told = shop.tell({ do: 'take-in-boards', rows, allOrNothing: false, faults: [] });
  expect(told.taken?.map((taken) => taken.tag)).toEqual(['Q-3']);
  expect(told.faults?.map((fault) => [fault.pointer, fault.row])).toEqual([['/boards/0/readings/0/on', 0]]);
  shop.expectSound();
});

test('a board that a job holds is not written off behind its back', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'));
  shop.reserve(shop.job('Hall table'), 'Q-1');
  const refusal = shop.refused({ do: 'write-off-board', boardId, why: 'rot' });
  expect(refusal.why).toBe('board-held');
  expect(refusal.detail).toBe('Q-1 is held for Hall table (all of it). Release it first.');
});

test('lists come in the order of the tags as a person counts, page by page, and filtered', async () => {
  const shop = await Shop.open();
  const drafts = ['A-10', 'A-2', 'a-1', 'B-1'].map((tag) =>
    boardOf(tag, { note: tag === 'B-1' ? 'Curly figure' : '' }),
  );
  shop.takeIn(...drafts, boardOf('W-1', { species: 'walnut', thicknessNm: INCH, lengthNm: 60 * INCH }));
  shop.reserve(shop.job('Hall table'), 'A-2');
  const tags = (ask: Parameters<typeof shop.ask<'boards'>>[1]) =>
    shop.ask('boards', ask).items.map((board) => board.tag);
  const page = { after: null, limit: 10 };
  expect(tags({ filter: {}, page })).toEqual(['a-1', 'A-2', 'A-10', 'B-1', 'W-1']);
  expect(tags({ filter: { species: 'walnut' }, page })).toEqual(['W-1']);
  expect(tags({ filter: { thicknessNmMin: INCH + 1 }, page })).toEqual(['a-1', 'A-2', 'A-10', 'B-1']);
  expect(tags({ filter: { thicknessNmMax: INCH }, page })).toEqual(['W-1']);
  expect(tags({ filter: { lengthNmMin: 61 * INCH, free: true }, page })).toEqual(['a-1', 'A-10', 'B-1']);
  expect(tags({ filter: { free: false }, page })).toEqual(['A-2']);
  expect(tags({ filter: { q: 'CURLY' }, page })).toEqual(['B-1']);
  expect(tags({ filter: { offcuts: true }, page })).toEqual([]);
  const first = shop.ask('boards', { filter: {}, page: { after: null, limit: 3 } });
  expect(first.items).toHaveLength(3);
  expect(tags({ filter: {}, page: { after: first.next, limit: 3 } })).toEqual(['B-1', 'W-1']);
});

test('a yard with more than one question can look at says so, and its lists still work', async () => {
  const shop = await Shop.open();
  const note = 'x'.repeat(500);
  for (let delivery = 0; delivery < 10; delivery++) {
    const rows = Array.from({ length: 2_000 }, (_, no) => boardOf(`D-${delivery}-${no}`, { note, delivery: note }));
    shop.takeIn(...rows);
  }
  const answer = shop.yard.core.ask(owner, 'snapshot', { jobIds: [], boards: { which: 'all' } });
  expect(answer.ok ? null : answer.refusal.why).toBe('too-large');
  expect(shop.ask('boards', { filter: {}, page: { after: null, limit: 10 } }).items).toHaveLength(10);
  expect(shop.ask('yard-facts', {}).boards.inStock).toBe(20_000);
}, 60_000);
