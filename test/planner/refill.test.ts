/** Regions round defects filled anew, against a search through every cut that shares nothing with the planner. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { boardOf, startJob } from '../../worker/planner/job.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { seededRandom } from '../../worker/planner/random.ts';
import { type Refilled, refillRegions } from '../../worker/planner/refill.ts';
import { cutUp } from '../../worker/planner/saw-cuts.ts';
import { isClear } from '../../worker/planner/view.ts';
import { bestWorth } from './exhaustive.ts';
import { smallBoard } from './solve-cases.ts';

function refilled(problem: Problem, seed: number, start: Refilled['pieces'], workMost: number): Refilled {
  const job = startJob(problem, 'quick', 1);
  const { view } = boardOf(job, 0);
  const { weights: prices, wanted: limits } = job;
  const task = { view, kerf: problem.kerf, prices, limits, start, bound: Number.POSITIVE_INFINITY, workMost };
  const steps = refillRegions(task, seededRandom(seed));
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

it('a pattern comes apart at the saw, clear of defects and within the copies wanted, worth what it says', () => {
  fc.assert(
    fc.property(smallBoard, fc.nat(1000), (problem, seed) => {
      const { pieces, value } = refilled(problem, seed, [], 50_000);
      const { view } = boardOf(startJob(problem, 'quick', 1), 0);
      const whole = { from: 0, to: view.along, left: 0, right: view.across };
      expect(cutUp(whole, pieces, problem.kerf, null)).not.toBeNull();
      for (const { blank, from, to, left, right } of pieces) {
        const { length, width } = problem.blanks[blank]!;
        expect([to - from, right - left]).toEqual([length, width]);
        expect(isClear(view.blocked[0]!, from, to, left, right)).toBe(true);
      }
      problem.blanks.forEach(({ quantity }, blank) => {
        expect(pieces.filter((piece) => piece.blank === blank).length).toBeLessThanOrEqual(quantity!);
      });
      expect(pieces.reduce((sum, { blank }) => sum + problem.blanks[blank]!.value, 0)).toBeCloseTo(value, 9);
    }),
    { numRuns: 300, seed: 5 },
  );
});

it('begun from a pattern, the answer is never worse; from the bare board it is the best of all cuts, nearly always', () => {
  let best = 0;
  let ours = 0;
  fc.assert(
    fc.property(smallBoard, fc.nat(1000), (problem, seed) => {
      const exact = bestWorth(problem);
      const first = refilled(problem, seed, [], 100_000);
      expect(first.value).toBeLessThanOrEqual(exact + 1e-9);
      expect(refilled(problem, seed + 1, first.pieces, 2_000).value).toBeGreaterThanOrEqual(first.value - 1e-9);
      best += exact;
      ours += first.value;
    }),
    { numRuns: 80, seed: 7 },
  );
  expect(ours / best).toBeGreaterThan(0.998);
});

it('answers the same from the same seed', () => {
  const problem = fc.sample(smallBoard, { numRuns: 1, seed: 9 })[0]!;
  expect(refilled(problem, 3, [], 20_000)).toEqual(refilled(problem, 3, [], 20_000));
});
