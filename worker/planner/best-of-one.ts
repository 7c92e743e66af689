/**
 * The offcut question: the best use of one board over all that is wanted, answered while somebody holds it. Call it
 * with a problem of one board and objective 'value':
 *
 *     const pieces = bestOfOneBoard(shop.problem);
 *
 * On a clear board staged patterns give a first answer; regions of it are then cut anew in any number of stages, where
 * stages are not limited. Round defects regions are refilled from the bare board on. About 50 ms for a board of
 * 2,400 x 200 with 50 kinds of parts; the same answer each time.
 */
import { ended } from './ended.ts';
import { boardOf, startJob } from './job.ts';
import type { PlacedBlank, Problem } from './problem.ts';
import { recutRegions } from './recut.ts';
import { refillRegions } from './refill.ts';
import { hasNoDefects } from './view.ts';

const SEED = 1;
const ROUNDS = 6;
/** Steps for cutting regions anew. */
const RECUT_WORK = 300_000;
/** Steps for refilling them round defects. */
const REFILL_WORK = 2_400_000;
/** Times that sections are looked for near those of the best pattern so far, and rounds each time. */
const NEAR_TURNS = 5;
const NEAR_ROUNDS = 1;

export function bestOfOneBoard(problem: Problem): readonly PlacedBlank[] {
  const job = startJob(problem, 'quick', SEED);
  const search = boardOf(job, 0);
  const { weights, wanted, random } = job;
  const bound = Number.POSITIVE_INFINITY;
  if (!hasNoDefects(search.view) && problem.maxStages === null) {
    const { kerf } = problem;
    const task = { view: search.view, kerf, prices: weights, limits: wanted, start: [], bound, workMost: REFILL_WORK };
    return ended(refillRegions(task, random)).pieces;
  }
  let first = search.limited(weights, wanted, 2, ROUNDS, random);
  for (let turn = 0; turn < NEAR_TURNS; turn++) {
    if (!search.lookNear(first.pieces, random)) break;
    const near = search.limited(weights, wanted, 2, NEAR_ROUNDS, random);
    if (near.value > first.value + 1e-9) first = near;
  }
  if (problem.maxStages !== null || first.pieces.length === 0) return first.pieces;
  const task = {
    problem,
    view: search.view,
    prices: weights,
    limits: wanted,
    start: first.pieces,
    bound,
    workMost: RECUT_WORK,
  };
  const recut = ended(recutRegions(task, random));
  return recut.value > first.value + 1e-9 ? recut.pieces : first.pieces;
}
