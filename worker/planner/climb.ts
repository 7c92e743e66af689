/**
 * From a first plan to a good one: prices from all boards, whole boards from the mix, then small changes until the work
 * allowed is done or nothing better can exist.
 */
import { reducedWorth } from './column.ts';
import { dive } from './dive.ts';
import type { Job } from './job.ts';
import { Master } from './master.ts';
import { type Climb, chooseAnew, keepIfGood, recutInTurn, recutTogether, worthOfPlan } from './moves.ts';
import type { CutBoard, Plan, Score } from './plan.ts';

/** More boards of one kind than a plan would open. */
const BOARDS_MOST = 400;

/** Of the work: until here the mix is made, and until here boards are settled from it again and again. */
const MIX_SHARE = 0.3;
const DIVE_SHARE = 0.55;
/** What a plan may lack of the best one and still be gone on from: less and less, and nothing from this share of the work. */
const SLACK = 0.02;
const SLACK_SHARE = 0.9;
/** From here on a dive prices no new patterns. */
const PRICING_SHARE = 0.7;
/** A first look at what the mix gives, while it is being made: where it promises so much more than the plan has. */
const EARLY_ROUNDS = 3;
const EARLY_GAIN = 1.02;
const EARLY_DIVE = { sure: 0.5, pricingRounds: 1, depth: 0 } as const;
/** From the mix to whole boards, in turn: one ends some per cent above another by chance. */
const DIVES = [
  { sure: 0.6, pricingRounds: 2, depth: 1 },
  { sure: 0.8, pricingRounds: 3, depth: 0 },
  { sure: 0.9, pricingRounds: 2, depth: 1 },
  { sure: 0.7, pricingRounds: 1, depth: 0 },
  { sure: 0.6, pricingRounds: 2, depth: 1 },
  { sure: 0.95, pricingRounds: 1, depth: 0 },
  { sure: 0.8, pricingRounds: 3, depth: 0 },
  { sure: 0.7, pricingRounds: 1, depth: 0 },
] as const;
/** From this round of the mix on more places for sections are looked at. */
const HARD_FROM = 13;

export interface ClimbTask {
  readonly job: Job;
  readonly start: Plan;
  /** Patterns worth having at hand. */
  readonly known?: readonly CutBoard[];
  readonly scoreOf: (plan: Plan) => Score;
  readonly workMost: number;
  readonly mixRounds: number;
  /** Times that whole boards are settled from the mix of all. */
  readonly dives: number;
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
    promising: all,
    plan: start,
    score: scoreOf(start),
    best: start,
    bestScore: scoreOf(start),
    slack: 0,
  };
  const each = all.flatMap((board) => Array.from({ length: Math.min(stock.get(board)!, BOARDS_MOST) }, () => board));
  let mix = master.mix();
  for (let round = 0; round < task.mixRounds && job.work < workMost * MIX_SHARE; round++) {
    const depth = round >= HARD_FROM ? 2 : round % 4 === 3 ? 1 : 0;
    const fresh = master.price(mix.rents, mix.boardRents, all, depth, 1);
    if (fresh === 0 && depth > 0) break;
    mix = master.mix();
    if (round % EARLY_ROUNDS === EARLY_ROUNDS - 1 && mix.value > EARLY_GAIN * worthOfPlan(job, state.best))
      keepIfGood(state, dive(job, master, [], each, { ...EARLY_DIVE, workMost }));
    yield state.best;
  }
  takeRents(state, mix.rents);
  for (const [turn, options] of DIVES.slice(0, task.dives).entries()) {
    if (job.work >= workMost * (turn === 0 ? 1 : DIVE_SHARE) || task.done(state.best)) break;
    keepIfGood(state, dive(job, master, [], each, { ...options, workMost: workMost * PRICING_SHARE }));
    yield state.best;
  }
  const { random } = job;
  const choose = (climb: Climb) => chooseAnew(climb, 4 + random.below(8), random.below(6), 0, 0);
  const moves = [
    recutInTurn,
    choose,
    (climb: Climb) => chooseAnew(climb, 4 + random.below(8), random.below(4), 2, 1),
    recutInTurn,
    choose,
    (climb: Climb) => recutTogether(climb, 5 + random.below(25), random.below(8)),
  ] as const;
  for (let round = 1; job.work < workMost && state.plan.length > 0 && !task.done(state.best); round++) {
    job.work += 5000;
    state.slack = SLACK * Math.max(0, 1 - job.work / (SLACK_SHARE * workMost));
    moves[round % moves.length]!(state);
    if (round % 60 !== 0) continue;
    mix = master.mix();
    takeRents(state, mix.rents);
    const opened = [...new Set(state.best.map((cut) => cut.board))];
    master.price(mix.rents, mix.boardRents, opened, 2, 0.9);
    yield state.best;
  }
  return state;
}

function takeRents(state: Climb, rents: Float64Array): void {
  const { job, master } = state;
  state.rents = rents;
  state.promising = job.problem.boards
    .map((_, board) => ({ board, value: Math.max(0, ...master.of(board).map((one) => reducedWorth(one, rents))) }))
    .sort((a, b) => b.value - a.value)
    .map(({ board }) => board);
}
