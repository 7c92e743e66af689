/** A solved cutting problem told to the shop: layouts with concrete pieces, what was not placed, how good it provably is. */
import type { Layout, PlanBody, Unplaced } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { cubicMetres } from '../wood/volume.ts';
import { type StockFigures, stockFigures } from './present-bound.ts';
import { faceM2, presentLayout } from './present-layout.ts';
import { presentUnplaced } from './present-unplaced.ts';
import type { Solution } from './problem.ts';
import { kerfNm, type ShopBoard } from './shop-board.ts';
import type { FitOptions } from './shop-fit.ts';
import type { ShopProblem } from './shop-problem.ts';
import type { PieceRef, Wanted } from './shop-wanted.ts';

export interface SolvedPlan {
  readonly shop: ShopProblem;
  readonly solution: Solution;
  /** The same pieces over every board that can give one of them: what the bound must hold for. */
  readonly all: ShopProblem;
}

/** A plan without what it was asked for and how it was made. */
export type Presented = Omit<PlanBody, 'jobId' | 'jobRevision' | 'effort' | 'seed' | 'notes'>;

export function presentPlan(
  solved: SolvedPlan | null,
  wanted: readonly Wanted[],
  stock: readonly ShopBoard[],
  settings: Settings,
  options: FitOptions,
): Presented {
  const layouts = solved ? presentLayouts(solved, settings) : [];
  const placed = solved?.solution.placed ?? wanted.map(() => 0);
  const unplaced = wanted.flatMap((asks, index): Unplaced[] => {
    const count = asks.pieces.length - (placed[index] ?? 0);
    return count > 0 ? [presentUnplaced(asks, count, stock, settings, options)] : [];
  });
  const figures = solved ? figuresOf(solved) : { usedM3: 0, boundM3: 0, boundIs: 'Nothing is cut.' };
  const opened = layouts.map(({ lengthNm, widthNm }) => ({ fromNm: 0, toNm: lengthNm, leftNm: 0, rightNm: widthNm }));
  return {
    layouts,
    unplaced,
    kerf: kerfNm(settings),
    boardVersions: versionsOf(layouts, stock),
    placedCount: placed.reduce((sum, count) => sum + count, 0),
    wantedCount: wanted.reduce((sum, asks) => sum + asks.pieces.length, 0),
    yieldPercent: layouts.length === 0 ? 0 : (100 * faceM2(layouts.flatMap((l) => l.pieces))) / faceM2(opened),
    stockUsedM3: figures.usedM3,
    stockBoundM3: figures.boundM3,
    gapPercent: figures.usedM3 === 0 ? 0 : (100 * (figures.usedM3 - figures.boundM3)) / figures.usedM3,
    boundIs: figures.boundIs,
  };
}

function figuresOf({ shop, all, solution }: SolvedPlan): StockFigures {
  const usedM3 = solution.layouts.reduce((sum, layout) => {
    const on = shop.boards[layout.board];
    return on ? sum + cubicMetres(on.board) : sum;
  }, 0);
  const volumesM3 = all.boards.map(({ board }) => cubicMetres(board));
  // The search's own bound says nothing of boards that it did not look at.
  return stockFigures(all.problem, volumesM3, solution.placed, usedM3, shop === all ? solution.bound : null);
}

/** Boards with the most demanding pieces first; copies of a part are numbered in that order. */
function presentLayouts({ shop, solution }: SolvedPlan, settings: Settings): Layout[] {
  const next = shop.wanted.map(() => 0);
  const assign = (blank: number): PieceRef => {
    const at = next[blank] ?? 0;
    next[blank] = at + 1;
    const piece = shop.wanted[blank]?.pieces[at];
    if (!piece) throw new Error(`more of blank ${blank} placed than wanted`);
    return piece;
  };
  const tierOf = (blank: number) => shop.wanted[blank]?.tier ?? 1;
  return [...solution.layouts]
    .sort((a, b) => {
      const phase = (l: typeof a) => Math.min(...l.pieces.map((piece) => tierOf(piece.blank)));
      const longest = (l: typeof a) => Math.max(...l.pieces.map((piece) => piece.to - piece.from));
      return phase(a) - phase(b) || longest(b) - longest(a) || a.board - b.board;
    })
    .flatMap((layout) => {
      const on = shop.boards[layout.board];
      return on ? [presentLayout(layout, on, shop.wanted, assign, settings)] : [];
    });
}

function versionsOf(layouts: readonly Layout[], stock: readonly ShopBoard[]): Record<string, number> {
  const version = new Map(stock.map(({ board }) => [board.id, board.version]));
  return Object.fromEntries(layouts.map(({ boardId }) => [boardId, version.get(boardId) ?? 0]));
}
