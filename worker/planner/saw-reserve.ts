/**
 * Strips that are better left whole for a while: they hold only short parts that are easy to replace, and a demanding part
 * could still be cut from them if one warps in its rest or is spoiled.
 */
import type { BoardLayout, Problem, Rect, StockBoard } from './problem.ts';
import { rectKey, type Stock, sawTree } from './saw-order-tree.ts';

export interface Reserve {
  /** The strip as the rip before it leaves it. */
  readonly strip: Rect;
  /** Blanks of the most demanding tier that it could give. */
  readonly standsFor: readonly number[];
}

/** The tier whose parts rest and must pass before their reserve is cut up. */
const DEMANDING_TIER = 1;

/** Reserves of a board that demanding parts are cut from; none on other boards, which wait as a whole. */
export function reservesIn(problem: Problem, layout: BoardLayout): readonly Reserve[] {
  const board = problem.boards[layout.board];
  const isDemanding = (blank: number) => problem.blanks[blank]?.tier === DEMANDING_TIER;
  if (!board || !layout.pieces.some(({ blank }) => isDemanding(blank))) return [];
  const tree = sawTree({ from: 0, to: board.length, left: 0, right: board.width }, layout.cuts);
  if (!tree) return [];
  const blankAt = new Map(layout.pieces.map((piece) => [rectKey(piece), piece.blank]));
  const demanding = problem.blanks.flatMap((_, blank) => (isDemanding(blank) ? [blank] : []));
  const reserves: Reserve[] = [];
  const look = (stock: Stock, parent: Stock['axis']): void => {
    const pieces = piecesIn(stock, blankAt);
    if (parent === 'rip' && stock.axis === 'crosscut' && pieces.length > 0 && !pieces.some(isDemanding)) {
      const standsFor = demanding.filter((blank) => couldGive(problem, board, stock.rect, blank));
      if (standsFor.length > 0) reserves.push({ strip: stock.rect, standsFor });
      return;
    }
    for (const inner of stock.between) if (inner) look(inner, stock.axis);
  };
  look(tree, null);
  return reserves;
}

function piecesIn(stock: Stock, blankAt: ReadonlyMap<string, number>): readonly number[] {
  const blank = blankAt.get(rectKey(stock.rect));
  if (blank !== undefined) return [blank];
  return stock.between.flatMap((inner) => (inner ? piecesIn(inner, blankAt) : []));
}

/** In a place clear of what the blank may not touch. */
function couldGive(problem: Problem, board: StockBoard, strip: Rect, blank: number): boolean {
  const size = board.fits ? board.fits[blank] : problem.blanks[blank];
  const bad = board.blocked[problem.blanks[blank]?.quality ?? 0] ?? [];
  if (!size) return false;
  const starts = [strip.from, ...bad.map(({ to }) => to)].filter(
    (from) => from >= strip.from && from + size.length <= strip.to,
  );
  const edges = [strip.left, ...bad.map(({ right }) => right)].filter(
    (left) => left >= strip.left && left + size.width <= strip.right,
  );
  return starts.some((from) =>
    edges.some((left) =>
      bad.every(
        (one) => one.to <= from || one.from >= from + size.length || one.right <= left || one.left >= left + size.width,
      ),
    ),
  );
}
