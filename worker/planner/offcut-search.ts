/** The best single cutting of one piece of wood: quick enough to be asked while somebody holds it in their hands. */
import type { Settings } from '../contract/settings.ts';
import { bestOfOneBoard } from './best-of-one.ts';
import { checkLayout } from './check.ts';
import { priced, startJob } from './job.ts';
import { bestCutUp, layoutsOf, restsWorth } from './layout.ts';
import type { Depth } from './one-board.ts';
import type { BoardLayout, PlacedBlank, Problem, Rect } from './problem.ts';
import { orderForSaw } from './saw-order.ts';
import { type Candidate, type ShopProblem, shopProblem } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';
import { COMMON_WORTH, type Worth } from './shop-worth.ts';

const ROUNDS = 6;
const SEED = 1;

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
  const shop = shopProblem(wanted, [candidate], settings, 'value', worth);
  const pieces = bestOfOneBoard(shop.problem);
  return pieces.length === 0 ? null : { shop, layout: checked(shop.problem, pieces) };
}

/** As many copies of one part as come out, at most what is wanted, kept together at one end. */
export function cutForOne(asks: Wanted, candidate: Candidate, settings: Settings): OneCut | null {
  const shop = shopProblem([asks], [candidate], settings, 'value', COMMON_WORTH);
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

/** One copy where it leaves the most worth keeping. */
export function cutForHome(asks: Wanted, candidate: Candidate, settings: Settings, worth: Worth): OneCut | null {
  const shop = shopProblem([asks], [candidate], settings, 'value', worth);
  const { problem } = shop;
  const [board] = problem.boards;
  const size = board?.fits?.[0];
  if (!board || !size) return null;
  const blocked = board.blocked[asks.quality] ?? [];
  const whole: Rect = { from: 0, to: board.length, left: 0, right: board.width };
  let best: { readonly piece: PlacedBlank; readonly worth: number } | null = null;
  for (const from of places(
    size.length,
    board.length,
    blocked.map(({ from: near, to: far }) => [near, far]),
  ))
    for (const left of places(
      size.width,
      board.width,
      blocked.map(({ left: near, right: far }) => [near, far]),
    )) {
      const piece = { blank: 0, from, to: from + size.length, left, right: left + size.width };
      if (blocked.some((bad) => overlaps(bad, piece))) continue;
      const parted = bestCutUp(problem, whole, [piece]);
      const worth = parted ? restsWorth(problem.rest, parted.rests) : Number.NEGATIVE_INFINITY;
      if (best === null || worth > best.worth) best = { piece, worth };
    }
  return best ? { shop, layout: checked(problem, [best.piece]) } : null;
}

/** Against either end or edge, or against either side of a defect. */
function places(size: number, room: number, blocked: readonly (readonly [number, number])[]): readonly number[] {
  const starts = [0, room - size, ...blocked.flatMap(([near, far]) => [far, near - size])];
  return [...new Set(starts)].filter((at) => at >= 0 && at + size <= room);
}

const overlaps = (a: Rect, b: Rect): boolean => a.from < b.to && b.from < a.to && a.left < b.right && b.left < a.right;

function mostWorth(problem: Problem, depth: Depth, rounds: number): readonly PlacedBlank[] {
  const job = startJob(problem, 'quick', SEED);
  return priced(job, 0, job.weights, job.wanted, depth, rounds).pieces;
}

function checked(problem: Problem, pieces: readonly PlacedBlank[]): BoardLayout {
  const [found] = layoutsOf(problem, [{ board: 0, pieces }]);
  if (!found) throw new Error('one board was to be cut');
  const layout = orderForSaw(problem, found);
  const faults = checkLayout(problem, layout);
  if (faults.length > 0) throw new Error(`the cutting fails its check: ${faults.join('; ')}`);
  return layout;
}
