/** What came out at the saw: pieces, offcuts, holds of other jobs, and the wood balance. */
import { expect, test } from 'vitest';
import { boardOf, INCH, KERF, partOf, Shop } from './shop.ts';

/** A board of 100 x 8 x 2 in; two legs of 30 x 8 in leave an offcut of 100 - 60 - 2/8 = 39 3/4 in. */
async function legsAtTheSaw(how: 'whole' | 'runs' = 'whole') {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-7', { place: 'rack 2', costMinor: 20_000 }));
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity: 4 }));
  const { planId, sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg', count: 2 }] }, how);
  return { shop, boardId, jobId, planId, sessionId };
}

const cut = { as: 'cut' as const, offcuts: [], defectsFound: [], note: '' };
const legs = (good: number, failed = 0, why = '') => ({ partKey: 'leg', element: null, good, failed, why });

test('as planned with one click: pieces rest, the offcut is a board of its own, the balance closes', async () => {
  const { shop, boardId, jobId, planId, sessionId } = await legsAtTheSaw();
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const rested = shop.pieces(jobId, 'leg').filter((piece) => piece.state === 'roughed');
  // Seven days for a critical part: the shop's default, common practice, no source.
  expect(rested.map((piece) => piece.restingUntil)).toEqual(['2026-03-09', '2026-03-09']);
  expect(rested.map((piece) => piece.boardId)).toEqual([boardId, boardId]);
  const offcut = shop.board('Q-7-1');
  expect(offcut.lengthNm).toBe(100 * INCH - 2 * (30 * INCH + KERF));
  expect(offcut.origin).toEqual({ kind: 'offcut', parentId: boardId, sessionId });
  expect(offcut.costMinor).toBe(7_950);
  expect(shop.board(boardId).state).toBe('cut-up');
  expect(shop.state().get('plan', planId)?.state).toBe('done');
  expect(shop.state().get('session', sessionId)?.state).toBe('closed');
  expect(shop.state().reservationsOnBoard(boardId)).toEqual([]);
  const side = BigInt(8 * INCH) * BigInt(2 * INCH);
  expect(told.balances).toEqual([
    {
      boardId,
      tag: 'Q-7',
      inNm3: String(BigInt(100 * INCH) * side),
      partsNm3: String(BigInt(60 * INCH) * side),
      failedNm3: '0',
      offcutsNm3: String(BigInt(39.75 * INCH) * side),
      kerfNm3: String(BigInt(2 * KERF) * side),
      scrapNm3: '0',
      writeOffNm3: '0',
    },
  ]);
  shop.expectSound();
});

test('a failed leg stays as history and is wanted again', async () => {
  const { shop, boardId, jobId, sessionId } = await legsAtTheSaw();
  const told = shop.tell({
    do: 'reconcile',
    sessionId,
    restAsPlanned: false,
    boards: [{ ...cut, boardId, parts: [legs(1, 1, 'a shake opened')] }],
    allowExtra: false,
  });
  expect(shop.pieces(jobId, 'leg').map((piece) => [piece.no, piece.attempt, piece.state])).toEqual([
    [1, 1, 'failed'],
    [1, 2, 'wanted'],
    [2, 1, 'roughed'],
    [3, 1, 'wanted'],
    [4, 1, 'wanted'],
  ]);
  expect(told.wantedAgain).toEqual([{ partKey: 'leg', label: 'Leg', element: null, count: 1 }]);
  shop.expectSound();
});

test('a failed leg and its good successor from the same board: the history keeps both attempts', async () => {
  const { shop, boardId, jobId, sessionId } = await legsAtTheSaw();
  shop.tell({
    do: 'reconcile',
    sessionId,
    restAsPlanned: false,
    boards: [{ ...cut, boardId, parts: [legs(2, 1, 'the fence slipped')] }],
    allowExtra: false,
  });
  expect(shop.pieces(jobId, 'leg').map((piece) => [piece.no, piece.attempt, piece.state, piece.why])).toEqual([
    [1, 1, 'failed', 'the fence slipped'],
    [1, 2, 'wanted', ''],
    [2, 1, 'roughed', ''],
    [3, 1, 'roughed', ''],
    [4, 1, 'wanted', ''],
  ]);
});

test('five legs where four are wanted is refused, and taken as a spare on purpose', async () => {
  const { shop, boardId, jobId, sessionId } = await legsAtTheSaw();
  const boards = [{ ...cut, boardId, parts: [{ ...legs(5), lengthNm: 19 * INCH }] }];
  const refusal = shop.refused({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(refusal.why).toBe('more-cut-than-wanted');
  expect(refusal.detail).toContain('1 piece of Leg');
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: true });
  expect(shop.pieces(jobId, 'leg').map((piece) => [piece.no, piece.state])).toEqual(
    [1, 2, 3, 4, 5].map((no) => [no, 'roughed']),
  );
  shop.expectSound();
});

test('wood that does not balance is refused with the difference', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw();
  const offcuts = [{ tag: 'Q-7-A', lengthNm: 50 * INCH, widthNm: 8 * INCH, place: '', defects: [], note: '' }];
  const boards = [{ ...cut, boardId, parts: [legs(2)], offcuts }];
  const refusal = shop.refused({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(refusal.why).toBe('wood-does-not-balance');
  // 60 + 50 - 100 = 10 in too long, of 8 x 2 in: 160 cubic inches, 160/144 = 1.111 board feet.
  const tooMuch = BigInt(10 * INCH) * BigInt(8 * INCH) * BigInt(2 * INCH);
  expect(refusal.detail).toContain('1.111 board feet');
  expect(refusal.detail).toContain(String(tooMuch));
  expect(shop.board(boardId).state).toBe('in-stock');
});

test('stated scrap must close the balance to the last cubic nanometre', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw();
  const side = BigInt(8 * INCH) * BigInt(2 * INCH);
  const kerfNm3 = String(BigInt(2 * KERF) * side);
  const scrap = BigInt(39.75 * INCH) * side;
  const outcome = (scrapNm3: bigint) => ({
    do: 'reconcile' as const,
    sessionId,
    restAsPlanned: false,
    boards: [{ ...cut, boardId, parts: [legs(2)], kerfNm3, scrapNm3: String(scrapNm3) }],
    allowExtra: false,
  });
  expect(shop.refused(outcome(scrap - 1n)).detail).toContain('(1 cubic nanometres) of Q-7 are not accounted for');
  expect(shop.refused(outcome(scrap + 1n)).why).toBe('wood-does-not-balance');
  expect(shop.tell(outcome(scrap)).balances?.[0]?.scrapNm3).toBe(String(scrap));
});

test('fewer cuts than planned: the larger offcut is believed, the kerf is what is left', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw();
  const offcuts = [{ tag: 'Q-7', lengthNm: 70 * INCH - KERF, widthNm: 8 * INCH, place: '', defects: [], note: '' }];
  const boards = [{ ...cut, boardId, parts: [legs(1)], offcuts }];
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(told.balances?.[0]?.kerfNm3).toBe(String(BigInt(KERF) * BigInt(8 * INCH) * BigInt(2 * INCH)));
  expect(told.balances?.[0]?.scrapNm3).toBe('0');
  expect(told.notes).toEqual(['Q-7: less is left for the blade than planned, so all of that counts as kerf.']);
  // The rest may keep the tag of its parent, because the parent is gone.
  const bearers = shop
    .state()
    .boardsByTag('Q-7')
    .map((board) => [board.id === boardId, board.state]);
  expect(bearers).toContainEqual([true, 'cut-up']);
  expect(bearers).toContainEqual([false, 'in-stock']);
  shop.tell({ do: 'undo', seq: shop.seq() });
  expect(shop.board(boardId).state).toBe('in-stock');
  shop.expectSound();
});

test('a board not touched stays held with its pieces planned, until the plan is dropped', async () => {
  const { shop, boardId, jobId, planId, sessionId } = await legsAtTheSaw();
  const boards = [{ as: 'untouched' as const, boardId, why: 'the light went' }];
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(told.wantedAgain).toEqual([]);
  expect(told.balances).toEqual([]);
  expect(shop.board(boardId).state).toBe('in-stock');
  const states = () => shop.pieces(jobId, 'leg').map((piece) => piece.state);
  expect(states()).toEqual(['planned', 'planned', 'wanted', 'wanted']);
  expect(shop.state().get('plan', planId)?.state).toBe('cutting');
  expect(shop.state().reservationsOnBoard(boardId)).toHaveLength(1);
  shop.tell({ do: 'drop-plan', planId });
  expect(states()).toEqual(['wanted', 'wanted', 'wanted', 'wanted']);
  expect(shop.state().get('plan', planId)?.state).toBe('done');
  expect(shop.state().reservationsOnBoard(boardId)).toEqual([]);
});

test('a board that broke is written off whole', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw();
  const boards = [{ as: 'written-off' as const, boardId, why: 'split from end to end' }];
  const [balance] =
    shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false }).balances ?? [];
  expect(balance?.writeOffNm3).toBe(balance?.inNm3);
  expect(shop.board(boardId).state).toBe('written-off');
});

test('another job’s run lives on in the offcut it lies in', async () => {
  const { shop, sessionId } = await legsAtTheSaw('runs');
  const bench = shop.job('Bench');
  const fromNm = 2 * (30 * INCH + KERF);
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-7', fromNm: fromNm + INCH, toNm: fromNm + 21 * INCH }] });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const [held] = shop.state().reservationsOfJob(bench);
  expect([held?.boardId, held?.fromNm, held?.toNm]).toEqual([shop.board('Q-7-1').id, INCH, 21 * INCH]);
  shop.tell({ do: 'undo', seq: shop.seq() });
  expect(shop.state().reservationsOfJob(bench)[0]?.boardId).toBe(shop.board('Q-7').id);
  shop.expectSound();
});

test('a board is not cut up when no offcut is left that could be another job’s run', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw('runs');
  const bench = shop.job('Bench');
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-7', fromNm: 70 * INCH, toNm: 100 * INCH }] });
  const outcome = (lengthNm: number) => ({
    do: 'reconcile' as const,
    sessionId,
    restAsPlanned: false,
    boards: [
      {
        ...cut,
        boardId,
        parts: [legs(1)],
        offcuts: [{ tag: 'B-1', lengthNm, widthNm: 8 * INCH, place: '', defects: [], note: '' }],
      },
    ],
    allowExtra: false,
  });
  const refusal = shop.refused(outcome(29 * INCH));
  expect(refusal.conflicts?.map((conflict) => [conflict.jobName, conflict.wayOut])).toEqual([
    ['Bench', 'enter an offcut of at least 30" for it, or release that run first'],
  ]);
  shop.tell(outcome(30 * INCH));
  expect(
    shop
      .state()
      .reservationsOfJob(bench)
      .map((held) => [held.fromNm, held.toNm]),
  ).toEqual([[0, 30 * INCH]]);
  shop.expectSound();
});

test('defects on the kept end go with the offcut, at their place on it', async () => {
  const shop = await Shop.open();
  const knot = { kind: 'knot-sound', face: 'a', fromNm: 55 * INCH, toNm: 65 * INCH, leftNm: 0, rightNm: INCH } as const;
  shop.takeIn(boardOf('Q-7', { defects: [knot] }));
  const jobId = shop.job('Hall table', partOf('leg'));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg', count: 2 }] });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const fromNm = 2 * (30 * INCH + KERF);
  expect(shop.board('Q-7-1').defects).toEqual([{ ...knot, fromNm: 0, toNm: 65 * INCH - fromNm }]);
});

test('a taken offcut tag, one tag too many, an unknown row and a board of another session are told, and nothing is entered', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw();
  shop.takeIn(boardOf('Q-8'));
  const all = { do: 'reconcile' as const, sessionId, restAsPlanned: false, allowExtra: false };
  const planned = (tags: string[]) => ({ ...all, boards: [{ as: 'planned' as const, boardId, tags, place: '' }] });
  expect(shop.refused(planned(['q-8'])).faults?.[0]?.pointer).toBe('/boards/0/offcuts/0/tag');
  expect(shop.refused(planned(['Q-9', 'Q-10'])).faults?.[0]?.pointer).toBe('/boards/0/tags');
  const unknown = { ...all, boards: [{ ...cut, boardId, parts: [{ ...legs(1), partKey: 'arm' }] }] };
  expect(shop.refused(unknown).faults?.[0]?.read).toBe('arm');
  const foreign = { ...all, boards: [{ as: 'untouched' as const, boardId: shop.board('Q-8').id, why: '' }] };
  expect(shop.refused(foreign).faults?.[0]?.help).toBe('this board is not in this session');
});

test('a session of two boards is entered board by board and closes with the last', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 4 }));
  const { planId, sessionId } = shop.atTheSaw(jobId, {
    'Q-1': [{ key: 'leg', count: 2 }],
    'Q-2': [{ key: 'leg', count: 2 }],
  });
  const first = shop.board('Q-1').id;
  const boards = [{ as: 'planned' as const, boardId: first, place: '' }];
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(shop.state().get('session', sessionId)?.state).toBe('open');
  const twice = shop.refused({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(twice.faults?.[0]?.help).toBe('this board is written down already');
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect(shop.state().get('session', sessionId)?.state).toBe('closed');
  expect(shop.state().get('plan', planId)?.state).toBe('done');
  expect(shop.refused({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false }).why).toBe(
    'session-closed',
  );
  shop.expectSound();
});

test('kerf is what the blade takes inside the stock, across and along', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 1 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg', widthNm: 5 * INCH }] });
  const [balance] =
    shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false }).balances ?? [];
  // One crosscut over 8 in and one rip over 30 in, 1/8 in wide, through 2 in of wood.
  const kerf = (BigInt(8 * INCH) + BigInt(30 * INCH)) * BigInt(KERF) * BigInt(2 * INCH);
  expect(balance?.kerfNm3).toBe(String(kerf));
  // What the rip leaves beside the leg: 30 in long, 8 - 5 - 1/8 = 2 7/8 in wide.
  expect(balance?.scrapNm3).toBe(String(BigInt(30 * INCH) * BigInt(2.875 * INCH) * BigInt(2 * INCH)));
});

test('a row taken off the list while its board is at the saw: as planned no longer fits, what came out still does', async () => {
  const { shop, boardId, jobId, sessionId } = await legsAtTheSaw();
  shop.tell({ do: 'move-pieces', jobId, steps: [1, 2].map((no) => shop.step('leg', no, 'wanted')) });
  shop.cutList(jobId, partOf('rail'));
  const all = { do: 'reconcile' as const, sessionId, allowExtra: false };
  const refusal = shop.refused({ ...all, restAsPlanned: true, boards: [] });
  expect([refusal.why, refusal.faults?.[0]?.help]).toEqual([
    'invalid-input',
    'Leg is no longer on the cut list as it was planned; enter what came out of Q-7 instead',
  ]);
  shop.tell({ ...all, restAsPlanned: false, boards: [{ ...cut, boardId, parts: [] }] });
  shop.expectSound();
});

test('failures beyond what is wanted are told, or taken with the spares', async () => {
  const { shop, boardId, jobId, sessionId } = await legsAtTheSaw();
  shop.cutList(jobId, partOf('leg', { label: 'Leg', quantity: 4 }), partOf('peg', { label: 'Peg', quantity: 1 }));
  const peg = { partKey: 'peg', element: null, good: 1, failed: 0, why: '', lengthNm: INCH, widthNm: INCH };
  shop.tell({
    do: 'reconcile',
    sessionId,
    restAsPlanned: false,
    boards: [{ ...cut, boardId, parts: [peg] }],
    allowExtra: false,
  });
  shop.takeIn(boardOf('Q-8'));
  const second = shop.atTheSaw(jobId, { 'Q-8': [{ key: 'leg', count: 2 }] }).sessionId;
  const boards = [
    { ...cut, boardId: shop.board('Q-8').id, parts: [legs(2), { ...peg, good: 0, failed: 1, why: 'it flew' }] },
  ];
  const all = { do: 'reconcile' as const, sessionId: second, restAsPlanned: false, boards };
  expect(shop.refused({ ...all, allowExtra: false }).detail).toContain('1 piece of Peg');
  const [balance] = shop.tell({ ...all, allowExtra: true }).balances ?? [];
  expect(balance?.failedNm3).toBe(String(BigInt(INCH) * BigInt(INCH) * BigInt(2 * INCH)));
  shop.expectSound();
});

test('pieces count first against this board’s plan, then against what is wanted, and last against another board’s', async () => {
  const shop = await Shop.open();
  const [first = '', second = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity: 5 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-2': [{ key: 'leg', count: 2 }], 'Q-1': [{ key: 'leg', count: 2 }] });
  const enter = (boardId: string, good: number) =>
    shop.tell({
      do: 'reconcile',
      sessionId,
      restAsPlanned: false,
      boards: [{ ...cut, boardId, parts: [{ ...legs(good), lengthNm: 20 * INCH }] }],
      allowExtra: false,
    });
  const standing = () => shop.pieces(jobId, 'leg').map((piece) => [piece.no, piece.state, piece.boardId]);
  // Legs 1 and 2 are planned on Q-2, legs 3 and 4 on Q-1, and leg 5 is wanted.
  enter(first, 3);
  expect(standing()).toEqual([
    [1, 'planned', second],
    [2, 'planned', second],
    [3, 'roughed', first],
    [4, 'roughed', first],
    [5, 'roughed', first],
  ]);
  enter(second, 2);
  expect(standing().map(([, state]) => state)).toEqual(['roughed', 'roughed', 'roughed', 'roughed', 'roughed']);
});

test('a piece planned at two sizes counts at this board’s', async () => {
  const shop = await Shop.open();
  const [first = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 2 }));
  const { sessionId } = shop.atTheSaw(jobId, {
    'Q-2': [{ key: 'leg', lengthNm: 31 * INCH }],
    'Q-1': [{ key: 'leg', lengthNm: 30 * INCH }],
  });
  const boards = [{ ...cut, boardId: first, parts: [legs(1)] }];
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(told.balances?.[0]?.partsNm3).toBe(String(BigInt(30 * INCH) * BigInt(8 * INCH) * BigInt(2 * INCH)));
});

test('two runs of others find their place side by side in one offcut, if it is long enough for both', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw('runs');
  const [bench, stool] = [shop.job('Bench'), shop.job('Stool')];
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-7', fromNm: 70 * INCH, toNm: 80 * INCH }] });
  shop.tell({ do: 'reserve', jobId: stool, boards: [{ tag: 'Q-7', fromNm: 85 * INCH, toNm: 100 * INCH }] });
  const outcome = (lengthNm: number) => ({
    do: 'reconcile' as const,
    sessionId,
    restAsPlanned: false,
    boards: [
      {
        ...cut,
        boardId,
        parts: [legs(1)],
        offcuts: [{ tag: 'B-1', lengthNm, widthNm: 8 * INCH, place: '', defects: [], note: '' }],
      },
    ],
    allowExtra: false,
  });
  expect(shop.refused(outcome(25 * INCH - 1)).conflicts?.map((conflict) => conflict.jobName)).toEqual(['Stool']);
  shop.tell(outcome(25 * INCH));
  const runs = [bench, stool].map((jobId) =>
    shop
      .state()
      .reservationsOfJob(jobId)
      .map((held) => [held.fromNm, held.toNm]),
  );
  expect(runs).toEqual([[[0, 10 * INCH]], [[10 * INCH, 25 * INCH]]]);
  shop.expectSound();
});

test('two offcuts cannot share a tag', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw();
  const offcut = { lengthNm: 12 * INCH, widthNm: 8 * INCH, place: '', defects: [], note: '' };
  const offcuts = [
    { ...offcut, tag: 'O-1' },
    { ...offcut, tag: 'o-1' },
  ];
  const boards = [{ ...cut, boardId, parts: [legs(1)], offcuts }];
  const refusal = shop.refused({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect([refusal.why, refusal.faults?.map((fault) => fault.read)]).toEqual(['tag-taken', ['o-1']]);
});

test('a reserve strip left whole gets a tag, a note and a hold; its pieces are wanted again and the wood adds up', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-7'));
  const jobId = shop.job(
    'Hall table',
    partOf('rail', { label: 'Rail', quantity: 1 }),
    partOf('slat', { label: 'Slat', quantity: 2 }),
  );
  const body = shop.plan(jobId, { 'Q-7': [{ key: 'rail' }, { key: 'slat', count: 2 }] });
  const [layout] = body.layouts;
  const slats = layout?.pieces.filter(({ partKey }) => partKey === 'slat') ?? [];
  const strip = { fromNm: 30 * INCH + KERF, toNm: layout?.lengthNm ?? 0, leftNm: 0, rightNm: layout?.widthNm ?? 0 };
  const reserve = { ...strip, afterCut: 2, standsFor: [{ partKey: 'rail', label: 'Rail' }], words: 'Leave it whole.' };
  const planId = shop.keep({ ...body, layouts: body.layouts.map((one) => ({ ...one, reserves: [reserve] })) });
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const sessionId = shop.tell({ do: 'open-session', planId, boardIds: null }).sessionId ?? '';
  const boards = [{ as: 'reserve-kept' as const, boardId: shop.board('Q-7').id, place: 'rack 3' }];
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(told.notes?.join()).toContain('Q-7-1: the reserve for Rail, held for this job');
  const kept = shop.board('Q-7-1');
  expect(kept).toMatchObject({ lengthNm: strip.toNm - strip.fromNm, widthNm: strip.rightNm, place: 'rack 3' });
  expect(kept.note).toBe(
    'Reserve of Hall table for Rail: leave it whole until they have rested and passed, then Slat 1, Slat 2 can come from it.',
  );
  expect(shop.state().reservationsOnBoard(kept.id)).toMatchObject([{ jobId, planId: null, fromNm: 0 }]);
  expect(slats).toHaveLength(2);
  expect(shop.pieces(jobId, 'rail').map(({ state }) => state)).toEqual(['roughed']);
  expect(shop.pieces(jobId, 'slat').map(({ state }) => state)).toEqual(['wanted', 'wanted']);
  expect(shop.state().get('plan', planId)?.state).toBe('done');
  shop.expectSound();
});

test('a board without a reserve cannot keep one', async () => {
  const { shop, boardId, sessionId } = await legsAtTheSaw();
  const boards = [{ as: 'reserve-kept' as const, boardId, place: '' }];
  const refusal = shop.refused({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(refusal.faults?.[0]?.help).toBe('take it as planned');
});
