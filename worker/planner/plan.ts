/**
 * A plan in the making: which pattern each opened board is cut by, and how it compares. Worth is compared tier by tier;
 * a board's cost counts against the most urgent tier cut from it.
 */
import { tierRanks } from './job.ts';
import type { PlacedBlank, Problem } from './problem.ts';
import { sawWorkOf } from './saw-work.ts';

export interface CutBoard {
  readonly board: number;
  readonly pieces: readonly PlacedBlank[];
}

export type Plan = readonly CutBoard[];

export function placedCounts(problem: Problem, plan: Plan): Int32Array {
  const counts = new Int32Array(problem.blanks.length);
  for (const cut of plan) for (const piece of cut.pieces) counts[piece.blank]!++;
  return counts;
}

export function openedCounts(problem: Problem, plan: Plan): Int32Array {
  const counts = new Int32Array(problem.boards.length);
  for (const cut of plan) counts[cut.board]!++;
  return counts;
}

export type Score = readonly number[];

/** Comparable worth, most urgent tier first; for the fewest boards: copies placed, then boards not opened. */
export function scorer(problem: Problem): (plan: Plan) => Score {
  const ranks = tierRanks(problem);
  const tiers = Math.max(1, ...ranks.map((rank) => rank + 1));
  if (problem.objective === 'boards') {
    return (plan) => [plan.reduce((sum, cut) => sum + cut.pieces.length, 0), -plan.length];
  }
  const costly = problem.objective === 'net';
  return (plan) => {
    const score = new Array<number>(tiers).fill(0);
    for (const cut of plan) {
      let urgent = tiers - 1;
      for (const piece of cut.pieces) {
        const rank = ranks[piece.blank]!;
        urgent = Math.min(urgent, rank);
        score[rank]! += problem.blanks[piece.blank]!.value;
      }
      if (costly) score[urgent]! -= problem.boards[cut.board]!.cost + sawWorkOf(problem, cut);
    }
    return score;
  };
}

/** Above zero when a is the better. */
export function compare(a: Score, b: Score): number {
  for (let i = 0; i < a.length; i++) {
    const difference = a[i]! - b[i]!;
    if (Math.abs(difference) > 1e-9 * Math.max(1, Math.abs(a[i]!))) return difference;
  }
  return 0;
}
