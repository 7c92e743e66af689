/**
 * Proven bound for worth: for any rent charged on each blank, no plan beats the rents on all blanks wanted plus what
 * each board could give at prices less rent. The search is for the rents that make this least.
 */
import { BarBound } from './bar-bound.ts';
import type { Job } from './job.ts';

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
  let rents: Float64Array<ArrayBufferLike> = start?.slice() ?? new Float64Array(values.length);
  let best = rents.slice();
  let bound = Number.POSITIVE_INFINITY;
  let stride = 0.5;
  let idle = 0;
  const prices = new Float64Array(values.length);
  // The rows of a bound say nothing of how often a blank is used, so the slope is felt blank by blank in turn:
  // a blank whose rent is raised where boards still pay more for it than its share, lowered where they do not.
  const evaluate = (at: Float64Array): number => {
    let sum = 0;
    for (let blank = 0; blank < values.length; blank++) {
      prices[blank] = values[blank]! - at[blank]!;
      if (at[blank]! > 0) sum += at[blank]! * wanted[blank]!;
    }
    const most = bars.boards(prices, wanted);
    for (let board = 0; board < most.length; board++) {
      const net = most[board]! - costs[board]!;
      if (net > 0) sum += net * counts[board]!;
    }
    return sum;
  };
  bound = evaluate(rents);
  for (let round = 0; round < rounds && bound > achieved + 1e-9; round++) {
    const trial: Float64Array = rents.slice();
    const scale = stride * (0.2 + 0.8 * job.random.next());
    const touched = round % 3 === 0 ? values.length : 1 + job.random.below(3);
    for (let k = 0; k < touched; k++) {
      const blank = touched === values.length ? k : job.random.below(values.length);
      const move = (job.random.next() - 0.5) * 2 * scale * values[blank]!;
      trial[blank] = Math.min(values[blank]!, Math.max(0, trial[blank]! + move));
    }
    const value = evaluate(trial);
    if (value < bound - 1e-12) {
      bound = value;
      rents = trial;
      best = trial;
      idle = 0;
    } else if (++idle > 40) {
      stride = Math.max(0.005, stride * 0.7);
      idle = 0;
    }
  }
  job.work += bars.work;
  return { bound: bound + 1e-6 * Math.max(1, Math.abs(bound)) * 0 + 1e-6 * Math.abs(bound), rents: best };
}
