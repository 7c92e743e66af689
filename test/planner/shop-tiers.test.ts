/** Tiers decide who goes without where wood is short, and nothing else. */
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import type { PlanBody } from '../../worker/contract/plan.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { tiersTogether } from '../../worker/planner/shop-tiers.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';
import { blankOf, boardOfSize, problemWith } from './solve-cases.ts';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
function planOf(rows: readonly Part[], boards: readonly BoardView[]): PlanBody {
  const asked = { job: job(rows), boards, settings: shopSettings(), effort: 'quick' as const, seed: 1 };
  const answer = planCutting({ ...asked, aim: 'least-cost', worth: COMMON_WORTH });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}
const tagsOf = (plan: PlanBody) => plan.layouts.map(({ tag }) => tag).sort();

describe('which tiers are searched as one', () => {
  const blanks = [1, 2, 3].map((tier) => blankOf(`tier ${tier}`, 500, 100, { tier, quantity: 2 }));
  const problem = problemWith([boardOfSize('B-1', 2000, 300)], blanks, { objective: 'net' });
  const tiersFor = (placed: readonly number[], from = problem) =>
    tiersTogether(from, placed).blanks.map(({ tier }) => tier);

  test('those before the first that is short', () => {
    expect(tiersFor([2, 2, 2])).toEqual([1, 1, 1]);
    expect(tiersFor([2, 2, 1])).toEqual([1, 1, 3]);
    expect(tiersFor([2, 0, 2])).toEqual([1, 2, 3]);
    expect(tiersFor([1, 2, 2])).toEqual([1, 2, 3]);
  });

  test('what no board can give makes none short', () => {
    const size = { length: 500, width: 100 };
    const boards = problem.boards.map((each) => ({ ...each, fits: [size, null, size] }));
    expect(tiersFor([2, 0, 2], { ...problem, boards })).toEqual([1, 1, 1]);
  });
});

// Rough: 41 x 3 3/4 in and 41 x 4 3/4 in.
const rail = part({ ...sizes(40, 3.5, 0.75), key: 'R', label: 'Rail', use: 'critical' });
const shelf = part({ ...sizes(40, 4.5, 0.75), key: 'S', label: 'Shelf' });
const narrow = board({ ...sizes(44, 5, 1), tag: 'narrow' });
const wide = board({ ...sizes(44, 10, 1), tag: 'wide' });

test('the cheapest board for the first tier is left alone where another gives all', () => {
  expect(tagsOf(planOf([rail, shelf], [narrow, wide]))).toEqual(['wide']);
});

test('where wood is short, the first tier comes first', () => {
  const plan = planOf([shelf, rail], [narrow]);
  expect(plan.layouts.flatMap(({ pieces }) => pieces.map(({ label }) => label))).toEqual(['Rail']);
  expect(plan.unplaced).toMatchObject([{ label: 'Shelf', count: 1 }]);
});
