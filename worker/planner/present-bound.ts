/**
 * What no plan can beat: the least stock that has to be opened for these very pieces. Each piece takes at least its own
 * share of the face of whichever board it comes from, kerf included, so it takes at least that share of the board's wood.
 */
import { rectArea } from './check-replay.ts';
import type { Problem, Rect, StockBoard } from './problem.ts';

export interface StockFigures {
  readonly usedM3: number;
  readonly boundM3: number;
  readonly boundIs: string;
}

/**
 * problem: the pieces over every board that can give one of them, with the volume of each board, whole. searchBound: what
 * the search proved of worth less cost over these boards, or null.
 */
export function stockFigures(
  problem: Problem,
  volumesM3: readonly number[],
  placed: readonly number[],
  usedM3: number,
  searchBound: number | null,
): StockFigures {
  const bounds = [
    { m3: areaBoundM3(problem, placed, volumesM3), is: BY_SHARES },
    { m3: searchBound === null ? 0 : worthBoundM3(problem, placed, searchBound, volumesM3), is: BY_SEARCH },
    { m3: largestPieceM3(problem, placed, volumesM3), is: BY_BOARD },
  ];
  const best = bounds.reduce((most, bound) => (bound.m3 > most.m3 ? bound : most));
  const isBest = best.m3 >= usedM3 * (1 - 1e-9);
  return { usedM3, boundM3: Math.min(usedM3, best.m3), boundIs: isBest ? PROVEN : best.is };
}

const PROVEN = 'Proven best: no plan cuts these pieces from less stock.';
const BY_SHARES =
  'Every piece with its saw kerf, at its share of the clear face of the leanest board that can give it; no plan opens less.';
const BY_SEARCH = 'What the boards could be worth at most however they are cut; no plan opens less.';
const BY_BOARD = 'The smallest board that can give the piece hardest to place; no plan opens less.';

/** Sum over the pieces of the least share of a board's wood that each can take. */
function areaBoundM3(problem: Problem, placed: readonly number[], volumesM3: readonly number[]): number {
  const clear = problem.boards.map((board) => clearArea(problem, board));
  return placed.reduce((sum, count, blank) => {
    if (count === 0) return sum;
    let leastM3 = Number.POSITIVE_INFINITY;
    for (const [index, board] of problem.boards.entries()) {
      const size = board.fits ? board.fits[blank] : problem.blanks[blank];
      const area = clear[index] ?? 0;
      if (!size || area <= 0) continue;
      const taken = (size.length + problem.kerf.crosscut) * (size.width + problem.kerf.rip);
      leastM3 = Math.min(leastM3, (taken / area) * (volumesM3[index] ?? 0));
    }
    return Number.isFinite(leastM3) ? sum + count * leastM3 : sum;
  }, 0);
}

/** At least one board has to be opened that can give it. */
function largestPieceM3(problem: Problem, placed: readonly number[], volumesM3: readonly number[]): number {
  return placed.reduce((most, count, blank) => {
    if (count === 0) return most;
    const homes = problem.boards.flatMap((board, index) => {
      const fits = board.fits ? board.fits[blank] : problem.blanks[blank];
      return fits ? [volumesM3[index] ?? 0] : [];
    });
    return homes.length > 0 ? Math.max(most, Math.min(...homes)) : most;
  }, 0);
}

/** Worth of the pieces less the search's bound is what any plan with these pieces must pay for boards. */
function worthBoundM3(
  problem: Problem,
  placed: readonly number[],
  searchBound: number,
  volumesM3: readonly number[],
): number {
  if (problem.objective !== 'net' || !Number.isFinite(searchBound)) return 0;
  const worth = placed.reduce((sum, count, blank) => sum + count * (problem.blanks[blank]?.value ?? 0), 0);
  const costLeast = worth - searchBound;
  if (costLeast <= 0) return 0;
  const costPerM3Most = Math.max(
    ...problem.boards.map((board, index) => board.cost / Math.max(Number.MIN_VALUE, volumesM3[index] ?? 0)),
  );
  return costLeast / costPerM3Most;
}

/**
 * Face that any blank could use, enlarged by one blade on the far sides as the blanks are. Wood is spoiled for good only
 * where it is blocked for every quality, and there a blade may still stand on its near sides.
 */
function clearArea(problem: Problem, board: StockBoard): number {
  const { kerf } = problem;
  const whole = (board.length + kerf.crosscut) * (board.width + kerf.rip);
  const lists = board.blocked.filter((_, quality) => problem.blanks.some((blank) => blank.quality === quality));
  const spoiled = (lists[0] ?? [])
    .filter((rect) => lists.every((list) => list.some((other) => sameRect(other, rect))))
    .map((rect) => ({
      ...rect,
      from: rect.from === 0 ? 0 : rect.from + kerf.crosscut,
      left: rect.left === 0 ? 0 : rect.left + kerf.rip,
    }))
    .filter((rect) => rect.from < rect.to && rect.left < rect.right);
  return whole - unionArea(spoiled);
}

const sameRect = (a: Rect, b: Rect): boolean =>
  a.from === b.from && a.to === b.to && a.left === b.left && a.right === b.right;

/** Area covered by any of the rectangles, counted column by column between their edges. */
function unionArea(rects: readonly Rect[]): number {
  const edges = [...new Set(rects.flatMap((rect) => [rect.from, rect.to]))].sort((a, b) => a - b);
  let area = 0;
  for (const [index, from] of edges.entries()) {
    const to = edges[index + 1];
    if (to === undefined) break;
    let reached = Number.NEGATIVE_INFINITY;
    const column = rects.filter((rect) => rect.from <= from && rect.to >= to).sort((a, b) => a.left - b.left);
    for (const { left, right } of column) {
      area += Number(rectArea({ from, to, left: Math.max(left, reached), right: Math.max(right, reached, left) }));
      reached = Math.max(reached, right);
    }
  }
  return area;
}
