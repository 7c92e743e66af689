/** The offcut question against every cut tried, and on a board of a real size against staged patterns alone. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { bestOfOneBoard } from '../../worker/planner/best-of-one.ts';
import { boardOf, startJob } from '../../worker/planner/job.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { seededRandom } from '../../worker/planner/random.ts';
import { bestWorth } from './exhaustive.ts';
import { blankOf, boardOfSize, problemWith, smallBoard } from './solve-cases.ts';

const worthOf = (problem: Problem) =>
  bestOfOneBoard(problem).reduce((sum, piece) => sum + problem.blanks[piece.blank]!.value, 0);

it('is the best of all cuts on nearly every small board', () => {
  let best = 0;
  let ours = 0;
  fc.assert(
    fc.property(smallBoard, (problem) => {
      const exact = bestWorth(problem);
      const found = worthOf(problem);
      expect(found).toBeLessThanOrEqual(exact);
      best += exact;
      ours += found;
    }),
    { numRuns: 60, seed: 3 },
  );
  expect(ours / best).toBeGreaterThan(0.995);
});

/** 1,200 x 150 with three knots, 50 kinds of parts in any number. */
function offcut(): Problem {
  const random = seededRandom(1203);
  const whole = (least: number, most: number) => least + random.below(most - least + 1);
  const knots = Array.from({ length: 3 }, () => {
    const from = whole(0, 1140);
    const left = whole(0, 130);
    return { from, to: from + whole(15, 60), left, right: left + whole(8, 37) };
  });
  const blanks = Array.from({ length: 50 }, (_, i) => {
    const length = whole(150, 1400);
    const width = whole(25, 140);
    const value = Math.round((width * length ** 1.3) / 100);
    return blankOf(`part ${i}`, length, width, { quantity: null, value });
  });
  return problemWith([boardOfSize('W-01', 1200, 150, { blocked: [knots, []] })], blanks);
}

it('beats staged patterns in few places, and answers the same each time', () => {
  const problem = offcut();
  const job = startJob(problem, 'quick', 1);
  const staged = boardOf(job, 0).limited(job.weights, job.wanted, 2, 6, job.random);
  expect(worthOf(problem)).toBeGreaterThan(staged.value);
  expect(bestOfOneBoard(problem)).toEqual(bestOfOneBoard(problem));
});
