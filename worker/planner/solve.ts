/**
 * The planner: a plan at once, then better ones until the work allowed is done, with a proven bound beside it. Work is
 * counted in the search's own steps, so the same job, effort and seed give the same plan on any machine.
 */
import { greedyPlan } from './greedy.ts';
import { type Job, startJob } from './job.ts';
import { achievedBy, layoutsOf } from './layout.ts';
import type { LpEngine } from './lp.ts';
import { compare, type Plan, placedCounts, scorer } from './plan.ts';
import type { Effort, Problem, Progress, Solution } from './problem.ts';
import { worthBound } from './worth-bound.ts';

export interface SolveOptions {
  readonly effort: Effort;
  readonly seed: number;
  readonly lp?: LpEngine;
}

export function solve(problem: Problem, options: SolveOptions): Solution {
  const steps = solveSteps(problem, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

export function* solveSteps(problem: Problem, options: SolveOptions): Generator<Progress, Solution> {
  const job = startJob(problem, options.effort, options.seed);
  const score = scorer(problem);
  const all = problem.boards.map((_, board) => board);
  let plan: Plan = [];
  for (const preference of ['yield', 'net'] as const) {
    const tried = greedyPlan(job, [], all, { prices: job.weights, preference, rounds: 6, sections: true });
    if (compare(score(tried), score(plan)) > 0 || plan.length === 0) plan = tried;
  }
  yield progressOf(job, plan, Number.POSITIVE_INFINITY);
  const layouts = layoutsOf(problem, plan);
  const achieved = achievedBy(problem, layouts);
  const bound = problem.objective === 'boards' ? 0 : Math.max(achieved, worthBound(job, achieved, 1000, null).bound);
  return { layouts, achieved, bound, placed: Array.from(placedCounts(problem, plan)), steps: job.work };
}

function progressOf(job: Job, plan: Plan, bound: number): Progress {
  return { achieved: achievedBy(job.problem, layoutsOf(job.problem, plan)), bound, steps: job.work };
}
