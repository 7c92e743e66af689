/**
 * Plans at once. The better one: the board whose best pattern pays most goes first. What a board would give only falls as blanks run
 * out, so a board is looked at again only when it stands first by an old figure; and looked at hard only when it is to
 * be cut.
 */
import { type Job, priced, sharedTables } from './job.ts';
import type { Depth, Pattern } from './one-board.ts';
import type { CutBoard, Plan } from './plan.ts';
import type { StockBoard } from './problem.ts';

export type Preference = 'net' | 'yield';

export interface GreedyOptions {
  readonly prices: Float64Array;
  readonly preference: Preference;
  readonly rounds: number;
  readonly depth: Depth;
}

interface Candidate {
  readonly pattern: Pattern;
  readonly rank: number;
  readonly age: number;
}

/** Adds boards to a plan until no board pays. */
export function greedyPlan(job: Job, start: Plan, boards: readonly number[], options: GreedyOptions): Plan {
  const { problem } = job;
  const left = job.wanted.slice();
  const stock = problem.boards.map((board) => board.count ?? Number.POSITIVE_INFINITY);
  for (const cut of start) {
    stock[cut.board]!--;
    for (const piece of cut.pieces) left[piece.blank]!--;
  }
  const costs = problem.boards.map((board) => (problem.objective === 'net' ? board.cost : 0));
  const plan: CutBoard[] = [...start];
  let age = 0;
  let shared = sharedTables(job, options.prices, left);
  const look = (board: number): Candidate => {
    const pattern = priced(job, board, options.prices, left, 0, 1, shared);
    const net = pattern.value - costs[board]!;
    const size = problem.boards[board]!.length * problem.boards[board]!.width;
    const per = options.preference === 'net' ? 1 : Math.max(1e-9, costs[board]! > 0 ? costs[board]! : size);
    return { pattern, rank: net <= 1e-9 ? Number.NEGATIVE_INFINITY : net / per, age };
  };
  const open: Candidate[] = boards.filter((board) => stock[board]! > 0).map(look);
  while (open.length > 0) {
    let first = 0;
    for (let i = 1; i < open.length; i++) if (open[i]!.rank > open[first]!.rank) first = i;
    const candidate = open[first]!;
    const board = candidate.pattern.board;
    if (candidate.rank === Number.NEGATIVE_INFINITY) break;
    if (candidate.age < age) {
      open[first] = look(board);
      continue;
    }
    const harder = priced(job, board, options.prices, left, options.depth, options.rounds);
    const { pieces } = harder.value > candidate.pattern.value ? harder : candidate.pattern;
    plan.push({ board, pieces });
    for (const piece of pieces) left[piece.blank]!--;
    age++;
    shared = sharedTables(job, options.prices, left);
    stock[board]!--;
    if (stock[board]! > 0) open[first] = { ...candidate, age: age - 1 };
    else open.splice(first, 1);
  }
  return plan;
}

/** Patterns are looked up in the same tables until this share of the copies wanted is cut. */
const STALE_SHARE = 0.1;

/**
 * The first plan of all: boards in turn, those with most wood for their cost first, each looked at once, so that boards
 * which are not needed are not looked at. It does not ask which board suits which blank.
 */
export function promptPlan(job: Job): Plan {
  const { problem, weights } = job;
  const left = job.wanted.slice();
  const costs = problem.boards.map((board) => (problem.objective === 'net' ? board.cost : 0));
  const stock = problem.boards.map((board) => board.count ?? Number.POSITIVE_INFINITY);
  const inTurn = problem.boards
    .map((board, index) => ({ index, ease: clearArea(board) / (costs[index]! > 0 ? costs[index]! : 1) }))
    .sort((a, b) => b.ease - a.ease || a.index - b.index);
  const plan: CutBoard[] = [];
  let shared = sharedTables(job, weights, left);
  let open = totalOf(left);
  let stale = 0;
  for (const { index: board } of inTurn) {
    for (; stock[board]! > 0 && open > stale; stock[board]!--) {
      const { pieces, value } = priced(job, board, weights, left, 0, 1, shared);
      if (pieces.length === 0 || value <= costs[board]!) break;
      plan.push({ board, pieces });
      for (const piece of pieces) left[piece.blank]!--;
      stale += pieces.length;
      if (stale < STALE_SHARE * open) continue;
      shared = sharedTables(job, weights, left);
      open = totalOf(left);
      stale = 0;
    }
  }
  return plan;
}

function totalOf(copies: Int32Array): number {
  return copies.reduce((sum, count) => sum + count, 0);
}

/** Without the defects of its worst quality, an overlap counted twice. */
function clearArea({ length, width, blocked }: StockBoard): number {
  const lost = blocked.map((rects) =>
    rects.reduce((sum, { from, to, left, right }) => sum + (to - from) * (right - left), 0),
  );
  return length * width - Math.max(0, ...lost);
}
