/**
 * A planning job in hand: what every blank is worth to the search, and boards looked at again and again. Earlier tiers
 * weigh a thousand times more than the next when boards are priced; plans are compared tier by tier.
 */
import { type Depth, OneBoard, type Pattern } from './one-board.ts';
import type { Effort, Problem } from './problem.ts';
import { type Random, seededRandom } from './random.ts';
import { SharedTables } from './staged-tables.ts';

/** More copies than any board could hold. */
export const UNLIMITED = 1 << 24;

const EFFORT_SHARE: Readonly<Record<Effort, number>> = { quick: 0.08, normal: 1, long: 7 };

const YARD_SHARE: Readonly<Record<Effort, number>> = { quick: 0.08, normal: 1, long: 5 };

/** Bars are packed nearly to the proven least, which takes longer than a good plan. */
const WORK_OF_BARS = 200_000_000;

/** Work allowed, in the search's own steps: more for a yard of many boards. */
export function effortWork(problem: Problem, effort: Effort): number {
  const boards = problem.boards.length;
  const single = boards === 1 && problem.boards[0]!.count === 1;
  if (problem.objective === 'boards' && !single && isOneWide(problem)) return EFFORT_SHARE[effort] * WORK_OF_BARS;
  if (single) return Math.round(EFFORT_SHARE[effort] * 60_000_000);
  if (problem.objective === 'boards') return Math.round(EFFORT_SHARE[effort] * (50_000_000 + 2_000_000 * boards));
  const work = effort === 'quick' ? 50_000_000 + 2_000_000 * boards : 180_000_000 + 1_350_000 * boards;
  return Math.round(YARD_SHARE[effort] * work);
}

/** Whether no two blanks lie beside each other on any board. */
function isOneWide({ boards, blanks }: Problem): boolean {
  return boards.every((board) =>
    blanks.every(
      (blank, index) => 2 * (board.fits ? (board.fits[index]?.width ?? board.width) : blank.width) > board.width,
    ),
  );
}

/** Strip starts at most, where a board offers more. */
const STARTS_MOST = 500;
/** Boards whose geometry is kept at hand. */
const BOARDS_KEPT = 400;

export interface Job {
  readonly problem: Problem;
  readonly random: Random;
  /** Copies wanted by blank. */
  readonly wanted: Int32Array;
  /** What one copy counts when boards are priced. */
  readonly weights: Float64Array;
  readonly tiers: number;
  readonly workMost: number;
  work: number;
  readonly boards: Map<number, OneBoard>;
}

/** The same job for another problem with the same blanks and boards: work is counted on. */
export function derivedJob(job: Job, problem: Problem, weights: Float64Array): Job {
  const copy: Job = { ...job, problem, weights };
  Object.defineProperty(copy, 'work', {
    get: () => job.work,
    set: (work: number) => {
      job.work = work;
    },
  });
  return copy;
}

export function startJob(problem: Problem, effort: Effort, seed: number, workMost?: number): Job {
  const tierOf = tierRanks(problem);
  const tiers = Math.max(1, ...tierOf.map((rank) => rank + 1));
  const weights = Float64Array.from(problem.blanks, (blank, index) => {
    const worth = problem.objective === 'boards' ? blank.length * blank.width : blank.value;
    return Math.max(0, worth) * 1000 ** Math.min(3, tiers - 1 - tierOf[index]!);
  });
  return {
    problem,
    random: seededRandom(seed),
    wanted: Int32Array.from(problem.blanks, (blank) => Math.min(blank.quantity ?? UNLIMITED, UNLIMITED)),
    weights,
    tiers,
    workMost: workMost ?? effortWork(problem, effort),
    work: 0,
    boards: new Map(),
  };
}

/** 0 for the most urgent tier in use, and so on. */
export function tierRanks(problem: Problem): number[] {
  const used = [...new Set(problem.blanks.map((blank) => blank.tier))].sort((a, b) => a - b);
  return problem.blanks.map((blank) => used.indexOf(blank.tier));
}

/** Geometry of a board, kept for the few boards looked at last. */
export function boardOf(job: Job, board: number): OneBoard {
  const known = job.boards.get(board);
  if (known) {
    job.boards.delete(board);
    job.boards.set(board, known);
    return known;
  }
  const fresh = new OneBoard(job.problem, board, STARTS_MOST);
  job.boards.set(board, fresh);
  if (job.boards.size > BOARDS_KEPT) job.boards.delete(job.boards.keys().next().value!);
  job.work += 30_000;
  return fresh;
}

/** The best pattern found for a board at these prices and within these limits. shared: tables at just these. */
export function priced(
  job: Job,
  board: number,
  prices: Float64Array,
  limits: Int32Array,
  depth: Depth,
  rounds: number,
  shared: SharedTables | null = null,
): Pattern {
  const search = boardOf(job, board);
  const before = search.work + (shared?.work ?? 0);
  const found = search.limited(prices, limits, depth, rounds, job.random, shared);
  job.work += search.work + (shared?.work ?? 0) - before;
  return found;
}

/** Tables for looking at many boards at the same prices. */
export function sharedTables({ problem }: Job, prices: Float64Array, limits: Int32Array): SharedTables {
  const longest = problem.boards.reduce((most, board) => Math.max(most, board.length), 0);
  const widest = problem.boards.reduce((most, board) => Math.max(most, board.width), 0);
  return new SharedTables(prices, limits, longest, widest);
}
