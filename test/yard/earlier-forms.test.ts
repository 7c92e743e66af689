/** Plans as earlier versions wrote them, and as today's does: what was not said then is filled in, what was said stays. */
import { expect, test } from 'vitest';
import type { Plan } from '../../worker/contract/plan.ts';
import { inTodaysForm } from '../../worker/yard/earlier-forms.ts';
import { boardOf, partOf, Shop } from './shop.ts';

async function keptPlan(): Promise<Plan> {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', partOf('leg'));
  const planId = shop.keep(shop.plan(jobId, { 'Q-1': [{ key: 'leg', count: 2 }] }));
  const plan = shop.state().get('plan', planId);
  if (!plan) throw new Error('no plan');
  return plan;
}

test('a plan of today is as it was written', async () => {
  const plan = await keptPlan();
  const said: Plan = { ...plan, continues: 'pl_before0000', changes: ['Q-1: one leg more'], aim: 'fewest-boards' };
  expect(inTodaysForm('plan', said)).toEqual(said);
});

test('a plan of before has nothing that was only said later', async () => {
  const plan = await keptPlan();
  const { continues: _a, changes: _b, aim: _c, cutCount: _d, settingCount: _e, cost: _f, ...rest } = plan;
  const layouts = plan.layouts.map(({ reserves: _r, unevenEdges: _u, pieces, ...layout }) => ({
    ...layout,
    pieces: pieces.map(({ what: _w, showFace: _s, ...piece }, at) => ({ ...piece, element: at === 0 ? null : 1 })),
  }));
  const now = inTodaysForm('plan', { ...rest, layouts } as unknown as Plan);
  // Two legs of the board's width: a crosscut each, and each may have had a setting of its own.
  expect(now).toMatchObject({
    continues: null,
    changes: [],
    aim: 'least-cost',
    cutCount: 2,
    settingCount: 2,
    cost: null,
  });
  expect(now.layouts.map(({ reserves, unevenEdges }) => [reserves, unevenEdges])).toEqual([[[], []]]);
  expect(now.layouts[0]?.pieces.map(({ what, showFace }) => [what, showFace])).toEqual([
    ['solid', null],
    ['ply', null],
  ]);
});

test('what is no plan passes as it is', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const board = shop.board('Q-1');
  expect(inTodaysForm('board', board)).toBe(board);
});
