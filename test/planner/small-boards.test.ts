/**
 * Small boards with defects and kerf against a search through every cut, which shares nothing with the planner: at most
 * so many stages, and as many copies as fit.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSolution } from '../../worker/planner/check.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { solve } from '../../worker/planner/solve.ts';
import { bestWorth, bestWorthUnlimited } from './exhaustive.ts';
import { blankOf, boardOfSize, problemWith, smallBoard } from './solve-cases.ts';

const QUICK = { effort: 'quick', seed: 1, workMost: 1_000_000 } as const;

/** How a family of problems came out against what is known to be best. */
function measured(family: fc.Arbitrary<Problem>, bestOf: (problem: Problem) => number, numRuns: number) {
  const sums = { best: 0, achieved: 0, bounds: 0, missed: 0 };
  fc.assert(
    fc.property(family, (problem) => {
      const best = bestOf(problem);
      const solution = solve(problem, QUICK);
      expect(checkSolution(problem, solution)).toEqual([]);
      expect(solution.achieved).toBeLessThanOrEqual(best + 1e-9);
      expect(solution.bound).toBeGreaterThanOrEqual(best - 1e-9);
      sums.best += best;
      sums.achieved += solution.achieved;
      sums.bounds += solution.bound;
      if (solution.achieved < best - 1e-9) sums.missed++;
    }),
    { numRuns, seed: 11 },
  );
  return { ...sums, share: sums.achieved / sums.best };
}

/** Two qualities, unlike kerfs, copies without limit; defects over the edge, and cracks of no width. */
const unlimitedBoard: fc.Arbitrary<Problem> = fc
  .record({
    length: fc.integer({ min: 5, max: 16 }),
    width: fc.integer({ min: 3, max: 9 }),
    rip: fc.nat(2),
    crosscut: fc.nat(2),
    knots: fc.array(
      fc.record({
        from: fc.integer({ min: -1, max: 13 }),
        left: fc.integer({ min: -1, max: 7 }),
        long: fc.nat(4),
        wide: fc.nat(3),
      }),
      {
        minLength: 1,
        maxLength: 3,
      },
    ),
    strict: fc.boolean(),
    blanks: fc.array(
      fc.record({
        long: fc.integer({ min: 2, max: 7 }),
        wide: fc.integer({ min: 1, max: 5 }),
        value: fc.integer({ min: 5, max: 60 }),
        quality: fc.nat(1),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(({ length, width, rip, crosscut, knots, strict, blanks }) => {
    const rects = knots.map(({ from, left, long, wide }) => ({
      from,
      left,
      to: from + long,
      right: left + wide,
    }));
    const loose = strict ? rects : rects.slice(1);
    return problemWith(
      [boardOfSize('W-01', length, width, { blocked: [loose, rects] })],
      blanks.map(({ long, wide, ...more }, i) => blankOf(`part ${i}`, long, wide, { ...more, quantity: null })),
      { kerf: { rip, crosscut } },
    );
  });

describe('small boards, every cut tried', () => {
  it('as many copies as fit round defects are always the best, and proven', () => {
    const seen = measured(unlimitedBoard, bestWorthUnlimited, 200);
    expect(seen.missed).toBe(0);
    expect(seen.bounds).toBeCloseTo(seen.achieved, 6);
  }, 120_000);

  it('limited copies on a clear board are always the best', () => {
    const clear = smallBoard.map(
      (problem): Problem => ({ ...problem, boards: problem.boards.map((board) => ({ ...board, blocked: [[]] })) }),
    );
    expect(measured(clear, bestWorth, 80).missed).toBe(0);
  }, 120_000);

  it.each([
    [1, 1, 0],
    [2, 0.998, 2],
    [3, 0.998, 2],
    [4, 0.998, 2],
  ])(
    'at most %s stages: never above the best, worth at least %s of it, missed at most %s times in 80',
    (maxStages, share, missed) => {
      const staged = smallBoard.map((problem): Problem => ({ ...problem, maxStages }));
      const seen = measured(staged, bestWorth, 80);
      expect(seen.share).toBeGreaterThanOrEqual(share);
      expect(seen.missed).toBeLessThanOrEqual(missed);
    },
    120_000,
  );
});
