/** What the doctor says of a kept plan whose pieces do not lie on its boards. */
import { expect, test } from 'vitest';
import type { Plan } from '../../worker/contract/plan.ts';
import { planFaults } from '../../worker/yard/doctor/check-plan.ts';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

type Layout = Plan['layouts'][number];
type Spot = Pick<Layout['offcuts'][number], 'fromNm' | 'toNm' | 'leftNm' | 'rightNm'>;

/** One board of 100 x 8 in with one leg of 30 x 7 1/4 in or so on it. */
async function plannedLeg(): Promise<Plan> {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 1 }));
  const { planId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] });
  const plan = shop.state().get('plan', planId);
  if (!plan) throw new Error('no plan was kept');
  return plan;
}

test('a plan as it was made has no fault, and one whose offcut leaves the board by a hair has', async () => {
  const plan = await plannedLeg();
  expect(planFaults(plan)).toEqual([]);
  const [layout] = plan.layouts;
  if (!layout) throw new Error('no board in the plan');
  const { lengthNm, widthNm } = layout;
  const withOnly = (...offcuts: Spot[]) =>
    planFaults({ ...plan, placedCount: 0, layouts: [{ ...layout, pieces: [], offcuts }] });
  const whole = { fromNm: 0, toNm: lengthNm, leftNm: 0, rightNm: widthNm };
  expect(withOnly(whole)).toEqual([]);
  const outside: readonly Partial<Spot>[] = [
    { fromNm: -1 },
    { toNm: lengthNm + 1 },
    { leftNm: -1 },
    { rightNm: widthNm + 1 },
    { toNm: 0 },
    { rightNm: 0 },
  ];
  for (const edge of outside) expect(withOnly({ ...whole, ...edge })).toEqual(['a piece or offcut leaves Q-1']);
});

test('pieces may touch, along and across, but not overlap by a hair', async () => {
  const plan = await plannedLeg();
  const [layout] = plan.layouts;
  if (!layout) throw new Error('no board in the plan');
  const square = { fromNm: 10 * INCH, toNm: 20 * INCH, leftNm: 2 * INCH, rightNm: 4 * INCH };
  const beside = (other: Partial<Spot>) =>
    planFaults({
      ...plan,
      placedCount: 0,
      layouts: [{ ...layout, pieces: [], offcuts: [square, { ...square, ...other }] }],
    });
  const touching: readonly Partial<Spot>[] = [
    { fromNm: 20 * INCH, toNm: 30 * INCH },
    { fromNm: 0, toNm: 10 * INCH },
    { leftNm: 4 * INCH, rightNm: 6 * INCH },
    { leftNm: 0, rightNm: 2 * INCH },
  ];
  for (const spot of touching) expect(beside(spot)).toEqual([]);
  const overlapping: readonly Partial<Spot>[] = [
    { fromNm: 20 * INCH - 1, toNm: 30 * INCH },
    { fromNm: 0, toNm: 10 * INCH + 1 },
    { leftNm: 4 * INCH - 1, rightNm: 6 * INCH },
    { leftNm: 0, rightNm: 2 * INCH + 1 },
  ];
  for (const spot of overlapping) expect(beside(spot)).toEqual(['two pieces or offcuts of Q-1 overlap']);
});

test('its count, a board twice and a board without its version are named', async () => {
  const plan = await plannedLeg();
  expect(planFaults({ ...plan, placedCount: 2 })).toEqual(['it says 2 pieces and places 1']);
  expect(planFaults({ ...plan, placedCount: 2, layouts: [...plan.layouts, ...plan.layouts] })).toEqual([
    'a board is laid out twice',
  ]);
  expect(planFaults({ ...plan, boardVersions: {} })).toEqual(['a board has no version that it was planned on']);
});
