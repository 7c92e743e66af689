/** What is told of a plan under way: its bound holds for the plan that comes of it, and is not proven twice for the same pieces. */
import { expect, test } from 'vitest';
import { figuresOf, figuresUnderWay, type SolvedPlan } from '../../worker/planner/present.ts';
import { planSteps } from '../../worker/planner/shop.ts';
import { shopBoard } from '../../worker/planner/shop-board.ts';
import { solveSets } from '../../worker/planner/shop-solve.ts';
import { wantedOf } from '../../worker/planner/shop-wanted.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { woodReader } from '../../worker/takeoff/which-wood.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

const settings = shopSettings();
const boards = Array.from({ length: 8 }, (_, at) =>
  board({ lengthNm: inch(70 + 6 * at), widthNm: inch(5 + (at % 4)), thicknessNm: inch(1) }),
);
const shelf = part({ quantity: 5, lengthNm: inch(38), widthNm: inch(3.5), thicknessNm: inch(0.75) });
const slat = part({
  key: 'B',
  label: 'Slat',
  quantity: 9,
  lengthNm: inch(22),
  widthNm: inch(1.75),
  thicknessNm: inch(0.75),
});
const owner = job([shelf, slat]);
const search = { effort: 'quick', seed: 1, aim: 'least-cost', worth: COMMON_WORTH, known: [] } as const;

/** The best plans that a search tells on its way, one at each look, and the last. */
function plansUnderWay(): SolvedPlan[] {
  const wood = woodReader(settings)('white-oak');
  const stock = boards.map((each) => shopBoard(each, wood, [], settings));
  const wanted = wantedOf(owner, settings, undefined);
  const steps = solveSets(wanted, stock, owner, settings, search, { evenIfThick: false });
  const seen: SolvedPlan[] = [];
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return [...seen, ...step.value];
    seen.push(...step.value.best());
  }
}

test('a bound told of the same pieces is the one proven before, never above what is used then or in the end', () => {
  const plans = plansUnderWay();
  const last = plans.at(-1);
  if (!last) throw new Error('no plan');
  expect(plans.length).toBeGreaterThan(2);
  const final = figuresOf(last);
  const proven = new Map<string, number>();
  for (const plan of plans) {
    const told = figuresUnderWay(plan);
    expect(told.boundM3).toBeLessThanOrEqual(told.usedM3);
    const pieces = plan.solution.placed.join(' ');
    if (pieces === last.solution.placed.join(' ')) expect(told.boundM3).toBeLessThanOrEqual(final.usedM3 * (1 + 1e-9));
    const before = proven.get(pieces);
    if (before !== undefined) expect(told.boundM3).toBe(Math.min(before, told.usedM3));
    else proven.set(pieces, told.boundM3);
  }
});

test('a plan says the same of itself whether anybody looked at it under way or not', () => {
  const input = { job: owner, boards, settings, ...search };
  const planned = (isFollowed: boolean) => {
    const steps = planSteps(input);
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done) return step.value;
      if (isFollowed) step.value.look();
    }
  };
  expect(planned(true)).toEqual(planned(false));
});
