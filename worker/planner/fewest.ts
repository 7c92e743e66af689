/**
 * All blanks from the fewest boards. Boards are filled one after another at prices that learn from pass to pass: blanks
 * that lay on badly filled boards are dearer next time. Then one board fewer is tried, until the bound says stop.
 */

import { climb } from './climb.ts';
import { ended } from './ended.ts';
import { fewestBars, isBarJob } from './fewest-bars.ts';
import { fewestBound } from './fewest-bound.ts';
import { fewestRoundDefects } from './fewest-clear.ts';
import { mixedBoards } from './fewest-mix.ts';
import { fewestPerfect } from './fewest-perfect.ts';
import { boardOf, derivedJob, type Job, priced } from './job.ts';
import { leftAfter } from './moves.ts';
import { isPerfect } from './perfect-job.ts';
import { type CutBoard, compare, type Plan, scorer } from './plan.ts';
import type { PlacedBlank } from './problem.ts';
import { repackBoards } from './repack.ts';
import { hasNoDefects } from './view.ts';

/** A step of repacking takes about half as long as one of pricing. */
const REPACK_STEP = 0.5;

export interface Fewest {
  readonly plan: Plan;
  readonly bound: number;
}

export function* fewestBoards(job: Job): Generator<Fewest, Fewest> {
  const score = scorer(job.problem);
  let bound = Math.max(fewestBound(job), fewestRoundDefects(job));
  let plan: Plan = [];
  const prices = job.weights.map((weight) => weight ** 1.01);
  const passes = 400;
  for (let pass = 0; pass < passes; pass++) {
    const tried = onePass(job, prices, pass, []);
    if (pass === 0 || compare(score(tried), score(plan)) > 0) {
      plan = tried;
      yield { plan, bound };
    }
    if (plan.length > bound && isBarJob(job, plan)) return yield* fewestBars(job, plan, bound);
    if (pass > 0 && isPerfect(job, bound)) break;
    if (plan.length <= bound || job.work > job.workMost * (job.problem.boards.length === 1 ? 0.2 : 1)) break;
  }
  const only = job.problem.boards.length === 1 ? job.problem.boards[0]! : null;
  if (!only || plan.length <= bound) return { plan, bound };
  if (isPerfect(job, bound)) {
    const steps = fewestPerfect(job, bound);
    for (;;) {
      const { value, done } = steps.next();
      if (done && value) return { plan: value, bound };
      if (done) break;
      yield { plan, bound };
    }
  }
  const clear = clearKind(job);
  const mixed = mixedBoards(job, plan);
  bound = Math.max(bound, mixed.bound);
  for (let turn = 0; turn < 6 && plan.length > bound && job.work < job.workMost * (clear ? 0.5 : 0.7); turn++) {
    const dived = finished(job, mixed.dive(turn));
    if (compare(score(dived), score(plan)) > 0) plan = dived;
    yield { plan, bound };
  }
  while (clear && plan.length > bound && job.work < job.workMost) {
    const tight = repackBoards(
      {
        problem: { ...job.problem, objective: 'value' },
        view: boardOf(job, 0).view,
        wanted: job.wanted,
        areas: job.weights,
        start: fullest(job, plan, plan.length - 1),
        workMost: (job.workMost - job.work) / REPACK_STEP,
      },
      job.random,
    );
    job.work += tight.work * REPACK_STEP;
    if (tight.missing > 1e-9) break;
    plan = tight.boards.map((pieces) => ({ board: 0, pieces }));
    yield { plan, bound };
  }
  const total = job.wanted.reduce((sum, copies) => sum + copies, 0);
  while (plan.length > bound && job.work < job.workMost) {
    const count = plan.length - 1;
    const fewer = derivedJob(
      job,
      { ...job.problem, objective: 'value', boards: [{ ...only, count, cost: 0 }] },
      job.weights,
    );
    const start = fullest(job, plan, count).map((pieces) => ({ board: 0, pieces }));
    const placed = (now: Plan) => now.reduce((sum, cut) => sum + cut.pieces.length, 0);
    const steps = climb({
      job: fewer,
      start,
      known: mixed.columns(),
      scoreOf: (now) => [now.reduce((sum, cut) => sum + area(job, cut), 0)],
      workMost: job.workMost,
      mixRounds: 4,
      dives: 1,
      done: (now) => placed(now) === total,
    });
    const { best } = ended(steps);
    if (placed(best) < total) break;
    plan = best;
    yield { plan, bound };
  }
  return { plan, bound };
}

function fullest(job: Job, plan: Plan, count: number): (readonly PlacedBlank[])[] {
  const byArea = [...plan].sort((a, b) => area(job, b) - area(job, a));
  return byArea.slice(0, count).map((cut) => cut.pieces);
}

/** One kind of board without defects, not a bar. */
function clearKind(job: Job): boolean {
  const search = boardOf(job, 0);
  return !search.isBar && job.problem.maxStages === null && hasNoDefects(search.view);
}

function area(job: Job, cut: CutBoard): number {
  return cut.pieces.reduce((sum, piece) => sum + job.weights[piece.blank]!, 0);
}

/** Boards added for what a plan leaves out; the better of a few passes. */
function finished(job: Job, start: Plan): Plan {
  let best: Plan | null = null;
  const score = scorer(job.problem);
  for (let pass = 0; pass < 6; pass++) {
    const prices = job.weights.map((weight) => weight ** (1 + 0.03 * pass));
    const tried = onePass(job, prices, pass, start);
    if (!best || compare(score(tried), score(best)) > 0) best = tried;
  }
  return best!;
}

function onePass(job: Job, prices: Float64Array, pass: number, start: Plan): Plan {
  const { problem, random } = job;
  const left = leftAfter(job, start);
  const stock = problem.boards.map((board) => board.count ?? Number.POSITIVE_INFINITY);
  for (const cut of start) stock[cut.board]!--;
  const plan: CutBoard[] = [...start];
  const kinds = problem.boards.map((_, board) => board);
  const power = 1.005 + 0.06 * random.next();
  const memory = pass === 0 ? 1 : 0.5 + 0.4 * random.next();
  for (;;) {
    let best: CutBoard | null = null;
    let bestFill = 0;
    for (const board of kinds) {
      if (stock[board]! <= 0) continue;
      const found = priced(job, board, prices, left, pass % 3 === 2 ? 1 : 0, 3);
      const fill = area(job, found) / (problem.boards[board]!.length * problem.boards[board]!.width);
      if (found.pieces.length > 0 && fill > bestFill) {
        best = found;
        bestFill = fill;
      }
    }
    job.work += 2000;
    if (!best) return plan;
    stock[best.board]!--;
    plan.push({ board: best.board, pieces: best.pieces });
    for (const piece of best.pieces) {
      left[piece.blank]!--;
      const fresh = (job.weights[piece.blank]! / Math.max(0.3, bestFill)) ** power;
      prices[piece.blank] = memory * prices[piece.blank]! + (1 - memory) * fresh;
    }
  }
}
