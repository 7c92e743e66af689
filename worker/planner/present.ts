/** A solved cutting problem told to the shop: layouts with concrete pieces, what was not placed, how good it provably is. */

import type { Layout, PlanBody, Unplaced, WoodCost } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { kerfNm } from '../takeoff/usable-run.ts';
import { cubicMetres } from '../wood/volume.ts';
import { cutsInWords } from './cut-words.ts';
import { type ProofEffort, type StockFigures, stockFigures } from './present-bound.ts';
import { faceM2, inOrderWanted, presentLayout } from './present-layout.ts';
import { presentUnplaced } from './present-unplaced.ts';
import type { BoardLayout, Solution } from './problem.ts';
import type { ShopBoard } from './shop-board.ts';
import type { FitOptions } from './shop-fit.ts';
import type { MatchGroup } from './shop-match.ts';
import { gluedUpTogether } from './shop-phases.ts';
import { boardCosts } from './shop-price.ts';
import type { ShopProblem } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';

export interface SolvedPlan {
  readonly shop: ShopProblem;
  readonly solution: Solution;
  /** The same pieces over every board that can give one of them: what the bound must hold for. */
  readonly all: ShopProblem;
  /** Proven of worth less cost over all of these boards, however groups match; null where the search saw only some. */
  readonly searchBound: number | null;
  readonly matches: readonly MatchOutcome[];
}

/** Whether a group that should come from one board does. */
export interface MatchOutcome {
  readonly group: MatchGroup;
  readonly isKept: boolean;
  /** Some board gives the whole group, if nothing else is cut from it. */
  readonly hasHome: boolean;
}

/** A plan without what it was asked for and how it was made. */
export type Presented = Omit<
  PlanBody,
  'jobId' | 'jobRevision' | 'effort' | 'seed' | 'aim' | 'continues' | 'changes' | 'notes' | 'cost'
> & { readonly cost: WoodCost };

/** solved: one for each set of pieces that was planned on its own, no board in two of them. */
export function presentPlan(
  solved: readonly SolvedPlan[],
  wanted: readonly Wanted[],
  stock: readonly ShopBoard[],
  settings: Settings,
  options: FitOptions,
): Presented {
  const layouts = solved.flatMap((plan) => presentLayouts(plan, settings));
  const placed = placedCounts(solved);
  const cutIds = new Set(layouts.map(({ boardId }) => boardId));
  const unplaced = wanted.flatMap((asks): Unplaced[] => {
    const count = asks.pieces.length - (placed.get(asks) ?? 0);
    return count > 0 ? [presentUnplaced(asks, count, stock, cutIds, settings, options)] : [];
  });
  return summedUp(layouts, wanted, unplaced, figuresOfAll(solved.map(figuresOf)), stock, settings);
}

/** Boards in the order of demand, with the sums over them. */
export function summedUp(
  unordered: readonly Layout[],
  wanted: readonly Wanted[],
  unplaced: Unplaced[],
  figures: StockFigures,
  stock: readonly ShopBoard[],
  settings: Settings,
): Presented {
  const layouts = byDemand(gluedUpTogether(unordered));
  const opened = layouts.map(({ lengthNm, widthNm }) => ({ fromNm: 0, toNm: lengthNm, leftNm: 0, rightNm: widthNm }));
  return {
    layouts,
    unplaced,
    kerf: kerfNm(settings),
    boardVersions: versionsOf(layouts, stock),
    placedCount: layouts.reduce((sum, layout) => sum + layout.pieces.length, 0),
    wantedCount: wanted.reduce((sum, asks) => sum + asks.pieces.length, 0),
    yieldPercent: layouts.length === 0 ? 0 : (100 * faceM2(layouts.flatMap((l) => l.pieces))) / faceM2(opened),
    cutCount: layouts.reduce((sum, layout) => sum + layout.cuts.length, 0),
    settingCount: settingCount(layouts, settings),
    cost: costOf(layouts, stock, settings),
    stockUsedM3: figures.usedM3,
    stockBoundM3: figures.boundM3,
    gapPercent: figures.usedM3 === 0 ? 0 : (100 * (figures.usedM3 - figures.boundM3)) / figures.usedM3,
    boundIs: figures.boundIs,
  };
}

function costOf(layouts: readonly Layout[], stock: readonly ShopBoard[], settings: Settings): WoodCost {
  const boardCost = boardCosts(settings);
  const byId = new Map(stock.map((on) => [on.board.id, on]));
  const costs = layouts.flatMap(({ boardId }) => {
    const on = byId.get(boardId);
    return (on && boardCost(on)) ?? [];
  });
  return {
    minor: costs.reduce((sum, { minor }) => sum + minor, 0),
    unpricedCount: layouts.length - costs.length,
    shopPricedCount: costs.filter(({ isShopPrice }) => isShopPrice).length,
  };
}

/** How often fence or stop is set anew from the first board to the last; a cut to a mark leaves them as they are. */
function settingCount(layouts: readonly Layout[], settings: Settings): number {
  const set = layouts.flatMap((layout) =>
    cutsInWords(layout, settings).flatMap(({ axis, setting, toMark }) => (toMark ? [] : [`${axis} ${setting}`])),
  );
  return set.filter((now, at) => now !== set[at - 1]).length;
}

function placedCounts(solved: readonly SolvedPlan[]): ReadonlyMap<Wanted, number> {
  const placed = new Map<Wanted, number>();
  for (const { shop, solution } of solved)
    for (const [index, asks] of shop.wanted.entries()) placed.set(asks, solution.placed[index] ?? 0);
  return placed;
}

/** Sets of pieces that share no board add up, what they use and what they must use alike. */
export function figuresOfAll(all: readonly StockFigures[]): StockFigures {
  if (all.length === 0) return { usedM3: 0, boundM3: 0, boundIs: 'Nothing is cut.' };
  return {
    usedM3: all.reduce((sum, each) => sum + each.usedM3, 0),
    boundM3: all.reduce((sum, each) => sum + each.boundM3, 0),
    boundIs: all.reduce((loosest, each) => (gapM3(each) > gapM3(loosest) ? each : loosest)).boundIs,
  };
}

const gapM3 = (figures: StockFigures): number => figures.usedM3 - figures.boundM3;

/** A bound takes longer than many steps of the search, so a plan that is looked at again is not proven again. */
const figuresKnown = new WeakMap<SolvedPlan, StockFigures>();

export function figuresOf(solved: SolvedPlan): StockFigures {
  const known = figuresKnown.get(solved) ?? figuresWorkedOut(solved, 'final');
  figuresKnown.set(solved, known);
  return known;
}

/** By the boards and pieces that a bound was proven for. */
const boundsKnown = new WeakMap<ShopProblem, Map<string, StockFigures>>();

/**
 * For a plan that is still searched for, proven with less work: what was proven for the same pieces over the same boards holds for it too, and is
 * not proven again.
 */
export function figuresUnderWay(solved: SolvedPlan): StockFigures {
  const known = boundsKnown.get(solved.all) ?? new Map<string, StockFigures>();
  boundsKnown.set(solved.all, known);
  const pieces = solved.solution.placed.join(' ');
  const before = known.get(pieces);
  if (before) {
    const usedM3 = usedM3Of(solved);
    return { ...before, usedM3, boundM3: Math.min(usedM3, before.boundM3) };
  }
  const figures = figuresWorkedOut(solved, 'under-way');
  known.set(pieces, figures);
  return figures;
}

function usedM3Of({ shop, solution }: SolvedPlan): number {
  return solution.layouts.reduce((sum, layout) => {
    const on = shop.boards[layout.board];
    return on ? sum + cubicMetres(on.board) : sum;
  }, 0);
}

function figuresWorkedOut(solved: SolvedPlan, effort: ProofEffort): StockFigures {
  const { all, solution, searchBound } = solved;
  const usedM3 = usedM3Of(solved);
  const volumesM3 = all.boards.map(({ board }) => cubicMetres(board));
  return stockFigures(all.problem, volumesM3, solution.placed, usedM3, searchBound, effort);
}

/** Copies of a part are numbered in the order in which their boards are cut. */
function presentLayouts({ shop, solution }: SolvedPlan, settings: Settings): Layout[] {
  const assign = inOrderWanted(shop.wanted);
  const tierOf = (blank: number) => shop.wanted[blank]?.tier ?? 1;
  const phase = (layout: BoardLayout) => Math.min(...layout.pieces.map((piece) => tierOf(piece.blank)));
  const longest = (layout: BoardLayout) => Math.max(...layout.pieces.map((piece) => piece.to - piece.from));
  return [...solution.layouts]
    .sort((a, b) => phase(a) - phase(b) || longest(b) - longest(a) || a.board - b.board)
    .flatMap((layout) => {
      const on = shop.boards[layout.board];
      return on ? [presentLayout(shop.problem, layout, on, shop.wanted, assign, settings)] : [];
    });
}

/** Boards with the most demanding pieces first, and among them those with the longest. */
function byDemand(layouts: readonly Layout[]): Layout[] {
  const longestNm = ({ pieces }: Layout) => Math.max(...pieces.map((piece) => piece.toNm - piece.fromNm));
  return [...layouts].sort((a, b) => a.phase - b.phase || longestNm(b) - longestNm(a));
}

function versionsOf(layouts: readonly Layout[], stock: readonly ShopBoard[]): Record<string, number> {
  const version = new Map(stock.map(({ board }) => [board.id, board.version]));
  return Object.fromEntries(layouts.map(({ boardId }) => [boardId, version.get(boardId) ?? 0]));
}
