/**
 * The offcut question: the best use of one board over all that is wanted, answered while somebody holds it. Call it
 * with a problem of one board and objective 'value':
 *
 *     const pieces = bestOfOneBoard(shop.problem);
 *
 * Staged patterns give a first answer; regions of it are then cut anew in any number of stages, where stages are not
 * limited. About 50 ms for a board of 2,400 x 200 with 50 kinds of parts; the same answer each time.
 */
import { boardOf, startJob } from './job.ts';
import type { PlacedBlank, Problem } from './problem.ts';
import { recutRegions } from './recut.ts';

const SEED = 1;
const ROUNDS = 6;
/** Steps for cutting regions anew. */
const RECUT_WORK = 300_000;
/** Times that sections are looked for near those of the best pattern so far, and rounds each time. */
const NEAR_TURNS = 5;
const NEAR_ROUNDS = 1;

export function bestOfOneBoard(problem: Problem): readonly PlacedBlank[] {
  const job = startJob(problem, 'quick', SEED);
  const search = boardOf(job, 0);
  const { weights, wanted, random } = job;
  let first = search.limited(weights, wanted, 2, ROUNDS, random);
  for (let turn = 0; turn < NEAR_TURNS; turn++) {
    if (!search.lookNear(first.pieces, random)) break;
    const near = search.limited(weights, wanted, 2, NEAR_ROUNDS, random);
    if (near.value > first.value + 1e-9) first = near;
  }
  if (problem.maxStages !== null || first.pieces.length === 0) return first.pieces;
  const steps = recutRegions(
    {
      problem,
      view: search.view,
      prices: weights,
      limits: wanted,
      start: first.pieces,
      bound: Number.POSITIVE_INFINITY,
      workMost: RECUT_WORK,
    },
    random,
  );
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value.value > first.value + 1e-9 ? step.value.pieces : first.pieces;
}
