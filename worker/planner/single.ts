/** One board, the greatest worth: the offcut question, looked at harder than boards of a whole yard. */
import { boardOf, type Job } from './job.ts';
import type { Pattern } from './one-board.ts';
import { searchSheet } from './sheet-search.ts';

/** A sheet whose exact pass takes more steps is left to staged patterns. */
const PASS_MOST = 4_000_000_000;

export interface Single {
  readonly pattern: Pattern;
  /** Infinite where nothing exact was tried. */
  readonly bound: number;
}

export function* bestOfOne(job: Job, board: number): Generator<Single, Single> {
  const search = boardOf(job, board);
  const { weights, wanted, random } = job;
  const before = search.work;
  let pattern = search.limited(weights, wanted, 2, 12, random);
  yield { pattern, bound: Number.POSITIVE_INFINITY };
  const sheet = search.sheet(PASS_MOST);
  let bound = Number.POSITIVE_INFINITY;
  if (sheet && job.problem.rest === null && job.tiers === 1) {
    const answer = searchSheet(
      sheet,
      {
        prices: weights,
        limits: wanted,
        start: pattern,
        workMost: job.workMost,
        whole: weights.every(Number.isInteger),
        repaired: (spots) => search.fromSpots(spots, weights, wanted, random),
      },
      random,
    );
    job.work += answer.work;
    pattern = answer.pattern;
    bound = answer.bound;
  } else {
    const harder = search.limited(weights, wanted, 3, 60, random);
    if (harder.value > pattern.value + 1e-9) pattern = harder;
  }
  job.work += search.work - before;
  return { pattern, bound };
}
