/** The best single cutting of one piece of wood: quick enough to be asked while somebody holds it in their hands. */
import type { Settings } from '../contract/settings.ts';
import { bestOfOneBoard } from './best-of-one.ts';
import { checkLayout } from './check.ts';
import { bestCutUp, layoutsOf, restsWorth } from './layout.ts';
import { mostWorth } from './most-worth.ts';
import type { BoardLayout, PlacedBlank, Problem } from './problem.ts';
import { orderForSaw } from './saw-order.ts';
import { partedForMost, waysToPart } from './shop-parting.ts';
import { type Candidate, type ShopProblem, shopProblem } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';
import { COMMON_WORTH, type Worth } from './shop-worth.ts';
import { overlaps } from './view.ts';

const ROUNDS = 6;

export interface OneCut {
  readonly shop: ShopProblem;
  readonly layout: BoardLayout;
}

/** Cut for the most worth of all that is wanted; null when nothing comes out. Checked like every plan. */
export function cutForMost(
  wanted: readonly Wanted[],
  candidate: Candidate,
  settings: Settings,
  worth: Worth,
): OneCut | null {
  const shop = shopProblem(wanted, partedForMost([candidate], wanted, settings), settings, 'value', worth);
  const pieces = bestOfOneBoard(shop.problem);
  return pieces.length === 0 ? null : { shop, layout: checked(shop.problem, pieces) };
}

/** As many copies of one part as come out, at most what is wanted, kept together at one end. */
export function cutForOne(asks: Wanted, candidate: Candidate, settings: Settings): OneCut | null {
  const shop = shopProblem([asks], partedForMost([candidate], [asks], settings), settings, 'value', COMMON_WORTH);
  const { problem } = shop;
  const unlimited = { ...problem, blanks: problem.blanks.map((blank) => ({ ...blank, quantity: null })) };
  const pieces = [...mostWorth(unlimited, 0, 1)]
    .sort((a, b) => a.from - b.from || a.left - b.left)
    .slice(0, asks.pieces.length);
  return pieces.length === 0 ? null : { shop, layout: checked(problem, pieces) };
}

/** How many copies of each kind one board gives, for the most worth of them. */
export function mostOf(wanted: readonly Wanted[], candidate: Candidate, settings: Settings): readonly number[] {
  const { problem } = shopProblem(wanted, [candidate], settings, 'value', COMMON_WORTH);
  const pieces = mostWorth(problem, 1, ROUNDS);
  return wanted.map((_, kind) => pieces.filter((piece) => piece.blank === kind).length);
}

interface Home {
  readonly shop: ShopProblem;
  readonly piece: PlacedBlank;
  readonly restsWorth: number;
}

/** One copy where it leaves the most worth keeping. */
export function cutForHome(asks: Wanted, candidate: Candidate, settings: Settings, worth: Worth): OneCut | null {
  let best: Home | null = null;
  for (const way of [candidate, ...waysToPart(candidate, settings)])
    for (const home of homesOn(shopProblem([asks], [way], settings, 'value', worth)))
      if (best === null || home.restsWorth > best.restsWorth) best = home;
  return best ? { shop: best.shop, layout: checked(best.shop.problem, [best.piece]) } : null;
}

function homesOn(shop: ShopProblem): readonly Home[] {
  const { problem } = shop;
  const [board] = problem.boards;
  const size = board?.fits?.[0];
  if (!board || !size) return [];
  const blocked = board.blocked[problem.blanks[0]?.quality ?? 0] ?? [];
  const along = blocked.map(({ from, to }) => [from, to] as const);
  const across = blocked.map(({ left, right }) => [left, right] as const);
  return places(size.length, board.length, along).flatMap((from) =>
    places(size.width, board.width, across).flatMap((left): Home[] => {
      const piece = { blank: 0, from, to: from + size.length, left, right: left + size.width };
      if (blocked.some((bad) => overlaps(bad, piece))) return [];
      const parted = bestCutUp(problem, board, [piece]);
      return parted ? [{ shop, piece, restsWorth: restsWorth(problem.rest, parted.rests) }] : [];
    }),
  );
}

/** Against either end or edge, or against either side of a defect. */
function places(size: number, room: number, blocked: readonly (readonly [number, number])[]): readonly number[] {
  const starts = [0, room - size, ...blocked.flatMap(([near, far]) => [far, near - size])];
  return [...new Set(starts)].filter((at) => at >= 0 && at + size <= room);
}

function checked(problem: Problem, pieces: readonly PlacedBlank[]): BoardLayout {
  const [found] = layoutsOf(problem, [{ board: 0, pieces }]);
  if (!found) throw new Error('one board was to be cut');
  const layout = orderForSaw(problem, found);
  const faults = checkLayout(problem, layout);
  if (faults.length > 0) throw new Error(`the cutting fails its check: ${faults.join('; ')}`);
  return layout;
}
