import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSolution } from '../../worker/planner/check.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { solve } from '../../worker/planner/solve.ts';
import { bestWorth } from './exhaustive.ts';
import { randomYard, smallBoard } from './solve-cases.ts';

const QUICK = { effort: 'quick', seed: 1 } as const;

/** Three boards or more, and one tier, so that what is achieved says which plan is better. */
const oneTierYard = randomYard('net', 4)
  .filter((problem) => problem.boards.length > 2)
  .map((problem): Problem => ({ ...problem, blanks: problem.blanks.map((blank) => ({ ...blank, tier: 1 })) }));

describe('any plan', () => {
  it.each(['value', 'net'] as const)(
    'of %s can be cut, keeps to quantities and is never above its bound',
    (objective) => {
      fc.assert(
        fc.property(randomYard(objective, 3), (problem) => {
          const solution = solve(problem, { ...QUICK, workMost: 300_000 });
          expect(checkSolution(problem, solution)).toEqual([]);
          expect(solution.bound).toBeGreaterThanOrEqual(solution.achieved);
        }),
        { numRuns: 6 },
      );
    },
    60_000,
  );

  it('is the same for the same input, effort and seed', () => {
    fc.assert(
      fc.property(randomYard('net', 3), (problem) => {
        const options = { ...QUICK, workMost: 300_000 };
        expect(solve(problem, options)).toEqual(solve(problem, options));
      }),
      { numRuns: 3 },
    );
  }, 60_000);
});

describe('a board more', () => {
  const work = { ...QUICK, workMost: 300_000 };
  const without = (problem: Problem): Problem => ({ ...problem, boards: problem.boards.slice(0, -1) });

  it('never makes a plan worse that is known without it', () => {
    fc.assert(
      fc.property(oneTierYard, (problem) => {
        const before = solve(without(problem), work);
        const after = solve(problem, { ...work, start: before.layouts });
        expect(checkSolution(problem, after)).toEqual([]);
        expect(after.achieved).toBeGreaterThanOrEqual(before.achieved - 1e-9);
      }),
      { numRuns: 12 },
    );
  }, 60_000);
});

describe('small boards, every cut tried', () => {
  it('the plan is best nearly always, and the bound is never below the best', () => {
    let best = 0;
    let ours = 0;
    let missed = 0;
    fc.assert(
      fc.property(smallBoard, (problem) => {
        const exact = bestWorth(problem);
        const solution = solve(problem, { ...QUICK, workMost: 2_000_000 });
        expect(checkSolution(problem, solution)).toEqual([]);
        expect(solution.achieved).toBeLessThanOrEqual(exact + 1e-9);
        expect(solution.bound).toBeGreaterThanOrEqual(exact - 1e-9);
        best += exact;
        ours += solution.achieved;
        if (solution.achieved < exact - 1e-9) missed++;
      }),
      { numRuns: 200, seed: 7 },
    );
    expect(ours / best).toBeGreaterThan(0.998);
    expect(missed).toBeLessThanOrEqual(2);
  });
});
