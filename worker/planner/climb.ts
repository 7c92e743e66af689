/**
 * From a first plan to a good one: prices from all boards, whole boards from the mix, then small changes until the work
 * allowed is done or nothing better can exist.
 */
import { dive } from './dive.ts';
import type { Job } from './job.ts';
import { Master } from './master.ts';
import { type Climb, chooseAnew, keepIfBetter, recutInTurn, recutTogether } from './moves.ts';
import type { CutBoard, Plan, Score } from './plan.ts';

/** More boards of one kind than a plan would open. */
const BOARDS_MOST = 400;

/** The work is parted between the mix, whole boards from the mix, and small changes. */
const MIX_SHARE = 0.35;
const DIVE_SHARE = 0.6;
const DIVE = { sure: 0.8, pricingRounds: 3, depth: 0 } as const;

export interface ClimbTask {
  readonly job: Job;
  readonly start: Plan;
  /** Patterns worth having at hand. */
  readonly known?: readonly CutBoard[];
  readonly scoreOf: (plan: Plan) => Score;
  readonly workMost: number;
  readonly mixRounds: number;
  /** A plan that cannot be bettered. */
  readonly done: (plan: Plan) => boolean;
}

export function* climb(task: ClimbTask): Generator<Plan, Climb> {
  const { job, start, scoreOf, workMost } = task;
  const { boards } = job.problem;
  const all = boards.map((_, board) => board);
  const stock = new Map(all.map((board) => [board, boards[board]!.count ?? BOARDS_MOST]));
  const master = new Master(job, job.wanted, stock);
  master.addPlan(start);
  if (task.known) master.addPlan(task.known);
  const state: Climb = {
    job,
    master,
    scoreOf,
    rents: new Float64Array(job.wanted.length),
    plan: start,
    score: scoreOf(start),
  };
  let mix = master.mix();
  for (let round = 0; round < task.mixRounds && job.work < workMost * MIX_SHARE; round++) {
    const fresh = master.price(mix.rents, mix.boardRents, all, round % 4 === 3 ? 1 : 0, 1);
    if (fresh === 0 && round % 4 === 3) break;
    mix = master.mix();
    yield state.plan;
  }
  state.rents = mix.rents;
  const each = all.flatMap((board) => Array.from({ length: Math.min(stock.get(board)!, BOARDS_MOST) }, () => board));
  if (job.work < workMost) {
    keepIfBetter(state, dive(job, master, [], each, { ...DIVE, workMost: workMost * DIVE_SHARE }));
    yield state.plan;
  }
  const moves = [recutInTurn, chooseAnew, chooseAnew, recutTogether] as const;
  for (let round = 1; job.work < workMost && state.plan.length > 0 && !task.done(state.plan); round++) {
    job.work += 5000;
    moves[round % moves.length]!(state);
    if (round % 60 !== 0) continue;
    mix = master.mix();
    state.rents = mix.rents;
    const opened = [...new Set(state.plan.map((cut) => cut.board))];
    master.price(mix.rents, mix.boardRents, opened, 2, 0.9);
    yield state.plan;
  }
  return state;
}
