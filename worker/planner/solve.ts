/**
 * The planner: a plan at once, then better ones until the work allowed is done, with a proven bound beside it. Work is
 * counted in the search's own steps, so the same job, effort and seed give the same plan on any machine.
 */

import { climb } from './climb.ts';
import { ended } from './ended.ts';
import { fewestBoards } from './fewest.ts';
import { greedyPlan, promptPlan } from './greedy.ts';
import { type Job, startJob } from './job.ts';
import { achievedBy, layoutsOf } from './layout.ts';
import { compare, type Plan, placedCounts, scorer } from './plan.ts';
import type { BoardLayout, Effort, Problem, Progress, Solution } from './problem.ts';
import { bestOfOne } from './single.ts';
import { hasNoDefects } from './view.ts';
import { WorthBound } from './worth-bound.ts';

export interface SolveOptions {
  readonly effort: Effort;
  readonly seed: number;
  /** Work allowed in place of what the effort allows. */
  readonly workMost?: number;
  /**
   * A plan that is known for this problem, such as one made before a board was added: the answer is never worse than it,
   * tier by tier. Boards and blanks by this problem's indices.
   */
  readonly start?: readonly Pick<BoardLayout, 'board' | 'pieces'>[];
}

/** Rounds of the bound before the search, so that a bound stands beside the first plans, and after it. */
const BOUND_ROUNDS_FIRST = 30;
const BOUND_ROUNDS_MIXED = 30;
/** The bound may take this share of the work that the plan may take. */
const BOUND_SHARE = 0.4;
/** Rounds and work for one board, where the bound mostly says little more than the search itself. */
const ONE_BOUND_ROUNDS = 80;
const ONE_BOUND_ROUNDS_MIXED = 20;
const ONE_BOUND_WORK = 3_000_000;

/** The plan after all work that the effort allows. */
export function solve(problem: Problem, options: SolveOptions): Solution {
  return ended(solveSteps(problem, options));
}

/**
 * The same search in steps, for showing the best so far and its bound as they close in, and for stopping early: take
 * `best()` of the step in hand and ask for no more. A step is some milliseconds to some tenths of a second of work; what
 * is yielded depends on problem, effort and seed alone. Run to its end, it returns what `solve` returns.
 *
 *     for (const step of solveSteps(problem, { effort: 'normal', seed: 1 })) {
 *       show(step.achieved, step.bound, step.stepsDone / step.stepsTotal);
 *       if (stopped()) return step.best();
 *     }
 */
export function* solveSteps(problem: Problem, options: SolveOptions): Generator<Progress, Solution> {
  const job = startJob(problem, options.effort, options.seed, options.workMost);
  const start = options.start ?? [];
  if (problem.objective === 'boards') return yield* fewestSteps(job, start);
  const only = problem.boards.length === 1 && problem.boards[0]!.count === 1;
  return yield* only ? oneSteps(job, start) : yardSteps(job, start);
}

/** The plan that is no worse; the first where they are alike. */
function better(job: Job, start: Plan, plan: Plan): Plan {
  const score = scorer(job.problem);
  return start.length > 0 && compare(score(start), score(plan)) >= 0 ? start : plan;
}

function* fewestSteps(job: Job, start: Plan): Generator<Progress, Solution> {
  const steps = fewestBoards(job);
  let step = steps.next();
  while (!step.done) {
    yield stepOf(job, better(job, start, step.value.plan), step.value.bound);
    step = steps.next();
  }
  return solutionOf(job, better(job, start, step.value.plan), step.value.bound);
}

function* oneSteps(job: Job, start: Plan): Generator<Progress, Solution> {
  const steps = bestOfOne(job, 0);
  let step = steps.next();
  while (!step.done) {
    yield stepOf(job, better(job, start, planOfOne(job, step.value.pattern.pieces)), step.value.bound);
    step = steps.next();
  }
  const plan = better(job, start, planOfOne(job, step.value.pattern.pieces));
  const achieved = achievedBy(job.problem, layoutsOf(job.problem, plan));
  const bound = boundOfOne(job, achieved, step.value.bound);
  return solutionOf(job, plan, bound);
}

function boundOfOne(job: Job, achieved: number, searched: number): number {
  if (achieved >= searched - 1e-9) return searched;
  const worthBound = new WorthBound(job, ONE_BOUND_WORK);
  // Where nothing is in the way, stacks say no more than bars, and many quick looks more than a few close ones.
  const proven = hasNoDefects(job.problem.boards[0]!)
    ? worthBound.improve(achieved, ONE_BOUND_ROUNDS)
    : worthBound.improveByMix(achieved, ONE_BOUND_ROUNDS_MIXED);
  return Math.min(searched, proven);
}

function planOfOne(job: Job, pieces: Plan[number]['pieces']): Plan {
  const { problem } = job;
  const worth = pieces.reduce((sum, piece) => sum + problem.blanks[piece.blank]!.value, 0);
  const pays = pieces.length > 0 && (problem.objective === 'value' || worth > problem.boards[0]!.cost);
  return pays ? [{ board: 0, pieces }] : [];
}

function* yardSteps(job: Job, start: Plan): Generator<Progress, Solution> {
  const { problem } = job;
  const all = problem.boards.map((_, board) => board);
  const achievedOf = (plan: Plan) => achievedBy(problem, layoutsOf(problem, plan));
  const prompt = better(job, start, promptPlan(job));
  yield stepOf(job, prompt, Number.POSITIVE_INFINITY);
  const greedy = greedyPlan(job, [], all, { prices: job.weights, preference: 'yield', depth: 1, rounds: 4 });
  const first = better(job, prompt, greedy);
  yield stepOf(job, first, Number.POSITIVE_INFINITY);
  const worthBound = new WorthBound(job, job.workMost * BOUND_SHARE);
  worthBound.improve(achievedOf(first), BOUND_ROUNDS_FIRST);
  const steps = climb({
    job,
    start: first,
    known: greedy,
    scoreOf: scorer(problem),
    workMost: job.workMost,
    mixRounds: 16,
    dives: 8,
    done: () => false,
  });
  let step = steps.next();
  while (!step.done) {
    yield stepOf(job, step.value, worthBound.bound);
    step = steps.next();
  }
  const { best: plan } = step.value;
  const bound = worthBound.improveByMix(achievedOf(plan), BOUND_ROUNDS_MIXED);
  return solutionOf(job, plan, bound);
}

function solutionOf(job: Job, plan: Plan, bound: number): Solution {
  const layouts = layoutsOf(job.problem, plan);
  const achieved = achievedBy(job.problem, layouts);
  const placed = placedCounts(job.problem, plan);
  // Where a blank finds no place, how many boards all of them need says nothing about fewer.
  const isShort = placed.some((copies, blank) => copies < job.wanted[blank]!);
  const fewest = isShort ? Math.min(bound, achieved) : bound;
  const proven = job.problem.objective === 'boards' ? fewest : Math.max(bound, achieved);
  return {
    layouts,
    achieved,
    bound: proven,
    placed: Array.from(placed),
    steps: Math.round(job.work),
  };
}

function stepOf(job: Job, plan: Plan, bound: number): Progress {
  const best = solutionOf(job, plan, bound);
  const stepsTotal = Math.round(job.workMost * (1 + BOUND_SHARE));
  return {
    achieved: best.achieved,
    bound: best.bound,
    stepsDone: Math.min(best.steps, stepsTotal),
    stepsTotal,
    best: () => best,
  };
}
