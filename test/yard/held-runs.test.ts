/** A plan that is held on boards of which others hold runs, by hand or by an earlier plan. */
import { expect, test } from 'vitest';
import type { Layout, PlanBody } from '../../worker/contract/plan.ts';
import { freeRunAround, runUsed } from '../../worker/yard/decide/reserve-plan.ts';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

type Rect = Layout['offcuts'][number];

const inches = (run: { fromNm: number; toNm: number }) => [run.fromNm / INCH, run.toNm / INCH];

/** All that the plan cuts lies that much farther along; what is left over is entered anew. */
function movedAlong(plan: PlanBody, byNm: number, offcuts: Rect[] = []): PlanBody {
  const along = <R extends Rect>(rect: R): R => ({ ...rect, fromNm: rect.fromNm + byNm, toNm: rect.toNm + byNm });
  const layouts = plan.layouts.map((layout) => ({ ...layout, pieces: layout.pieces.map(along), cuts: [], offcuts }));
  return { ...plan, layouts };
}

/** Two legs of 30 in on each of two boards of 100 x 8 in. */
async function legs() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'), boardOf('Q-3'));
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity: 4 }));
  const hold = (holder: string, tag: string, fromIn: number, toIn: number) =>
    shop.tell({
      do: 'reserve',
      jobId: holder,
      boards: [{ tag, fromNm: fromIn * INCH, toNm: toIn * INCH }],
    });
  const standing = () =>
    shop.pieces(jobId, 'leg').map(({ no, state, boardId, planId }) => ({ no, state, boardId, planId }));
  const holds = (planId: string) => shop.state().reservationsOfPlan(planId);
  const planState = (planId: string) => shop.state().get('plan', planId)?.state;
  return { shop, jobId, hold, standing, holds, planState };
}

test('the free run round the pieces begins and ends where others hold the board, to the nanometre', async () => {
  const { shop, jobId } = await legs();
  const [layout] = movedAlong(shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] }), 30 * INCH).layouts;
  if (!layout) throw new Error('no board in the plan');
  const run = (fromNm: number, toNm: number) => ({ fromNm, toNm });
  const [firstNm, lastNm, lengthNm] = [30 * INCH, 90.125 * INCH, 100 * INCH];
  expect(layout.pieces.map(inches)).toEqual([
    [30, 60],
    [60.125, 90.125],
  ]);
  const free = (...others: { fromNm: number; toNm: number }[]) => freeRunAround(layout, others);
  expect(free()).toEqual(run(0, lengthNm));
  expect(free(run(0, firstNm), run(lastNm, lengthNm))).toEqual(run(firstNm, lastNm));
  expect(free(run(0, 5), run(10, firstNm - 1), run(lastNm + 1, lastNm + 2), run(lastNm + 5, lengthNm))).toEqual(
    run(firstNm - 1, lastNm + 1),
  );
  // What lies among the pieces bounds nothing: it will be told as a conflict.
  expect(free(run(0, firstNm + 1), run(lastNm - 1, lengthNm))).toEqual(run(0, lengthNm));
  // The pieces need not stand in their order along the board.
  expect(freeRunAround({ ...layout, pieces: layout.pieces.toReversed() }, [run(0, firstNm)])).toEqual(
    run(firstNm, lengthNm),
  );
  expect(freeRunAround({ ...layout, pieces: [] }, [run(0, firstNm)])).toEqual(run(0, lengthNm));
});

test('the run used ends at an offcut of the full width that reaches the end of the board, at either end', async () => {
  const { shop, jobId } = await legs();
  const [layout] = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] }).layouts;
  if (!layout) throw new Error('no board in the plan');
  const { lengthNm, widthNm } = layout;
  const near = { fromNm: 0, toNm: 10 * INCH, leftNm: 0, rightNm: widthNm };
  const far = { fromNm: 90 * INCH, toNm: lengthNm, leftNm: 0, rightNm: widthNm };
  const used = (...offcuts: Rect[]) => inches(runUsed({ ...layout, offcuts }));
  expect(used()).toEqual([0, 100]);
  expect(used(near)).toEqual([10, 100]);
  expect(used(far, near)).toEqual([10, 90]);
  for (const narrow of [{ leftNm: 1 }, { rightNm: widthNm - 1 }])
    expect(used({ ...near, ...narrow }, { ...far, ...narrow })).toEqual([0, 100]);
  expect(used({ ...near, fromNm: 1 }, { ...far, toNm: lengthNm - 1 })).toEqual([0, 100]);
  expect(inches(runUsed({ ...layout, pieces: [], offcuts: [near, far] }))).toEqual([0, 100]);
});

test('held whole, a plan takes the board between the runs of other jobs, and its own runs by hand become part of it', async () => {
  const { shop, jobId, hold, holds, standing } = await legs();
  hold(shop.job('Bench'), 'Q-1', 0, 10);
  hold(shop.job('Stool'), 'Q-1', 95, 100);
  hold(jobId, 'Q-1', 12, 14);
  hold(jobId, 'Q-1', 92, 94);
  const planId = shop.keep(movedAlong(shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] }), 30 * INCH));
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  expect(holds(planId).map(inches)).toEqual([[10, 95]]);
  expect(shop.state().reservationsOfJob(jobId)).toHaveLength(1);
  const boardId = shop.board('Q-1').id;
  expect(shop.state().reservationsOnBoard(boardId).map(inches)).toEqual([
    [0, 10],
    [10, 95],
    [95, 100],
  ]);
  expect(standing()).toEqual([
    { no: 1, state: 'planned', boardId, planId },
    { no: 2, state: 'planned', boardId, planId },
    { no: 3, state: 'wanted', boardId: null, planId: null },
    { no: 4, state: 'wanted', boardId: null, planId: null },
  ]);
  shop.expectSound();
});

test('by runs both ends of a board stay with who holds them; one inch among the pieces keeps the whole plan back', async () => {
  const { shop, jobId, hold, holds, planState } = await legs();
  const bench = shop.job('Bench');
  const [near, far] = [
    { fromNm: 0, toNm: 30 * INCH, leftNm: 0, rightNm: 8 * INCH },
    { fromNm: 90.25 * INCH, toNm: 100 * INCH, leftNm: 0, rightNm: 8 * INCH },
  ];
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }], 'Q-2': [{ key: 'leg', count: 2 }] });
  const planId = shop.keep(movedAlong(body, 30 * INCH, [near, far]));
  hold(bench, 'Q-1', 0, 30);
  const inTheWay = hold(bench, 'Q-2', 29.5, 30.5).reservationIds ?? [];
  const refusal = shop.refused({ do: 'reserve-plan', planId, how: 'runs' });
  expect(refusal.conflicts?.map(({ tag, jobName, fromNm, toNm }) => [tag, jobName, fromNm, toNm])).toEqual([
    ['Q-2', 'Bench', 29.5 * INCH, 30.5 * INCH],
  ]);
  expect(refusal.detail).toBe(
    `Q-2 is held for Bench (29 1/2" to 30 1/2" from the tagged end). None was held: plan again on free boards, or release them.`,
  );
  expect([holds(planId), planState(planId)]).toEqual([[], 'draft']);
  expect(shop.pieces(jobId, 'leg').map(({ state }) => state)).toEqual(['wanted', 'wanted', 'wanted', 'wanted']);
  shop.tell({ do: 'release', ids: inTheWay });
  shop.tell({ do: 'reserve-plan', planId, how: 'runs' });
  expect(holds(planId).map(inches)).toEqual([
    [30, 90.25],
    [30, 90.25],
  ]);
  shop.expectSound();
});

test('a plan that continues one that is only held takes its wood and its pieces over', async () => {
  const { shop, jobId, holds, planState, standing } = await legs();
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }], 'Q-2': [{ key: 'leg', count: 2 }] });
  const before = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId: before, how: 'whole' });
  const [onFirst] = body.layouts;
  if (!onFirst) throw new Error('no board in the plan');
  const after = shop.keep({ ...body, layouts: [onFirst], continues: before });
  expect(planState(before)).toBe('reserved');
  shop.tell({ do: 'reserve-plan', planId: after, how: 'whole' });
  expect([planState(before), planState(after)]).toEqual(['dropped', 'reserved']);
  expect(holds(before)).toEqual([]);
  expect(holds(after).map((held) => [held.boardId, ...inches(held)])).toEqual([[onFirst.boardId, 0, 100]]);
  expect(standing().map(({ state, planId }) => [state, planId])).toEqual([
    ['planned', after],
    ['planned', after],
    ['wanted', null],
    ['wanted', null],
  ]);
  shop.expectSound();
});

test('a plan that continues one at the saw leaves it what is at the saw, and frees the rest', async () => {
  const { shop, jobId, holds, planState, standing } = await legs();
  const [first, second] = [shop.board('Q-1').id, shop.board('Q-2').id];
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }], 'Q-2': [{ key: 'leg', count: 2 }] });
  const before = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId: before, how: 'whole' });
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId: before, boardIds: [first] });
  const onThird = shop.plan(jobId, { 'Q-3': [] });
  const pieces = body.layouts.find(({ boardId }) => boardId === second)?.pieces ?? [];
  const continued = (placed: typeof pieces) => ({
    ...onThird,
    layouts: onThird.layouts.map((layout) => ({ ...layout, pieces: placed })),
    continues: before,
  });
  // Pieces on the board at the saw are not the next plan's to take: they would be cut twice.
  const greedy = shop.keep(continued(body.layouts.find(({ boardId }) => boardId === first)?.pieces ?? []));
  const refusal = shop.refused({ do: 'reserve-plan', planId: greedy, how: 'whole' });
  expect(refusal.detail).toBe('No longer wanted as planned: Leg no. 1, Leg no. 2. Plan again.');
  expect(standing().map(({ planId }) => planId)).toEqual([before, before, before, before]);
  const after = shop.keep(continued(pieces));
  shop.tell({ do: 'reserve-plan', planId: after, how: 'whole' });
  expect([planState(before), planState(after)]).toEqual(['cutting', 'reserved']);
  expect(holds(before).map(({ boardId }) => boardId)).toEqual([first]);
  expect(shop.state().reservationsOnBoard(second)).toEqual([]);
  expect(standing().map(({ state, planId }) => [state, planId])).toEqual([
    ['planned', before],
    ['planned', before],
    ['planned', after],
    ['planned', after],
  ]);
  shop.expectSound();
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect([planState(before), planState(after)]).toEqual(['done', 'reserved']);
  shop.expectSound();
});

test('a plan that was cut in part is done once another continues it and nothing of it is at the saw', async () => {
  const { shop, jobId, planState, holds } = await legs();
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }], 'Q-2': [{ key: 'leg', count: 2 }] });
  const before = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId: before, how: 'whole' });
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId: before, boardIds: [shop.board('Q-1').id] });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect(planState(before)).toBe('cutting');
  const rest = body.layouts.filter(({ tag }) => tag === 'Q-2');
  const after = shop.keep({ ...body, layouts: rest, continues: before });
  shop.tell({ do: 'reserve-plan', planId: after, how: 'whole' });
  expect([planState(before), planState(after), holds(before)]).toEqual(['done', 'reserved', []]);
  shop.expectSound();
});

test('a plan that continues one that was dropped or is done leaves that as it is', async () => {
  const { shop, jobId, planState, holds } = await legs();
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] });
  const dropped = shop.keep(body);
  shop.tell({ do: 'drop-plan', planId: dropped });
  const after = shop.keep({ ...body, continues: dropped });
  shop.tell({ do: 'reserve-plan', planId: after, how: 'whole' });
  expect([planState(dropped), planState(after), holds(after).length]).toEqual(['dropped', 'reserved', 1]);
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId: after, boardIds: null });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const last = shop.keep({ ...shop.plan(jobId, { 'Q-2': [{ key: 'leg' }] }), continues: after });
  shop.tell({ do: 'reserve-plan', planId: last, how: 'whole' });
  expect([planState(after), planState(last)]).toEqual(['done', 'reserved']);
  // One of another job, or none at all, is not continued.
  const other = shop.job('Bench', partOf('rail'));
  const foreign = shop.plan(other, { 'Q-3': [{ key: 'rail' }] });
  for (const continues of [last, 'pl_nothing1']) {
    expect(shop.refused({ do: 'keep-plan', plan: { ...foreign, continues } }).why).toBe('plan-not-open');
  }
  shop.expectSound();
});

test('an older plan of the job stands in the way unless it is continued', async () => {
  const { shop, jobId, planState } = await legs();
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] });
  const before = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId: before, how: 'whole' });
  const other = shop.keep(shop.plan(jobId, { 'Q-1': [{ key: 'leg' }] }));
  const refusal = shop.refused({ do: 'reserve-plan', planId: other, how: 'runs' });
  expect(refusal.conflicts?.map(({ wayOut }) => wayOut)).toEqual(['drop the older plan of this job first']);
  expect([planState(before), planState(other)]).toEqual(['reserved', 'draft']);
});

test('a plan whose piece came out of another board meanwhile is not held, and names the piece', async () => {
  const { shop, jobId } = await legs();
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] });
  const planId = shop.keep(shop.plan(jobId, { 'Q-2': [{ key: 'leg', count: 2 }] }));
  const parts = [{ partKey: 'leg', element: null, good: 3, failed: 0, why: '', lengthNm: 29 * INCH }];
  const cut = { as: 'cut' as const, boardId: shop.board('Q-1').id, parts, offcuts: [], defectsFound: [], note: '' };
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards: [cut], allowExtra: false });
  const refusal = shop.refused({ do: 'reserve-plan', planId, how: 'whole' });
  expect([refusal.why, refusal.detail]).toEqual([
    'piece-not-there',
    'No longer wanted as planned: Leg no. 3. Plan again.',
  ]);
});

test('a plan of a board read since, of an older page or of a job that is done is not held', async () => {
  const { shop, jobId } = await legs();
  const planId = shop.keep(shop.plan(jobId, { 'Q-1': [{ key: 'leg' }], 'Q-2': [{ key: 'leg' }] }));
  const version = shop.state().get('plan', planId)?.version ?? 0;
  const reserve = (ifVersion?: number) =>
    ({ do: 'reserve-plan', planId, how: 'whole', ...(ifVersion ? { ifVersion } : {}) }) as const;
  expect(shop.refused(reserve(version + 1)).why).toBe('version-stale');
  const readings = [{ moisturePercent: 9, on: '2026-03-01', meter: 'pin' as const }];
  shop.tell({ do: 'read-moisture', boardId: shop.board('Q-2').id, readings });
  const stale = shop.refused(reserve(version));
  expect([stale.why, stale.conflicts?.map(({ tag }) => tag)]).toEqual(['boards-changed', ['Q-2']]);
  const ifVersion = shop.state().get('job', jobId)?.version ?? 0;
  shop.tell({ do: 'change-job', jobId, ifVersion, patch: { state: 'done' } });
  expect(shop.refused(reserve()).why).toBe('job-not-open');
});

test('two plans of one job share a board; the one that is cut first must leave the other its run', async () => {
  const { shop, jobId, holds } = await legs();
  const whole = { leftNm: 0, rightNm: 8 * INCH };
  const first = shop.keep(shop.plan(jobId, { 'Q-1': [{ key: 'leg' }] }));
  shop.tell({ do: 'reserve-plan', planId: first, how: 'runs' });
  const along = shop.plan(jobId, { 'Q-1': [{ key: 'leg' }] });
  const near = { ...whole, fromNm: 0, toNm: 50 * INCH };
  const second = shop.keep(movedAlong(along, 60 * INCH, [near]));
  shop.tell({ do: 'reserve-plan', planId: second, how: 'runs' });
  expect([...holds(first), ...holds(second)].map(inches)).toEqual([
    [0, 30.125],
    [50, 100],
  ]);
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId: first, boardIds: null });
  const boardId = shop.board('Q-1').id;
  const parts = [{ partKey: 'leg', element: null, good: 1, failed: 0, why: '' }];
  const cut = (lengthNm: number) => ({
    do: 'reconcile' as const,
    sessionId,
    restAsPlanned: false,
    boards: [
      {
        as: 'cut' as const,
        boardId,
        parts,
        offcuts: [{ tag: 'B-1', lengthNm, widthNm: 8 * INCH, place: '', defects: [], note: '' }],
        defectsFound: [],
        note: '',
      },
    ],
    allowExtra: false,
  });
  const refusal = shop.refused(cut(49 * INCH));
  expect([refusal.why, refusal.conflicts?.map(({ jobId: holder }) => holder)]).toEqual(['board-held', [jobId]]);
  expect(holds(second)).toHaveLength(1);
  shop.tell(cut(50 * INCH));
  expect(holds(second).map((held) => [held.boardId, ...inches(held)])).toEqual([[shop.board('B-1').id, 0, 50]]);
});
