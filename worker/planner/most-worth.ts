/** A quick look at one board: what it gives of what is wanted, for the most worth. */
import { priced, startJob } from './job.ts';
import type { Depth } from './one-board.ts';
import type { PlacedBlank, Problem } from './problem.ts';

const SEED = 1;

/** The pieces of one board that are worth most together. */
export function mostWorth(problem: Problem, depth: Depth, rounds: number): readonly PlacedBlank[] {
  const job = startJob(problem, 'quick', SEED);
  return priced(job, 0, job.weights, job.wanted, depth, rounds).pieces;
}
