/** Sessions, jobs and releases at their edges: who is named, what is let go, and what a request leaves as it was. */
import { expect, test } from 'vitest';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

async function twoBoards(quantity = 4) {
  const shop = await Shop.open();
  const [first = '', second = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'), boardOf('Q-3'));
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity }));
  const planBody = () => shop.plan(jobId, { 'Q-1': [{ key: 'leg' }], 'Q-2': [{ key: 'leg' }] });
  const held = () => {
    const planId = shop.keep(planBody());
    const { reservationIds = [] } = shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
    return { planId, reservationIds };
  };
  const planState = (planId: string) => shop.state().get('plan', planId)?.state;
  const change = (patch: { name?: string; state?: 'open' | 'done' | 'cancelled' }) =>
    ({ do: 'change-job', jobId, ifVersion: shop.state().get('job', jobId)?.version ?? 0, patch }) as const;
  const lastChanges = () => shop.journal().at(-1)?.changes ?? [];
  return { shop, first, second, jobId, held, planBody, planState, change, lastChanges };
}

for (const size of ['lengthNm', 'widthNm', 'thicknessNm'] as const) {
  test(`a board of another ${size} than planned stays from the saw, and only it`, async () => {
    const { shop, first, second, held } = await twoBoards();
    const { planId } = held();
    const board = shop.board(second);
    const patch = { [size]: board[size] + INCH };
    shop.tell({ do: 'correct-board', boardId: second, ifVersion: board.version, patch });
    const refusal = shop.refused({ do: 'open-session', planId, boardIds: null });
    expect([refusal.why, refusal.conflicts?.map(({ tag }) => tag)]).toEqual(['boards-changed', ['Q-2']]);
    expect(shop.refused({ do: 'open-session', planId, boardIds: [second] }).why).toBe('boards-changed');
    const { sessionId = '' } = shop.tell({ do: 'open-session', planId, boardIds: [first] });
    expect(shop.state().get('session', sessionId)?.boardIds).toEqual([first]);
  });
}

test('each board that cannot go to the saw is named with why: in another session, or not of this plan', async () => {
  const { shop, first, second, held } = await twoBoards();
  const { planId } = held();
  shop.tell({ do: 'open-session', planId, boardIds: [first, first] });
  const third = shop.board('Q-3').id;
  const { why, faults } = shop.refused({ do: 'open-session', planId, boardIds: [second, first, third, 'bd_nothing1'] });
  expect(why).toBe('invalid-input');
  expect(faults?.map(({ pointer, row, read, help }) => [pointer, row, read, help])).toEqual([
    ['/boardIds/1', 1, 'Q-1', 'it is in another session'],
    ['/boardIds/2', 2, 'Q-3', 'it is not a board that this plan holds'],
    ['/boardIds/3', 3, 'bd_nothing1', 'it is not a board that this plan holds'],
  ]);
  const session = shop.state().sessionsOfPlan(planId);
  expect(session.map(({ boardIds, doneBoardIds, state }) => [boardIds, doneBoardIds, state])).toEqual([
    [[first], [], 'open'],
  ]);
  expect(shop.ask('movement', { seq: shop.seq() }).summary).toBe('To the saw for Hall table: 1 board, Q-1');
});

test('a plan that is a draft, dropped or done does not go to the saw, and is told as what it is', async () => {
  const { shop, held, planBody } = await twoBoards();
  const draft = shop.keep(planBody());
  const open = (planId: string) => shop.refused({ do: 'open-session', planId, boardIds: null }).detail;
  expect(open(draft)).toBe('This plan is only a draft. Hold its boards first.');
  const { planId } = held();
  shop.tell({ do: 'drop-plan', planId });
  expect(open(planId)).toBe('This plan is dropped. Make a new plan.');
});

test('a job that ends lets go what is live of its plans, and leaves those that ended before as they were', async () => {
  const { shop, jobId, held, planBody, planState, change, lastChanges } = await twoBoards(6);
  const { planId: done } = held();
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId: done, boardIds: null });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  shop.takeIn(boardOf('Q-4'), boardOf('Q-5'));
  const dropped = shop.keep(shop.plan(jobId, { 'Q-3': [{ key: 'leg' }] }));
  shop.tell({ do: 'drop-plan', planId: dropped });
  const reserved = shop.keep(shop.plan(jobId, { 'Q-3': [{ key: 'leg' }] }));
  shop.tell({ do: 'reserve-plan', planId: reserved, how: 'whole' });
  const cutting = shop.keep(shop.plan(jobId, { 'Q-4': [{ key: 'leg' }] }));
  shop.tell({ do: 'reserve-plan', planId: cutting, how: 'whole' });
  const second = shop.tell({ do: 'open-session', planId: cutting, boardIds: null }).sessionId ?? '';
  const untouched = [{ as: 'untouched' as const, boardId: shop.board('Q-4').id, why: '' }];
  shop.tell({ do: 'reconcile', sessionId: second, restAsPlanned: false, boards: untouched, allowExtra: false });
  const draft = shop.keep(shop.plan(jobId, { 'Q-5': [{ key: 'leg' }] }));
  const plans = [done, dropped, reserved, cutting, draft];
  expect(plans.map(planState)).toEqual(['done', 'dropped', 'reserved', 'cutting', 'draft']);
  shop.tell(change({ state: 'done' }));
  expect(plans.map(planState)).toEqual(['done', 'dropped', 'dropped', 'done', 'dropped']);
  const touched = lastChanges().flatMap(({ entity, id }) => (entity === 'plan' ? [id] : []));
  expect(touched.sort()).toEqual([reserved, cutting, draft].sort());
  expect(shop.pieces(jobId, 'leg').map(({ state }) => state)).toEqual([
    'roughed',
    'roughed',
    'wanted',
    'wanted',
    'wanted',
    'wanted',
  ]);
  expect(shop.state().reservationsOfJob(jobId)).toEqual([]);
  shop.expectSound();
  expect(planBody().layouts).toHaveLength(2);
});

test('a new name, or an end taken back, lets nothing go', async () => {
  const { shop, jobId, held, planState, change, lastChanges } = await twoBoards();
  const { planId } = held();
  expect(shop.tell(change({ name: 'Side table' })).notes).toEqual([]);
  expect(lastChanges().map(({ entity, now }) => [entity, now])).toEqual([['job', { name: 'Side table' }]]);
  expect(shop.tell(change({ state: 'open' })).notes).toEqual([]);
  expect(lastChanges()).toEqual([]);
  expect([planState(planId), shop.state().reservationsOfJob(jobId).length]).toEqual(['reserved', 2]);
  expect(shop.tell(change({ state: 'cancelled' })).notes).toEqual(['Released 2 reservations.']);
  expect(shop.ask('movement', { seq: shop.seq() }).summary).toBe('The job Side table is cancelled');
  expect(shop.tell(change({ state: 'done' })).notes).toEqual([]);
  shop.tell(change({ state: 'open' }));
  expect(shop.ask('movement', { seq: shop.seq() }).summary).toBe('Changed the job Side table');
  const stale = { ...change({ name: 'x' }), ifVersion: 1 };
  expect(shop.refused(stale).why).toBe('version-stale');
});

test('a job is kept open by what is still at the saw, board by board', async () => {
  const { shop, first, held, change } = await twoBoards();
  const { planId } = held();
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId, boardIds: null });
  const boards = [{ as: 'planned' as const, boardId: first, place: '' }];
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  const refusal = shop.refused(change({ state: 'done' }));
  expect([refusal.why, refusal.conflicts?.map(({ tag }) => tag)]).toEqual(['board-held', ['Q-2']]);
  shop.tell(change({ name: 'Side table' }));
});

test('a release of several reservations names its boards once, and one bad id keeps all of them', async () => {
  const { shop, jobId, held, planState } = await twoBoards();
  const { planId, reservationIds } = held();
  const bench = shop.job('Bench');
  const [byHand = ''] = shop.reserve(bench, 'Q-3');
  const [ofPlan = ''] = reservationIds;
  const ids = [ofPlan, ofPlan, 'rs_nothing1', byHand, 'rs_nothing2', 'rs_nothing1'];
  const bad = shop.refused({ do: 'release', ids });
  // One named twice is told once, at the place where it stands first.
  expect([bad.why, bad.faults?.map(({ pointer, row, read }) => [pointer, row, read])]).toEqual([
    'not-found',
    [
      ['/ids/2', 2, 'rs_nothing1'],
      ['/ids/4', 4, 'rs_nothing2'],
    ],
  ]);
  expect(shop.state().reservationsOfJob(bench)).toHaveLength(1);
  const told = shop.tell({ do: 'release', ids: [ofPlan, byHand, ofPlan] });
  expect(told.reservationIds).toEqual([ofPlan, byHand]);
  expect(told.notes).toEqual(['1 piece planned on them is wanted again.']);
  // Of two jobs, so the movement is of neither.
  expect(shop.ask('movement', { seq: shop.seq() })).toMatchObject({ summary: 'Released Q-1, Q-3', jobId: null });
  expect(planState(planId)).toBe('reserved');
  shop.tell({ do: 'release', ids: reservationIds.slice(1) });
  expect(shop.ask('movement', { seq: shop.seq() })).toMatchObject({ summary: 'Released Q-2', jobId });
  expect(planState(planId)).toBe('draft');
  expect(shop.pieces(jobId, 'leg').map(({ state }) => state)).toEqual(['wanted', 'wanted', 'wanted', 'wanted']);
  shop.expectSound();
});

test('what was held by hand is let go without a word of pieces; what is being cut stands in the way of the rest', async () => {
  const { shop, jobId, held } = await twoBoards();
  const { planId, reservationIds } = held();
  const byHand = shop.reserve(jobId, 'Q-3');
  shop.tell({ do: 'open-session', planId, boardIds: [shop.board('Q-1').id] });
  const refusal = shop.refused({ do: 'release', ids: [...byHand, ...reservationIds] });
  expect([refusal.why, refusal.detail]).toEqual(['board-held', 'Being cut: Q-1, Q-2. None was released.']);
  const both = shop.refused({ do: 'release', ids: [...byHand, 'rs_nothing1', ...reservationIds] });
  expect([both.why, both.conflicts?.length]).toEqual(['not-found', 2]);
  expect(shop.tell({ do: 'release', ids: byHand }).notes).toEqual([]);
});

test('a draft dropped says nothing of pieces or boards; a plan gone on since is not dropped by the old page', async () => {
  const { shop, jobId, held, planBody } = await twoBoards();
  const draft = shop.keep(planBody());
  expect(shop.tell({ do: 'drop-plan', planId: draft }).notes).toEqual([]);
  expect(shop.ask('movement', { seq: shop.seq() })).toMatchObject({ summary: 'Dropped a plan of Hall table', jobId });
  const { planId } = held();
  const version = shop.state().get('plan', planId)?.version ?? 0;
  expect(shop.refused({ do: 'drop-plan', planId, ifVersion: version - 1 }).why).toBe('version-stale');
  shop.tell({
    do: 'release',
    ids: shop
      .state()
      .reservationsOfPlan(planId)
      .slice(0, 1)
      .map(({ id }) => id),
  });
  const { notes } = shop.tell({ do: 'drop-plan', planId, ifVersion: version });
  expect(notes).toEqual(['1 piece is wanted again.']);
  expect(shop.ask('movement', { seq: shop.seq() }).summary).toBe('Dropped a plan of Hall table: 1 board released');
});

test('the journal names a board that was not touched apart from those that were cut', async () => {
  const { shop, second, held } = await twoBoards();
  const { planId } = held();
  const open = () => shop.tell({ do: 'open-session', planId, boardIds: null }).sessionId ?? '';
  const untouched = [{ as: 'untouched' as const, boardId: second, why: '' }];
  shop.tell({ do: 'reconcile', sessionId: open(), restAsPlanned: true, boards: untouched, allowExtra: false });
  expect(shop.journal().at(-1)?.summary).toBe(
    'What came out for Hall table, Q-1: 1 piece good, 1 offcut; not touched: Q-2',
  );
  shop.tell({ do: 'reconcile', sessionId: open(), restAsPlanned: false, boards: untouched, allowExtra: false });
  expect(shop.journal().at(-1)?.summary).toBe('Not touched for Hall table: Q-2');
});
