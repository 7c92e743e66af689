/**
 * A plan that is in hand already, laid on the boards as they are now: what of it still holds is where a search starts
 * from, and what its answer must be better than.
 */
import type { Layout, PlacedPiece } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { gridNm } from '../takeoff/grid.ts';
import { checkLayout } from './check.ts';
import { fillRests } from './fill.ts';
import { greedyPlan } from './greedy.ts';
import { type Job, startJob } from './job.ts';
import { bestCutUp } from './layout.ts';
import type { CutBoard, Plan } from './plan.ts';
import type { Effort, PlacedBlank, Problem, Rect, StockBoard } from './problem.ts';
import { waysToPart } from './shop-parting.ts';
import type { Candidate, ShopProblem } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';
import { overlaps, viewOf } from './view.ts';

/** Crooked boards of the plan stay parted as they were, so that what is cut from them stays possible. */
export function partedAsKnown(
  candidates: readonly Candidate[],
  known: readonly Layout[],
  settings: Settings,
): readonly Candidate[] {
  const stepNm = gridNm(settings);
  return candidates.map((candidate) => {
    const layout = known.find(({ boardId }) => boardId === candidate.on.board.id);
    if (!layout) return candidate;
    const { partedAtNm: _, ...whole } = candidate;
    const firstRip = layout.cuts.findIndex(({ axis }) => axis === 'rip');
    const before = layout.cuts.slice(0, firstRip < 0 ? layout.cuts.length : firstRip).map(({ atNm }) => atNm);
    const isCutAt = (placeNm: number) => before.some((atNm) => Math.abs(atNm - placeNm) < stepNm);
    return waysToPart(whole, settings).find(({ partedAtNm }) => partedAtNm?.every(isCutAt)) ?? whole;
  });
}

/** What of the plan still lies well: pieces that are no longer wanted or no longer fit are left out. */
export function stillLying(shop: ShopProblem, known: readonly Layout[], settings: Settings): Plan {
  const { problem, boards, wanted } = shop;
  const left = problem.blanks.map(({ quantity }) => quantity ?? Number.POSITIVE_INFINITY);
  const stepNm = gridNm(settings);
  return known.flatMap((layout): CutBoard[] => {
    const board = boards.findIndex((on) => on.board.id === layout.boardId);
    const [stock, run] = [problem.boards[board], boards[board]?.run];
    if (!stock || !run) return [];
    const pieces = layout.pieces.flatMap((piece): PlacedBlank[] => {
      const blank = wanted.findIndex((asks) => isOfKind(piece, asks));
      const fit = stock.fits?.[blank];
      if (!fit || (left[blank] ?? 0) < 1) return [];
      const from = Math.round((piece.fromNm - run.fromNm) / stepNm);
      const near = Math.round(piece.leftNm / stepNm);
      const placed = { blank, from, to: from + fit.length, left: near, right: near + fit.width };
      if (!isClearOn(stock, placed, problem.blanks[blank]?.quality ?? 0)) return [];
      left[blank] = (left[blank] ?? 0) - 1;
      return [placed];
    });
    const cut = { board, pieces };
    if (pieces.length > 0 && canBeCut(problem, cut)) return [cut];
    for (const { blank } of pieces) left[blank] = (left[blank] ?? 0) + 1;
    return [];
  });
}

const isOfKind = ({ partKey, element }: PlacedPiece, { part, pieces }: Wanted): boolean =>
  part.key === partKey && pieces.some((ref) => ref.element === element);

function isClearOn({ length, width, blocked }: StockBoard, place: Rect, quality: number): boolean {
  if (place.from < 0 || place.left < 0 || place.to > length || place.right > width) return false;
  return !(blocked[quality] ?? []).some((bad) => overlaps(bad, place));
}

function canBeCut(problem: Problem, { board, pieces }: CutBoard): boolean {
  const stock = problem.boards[board];
  const parted = stock ? bestCutUp(problem, stock, pieces) : null;
  return parted !== null && checkLayout(problem, { board, pieces, ...parted }).length === 0;
}

/** The plan with what it lacks put into its rests, then cut from further boards. */
export function filledUp(problem: Problem, plan: Plan, effort: Effort, seed: number): Plan {
  if (plan.length === 0) return plan;
  const job = startJob(problem, effort, seed);
  const left = job.wanted.slice();
  for (const { pieces } of plan) for (const { blank } of pieces) take(left, blank);
  const filled = plan.map((cut) => filledRests(job, cut, left));
  const boards = [...problem.boards.keys()];
  return greedyPlan(job, filled, boards, { prices: job.weights, preference: 'yield', depth: 1, rounds: 4 });
}

function filledRests({ problem, weights }: Job, cut: CutBoard, left: Int32Array): CutBoard {
  const rest = left.slice();
  const pieces = fillRests(viewOf(problem, cut.board, false), problem.kerf, cut.pieces, weights, rest);
  const filled = { board: cut.board, pieces };
  if (pieces.length === cut.pieces.length || !canBeCut(problem, filled)) return cut;
  left.set(rest);
  return filled;
}

function take(left: Int32Array, blank: number): void {
  left[blank] = (left[blank] ?? 0) - 1;
}

/** The plan without pieces that may no longer come from their board. */
export function asFits({ boards }: Problem, plan: Plan): Plan {
  return plan
    .map(({ board, pieces }) => ({
      board,
      pieces: pieces.filter(({ blank }) => boards[board]?.fits?.[blank] !== null),
    }))
    .filter(({ pieces }) => pieces.length > 0);
}

/** In words, where a plan stayed as it was. */
export function stayedWords(layouts: readonly Layout[], known: readonly Layout[]): readonly string[] {
  if (known.length === 0) return [];
  const now = new Map(layouts.map((layout) => [layout.boardId, layout]));
  const before = known.flatMap(placesOf);
  const stays = known.every((layout) => {
    const places = new Set(placesOf(now.get(layout.boardId) ?? layout));
    return now.has(layout.boardId) && placesOf(layout).every((place) => places.has(place));
  });
  if (!stays) return [];
  return layouts.flatMap(placesOf).length === before.length
    ? ['Nothing better was found: this is the plan that you had.']
    : ['The plan that you had stays as it is; what is new was added to it.'];
}

const placesOf = ({ boardId, pieces }: Layout): string[] =>
  pieces.map(({ partKey, fromNm, toNm, leftNm, rightNm }) =>
    [boardId, partKey, fromNm, toNm, leftNm, rightNm].join(' '),
  );
