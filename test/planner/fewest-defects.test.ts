/** The least number of boards with defects that is claimed, against a search through every cut. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { checkSolution } from '../../worker/planner/check.ts';
import { fewestRoundDefects } from '../../worker/planner/fewest-clear.ts';
import { startJob } from '../../worker/planner/job.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { solve } from '../../worker/planner/solve.ts';
import { bestWorth } from './exhaustive.ts';
import { blankOf, boardOfSize, problemWith, smallBoard } from './solve-cases.ts';

const claimed = (problem: Problem) => fewestRoundDefects(startJob({ ...problem, objective: 'boards' }, 'quick', 1));

it('never more than are needed where one board gives all, or two give half each; and often more than one', () => {
  let above = 0;
  fc.assert(
    fc.property(smallBoard, (problem) => {
      const single: Problem = { ...problem, blanks: problem.blanks.map((blank) => ({ ...blank, value: 1 })) };
      const wanted = single.blanks.reduce((sum, { quantity }) => sum + quantity!, 0);
      const boards = single.boards.map((board) => ({ ...board, count: 4 }));
      const many = claimed({ ...single, boards });
      if (bestWorth(single) === wanted) {
        expect(many).toBe(1);
        const blanks = single.blanks.map((blank) => ({ ...blank, quantity: 2 * blank.quantity! }));
        expect(claimed({ ...single, boards, blanks })).toBeLessThanOrEqual(2);
      } else if (many > 1) above++;
    }),
    { numRuns: 150, seed: 13 },
  );
  expect(above).toBeGreaterThan(20);
});

it.each([[[]], [[{ from: 10, to: 20, left: 10, right: 20 }]]])(
  'where a blank fits no board, no more boards are claimed than the rest took: defects %j',
  (knots) => {
    const boards = ['W-01', 'W-02', 'W-03'].map((tag) => boardOfSize(tag, 1000, 100, { blocked: [knots] }));
    const blanks = [blankOf('shelf', 700, 60), blankOf('too wide', 1000, 120), blankOf('rail', 300, 30)];
    const problem = problemWith(boards, blanks, { objective: 'boards' });
    const solution = solve(problem, { effort: 'quick', seed: 1, workMost: 1_000_000 });
    expect(solution.placed[1]).toBe(0);
    expect(checkSolution(problem, solution)).toEqual([]);
  },
);
