/** Plans: kept on the boards as they were, held, dropped, and taken to the saw. */
import { expect, test } from 'vitest';
import { boardOf, INCH, KERF, partOf, Shop } from './shop.ts';

async function planned() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity: 4 }));
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }], 'Q-2': [{ key: 'leg', count: 2 }] });
  return { shop, jobId, body };
}

const states = (shop: Shop, jobId: string) => shop.pieces(jobId, 'leg').map((piece) => piece.state);

test('a plan made before a board was read or corrected is not kept', async () => {
  const { shop, body } = await planned();
  const readings = [{ moisturePercent: 14, on: '2026-03-01', meter: 'pin' as const }];
  shop.tell({ do: 'read-moisture', boardId: shop.board('Q-2').id, readings });
  const refusal = shop.refused({ do: 'keep-plan', plan: body });
  expect([refusal.why, refusal.conflicts?.map((conflict) => conflict.tag)]).toEqual(['boards-changed', ['Q-2']]);
});

test('a plan of an older cut list is neither kept nor held', async () => {
  const { shop, jobId, body } = await planned();
  const planId = shop.keep(body);
  shop.cutList(jobId, partOf('leg', { label: 'Leg', quantity: 5 }));
  expect(shop.refused({ do: 'keep-plan', plan: body }).why).toBe('boards-changed');
  expect(shop.refused({ do: 'reserve-plan', planId, how: 'whole' }).detail).toContain('set anew');
});

test('a newer plan drops the older drafts of its job', async () => {
  const { shop, body } = await planned();
  const [first, second] = [shop.keep(body), shop.keep(body)];
  expect(shop.state().get('plan', first)?.state).toBe('dropped');
  expect(shop.state().get('plan', second)?.state).toBe('draft');
  expect(shop.refused({ do: 'reserve-plan', planId: first, how: 'whole' }).why).toBe('plan-not-open');
});

test('holding a plan holds whole boards and marks its pieces planned', async () => {
  const { shop, jobId, body } = await planned();
  const planId = shop.keep(body);
  const told = shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  expect(told.reservationIds).toHaveLength(2);
  expect(states(shop, jobId)).toEqual(['planned', 'planned', 'planned', 'planned']);
  const held = shop.state().reservationsOfPlan(planId);
  expect(held.map((each) => [each.fromNm, each.toNm])).toEqual([
    [0, 100 * INCH],
    [0, 100 * INCH],
  ]);
  expect(shop.ask('job', { jobId }).standing.pieces).toEqual({ planned: 4 });
  shop.expectSound();
});

test('holding by runs leaves the clean far end of each board free for another job', async () => {
  const { shop, body } = await planned();
  shop.tell({ do: 'reserve-plan', planId: shop.keep(body), how: 'runs' });
  // Two legs of 30 in and two kerfs of 1/8 in: the run ends at 60 1/4 in, where the offcut begins.
  const usedNm = 2 * (30 * INCH + KERF);
  const bench = shop.job('Bench');
  const fromNm = usedNm;
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1', fromNm }] });
  expect(shop.refused({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-2', fromNm: fromNm - 1 }] }).why).toBe(
    'board-held',
  );
});

test('what the job held by hand gives way to its plan; what another job holds does not', async () => {
  const { shop, jobId, body } = await planned();
  const planId = shop.keep(body);
  shop.reserve(jobId, 'Q-1');
  const [bench] = [shop.job('Bench')];
  const ids = shop.reserve(bench, 'Q-2');
  const refusal = shop.refused({ do: 'reserve-plan', planId, how: 'whole' });
  expect(refusal.conflicts?.map((conflict) => [conflict.tag, conflict.jobName])).toEqual([['Q-2', 'Bench']]);
  shop.tell({ do: 'release', ids });
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  expect(
    shop
      .state()
      .reservationsOfJob(jobId)
      .map((held) => held.planId),
  ).toEqual([planId, planId]);
  shop.expectSound();
});

test('a board that is in the way of a plan is named with who holds it and the way out', async () => {
  const { shop, jobId, body } = await planned();
  const first = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId: first, how: 'whole' });
  shop.cutList(jobId, partOf('leg', { label: 'Leg', quantity: 5 }));
  shop.takeIn(boardOf('Q-3'));
  const ids = shop.reserve(shop.job('Bench'), 'Q-3');
  const second = shop.keep(shop.plan(jobId, { 'Q-1': [{ key: 'leg' }] }));
  // A newer draft drops drafts only: what is held stays held.
  expect(shop.state().get('plan', first)?.state).toBe('reserved');
  const own = shop.refused({ do: 'reserve-plan', planId: second, how: 'whole' });
  expect(own.conflicts?.map(({ tag, wayOut }) => [tag, wayOut])).toEqual([
    ['Q-1', 'drop the older plan of this job first'],
  ]);
  const third = shop.keep(shop.plan(jobId, { 'Q-3': [{ key: 'leg' }] }));
  const foreign = shop.refused({ do: 'reserve-plan', planId: third, how: 'whole' });
  expect(foreign.conflicts?.map(({ tag, wayOut }) => [tag, wayOut])).toEqual([
    ['Q-3', 'take another board, or release it from Bench'],
  ]);
  expect(foreign.detail).toBe(
    'Q-3 is held for Bench (all of it). None was held: plan again on free boards, or release them.',
  );
  shop.tell({ do: 'release', ids });
  expect(shop.tell({ do: 'reserve-plan', planId: third, how: 'whole' }).reservationIds).toHaveLength(1);
});

test('a run held by hand becomes part of the plan’s, from the first of their beginnings to the last of their ends', async () => {
  const { shop, jobId, body } = await planned();
  shop.tell({ do: 'reserve', jobId, boards: [{ tag: 'Q-1', fromNm: 10 * INCH, toNm: 80 * INCH }] });
  const planId = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId, how: 'runs' });
  const runs = shop
    .state()
    .reservationsOfPlan(planId)
    .map((held) => [held.fromNm / INCH, held.toNm / INCH]);
  // Two legs of 30 in and two kerfs of 1/8 in end at 60 1/4 in.
  expect(runs).toEqual([
    [0, 80],
    [0, 60.25],
  ]);
  expect(shop.state().reservationsOfJob(jobId)).toHaveLength(2);
});

test('dropping a plan frees its boards and its pieces are wanted again', async () => {
  const { shop, jobId, body } = await planned();
  const planId = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  expect(shop.tell({ do: 'drop-plan', planId }).notes).toEqual(['4 pieces are wanted again.']);
  expect(states(shop, jobId)).toEqual(['wanted', 'wanted', 'wanted', 'wanted']);
  expect(shop.state().reservationsOfJob(jobId)).toEqual([]);
  expect(shop.refused({ do: 'drop-plan', planId }).why).toBe('plan-not-open');
});

test('releasing one board of a held plan puts only its pieces back; releasing all makes it a draft again', async () => {
  const { shop, jobId, body } = await planned();
  const planId = shop.keep(body);
  const [first = '', second = ''] = shop.tell({ do: 'reserve-plan', planId, how: 'whole' }).reservationIds ?? [];
  shop.tell({ do: 'release', ids: [first] });
  expect(states(shop, jobId)).toEqual(['wanted', 'wanted', 'planned', 'planned']);
  shop.tell({ do: 'release', ids: [second] });
  expect(shop.state().get('plan', planId)?.state).toBe('draft');
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  shop.expectSound();
});

test('a draft cannot go to the saw, and a plan at the saw is neither dropped nor released', async () => {
  const { shop, body } = await planned();
  const planId = shop.keep(body);
  expect(shop.refused({ do: 'open-session', planId, boardIds: null }).why).toBe('plan-not-open');
  const { reservationIds = [] } = shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const boardIds = [shop.board('Q-1').id];
  shop.tell({ do: 'open-session', planId, boardIds });
  expect(shop.refused({ do: 'drop-plan', planId }).why).toBe('plan-not-open');
  expect(shop.refused({ do: 'release', ids: reservationIds }).why).toBe('board-held');
  expect(shop.refused({ do: 'open-session', planId, boardIds }).faults?.[0]?.read).toBe('Q-1');
  shop.tell({ do: 'open-session', planId, boardIds: null });
  expect(shop.refused({ do: 'open-session', planId, boardIds: null }).why).toBe('nothing-to-cut');
});

test('a board measured anew after it was planned does not go to the saw on the old card', async () => {
  const { shop, body } = await planned();
  const planId = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const board = shop.board('Q-1');
  shop.tell({ do: 'correct-board', boardId: board.id, ifVersion: board.version, patch: { widthNm: 7 * INCH } });
  const refusal = shop.refused({ do: 'open-session', planId, boardIds: null });
  expect([refusal.why, refusal.conflicts?.map((conflict) => conflict.tag)]).toEqual(['boards-changed', ['Q-1']]);
});

test('the size of a board at the saw is not corrected under the saw', async () => {
  const { shop, jobId } = await planned();
  shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] });
  const board = shop.board('Q-1');
  const correct = (patch: { widthNm?: number; place?: string }) =>
    ({ do: 'correct-board', boardId: board.id, ifVersion: board.version, patch }) as const;
  expect(shop.refused(correct({ widthNm: 7 * INCH })).why).toBe('board-held');
  shop.tell(correct({ place: 'saw' }));
});

test('a plan that cuts nothing may be kept, for what it says, but there is nothing to hold', async () => {
  const { shop, jobId } = await planned();
  const planId = shop.keep(shop.plan(jobId, {}));
  expect(shop.refused({ do: 'reserve-plan', planId, how: 'whole' }).why).toBe('nothing-to-cut');
});

test('pieces that are planned already are not planned again', async () => {
  const { shop, jobId, body } = await planned();
  shop.tell({ do: 'reserve-plan', planId: shop.keep(body), how: 'whole' });
  shop.takeIn(boardOf('Q-3'));
  const other = shop.plan(jobId, { 'Q-3': [] });
  const [layout] = other.layouts;
  const again = { ...other, layouts: layout ? [{ ...layout, pieces: body.layouts[0]?.pieces ?? [] }] : [] };
  const refusal = shop.refused({ do: 'keep-plan', plan: again });
  expect([refusal.why, refusal.detail]).toEqual([
    'piece-not-there',
    'No longer wanted as planned: Leg no. 1, Leg no. 2. Plan again.',
  ]);
});

test('a board is held whole where the far end is not one clean piece of its full width', async () => {
  const { shop, body } = await planned();
  const layouts = body.layouts.map((layout) => ({
    ...layout,
    offcuts: layout.offcuts.map((rest) => ({ ...rest, rightNm: rest.rightNm - INCH })),
  }));
  const planId = shop.keep({ ...body, layouts });
  shop.tell({ do: 'reserve-plan', planId, how: 'runs' });
  expect(
    shop
      .state()
      .reservationsOfPlan(planId)
      .map((held) => held.toNm),
  ).toEqual([100 * INCH, 100 * INCH]);
});

test('a board that a plan holds is not corrected shorter before the plan is dropped', async () => {
  const { shop, body } = await planned();
  shop.tell({ do: 'reserve-plan', planId: shop.keep(body), how: 'whole' });
  const board = shop.board('Q-1');
  const patch = { lengthNm: 90 * INCH };
  const refusal = shop.refused({ do: 'correct-board', boardId: board.id, ifVersion: board.version, patch });
  expect(refusal.conflicts?.map((conflict) => conflict.wayOut)).toEqual([
    'drop the plan that holds it, then correct the board and plan again',
  ]);
});
