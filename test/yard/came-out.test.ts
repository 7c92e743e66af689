/** What came out of a board, row by row against the cut list, and what becomes of the board itself. */
import { expect, test } from 'vitest';
import { limits } from '../../worker/contract/limits.ts';
import type { BoardOutcome, CutResult } from '../../worker/contract/session.ts';
import { boardOf, INCH, KERF, partOf, Shop } from './shop.ts';

type CutOutcome = Extract<BoardOutcome, { as: 'cut' }>;
const plies = (count: number) => ({
  kind: 'plies' as const,
  plies: Array.from({ length: count }, () => ({ thicknessNm: INCH, widthNm: 3 * INCH, offsetNm: 0 })),
});

const out = (partKey: string, over: Partial<CutResult> = {}): CutResult => ({
  partKey,
  element: null,
  good: 1,
  failed: 0,
  why: '',
  ...over,
});
const cutOf = (boardId: string, over: Partial<CutOutcome> = {}): CutOutcome => ({
  as: 'cut',
  boardId,
  parts: [],
  offcuts: [],
  defectsFound: [],
  note: '',
  ...over,
});
const offcut = (tag: string, lengthNm: number, over: Partial<CutOutcome['offcuts'][number]> = {}) => ({
  tag,
  lengthNm,
  widthNm: 8 * INCH,
  place: '',
  defects: [],
  note: '',
  ...over,
});

/** A solid leg and the first of a post's two plies, planned on a board of 100 x 8 x 2 in that is at the saw. */
async function legAndPost() {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-7', { place: 'rack 2', note: 'sawn in March' }));
  const jobId = shop.job(
    'Hall table',
    partOf('leg', { label: 'Leg', quantity: 2, use: 'visible' }),
    partOf('post', { label: 'Post', quantity: 1, lamination: plies(2), use: 'hidden' }),
  );
  const { sessionId, planId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg' }, { key: 'post', element: 0 }] });
  const came = (outcome: BoardOutcome, allowExtra = false) =>
    ({ do: 'reconcile', sessionId, restAsPlanned: false, boards: [outcome], allowExtra }) as const;
  return { shop, boardId, jobId, planId, sessionId, came };
}

test('each row that is not on the list, names no layer or a wrong one, or has no size, is told at its place', async () => {
  const { shop, boardId, jobId, came } = await legAndPost();
  const parts = [
    out('arm'),
    out('leg', { element: 0 }),
    out('post'),
    out('post', { element: 2 }),
    out('post', { element: 1 }),
    out('post', { element: 1, lengthNm: INCH }),
    out('post', { element: 1, widthNm: INCH }),
    out('arm', { good: 0 }),
    out('leg'),
  ];
  const { why, faults } = shop.refused(came(cutOf(boardId, { parts })));
  expect(why).toBe('invalid-input');
  const noSize = 'it was not in this plan; say how long and how wide it was cut';
  const layers = 'it is glued up from 2 layers; say which one was cut';
  expect(
    faults?.map(({ pointer, field, read, help }) => [pointer.replace('/boards/0/parts/', ''), field, read, help]),
  ).toEqual([
    ['0', 'partKey', 'arm', 'the cut list of this job has no such row'],
    ['1', 'element', 'leg', 'it is one solid piece; leave the layer out'],
    ['2', 'element', 'post', layers],
    ['3', 'element', 'post', layers],
    ['4', 'lengthNm', 'post', noSize],
    ['5', 'lengthNm', 'post', noSize],
    ['6', 'lengthNm', 'post', noSize],
  ]);
  expect(shop.pieces(jobId, 'leg').map(({ state }) => state)).toEqual(['planned', 'wanted']);
});

test('layers count each for itself, rest by the use of their part, and a failed one is wanted again as that layer', async () => {
  const { shop, boardId, jobId, planId, sessionId, came } = await legAndPost();
  const size = { lengthNm: 20 * INCH, widthNm: 8 * INCH };
  const told = shop.tell(
    came(
      cutOf(boardId, {
        parts: [
          out('leg', { good: 0, failed: 1, why: 'split' }),
          out('post', { element: 0 }),
          out('post', { element: 1, good: 0, failed: 1, why: 'worm', ...size }),
        ],
      }),
    ),
  );
  const ofPost = (element: number) =>
    shop.pieces(jobId, 'post', element).map((piece) => [piece.state, piece.restingUntil, piece.boardId]);
  // The shop's own days of rest by use (common practice, no source): one for a hidden part.
  expect(ofPost(0)).toEqual([['roughed', '2026-03-03', boardId]]);
  expect(ofPost(1)).toEqual([
    ['failed', null, boardId],
    ['wanted', null, null],
  ]);
  const [failed] = shop.pieces(jobId, 'leg');
  expect(failed).toMatchObject({ state: 'failed', why: 'split', boardId, planId, sessionId });
  expect(told.wantedAgain).toEqual([{ partKey: 'leg', label: 'Leg', element: null, count: 1 }]);
  const side = BigInt(8 * INCH) * BigInt(2 * INCH);
  expect(told.balances?.[0]).toMatchObject({
    partsNm3: String(BigInt(30 * INCH) * side),
    failedNm3: String(BigInt(50 * INCH) * side),
  });
  expect(shop.ask('movement', { seq: shop.seq() }).summary).toBe(
    'What came out for Hall table, Q-7: 1 piece good, 2 failed, 0 offcuts',
  );
  shop.expectSound();
});

test('a layer too many is told as that layer; taken as a spare it has a number of its own', async () => {
  const { shop, boardId, jobId, came } = await legAndPost();
  const outcome = cutOf(boardId, {
    parts: [out('post', { element: 0, good: 2, lengthNm: 20 * INCH, widthNm: 8 * INCH })],
  });
  expect(shop.refused(came(outcome)).detail).toBe(
    'More is cut from Q-7 than is wanted: 1 piece of Post, layer 1. Check the count, or take them as spares.',
  );
  shop.tell(came(outcome, true));
  expect(shop.pieces(jobId, 'post', 0).map(({ no, state }) => [no, state])).toEqual([
    [1, 'roughed'],
    [2, 'roughed'],
  ]);
  expect(shop.pieces(jobId, 'post').map(({ no }) => no)).toEqual([1]);
  shop.expectSound();
});

test('a row glued up since it was planned solid, or solid since it was planned in layers, is not taken as planned', async () => {
  const { shop, jobId, sessionId } = await legAndPost();
  const all = { do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false } as const;
  shop.tell({ do: 'move-pieces', jobId, steps: [shop.step('leg', 1, 'wanted'), shop.step('post', 1, 'wanted', 0)] });
  shop.cutList(
    jobId,
    partOf('leg', { label: 'Leg', quantity: 2, lamination: { kind: 'staves', count: 3 } }),
    partOf('post', { label: 'Post', quantity: 1 }),
  );
  const { faults } = shop.refused(all);
  expect(faults?.map(({ pointer, field, read }) => [pointer, field, read])).toEqual([
    ['/boards/0', 'element', 'leg'],
    ['/boards/0', 'element', 'post'],
  ]);
});

test('a board keeps what was found in it and the note of the saw; of its defects the first hundred stay', async () => {
  const at = (no: number) => ({
    kind: 'knot-sound' as const,
    face: 'a' as const,
    fromNm: no * KERF,
    toNm: (no + 1) * KERF,
    leftNm: 0,
    rightNm: INCH,
  });
  const shop = await Shop.open();
  const known = Array.from({ length: limits.defectsPerBoard - 1 }, (_, no) => at(no));
  const [first = '', second = ''] = shop.takeIn(
    boardOf('Q-7', { defects: known, note: 'sawn in March' }),
    boardOf('Q-8', { note: 'dry' }),
  );
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 2 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg' }], 'Q-8': [{ key: 'leg' }] });
  const boards = [
    cutOf(first, { parts: [out('leg')], defectsFound: [at(200), at(201)], note: 'a nail in it' }),
    cutOf(second, { parts: [out('leg')], defectsFound: [at(3)] }),
  ];
  const command = { do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false } as const;
  const outside = [cutOf(first, { defectsFound: [at(200), at(900)] })];
  expect(shop.refused({ ...command, boards: outside }).faults?.map(({ pointer }) => pointer)).toEqual([
    '/boards/0/defectsFound/1',
  ]);
  shop.tell(command);
  expect(shop.board(first)).toMatchObject({ note: 'a nail in it', state: 'cut-up', defects: [...known, at(200)] });
  expect(shop.board(second)).toMatchObject({ note: 'dry', state: 'cut-up', defects: [at(3)] });
  shop.expectSound();
});

test('less wood than the planned cuts take is noted only where nobody measured the kerf', async () => {
  const { shop, boardId, came } = await legAndPost();
  const side = BigInt(8 * INCH) * BigInt(2 * INCH);
  const leaves = (lengthNm: number, kerfNm: number | null) =>
    cutOf(boardId, {
      parts: [out('leg')],
      offcuts: [offcut('Q-7-A', lengthNm)],
      ...(kerfNm === null ? {} : { kerfNm3: String(BigInt(kerfNm) * side) }),
    });
  const noted = (outcome: BoardOutcome) => {
    const { notes } = shop.tell(came(outcome));
    shop.tell({ do: 'undo', seq: shop.seq() });
    return notes;
  };
  // Two crosscuts were planned, 1/8 in each.
  const note = 'Q-7: less is left for the blade than planned, so all of that counts as kerf.';
  expect(noted(leaves(70 * INCH - KERF, null))).toEqual([note]);
  expect(noted(leaves(70 * INCH - KERF, KERF))).toEqual([]);
  expect(noted(leaves(70 * INCH - 2 * KERF, null))).toEqual([]);
  expect(noted(leaves(70 * INCH - 2 * KERF + 1, null))).toEqual([note]);
});

test('an offcut no larger than its board comes in with its own thickness; by a hair longer, wider or thicker it is told', async () => {
  const { shop, boardId, came } = await legAndPost();
  const knot = { kind: 'knot-sound', face: 'a', fromNm: 0, toNm: 21 * INCH, leftNm: 0, rightNm: INCH } as const;
  const offcuts = [
    offcut('A-1', 100 * INCH + 1),
    offcut('A-2', 20 * INCH, { widthNm: 8 * INCH + 1 }),
    offcut('A-3', 20 * INCH, { thicknessNm: 2 * INCH + 1 }),
    offcut('A-4', 20 * INCH, { defects: [knot] }),
    offcut('A-5', 100 * INCH, { widthNm: 8 * INCH, thicknessNm: 2 * INCH }),
  ];
  const { faults } = shop.refused(came(cutOf(boardId, { offcuts })));
  expect(faults?.[1]?.read).toBe('20" × ≈ 8" × 2"');
  expect(faults?.map(({ pointer, field }) => [pointer, field])).toEqual([
    ['/boards/0/offcuts/0', 'lengthNm'],
    ['/boards/0/offcuts/1', 'lengthNm'],
    ['/boards/0/offcuts/2', 'lengthNm'],
    ['/boards/0/offcuts/3/defects/0', 'defects'],
  ]);
  shop.tell(
    came(cutOf(boardId, { offcuts: [offcut('A-1', 20 * INCH, { thicknessNm: INCH }), offcut('A-2', 20 * INCH)] })),
  );
  expect(['A-1', 'A-2'].map((tag) => shop.board(tag).thicknessNm / INCH)).toEqual([1, 2]);
});

test('an offcut without a tag takes the first of its parent that no board ever bore, cut short where a tag would be too long', async () => {
  const shop = await Shop.open();
  const long = 'L'.repeat(limits.tagChars);
  const [gone = ''] = shop.takeIn(boardOf('Q-7-1'), boardOf('Q-7', { costMinor: 100 }), boardOf(long));
  shop.tell({ do: 'write-off-board', boardId: gone, why: 'rot' });
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 2 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg' }], [long]: [{ key: 'leg' }] });
  const boards = [{ as: 'planned' as const, boardId: shop.board('Q-7').id, place: 'rack 9' }];
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards, allowExtra: false });
  expect(told.offcuts?.map(({ tag }) => tag)).toEqual(['Q-7-2', `${long.slice(2)}-1`]);
  // 100 of cost for 100 in; 69 7/8 in are left: 69.875, and nobody pays the fraction.
  expect(shop.board('Q-7-2')).toMatchObject({ costMinor: 69, place: 'rack 9', lengthNm: 69.875 * INCH });
  expect(shop.board(`${long.slice(2)}-1`).costMinor).toBeNull();
  shop.expectSound();
});

test('a board that another job holds a run of is not written off at the saw; a run of the same job goes with it', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-7'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 1 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg' }] }, 'runs');
  const hold = (holder: string, fromIn: number, toIn: number) =>
    shop.tell({ do: 'reserve', jobId: holder, boards: [{ tag: 'Q-7', fromNm: fromIn * INCH, toNm: toIn * INCH }] });
  hold(jobId, 50, 60);
  const foreign = hold(shop.job('Bench'), 70, 80).reservationIds ?? [];
  const boards = [{ as: 'written-off' as const, boardId, why: 'rot' }];
  const command = { do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false } as const;
  const refusal = shop.refused(command);
  expect([refusal.why, refusal.conflicts?.map(({ jobName, wayOut }) => [jobName, wayOut])]).toEqual([
    'board-held',
    [['Bench', 'release that run first']],
  ]);
  expect(shop.state().reservationsOnBoard(boardId)).toHaveLength(3);
  shop.tell({ do: 'release', ids: foreign });
  expect(shop.tell(command).notes).toEqual(['Q-7 is written off: rot.']);
  expect(shop.state().reservationsOnBoard(boardId)).toEqual([]);
  expect(shop.pieces(jobId, 'leg').map(({ state }) => state)).toEqual(['wanted']);
  shop.expectSound();
});

test('of two runs that a job holds by hand the one with an offcut under it lives on, the other goes', async () => {
  const { shop, boardId, jobId, came } = await (async () => {
    const shop = await Shop.open();
    const [boardId = ''] = shop.takeIn(boardOf('Q-7'));
    const jobId = shop.job('Hall table', partOf('leg', { quantity: 1 }));
    const { sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg' }] }, 'runs');
    const came = (outcome: BoardOutcome) =>
      ({ do: 'reconcile', sessionId, restAsPlanned: false, boards: [outcome], allowExtra: false }) as const;
    return { shop, boardId, jobId, came };
  })();
  const hold = (fromIn: number, toIn: number) =>
    shop.tell({ do: 'reserve', jobId, boards: [{ tag: 'Q-7', fromNm: fromIn * INCH, toNm: toIn * INCH }] });
  hold(40, 60);
  hold(65, 75);
  shop.tell(came(cutOf(boardId, { parts: [out('leg')], offcuts: [offcut('B-1', 25 * INCH)] })));
  const held = shop.state().reservationsOfJob(jobId);
  expect(held.map((each) => [each.boardId, each.fromNm, each.toNm])).toEqual([[shop.board('B-1').id, 0, 20 * INCH]]);
  shop.tell({ do: 'undo', seq: shop.seq() });
  expect(shop.state().reservationsOnBoard(boardId)).toHaveLength(3);
  shop.expectSound();
});

test('a run that another job holds lives on in a planned offcut only where that has all of it, over the full width', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-7'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 1 }));
  const bench = shop.job('Bench');
  const body = shop.plan(jobId, { 'Q-7': [{ key: 'leg' }] });
  const runFromNm = 40 * INCH;
  const runToNm = 60 * INCH;
  const whole = { fromNm: runFromNm, toNm: runToNm, leftNm: 0, rightNm: 8 * INCH };
  const tries = [
    { ...whole, fromNm: runFromNm + 1 },
    { ...whole, toNm: runToNm - 1 },
    { ...whole, leftNm: 1 },
    { ...whole, rightNm: 8 * INCH - 1 },
    whole,
  ];
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-7', fromNm: runFromNm, toNm: runToNm }] });
  const refused: boolean[] = [];
  for (const rest of tries) {
    const layouts = body.layouts.map((layout) => ({ ...layout, offcuts: [rest], scrap: [] }));
    const planId = shop.keep({ ...body, layouts });
    shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
    const { sessionId = '' } = shop.tell({ do: 'open-session', planId, boardIds: null });
    const answer = shop.send({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
    refused.push(!answer.ok);
    const boards = [{ as: 'untouched' as const, boardId, why: 'no place for the bench' }];
    if (!answer.ok) {
      const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
      expect(told.notes?.[0]).toContain('Q-7 was not cut: no place for the bench; it stays held');
      shop.tell({ do: 'drop-plan', planId });
    }
  }
  expect(refused).toEqual([true, true, true, true, false]);
  const [held] = shop.state().reservationsOfJob(bench);
  expect([held?.boardId, held?.fromNm, held?.toNm]).toEqual([shop.board('Q-7-1').id, 0, runToNm - runFromNm]);
  shop.expectSound();
});

test('beside another offcut only the strip that is the reserve is noted and held', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-7'));
  const jobId = shop.job('Hall table', partOf('rail', { label: 'Rail', quantity: 1 }), partOf('slat', { quantity: 1 }));
  const body = shop.plan(jobId, { 'Q-7': [{ key: 'rail' }, { key: 'slat' }] });
  const [layout] = body.layouts;
  const [, slat] = layout?.pieces ?? [];
  if (!layout || !slat) throw new Error('not planned');
  const { fromNm, toNm, leftNm, rightNm } = slat;
  const reserve = {
    fromNm,
    toNm,
    leftNm,
    rightNm,
    afterCut: 1,
    standsFor: [{ partKey: 'rail', label: 'Rail' }],
    words: '',
  };
  const planId = shop.keep({ ...body, layouts: [{ ...layout, reserves: [reserve] }] });
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const sessionId = shop.tell({ do: 'open-session', planId, boardIds: null }).sessionId ?? '';
  const boards = [{ as: 'reserve-kept' as const, boardId: shop.board('Q-7').id, place: '' }];
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(told.notes).toEqual(['Q-7-2: the reserve for Rail, held for this job. Once those have passed, plan again.']);
  const [rest, strip] = ['Q-7-1', 'Q-7-2'].map((tag) => shop.board(tag));
  expect([rest?.note, strip?.note.slice(0, 30)]).toEqual(['', 'Reserve of Hall table for Rail']);
  expect([rest?.lengthNm, strip?.lengthNm]).toEqual([39.75 * INCH, 30 * INCH]);
  expect(
    shop
      .state()
      .reservationsOfJob(jobId)
      .map((held) => held.boardId),
  ).toEqual([strip?.id]);
  shop.expectSound();
});
