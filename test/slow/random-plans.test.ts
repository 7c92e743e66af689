/** A plan leaves the planner only if a saw can make it. The bench does the same for 100,000 plans. */
import { expect, it } from 'vitest';
import { faultsFor, randomProblem } from '../planner/random-plans.ts';

const PLANS = 2000;

it(`${PLANS} plans of boards, defects, kerfs and stages at random can all be cut`, () => {
  let pieces = 0;
  for (let seed = 1; seed <= PLANS; seed++) {
    const found = faultsFor(randomProblem(seed), seed);
    expect(found.faults, `seed ${seed}`).toEqual([]);
    pieces += found.pieces;
  }
  // Plans of nothing would pass every check.
  expect(pieces).toBeGreaterThan(2 * PLANS);
}, 600_000);
