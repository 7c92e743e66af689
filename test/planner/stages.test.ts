/** At most so many stages of cutting: worked by hand, and on boards at random by the checker's own count of stages. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSolution } from '../../worker/planner/check.ts';
import { solve } from '../../worker/planner/solve.ts';
import { blankOf, boardOfSize, problemWith, randomYard } from './solve-cases.ts';

const CLEAN = { kerf: { rip: 0, crosscut: 0 } };

describe('stages of cutting', () => {
  const board = boardOfSize('W-01', 100, 60);
  // Rip at 40, crosscut the strip at 60, and the 40 x 40 that is left is ripped once more to 30.
  const blanks = [blankOf('door', 60, 40), blankOf('rail', 40, 30), blankOf('plinth', 100, 20)];

  it.each([
    [1, 100 * 20],
    [2, 60 * 40 + 100 * 20],
    [3, 60 * 40 + 40 * 30 + 100 * 20],
    [4, 60 * 40 + 40 * 30 + 100 * 20],
    [null, 60 * 40 + 40 * 30 + 100 * 20],
  ])('at most %s give a worth of %s', (maxStages, worth) => {
    const problem = problemWith([board], blanks, { ...CLEAN, maxStages });
    const solution = solve(problem, { effort: 'quick', seed: 1 });
    expect(checkSolution(problem, solution)).toEqual([]);
    expect(solution.achieved).toBe(worth);
  });

  it('one stage chops blanks as wide as the board', () => {
    const rails = [blankOf('rail', 30, 60, { quantity: 5 }), blankOf('narrow', 30, 59, { quantity: 5 })];
    const solution = solve(problemWith([board], rails, { ...CLEAN, maxStages: 1 }), { effort: 'quick', seed: 1 });
    expect(solution.placed).toEqual([3, 0]);
  });

  it.each([1, 2, 3, 4])(
    'never more than %s, whatever the board and the parts',
    (maxStages) => {
      for (const objective of ['value', 'net'] as const)
        fc.assert(
          fc.property(randomYard(objective, 2), (problem) => {
            const staged = { ...problem, maxStages };
            expect(checkSolution(staged, solve(staged, { effort: 'quick', seed: 1, workMost: 100_000 }))).toEqual([]);
          }),
          { numRuns: 4 },
        );
    },
    120_000,
  );
});
