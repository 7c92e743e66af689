/** How much of a board any piece could use: its face without what is spoiled for all of them. */
import { rectArea } from './check-replay.ts';
import type { Problem, Rect, StockBoard } from './problem.ts';

/** Enlarged by one blade on the far sides, as the pieces are. */
export interface ClearFace {
  readonly length: number;
  readonly width: number;
  readonly area: number;
}

/**
 * Face that any blank could use, enlarged by one blade on the far sides as the blanks are. Wood is spoiled for good only
 * where it is blocked for every quality, and there a blade may still stand on its near sides.
 */
export function clearFace(problem: Problem, board: StockBoard): ClearFace {
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
  return {
    ...lengthBetweenEnds(board, spoiled, kerf.crosscut),
    width: board.width + kerf.rip,
    area: whole - unionArea(spoiled),
  };
}

/** Ends spoiled over the full width shorten the board. */
function lengthBetweenEnds(board: StockBoard, spoiled: readonly Rect[], blade: number): { readonly length: number } {
  const across = spoiled.filter((rect) => rect.left === 0 && rect.right >= board.width);
  const near = Math.max(0, ...across.filter((rect) => rect.from === 0).map((rect) => rect.to));
  const far = Math.min(
    board.length + blade,
    ...across.filter((rect) => rect.to >= board.length && rect.from > 0).map((rect) => rect.from),
  );
  return { length: Math.max(1, far - near) };
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
