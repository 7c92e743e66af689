/**
 * Proven bound for worth: for any rent charged on each blank, no plan beats the rents on all blanks wanted plus what
 * each board could give at prices less rent. Rents are moved against what boards would take too much of.
 */
import { BarBound } from './bar-bound.ts';
import { type Job, UNLIMITED } from './job.ts';

/** The bound may take this share of the work that the plan may take. */
const BOUND_SHARE = 0.4;

export interface RentSearch {
  readonly bound: number;
  readonly rents: Float64Array;
}

export function worthBound(job: Job, achieved: number, rounds: number, start: Float64Array | null): RentSearch {
  const { problem, wanted } = job;
  const bars = new BarBound(problem);
  const values = Float64Array.from(problem.blanks, (blank) => Math.max(0, blank.value));
  const total = wanted.reduce((sum, copies) => sum + copies, 0);
  const counts = problem.boards.map((board) => Math.min(board.count ?? total, total));
  const costs = problem.boards.map((board) => (problem.objective === 'net' ? board.cost : 0));
  const rents = start?.slice() ?? new Float64Array(values.length);
  let best = rents.slice();
  let bound = Number.POSITIVE_INFINITY;
  let stride = 1;
  let idle = 0;
  const prices = new Float64Array(values.length);
  const use = new Float64Array(values.length);
  const workMost = job.workMost * BOUND_SHARE;
  for (let round = 0; round < rounds && bound > achieved + 1e-9; round++) {
    if (round > 0 && bars.work > workMost) break;
    let sum = 0;
    for (let blank = 0; blank < values.length; blank++) {
      prices[blank] = values[blank]! - rents[blank]!;
      if (rents[blank]! > 0) sum += rents[blank]! * wanted[blank]!;
    }
    const found = bars.boards(prices, wanted);
    use.fill(0);
    found.least.forEach((most, board) => {
      const net = most - costs[board]!;
      if (net <= 0) return;
      sum += net * counts[board]!;
      bars.addUse(found, board, counts[board]!, use);
    });
    if (sum < bound - 1e-9) {
      if (sum < bound * (1 - 1e-4)) idle = 0;
      bound = sum;
      best = rents.slice();
    } else if (++idle > 12) {
      stride *= 0.6;
      idle = 0;
      rents.set(best);
      if (stride < 1e-3) break;
      continue;
    }
    let norm = 0;
    for (let blank = 0; blank < values.length; blank++) {
      const over = use[blank]! - wanted[blank]!;
      if (wanted[blank]! < UNLIMITED && (over > 0 || rents[blank]! > 0)) norm += over * over;
    }
    if (norm === 0) break;
    const step = (stride * (sum - achieved)) / norm;
    for (let blank = 0; blank < values.length; blank++) {
      if (wanted[blank]! >= UNLIMITED) continue;
      const moved = rents[blank]! + step * (use[blank]! - wanted[blank]!);
      rents[blank] = Math.min(values[blank]!, Math.max(0, moved));
    }
  }
  job.work += bars.work;
  return { bound: bound * (1 + 1e-6), rents: best };
}
