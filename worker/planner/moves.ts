/**
 * Ways to make a plan better: a few boards are taken back and cut anew, together or one after another, or chosen anew
 * from all patterns known. A new plan is kept when it is no worse.
 */
import { dive } from './dive.ts';
import { type Job, priced } from './job.ts';
import type { Master } from './master.ts';
import { type CutBoard, compare, openedCounts, type Plan, type Score } from './plan.ts';
import { recombined } from './recombine.ts';

export interface Climb {
  readonly job: Job;
  readonly master: Master;
  readonly scoreOf: (plan: Plan) => Score;
  /** What one more copy of each blank would be worth to the whole plan. */
  rents: Float64Array;
  plan: Plan;
  score: Score;
}

interface Taken {
  readonly kept: Plan;
  readonly back: Plan;
  /** Boards to cut: those taken back, and some not opened yet. */
  readonly boards: number[];
}

/** Keeps the plan when it is no worse. */
export function keepIfBetter(climb: Climb, plan: Plan): void {
  const score = climb.scoreOf(plan);
  if (compare(score, climb.score) < 0) return;
  climb.plan = plan;
  climb.score = score;
}

/** Boards one after another, at prices that leave for later boards what is worth more there. */
export function recutInTurn(climb: Climb): void {
  const { job, master } = climb;
  const { problem, random } = job;
  const { kept, boards } = takeBack(climb, 2 + random.below(4), random.below(3), random.below(2) === 0);
  const left = leftAfter(job, kept);
  for (let i = boards.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [boards[i], boards[j]] = [boards[j]!, boards[i]!];
  }
  const respect = [0, 0.5, 0.8, 1][random.below(4)]!;
  const noise = [0, 0.05, 0.2][random.below(3)]!;
  const added: CutBoard[] = [];
  boards.forEach((board, turn) => {
    const last = turn === boards.length - 1;
    const prices = job.weights.map((weight, blank) => {
      if (left[blank]! <= 0) return 0;
      if (last) return weight;
      return Math.max(weight * 1e-3, (weight - respect * climb.rents[blank]!) * (1 + noise * (random.next() * 2 - 1)));
    });
    const found = priced(job, board, prices, left, 1, 4);
    if (found.pieces.length === 0) return;
    const column = master.add(found);
    const worth = column ? column.worth : worthOf(job, found);
    if (worth <= 0 && problem.objective === 'net') return;
    added.push({ board, pieces: found.pieces });
    for (const piece of found.pieces) left[piece.blank]!--;
  });
  keepIfBetter(climb, [...kept, ...added]);
}

/** Boards together, from a mix of patterns priced for them alone. */
export function recutTogether(climb: Climb): void {
  const { random } = climb.job;
  const { kept, boards } = takeBack(climb, 3 + random.below(5), random.below(4), false);
  const plan = dive(climb.job, climb.master, kept, boards, {
    sure: 0.9,
    pricingRounds: 2,
    depth: 1,
    workMost: climb.job.workMost,
  });
  keepIfBetter(climb, plan);
}

/** Boards together, from patterns already known. */
export function chooseAnew(climb: Climb): void {
  const { job, master } = climb;
  const { random } = job;
  const { kept, back, boards } = takeBack(climb, 3 + random.below(6), random.below(4), false);
  const floor = back.reduce((sum, cut) => sum + worthOf(job, cut), 0);
  const better = recombined(job, master, boards, leftAfter(job, kept), floor, 20_000);
  if (better) keepIfBetter(climb, [...kept, ...better.map(({ board, pieces }) => ({ board, pieces }))]);
}

export function worthOf(job: Job, cut: CutBoard): number {
  const cost = job.problem.objective === 'net' ? job.problem.boards[cut.board]!.cost : 0;
  return cut.pieces.reduce((sum, piece) => sum + job.weights[piece.blank]!, -cost);
}

export function leftAfter(job: Job, plan: Plan): Int32Array {
  const left = job.wanted.slice();
  for (const cut of plan) for (const piece of cut.pieces) left[piece.blank]!--;
  return left;
}

function takeBack(climb: Climb, count: number, extra: number, related: boolean): Taken {
  const { job, plan } = climb;
  const { problem, random } = job;
  const most = Math.min(plan.length, count);
  const taken = new Set<number>();
  if (related && plan.length > 0) {
    // Boards that share a blank with one another make better trades.
    const first = random.below(plan.length);
    taken.add(first);
    const blanks = new Set(plan[first]!.pieces.map((piece) => piece.blank));
    const others = plan.flatMap((cut, index) =>
      index !== first && cut.pieces.some((piece) => blanks.has(piece.blank)) ? [index] : [],
    );
    while (taken.size < most && others.length > 0) taken.add(others.splice(random.below(others.length), 1)[0]!);
  } else {
    while (taken.size < most) taken.add(random.below(plan.length));
  }
  const back = plan.filter((_, index) => taken.has(index));
  const boards = back.map((cut) => cut.board);
  const opened = openedCounts(problem, plan);
  const closed = problem.boards.flatMap((board, index) =>
    opened[index]! < (board.count ?? Number.POSITIVE_INFINITY) ? [index] : [],
  );
  for (let i = 0; i < extra && closed.length > 0; i++) boards.push(closed.splice(random.below(closed.length), 1)[0]!);
  return { kept: plan.filter((_, index) => !taken.has(index)), back, boards };
}
