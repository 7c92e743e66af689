/** Several visits to the saw with one plan: what is done, what is left, and when the plan ends. */
import { expect, test } from 'vitest';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

/** Two boards with two legs each, planned and held; only the first is at the saw. */
async function firstBoardAtTheSaw() {
  const shop = await Shop.open();
  const [first = '', second = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity: 4 }));
  const body = shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }], 'Q-2': [{ key: 'leg', count: 2 }] });
  const planId = shop.keep(body);
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId, boardIds: [first] });
  const asPlanned = () => shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const planState = () => shop.state().get('plan', planId)?.state;
  return { shop, first, second, jobId, body, planId, sessionId, asPlanned, planState };
}

test('a plan with a board still to cut goes on after its first session, and ends with the second', async () => {
  const { shop, second, planId, asPlanned, planState } = await firstBoardAtTheSaw();
  asPlanned();
  expect(planState()).toBe('cutting');
  expect(
    shop
      .state()
      .reservationsOfPlan(planId)
      .map((held) => held.boardId),
  ).toEqual([second]);
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId, boardIds: null });
  expect(shop.state().get('session', sessionId)?.boardIds).toEqual([second]);
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect(planState()).toBe('done');
  shop.expectSound();
});

test('the rest of a plan that was partly cut can be dropped: its wood is free, what was cut stays', async () => {
  const { shop, jobId, planId, asPlanned, planState } = await firstBoardAtTheSaw();
  asPlanned();
  shop.tell({ do: 'drop-plan', planId });
  expect(planState()).toBe('done');
  expect(shop.state().reservationsOfJob(jobId)).toEqual([]);
  expect(shop.pieces(jobId, 'leg').map((piece) => piece.state)).toEqual(['roughed', 'roughed', 'wanted', 'wanted']);
});

test('a plan that went on since it was read does not go to the saw by the old page', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', partOf('leg'));
  const planId = shop.keep(shop.plan(jobId, { 'Q-1': [{ key: 'leg' }] }));
  const read = shop.state().get('plan', planId)?.version ?? 0;
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  const open = (ifVersion: number) => ({ do: 'open-session', planId, boardIds: null, ifVersion }) as const;
  expect(shop.refused(open(read)).why).toBe('version-stale');
  expect(shop.tell(open(shop.state().get('plan', planId)?.version ?? 0)).sessionId).toBeTruthy();
});

test('a board left alone in one session is offered to the next', async () => {
  const { shop, first, second, planId, sessionId } = await firstBoardAtTheSaw();
  const boards = [{ as: 'untouched' as const, boardId: first, why: '' }];
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(shop.state().reservationsOfPlan(planId)).toHaveLength(2);
  const next = shop.tell({ do: 'open-session', planId, boardIds: null }).sessionId ?? '';
  expect(shop.state().get('session', next)?.boardIds).toEqual([first, second]);
});

test('a plan does not end while another session is still at the saw with it', async () => {
  const { shop, jobId, planId, asPlanned, planState } = await firstBoardAtTheSaw();
  const next = shop.tell({ do: 'open-session', planId, boardIds: null }).sessionId ?? '';
  shop.tell({ do: 'move-pieces', jobId, steps: [3, 4].map((no) => shop.step('leg', no, 'wanted')) });
  asPlanned();
  expect(planState()).toBe('cutting');
  shop.expectSound();
  shop.tell({ do: 'reconcile', sessionId: next, restAsPlanned: true, boards: [], allowExtra: false });
  expect(planState()).toBe('done');
});

test('a run that the job held by hand is let go when no offcut is left for it', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 1 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] }, 'runs');
  shop.tell({ do: 'reserve', jobId, boards: [{ tag: 'Q-1', fromNm: 60 * INCH, toNm: 90 * INCH }] });
  const parts = [{ partKey: 'leg', element: null, good: 1, failed: 0, why: '' }];
  const boards = [{ as: 'cut' as const, boardId, parts, offcuts: [], defectsFound: [], note: '' }];
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(shop.state().reservationsOfJob(jobId)).toEqual([]);
  shop.expectSound();
});

test('a run that another job holds needs an offcut to lie on before its board is cut up', async () => {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 1 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] }, 'runs');
  const bench = shop.job('Bench');
  shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1', fromNm: 60 * INCH, toNm: 90 * INCH }] });
  const parts = [{ partKey: 'leg', element: null, good: 1, failed: 0, why: '' }];
  const board = { as: 'cut' as const, boardId, parts, offcuts: [], defectsFound: [], note: '' };
  const cut = { do: 'reconcile' as const, sessionId, restAsPlanned: false, boards: [board], allowExtra: false };
  const refusal = shop.refused(cut);
  expect(refusal.conflicts?.map(({ jobName, wayOut }) => [jobName, wayOut])).toEqual([
    ['Bench', 'enter an offcut of at least 30" for it, or release that run first'],
  ]);
  expect(shop.state().reservationsOfJob(bench)).toHaveLength(1);
});

test('a plan made before a piece failed does not speak of the piece wanted in its place', async () => {
  const { shop, first, jobId, body, sessionId } = await firstBoardAtTheSaw();
  shop.takeIn(boardOf('Q-3'));
  const parts = [{ partKey: 'leg', element: null, good: 1, failed: 1, why: 'it split' }];
  const boards = [{ as: 'cut' as const, boardId: first, parts, offcuts: [], defectsFound: [], note: '' }];
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  expect(
    shop
      .pieces(jobId, 'leg')
      .filter((piece) => piece.no === 1)
      .map((piece) => piece.state),
  ).toEqual(['failed', 'wanted']);
  const onThird = shop.plan(jobId, { 'Q-3': [] });
  const [layout] = onThird.layouts;
  const pieces = (body.layouts[0]?.pieces ?? []).filter((placed) => placed.no === 1);
  const stale = { ...onThird, layouts: layout ? [{ ...layout, pieces }] : [] };
  expect(shop.refused({ do: 'keep-plan', plan: stale }).why).toBe('piece-not-there');
  shop.keep({
    ...stale,
    layouts: layout ? [{ ...layout, pieces: pieces.map((placed) => ({ ...placed, attempt: 2 })) }] : [],
  });
});
