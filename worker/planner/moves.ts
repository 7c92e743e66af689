/**
 * Ways to make a plan better: a few boards are taken back and cut anew, together or one after another, or chosen anew
 * from all patterns known. The search goes on from a new plan when it is no worse, or not much.
 */
import { type Column, isWithin, reducedWorth, worthOf } from './column.ts';
import { dive } from './dive.ts';
import { type Job, priced } from './job.ts';
import { Master } from './master.ts';
import type { Depth } from './one-board.ts';
import { type CutBoard, compare, openedCounts, type Plan, type Score } from './plan.ts';
import { recombined } from './recombine.ts';

export interface Climb {
  readonly job: Job;
  readonly master: Master;
  readonly scoreOf: (plan: Plan) => Score;
  /** What one more copy of each blank would be worth to the whole plan. */
  rents: Float64Array;
  /** Boards whose patterns pay most at these rents come first. */
  promising: readonly number[];
  /** The plan that is being changed: now and then a little worse than the best, so that the search gets out of corners. */
  plan: Plan;
  score: Score;
  best: Plan;
  bestScore: Score;
  /** Share of the best plan's worth that the plan in hand may lack. */
  slack: number;
}

interface Taken {
  readonly kept: Plan;
  readonly back: Plan;
  /** Boards to cut: those taken back, and some not opened yet. */
  readonly boards: number[];
}

/** Patterns of one board that are chosen from. */
const PATTERNS_MOST = 40;

/** Goes on from the plan when it is no worse, or not much worse than the best. */
export function keepIfGood(climb: Climb, plan: Plan): void {
  const score = climb.scoreOf(plan);
  const isBest = compare(score, climb.bestScore) >= 0;
  const isGood =
    isBest ||
    compare(score, climb.score) >= 0 ||
    (climb.slack > 0 && worthOfPlan(climb.job, plan) >= (1 - climb.slack) * worthOfPlan(climb.job, climb.best));
  if (!isGood) return;
  climb.plan = plan;
  climb.score = score;
  if (!isBest) return;
  climb.best = plan;
  climb.bestScore = score;
}

export const worthOfPlan = (job: Job, plan: Plan): number => plan.reduce((sum, cut) => sum + worthOf(job, cut), 0);

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
    added.push({ board, pieces: (column ?? found).pieces });
    for (const piece of found.pieces) left[piece.blank]!--;
  });
  keepIfGood(climb, [...kept, ...added]);
}

/** Boards together, settled from a mix of patterns priced for them alone. */
export function recutTogether(climb: Climb, count: number, extra: number): void {
  const { job, master } = climb;
  const { random } = job;
  const { kept, boards } = takeBack(climb, count, extra, random.below(2) === 0);
  const plan = dive(job, master, kept, boards, {
    sure: [0.6, 0.75, 0.9][random.below(3)]!,
    pricingRounds: 2,
    depth: 1,
    workMost: job.workMost,
  });
  keepIfGood(climb, plan);
}

/** Boards together, from patterns known and some priced for them alone. */
export function chooseAnew(climb: Climb, count: number, extra: number, rounds: number, depth: Depth): void {
  const { job, master } = climb;
  const { kept, back, boards } = takeBack(climb, count, extra, true);
  const left = leftAfter(job, kept);
  const stock = new Map<number, number>();
  for (const board of boards) stock.set(board, (stock.get(board) ?? 0) + 1);
  const small = new Master(job, left, stock);
  for (const board of stock.keys()) {
    const columns = master.of(board).filter((column) => column.worth > 0 && isWithin(column, left));
    for (const column of mostPaying(columns, climb.rents)) small.take(column);
  }
  let mix = small.mix();
  for (let round = 0; round < rounds; round++) {
    const before = small.columns.length;
    const fresh = small.price(mix.rents, mix.boardRents, [...stock.keys()], depth, 1);
    for (const column of small.columns.slice(before)) master.add(column);
    if (fresh === 0) break;
    mix = small.mix();
  }
  const floor = back.reduce((sum, cut) => sum + worthOf(job, cut), 0);
  if (mix.value <= floor + 1e-6) return;
  const choices = { boards: boards.map((board) => small.of(board)), rents: mix.rents, left };
  const better = recombined(job, choices, floor, 20_000);
  if (better) keepIfGood(climb, [...kept, ...better.map(({ board, pieces }) => ({ board, pieces }))]);
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
  const closed = climb.promising.filter(
    (board) => opened[board]! < (problem.boards[board]!.count ?? Number.POSITIVE_INFINITY),
  );
  // Seldom far down the list.
  for (let i = 0; i < extra && closed.length > 0; i++) {
    const at = Math.floor(random.next() ** 2 * closed.length);
    boards.push(closed.splice(at, 1)[0]!);
  }
  return { kept: plan.filter((_, index) => !taken.has(index)), back, boards };
}

/** The patterns of a board that pay most at these rents. */
function mostPaying(columns: readonly Column[], rents: Float64Array): readonly Column[] {
  if (columns.length <= PATTERNS_MOST) return columns;
  return columns
    .map((column) => ({ column, value: reducedWorth(column, rents) }))
    .sort((a, b) => b.value - a.value)
    .slice(0, PATTERNS_MOST)
    .map(({ column }) => column);
}
