/** Whether every piece lies behind the straight line that its edge needs: part of the check, and like it apart from the search. */
import { rectText } from './check-replay.ts';
import type { BoardLayout, Rect, StockBoard } from './problem.ts';

/**
 * The first rip through a piece of stock is the line that all later cuts of it follow, so a hollow edge takes its share
 * over the length that the stock had then; what is never ripped must be straightened over its own length.
 */
export function edgeFaults(board: StockBoard, layout: BoardLayout): string[] {
  const crook = board.edges?.crook ?? 0;
  if (crook === 0) return [];
  return layout.pieces.flatMap((piece) => {
    const line = layout.cuts.find((cut) => cut.axis === 'rip' && holds(cut.of, piece));
    const stretch = line ? line.of.to - line.of.from : piece.to - piece.from;
    const hollow = crook * (stretch / board.length) ** 2;
    if (piece.left >= hollow - 1e-6) return [];
    return [
      `piece ${rectText(piece)} reaches over an edge that is hollow by ${hollow.toFixed(2)} over ${stretch} along`,
    ];
  });
}

const holds = (of: Rect, piece: Rect): boolean =>
  of.from <= piece.from && of.to >= piece.to && of.left <= piece.left && of.right >= piece.right;
