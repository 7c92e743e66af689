/**
 * The best so far of a search that was stopped, taken as the plan. It comes back from outside, so it is laid on the boards
 * as they are now and checked like any plan; nothing of it is believed.
 */
import type { JobWithParts } from '../contract/job.ts';
import type { TakenBoard } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { checkSolution } from './check.ts';
import { achievedBy, layoutsOf } from './layout.ts';
import type { SolvedPlan } from './present.ts';
import type { PlacedBlank, Rect, Solution } from './problem.ts';
import { cutUp } from './saw-cuts.ts';
import { orderForSaw } from './saw-order.ts';
import type { ShopBoard } from './shop-board.ts';
import type { FitOptions } from './shop-fit.ts';
import { matchesIn } from './shop-match.ts';
import type { ShopProblem } from './shop-problem.ts';
import { type Search, setsToCut, tidiedAll } from './shop-solve.ts';
import type { Wanted } from './shop-wanted.ts';

/** Places of a plan's pieces in steps of the grid, small enough to be sent with every step. */
export function takenOf(solved: readonly SolvedPlan[]): TakenBoard[] {
  return solved.flatMap(({ shop, solution }) =>
    solution.layouts.map(({ board, pieces }) => ({
      boardId: shop.boards[board]?.board.id ?? '',
      pieces: pieces.map(({ blank, from, left }) => {
        const asks = shop.wanted[blank];
        return { partKey: asks?.part.key ?? '', element: asks?.element ?? null, from, left };
      }),
    })),
  );
}

/** Null where it does not lie on these boards: they changed since, or it was never ours. */
export function takenSets(
  taken: readonly TakenBoard[],
  wanted: readonly Wanted[],
  stock: readonly ShopBoard[],
  job: Pick<JobWithParts, 'parts'>,
  settings: Settings,
  search: Search,
  options: FitOptions,
): readonly SolvedPlan[] | null {
  const left = new Set(taken);
  const solved: SolvedPlan[] = [];
  for (const set of setsToCut(wanted, stock, settings, search, options)) {
    const mine = taken.filter(({ pieces }) => pieces.every((piece) => blankOf(set.aimed, piece) >= 0));
    for (const one of mine) left.delete(one);
    const found = laidOut(set.aimed, mine);
    if (!found) return null;
    const solution = tidiedAll(set.aimed.problem, found, set.search, settings);
    solved.push({
      shop: set.aimed,
      solution,
      all: set.all,
      searchBound: null,
      matches: matchesIn(set.aimed, set.searched, job, settings, solution),
    });
  }
  return left.size === 0 ? solved : null;
}

const blankOf = ({ wanted }: ShopProblem, piece: TakenBoard['pieces'][number]): number =>
  wanted.findIndex(({ part, element }) => part.key === piece.partKey && element === piece.element);

function laidOut(shop: ShopProblem, taken: readonly TakenBoard[]): Solution | null {
  const { problem } = shop;
  const plan: { board: number; pieces: PlacedBlank[] }[] = [];
  for (const { boardId, pieces } of taken) {
    const board = shop.boards.findIndex((on) => on.board.id === boardId);
    const stock = problem.boards[board];
    if (!stock) return null;
    const placed: PlacedBlank[] = [];
    for (const piece of pieces) {
      const blank = blankOf(shop, piece);
      const fit = stock.fits?.[blank];
      if (!fit) return null;
      const { from, left } = piece;
      placed.push({ blank, from, left, to: from + fit.length, right: left + fit.width });
    }
    const whole: Rect = { from: 0, to: stock.length, left: 0, right: stock.width };
    const isInside = placed.every(({ to, right }) => to <= stock.length && right <= stock.width);
    if (!isInside || !cutUp(whole, placed, problem.kerf, null)) return null;
    plan.push({ board, pieces: placed });
  }
  const layouts = layoutsOf(problem, plan).map((layout) => orderForSaw(problem, layout));
  const counts = problem.blanks.map((_, kind) =>
    layouts.reduce((sum, { pieces }) => sum + pieces.filter(({ blank }) => blank === kind).length, 0),
  );
  const achieved = achievedBy(problem, layouts);
  const solution = { layouts, achieved, bound: Number.POSITIVE_INFINITY, placed: counts, steps: 0 };
  return checkSolution(problem, solution).length === 0 ? solution : null;
}
