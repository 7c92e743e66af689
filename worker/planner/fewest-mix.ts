/**
 * The mix of patterns that covers all blanks with the least boards, boards in fractions allowed. Leaving a blank out is
 * charged twice its share of a board, which no blank is worth in the mix, so all are covered.
 */
import { dive } from './dive.ts';
import { boardOf, derivedJob, type Job } from './job.ts';
import { Master } from './master.ts';
import type { CutBoard, Plan } from './plan.ts';

export interface MixedBoards {
  /** Proven; 0 where pricing is not exact. */
  readonly bound: number;
  readonly columns: () => readonly CutBoard[];
  readonly dive: (turn: number) => Plan;
}

export function mixedBoards(job: Job, start: Plan): MixedBoards {
  const only = job.problem.boards[0]!;
  const size = only.length * only.width;
  const count = start.length;
  const shares = job.weights.map((weight) => (2 * weight) / size);
  const netJob = derivedJob(job, { ...job.problem, objective: 'net', boards: [{ ...only, count, cost: 1 }] }, shares);
  const master = new Master(netJob, job.wanted, new Map([[0, count]]));
  master.addPlan(start);
  let bound = 0;
  const workStart = job.work;
  let mix = master.mix();
  for (let round = 0; round < 400 && job.work - workStart < job.workMost * 0.25; round++) {
    const fresh = master.price(mix.rents, mix.boardRents, [0], 0, 1);
    if (round % 10 === 9 || fresh === 0) bound = Math.max(bound, boundAt(job, shares, mix.rents));
    if (fresh === 0) break;
    mix = master.mix();
  }
  return {
    bound,
    columns: () => master.columns,
    dive: (turn) => {
      const boards = Array.from({ length: count - 1 }, () => 0);
      return dive(netJob, master, [], boards, {
        sure: [0.75, 0.5, 0.9][turn % 3]!,
        pricingRounds: 12,
        depth: 0,
        workMost: netJob.workMost,
      });
    },
  };
}

/** Prices such that no board holds more than one board's worth: their sum over all blanks needs so many boards. */
function boundAt(job: Job, shares: Float64Array, rents: Float64Array): number {
  const prices = shares.map((share, blank) => Math.max(0, share - rents[blank]!));
  const search = boardOf(job, 0);
  let most = 0;
  if (search.isBar) {
    const exact = search.exactBar(prices, job.wanted);
    if (exact === null) return 0;
    most = exact;
  } else {
    const sheet = search.sheet(20_000_000);
    if (!sheet) return 0;
    most = sheet.unlimited(prices).value;
    job.work += sheet.passWork;
  }
  if (most <= 0) return 0;
  const sum = prices.reduce((total, price, blank) => total + price * job.wanted[blank]!, 0);
  return Math.ceil(sum / most - 1e-6);
}
