/** What a plan saves first: the same pieces and boards, with boards priced and blanks sized for the aim. */
import type { PlanAim } from '../contract/plan.ts';
import type { Problem, StockBoard } from './problem.ts';
import type { ShopProblem } from './shop-problem.ts';
import type { HandlingCost } from './tidy.ts';

/** Wood still counts a little where boards are counted. */
const WOOD_BESIDE_BOARDS = 0.05;
/** Bringing a board to the saw is worth this much of the dearest board's wood. */
const BOARD_BESIDE_CUTS = 0.3;
/** And a cut, or a setting of fence or stop, this much of it. */
const CUT_BESIDE_BOARDS = 0.1;
/** A cut or setting saved is worth so many times what a setting costs otherwise. */
const CUTS_BESIDE_RESTS = 10;

/** togetherMost: blanks whose widths differ by no more than so many steps of the grid are ripped at one setting. */
export function aimedAt(shop: ShopProblem, aim: PlanAim, togetherMost: number): ShopProblem {
  const { problem } = shop;
  const dearest = Math.max(1, ...problem.boards.map(({ cost }) => cost));
  switch (aim) {
    case 'least-cost':
      return shop;
    case 'fewest-boards':
      return { ...shop, problem: priced(problem, (cost) => dearest + WOOD_BESIDE_BOARDS * cost) };
    case 'fewest-cuts': {
      const boards = sameWidths(problem.boards, togetherMost);
      const aimed = priced({ ...problem, boards }, (cost) => BOARD_BESIDE_CUTS * (dearest + cost));
      return { ...shop, problem: { ...aimed, cutCost: Math.round(CUT_BESIDE_BOARDS * dearest) } };
    }
  }
}

/** Where cuts are saved, cuts and settings come before what is left, and alike; walks are no cuts. */
export function aimedHandling(cost: HandlingCost, aim: PlanAim): HandlingCost {
  if (aim !== 'fewest-cuts') return cost;
  const each = CUTS_BESIDE_RESTS * cost.setting;
  return { ...cost, cut: each, setting: each };
}

function priced(problem: Problem, priceOf: (cost: number) => number): Problem {
  return { ...problem, boards: problem.boards.map((board) => ({ ...board, cost: Math.round(priceOf(board.cost)) })) };
}

/** Widths a little apart become the widest of them, on every board that has the width for it. */
function sameWidths(boards: readonly StockBoard[], togetherMost: number): readonly StockBoard[] {
  const widths = [...new Set(boards.flatMap(({ fits }) => (fits ?? []).flatMap((fit) => fit?.width ?? [])))];
  const widest = new Map<number, number>();
  let top = Number.POSITIVE_INFINITY;
  for (const width of widths.sort((a, b) => b - a)) {
    if (top - width > togetherMost) top = width;
    widest.set(width, top);
  }
  return boards.map((board) => {
    const fits = (board.fits ?? []).map((fit) => {
      const width = fit ? (widest.get(fit.width) ?? fit.width) : 0;
      return fit && width <= board.width ? { ...fit, width } : fit;
    });
    return { ...board, fits };
  });
}
