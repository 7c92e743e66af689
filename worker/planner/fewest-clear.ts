/**
 * Proven least number of boards where they have defects. At any prices all blanks together are worth so much, and no
 * board gives more than its bars; so many of the boards that could give most are needed.
 */

import { BarBound } from './bar-bound.ts';
import { type Job, UNLIMITED } from './job.ts';
import { hasNoDefects } from './view.ts';

/** Blanks are priced by their area and this power of their length or width: long and wide ones are hard to place. */
const LENGTH_POWERS = [0, 0.25, 0.5, 1, 2] as const;
const WIDTH_POWERS = [0, 0.5] as const;

/** At least one; for boards without a defect no more is said here. */
export function fewestRoundDefects(job: Job): number {
  const { problem, wanted } = job;
  if (problem.boards.every(hasNoDefects) || wanted.some((copies) => copies >= UNLIMITED)) return 1;
  const bars = new BarBound(problem);
  let least = 1;
  for (const lengthPower of LENGTH_POWERS) {
    for (const widthPower of WIDTH_POWERS) {
      const prices = Float64Array.from(
        problem.blanks,
        ({ length, width }) => (length / 1000) ** (1 + lengthPower) * (width / 1000) ** (1 + widthPower),
      );
      const needed = prices.reduce((sum, price, blank) => sum + price * wanted[blank]!, 0);
      least = Math.max(least, boardsFor(needed * (1 - 1e-6), job, bars.boards(prices, wanted).least));
    }
  }
  job.work += bars.work;
  return least;
}

/** How many boards give so much, those first that give most; one where all of them do not. */
function boardsFor(needed: number, { problem }: Job, most: Float64Array): number {
  const order = Array.from(most.keys()).sort((a, b) => most[b]! - most[a]! || a - b);
  let left = needed;
  let boards = 0;
  for (const board of order) {
    if (most[board]! <= 0) break;
    const taken = Math.min(problem.boards[board]!.count ?? Number.POSITIVE_INFINITY, Math.ceil(left / most[board]!));
    boards += taken;
    left -= taken * most[board]!;
    if (left <= 0) return Math.max(1, boards);
  }
  return 1;
}
