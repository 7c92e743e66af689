/** One board with one pattern, as mixes and choices see it: what it is worth, and how many of each blank it takes. */
import type { Job } from './job.ts';
import type { CutBoard } from './plan.ts';
import { sawWorkOf } from './saw-work.ts';

export interface Column extends CutBoard {
  readonly key: string;
  readonly worth: number;
  /** Blank and copies, in turn. */
  readonly counts: Int32Array;
}

/** What a board's pieces are worth, less its cost where boards cost, and its cuts' where these do. */
export function worthOf(job: Job, cut: CutBoard): number {
  let worth = 0;
  for (const piece of cut.pieces) worth += job.weights[piece.blank]!;
  if (job.problem.objective !== 'net') return worth;
  return worth - job.problem.boards[cut.board]!.cost - sawWorkOf(job.problem, cut);
}

/** Worth less the rents of the blanks it takes. */
export function reducedWorth({ worth, counts }: Column, rents: Float64Array): number {
  let value = worth;
  for (let k = 0; k < counts.length; k += 2) value -= rents[counts[k]!]! * counts[k + 1]!;
  return value;
}

/** Whether the copies left are enough for it. */
export function isWithin({ counts }: Column, left: Int32Array): boolean {
  for (let k = 0; k < counts.length; k += 2) if (counts[k + 1]! > left[counts[k]!]!) return false;
  return true;
}

/** Takes its blanks from the copies left. */
export function take({ counts }: Column, left: Int32Array): void {
  for (let k = 0; k < counts.length; k += 2) left[counts[k]!]! -= counts[k + 1]!;
}

/** And gives them back. */
export function giveBack({ counts }: Column, left: Int32Array): void {
  for (let k = 0; k < counts.length; k += 2) left[counts[k]!]! += counts[k + 1]!;
}
