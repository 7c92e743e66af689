/** Cut lists, steps of pieces and boards coming in, at their edges: places, limits, ties, and who is told what. */
import { expect, test } from 'vitest';
import type { BoardPatch, Defect } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import { limits } from '../../worker/contract/limits.ts';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

const HOUR_MS = 3_600_000;
const staves = (count: number) => ({ kind: 'staves' as const, count });
const leg = (over: Partial<Part> = {}) => partOf('leg', { label: 'Leg', quantity: 4, ...over });

/** Two legs and a top of two staves, cut from boards on 2 March; the rest is wanted. */
async function cutShop() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const top = partOf('top', { label: 'Top', quantity: 2, lamination: staves(2) });
  const jobId = shop.job('Hall table', leg(), top);
  const { sessionId } = shop.atTheSaw(jobId, {
    'Q-1': [{ key: 'leg', count: 2 }],
    'Q-2': [
      { key: 'top', element: 0 },
      { key: 'top', element: 1 },
    ],
  });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const set = (parts: readonly Part[], over: { faults?: []; allOrNothing?: boolean } = {}) =>
    ({ do: 'set-cut-list', jobId, parts, faults: [], allOrNothing: true, ifVersion: null, ...over }) as const;
  const move = (...steps: readonly ReturnType<Shop['step']>[]) => ({ do: 'move-pieces' as const, jobId, steps });
  const help = (...steps: readonly ReturnType<Shop['step']>[]) =>
    shop.refused(move(...steps)).faults?.map((fault) => fault.help);
  const standing = (key: string) =>
    (shop.ask('job', { jobId }).parts.find((each) => each.key === key)?.pieces ?? []).map((piece) => [
      piece.no,
      piece.element,
      piece.attempt,
      piece.state,
    ]);
  return { shop, jobId, top, set, move, help, standing };
}

test('a solid piece is milled from the day its rest is over, passed or not, and no day before', async () => {
  const { shop, move, help, standing } = await cutShop();
  shop.today = '2026-03-08';
  expect(help(shop.step('leg', 1, 'milled'))).toEqual([
    'it must have passed its rest; it is roughed, resting until 9 Mar 2026',
  ]);
  expect(help(shop.step('leg', 3, 'milled'))).toEqual(['it must have passed its rest; it is wanted']);
  shop.today = '2026-03-09';
  shop.tell(move(shop.step('leg', 1, 'milled'), shop.step('leg', 2, 'passed'), shop.step('leg', 2, 'milled')));
  expect(standing('leg').map(([, , , state]) => state)).toEqual(['milled', 'milled', 'wanted', 'wanted']);
  expect(help(shop.step('leg', 1, 'milled'))).toEqual(['it must have passed its rest; it is milled']);
});

test('a step that does not follow is told for what it is', async () => {
  const { shop, move, help } = await cutShop();
  expect(help(shop.step('leg', 3, 'wanted'))).toEqual([
    'only a planned or roughed piece can be wanted again; this one is wanted',
  ]);
  expect(help(shop.step('leg', 3, 'passed'))).toEqual(['only a roughed piece can pass; this one is wanted']);
  expect(help(shop.step('leg', 3, 'failed', null, 'x'))).toEqual([
    'only a piece that was cut can fail; this one is wanted',
  ]);
  expect(help(shop.step('leg', 1, 'glued-up'))).toEqual(['it is one solid piece; there is nothing to glue up']);
  expect(help(shop.step('top', 1, 'glued-up', 0))).toEqual([
    'a layer is not glued up by itself; name the piece without a layer',
  ]);
  expect(help(shop.step('top', 1, 'milled'))).toEqual(['it must be glued up first; it is wanted']);
  expect(help(shop.step('top', 1, 'passed', 2))).toEqual(['this job has no such piece']);
  const ready = [0, 1].map((element) => shop.step('top', 1, 'passed', element, 'dry'));
  shop.tell(move(...ready, shop.step('top', 1, 'glued-up')));
  expect(help(shop.step('top', 1, 'glued-up'))).toEqual(['it is glued-up already']);
  shop.atMs += 24 * HOUR_MS - 1;
  expect(help(shop.step('top', 1, 'milled'))).toEqual(['its glue cures until 3 Mar 2026, 09:00 UTC']);
  shop.atMs += 1;
  shop.tell(move(shop.step('top', 1, 'milled')));
  const [milled] = shop.pieces(move().jobId, 'top');
  expect(milled).toMatchObject({ state: 'milled', curingUntilMs: null, restingUntil: null });
});

test('a piece fails from each state after the cut; a layer alone takes nothing with it', async () => {
  const { shop, move, standing } = await cutShop();
  shop.today = '2026-03-09';
  shop.tell(move(shop.step('leg', 1, 'failed', null, 'roughed: split'), shop.step('leg', 2, 'passed')));
  shop.tell(move(shop.step('leg', 2, 'failed', null, 'passed: bowed')));
  expect(standing('leg').map(([no, , attempt, state]) => [no, attempt, state])).toEqual([
    [1, 1, 'failed'],
    [1, 2, 'wanted'],
    [2, 1, 'failed'],
    [2, 2, 'wanted'],
    [3, 1, 'wanted'],
    [4, 1, 'wanted'],
  ]);
  const ready = [0, 1].map((element) => shop.step('top', 1, 'passed', element));
  shop.tell(move(...ready, shop.step('top', 1, 'glued-up')));
  shop.tell(move(shop.step('top', 1, 'failed', 0, 'a stave sprang off')));
  expect(standing('top').filter(([no]) => no === 1)).toEqual([
    [1, null, 1, 'glued-up'],
    [1, 0, 1, 'failed'],
    [1, 0, 2, 'wanted'],
    [1, 1, 1, 'glued-up'],
  ]);
  // The whole that fails now takes those layers with it that were in it.
  shop.tell(move(shop.step('top', 1, 'failed', null, 'it came apart')));
  expect(standing('top').filter(([no]) => no === 1)).toEqual([
    [1, null, 1, 'failed'],
    [1, null, 2, 'wanted'],
    [1, 0, 1, 'failed'],
    [1, 0, 2, 'wanted'],
    [1, 1, 1, 'failed'],
    [1, 1, 2, 'wanted'],
  ]);
  shop.expectSound();
});

test('up to four steps are named in the journal, more are counted; of faults two are read out and all are given', async () => {
  const { shop, move } = await cutShop();
  shop.today = '2026-03-09';
  const summary = () => shop.ask('movement', { seq: shop.seq() }).summary;
  const wrong = shop.refused(
    move(shop.step('leg', 9, 'passed'), shop.step('arm', 1, 'passed'), shop.step('leg', 3, 'passed')),
  );
  expect(wrong.detail).toBe(
    'leg no. 9: this job has no such piece, arm no. 1: this job has no such piece and 1 more. No piece was moved.',
  );
  expect(wrong.faults?.map(({ pointer, row, field, read }) => [pointer, row, field, read])).toEqual([
    ['/steps/0', 0, undefined, 'leg no. 9'],
    ['/steps/1', 1, undefined, 'arm no. 1'],
    ['/steps/2', 2, 'to', 'Leg no. 3 to passed'],
  ]);
  const four = [
    shop.step('leg', 1, 'passed'),
    shop.step('leg', 1, 'milled'),
    shop.step('top', 1, 'passed', 0),
    shop.step('top', 1, 'passed', 1),
  ];
  shop.tell(move(...four));
  expect(summary()).toBe(
    'Hall table: Leg no. 1 passed, Leg no. 1 milled, Top no. 1, layer 1 passed, Top no. 1, layer 2 passed',
  );
  shop.tell({ do: 'undo', seq: shop.seq() });
  shop.tell(move(...four, shop.step('leg', 2, 'passed')));
  expect(summary()).toBe('Hall table: 5 steps');
});

test('each size of a row that changes makes what is not cut anew, and what is cut stays; its name changes nothing', async () => {
  for (const change of [
    { species: 'walnut' },
    { lengthNm: 28 * INCH },
    { widthNm: 6 * INCH },
    { thicknessNm: INCH + 1 },
    { lamination: staves(2) },
  ]) {
    const { shop, top, set, standing } = await cutShop();
    const { notes } = shop.tell(set([leg(change), top]));
    expect(notes, JSON.stringify(change)).toEqual(['Leg: 2 pieces already cut to the old size stay on the list.']);
    const layers = change.lamination ? [null, 0, 1] : [null];
    expect(standing('leg')).toEqual([
      [1, null, 1, 'roughed'],
      [2, null, 1, 'roughed'],
      ...[3, 4].flatMap((no) => layers.map((element) => [no, element, 1, 'wanted'])),
    ]);
    shop.expectSound();
  }
  const { shop, top, set, standing } = await cutShop();
  const before = standing('leg');
  expect(shop.tell(set([leg({ label: 'Front leg', use: 'visible' }), top])).notes).toEqual([]);
  expect(standing('leg')).toEqual(before);
});

test('a copy that failed once is no longer untouched: it stays when fewer are asked for, and so do planned ones', async () => {
  const { shop, jobId, top, set, move, standing } = await cutShop();
  shop.tell(move(shop.step('leg', 2, 'failed', null, 'split')));
  const { notes } = shop.tell(set([leg({ quantity: 1 }), top]));
  expect(notes).toEqual(['Leg: 1 piece more than asked for are already cut; they stay.']);
  expect(standing('leg')).toEqual([
    [1, null, 1, 'roughed'],
    [2, null, 1, 'failed'],
    [2, null, 2, 'wanted'],
  ]);
  shop.tell(set([leg({ quantity: 3 }), top]));
  expect(standing('leg').map(([no]) => no)).toEqual([1, 2, 2, 3]);
  const planId = shop.keep(shop.plan(jobId, { 'Q-1-1': [{ key: 'leg' }] }));
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  // Of three one is cut, one is planned in place of the failed one, and one is untouched: two can be asked for, not one.
  expect(shop.refused(set([leg({ quantity: 1 }), top])).faults?.map(({ help }) => help)).toEqual([
    '1 piece of it are planned; drop that plan first, then set the list and plan again',
  ]);
  shop.tell(set([leg({ quantity: 2 }), top]));
  expect(
    shop.refused(set([leg({ quantity: 2, lengthNm: 20 * INCH }), top])).faults?.map(({ pointer }) => pointer),
  ).toEqual(['/parts/0/lengthNm']);
  expect(shop.refused(set([top])).faults?.map(({ help }) => help)).toEqual([
    'it is missing from the list, but 1 piece of it are planned; drop that plan first, then set the list and plan again',
  ]);
  shop.expectSound();
});

test('a row with a fault of its own is left as it was where the others are taken', async () => {
  const { shop, jobId, top, set } = await cutShop();
  const planId = shop.keep(shop.plan(jobId, { 'Q-1-1': [{ key: 'leg' }] }));
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const rail = partOf('rail', { label: 'Rail' });
  const told = shop.tell(set([rail, leg({ lengthNm: 20 * INCH, label: 'Short leg' })], { allOrNothing: false }));
  expect(told.faults?.map(({ pointer, row }) => [pointer, row])).toEqual([['/parts/1/lengthNm', 1]]);
  expect(told.notes).toEqual(['Top is no longer on the list; 1 piece already cut stay.']);
  const parts = shop
    .ask('job', { jobId })
    .parts.map(({ key, label, lengthNm, quantity }) => [key, label, lengthNm / INCH, quantity]);
  expect(parts).toEqual([
    ['rail', 'Rail', 29, 2],
    ['leg', 'Leg', 29, 4],
    ['top', 'Top', 29, 1],
  ]);
  expect(shop.ask('movement', { seq: shop.seq() }).summary).toBe('Set the cut list of Hall table anew: 2 rows');
  const twice = { do: 'set-cut-list', jobId, parts: [top, top, rail], allOrNothing: false, ifVersion: null } as const;
  const unread = [{ pointer: '/parts/3/lengthNm', row: 3, help: 'no length' }];
  // Where rows could not be read nobody knows the row of the others.
  const second = shop.tell({ ...twice, faults: unread });
  expect(second.faults?.slice(1)).toEqual([
    { pointer: '/parts', field: 'key', read: 'top', help: 'another row has the same key; each row needs its own' },
  ]);
  expect(second.notes).toEqual(['Rows that could not be read left the list as it was in their place.']);
  expect(shop.ask('job', { jobId }).parts.map(({ key }) => key)).toEqual(['top', 'rail', 'leg']);
  expect(shop.tell({ ...twice, parts: [top, rail, leg()], faults: unread }).notes).toEqual([]);
});

test('what is cut of a row that is gone still counts among the pieces of a job', async () => {
  const { shop, set, standing } = await cutShop();
  const panels = (quantity: number) => partOf('panel', { quantity, lamination: staves(9) });
  // Two legs, and a top with the wanted whole beside its two layers, stay: five pieces.
  const refusal = shop.refused(set([panels(500)]));
  expect(refusal.faults?.map(({ help }) => help)).toEqual([
    'the list asks for 5005 pieces, layers counted; a job takes 5000. Split it into two jobs',
  ]);
  expect(standing('leg')).toHaveLength(4);
  shop.tell(set([panels(499)]));
  expect(standing('leg')).toHaveLength(2);
});

test('boards come in with their defects within them to the edge, and what is by a hair outside is told', async () => {
  const shop = await Shop.open();
  const defect: Defect = { kind: 'check', face: 'a', fromNm: 0, toNm: 100 * INCH, leftNm: 0, rightNm: 8 * INCH };
  const rows = [
    boardOf('Q-1', { defects: [defect] }),
    boardOf('Q-2', { defects: [defect, { ...defect, toNm: 100 * INCH + 1 }] }),
    boardOf('Q-3', { defects: [{ ...defect, rightNm: 8 * INCH + 1 }] }),
    boardOf('Q-2'),
  ].map((draft, row) => ({ row, draft }));
  const command = { do: 'take-in-boards', rows, faults: [], allOrNothing: false } as const;
  expect(shop.refused({ ...command, allOrNothing: true }).why).toBe('invalid-input');
  const { taken, faults } = shop.tell(command);
  // A row that was refused leaves its tag to a later one.
  expect(taken?.map(({ row, tag }) => [row, tag])).toEqual([
    [0, 'Q-1'],
    [3, 'Q-2'],
  ]);
  expect(faults?.map(({ pointer, row }) => [pointer, row])).toEqual([
    ['/boards/1/defects/1', 1],
    ['/boards/2/defects/0', 2],
  ]);
  expect(shop.ask('movement', { seq: shop.seq() }).summary).toBe('Took in 2 boards: Q-1, Q-2');
  const both = [{ row: 0, draft: boardOf('Q-1', { defects: [{ ...defect, toNm: 200 * INCH }] }) }];
  // A taken tag and a bad defect: not only the tag is at fault.
  expect(shop.refused({ ...command, rows: both })).toMatchObject({ why: 'invalid-input', faults: [{}, {}] });
  expect(shop.refused({ ...command, rows: [{ row: 0, draft: boardOf('q-1') }] }).why).toBe('tag-taken');
  const nothing = shop.refused({ ...command, rows: [] });
  expect([nothing.why, nothing.detail]).toEqual(['invalid-input', '0 faults in the list; no board was taken in.']);
});

test('a correction names what it changed; a taken tag, a defect outside or an end before a hold changes nothing', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const correct = (patch: BoardPatch) =>
    ({ do: 'correct-board', boardId, ifVersion: shop.board(boardId).version, patch }) as const;
  const summary = () => shop.ask('movement', { seq: shop.seq() }).summary;
  shop.tell(correct({ widthNm: 7 * INCH, place: 'rack 1' }));
  expect(summary()).toBe('Corrected Q-1: width, place');
  const { version } = shop.board(boardId);
  shop.tell(correct({ widthNm: 7 * INCH }));
  expect([summary(), shop.board(boardId).version]).toEqual(['Corrected Q-1: nothing differed', version]);
  const knot: Defect = { kind: 'pith', face: 'a', fromNm: 0, toNm: INCH, leftNm: 0, rightNm: 7 * INCH + 1 };
  expect(shop.refused(correct({ defects: [knot] })).faults?.map(({ pointer }) => pointer)).toEqual(['/defects/0']);
  shop.tell(correct({ widthNm: 8 * INCH, defects: [knot] }));
  expect(shop.refused(correct({ tag: 'Q-2' })).faults?.[0]).toMatchObject({ pointer: '/tag', read: 'Q-2' });
  const [table, bench] = [shop.job('Hall table'), shop.job('Bench')];
  shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1', toNm: 40 * INCH }] });
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1', fromNm: 50 * INCH, toNm: 60 * INCH }] });
  const short = shop.refused(correct({ lengthNm: 60 * INCH - 1 }));
  expect(short.conflicts?.map(({ jobName, wayOut }) => [jobName, wayOut])).toEqual([
    ['Bench', 'release the run, then correct the board'],
  ]);
  shop.tell(correct({ lengthNm: 60 * INCH }));
  const longer = shop
    .state()
    .reservationsOnBoard(boardId)
    .map(({ toNm }) => toNm / INCH);
  expect(longer).toEqual([40, 60]);
  // A board that narrows keeps of its defects what is left of them.
  shop.tell(correct({ widthNm: 5 * INCH }));
  expect(shop.board(boardId).defects).toEqual([{ ...knot, rightNm: 5 * INCH }]);
  const ended = shop.board('Q-2').id;
  shop.tell({ do: 'write-off-board', boardId: ended, why: 'rot' });
  for (const command of [
    { do: 'correct-board', boardId: ended, ifVersion: shop.board(ended).version, patch: { place: 'x' } },
    { do: 'read-moisture', boardId: ended, readings: [] },
    { do: 'write-off-board', boardId: ended, why: 'again' },
  ] as const) {
    const refusal = shop.refused(command);
    expect([refusal.why, refusal.detail]).toEqual([
      'board-not-in-stock',
      'Q-2 was written off; it is no longer in stock.',
    ]);
    expect(refusal.conflicts?.map(({ tag }) => tag)).toEqual(['Q-2']);
  }
});

test('a board takes two hundred readings and not one more; those of one day stand as they were written', async () => {
  const shop = await Shop.open();
  const reading = (moisturePercent: number, on = '2026-03-01') => ({ moisturePercent, on, meter: 'pin' as const });
  const [boardId = ''] = shop.takeIn(boardOf('Q-1', { readings: [reading(20), reading(30, '2025-01-01')] }));
  const read = (count: number) =>
    ({
      do: 'read-moisture',
      boardId,
      readings: Array.from({ length: count }, (_, at) => reading(10 + at / 100)),
    }) as const;
  expect(shop.refused(read(limits.readingsPerBoard - 1)).detail).toBe('Q-1 would have 201 readings; the most is 200.');
  shop.tell(read(limits.readingsPerBoard - 2));
  const { readings } = shop.board(boardId);
  expect(readings.map(({ moisturePercent }) => moisturePercent).slice(0, 4)).toEqual([30, 20, 10, 10.01]);
  expect(readings).toHaveLength(limits.readingsPerBoard);
});
