/**
 * Planning anew with the least change: what of an earlier plan still holds stays as it is, to the cut; what failed, what
 * is newly wanted and what a bad board was to give comes from the rests of those boards, from the job's own boards and
 * from free stock. What other jobs hold is out of reach, as always.
 */

import type { Layout, Plan, PlanBody } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { kerfNm } from '../takeoff/usable-run.ts';
import { woodReader } from '../takeoff/which-wood.ts';
import { pieceName } from '../wood/piece-name.ts';
import { cubicMetres } from '../wood/volume.ts';
import { ended } from './ended.ts';
import { figuresOfAll, presentPlan, summedUp } from './present.ts';
import { type StockFigures, stockFigures } from './present-bound.ts';
import {
  type CuttingAnswer,
  type CuttingInput,
  notesOf,
  notesOfInput,
  notPlannable,
  notTakeable,
  type PlanStep,
  searched,
} from './shop.ts';
import { holdsInTheWay, type ShopBoard, shopBoard } from './shop-board.ts';
import { type Kept, keptOf, pieceKey } from './shop-kept.ts';
import { stayedWords } from './shop-known.ts';
import { asIfStraight } from './shop-parting.ts';
import { shopProblem } from './shop-problem.ts';
import { inside, lies, type Region, regionsOf, withRegionCut } from './shop-region.ts';
import { candidatesOf } from './shop-solve.ts';
import { piecesToCut, type Wanted } from './shop-wanted.ts';
import { COMMON_WORTH } from './shop-worth.ts';

export interface ReplanInput extends CuttingInput {
  /** The plan that is continued, one of the job's own. */
  readonly plan: Plan;
  /** Boards of it that are at the saw now: they stay with it. */
  readonly atTheSaw: ReadonlySet<string>;
}

export function replanCutting(input: ReplanInput): CuttingAnswer {
  return ended(replanSteps(input));
}

export function* replanSteps(input: ReplanInput): Generator<PlanStep, CuttingAnswer> {
  const { job, settings, plan, effort, seed, aim, boardIds } = input;
  const refusal = notPlannable(input);
  if (refusal) return { ok: false, refusal };
  const open = openPieces(input);
  const stock = stockOf(input);
  const before = keptOf(plan, open, stock, input.atTheSaw, settings);
  const wanted = stillWanted(open, before.kept, input.partKeys);
  if (wanted.length === 0 && before.broken.length === 0)
    return {
      ok: false,
      refusal: {
        why: 'nothing-to-cut',
        detail: `Nothing has to change: every piece of ${job.name} keeps its place in this plan.`,
      },
    };

  const options = { evenIfThick: boardIds !== undefined };
  const keptIds = new Set(before.kept.map(({ boardId }) => boardId));
  const regions = before.kept.flatMap((layout) => {
    const on = stock.find(({ board }) => board.id === layout.boardId);
    return on ? regionsOf(layout, on) : [];
  });
  const only = boardIds && new Set(boardIds);
  const free = stock.filter(({ board }) => !keptIds.has(board.id) && (!only || only.has(board.id)));
  const rests = regions.map((region) => region.stock);
  const known = knownBeside(input.known ?? [], before.kept, regions);
  const solved = yield* searched({ ...input, known }, wanted, [...rests, ...free], options);
  if (solved === null) return { ok: false, refusal: notTakeable };
  const added = presentPlan(solved, wanted, stock, settings, options);
  const layouts = joined(before.kept, regions, added.layouts, settings);
  const figures = figuresOver(layouts, open, stock, settings);
  const presented = summedUp(layouts, open, added.unplaced, figures, stock, settings);
  const facts = { jobId: job.id, jobRevision: job.revision, effort, seed, aim, continues: plan.id };
  const stayed = stayedWords(presented.layouts, input.known ?? []);
  const changes = [...stayed, ...changesIn(before, regions, added.layouts, input)];
  const notes = [...notesOf(presented.layouts, solved, stock, settings), ...notesOfInput(input)];
  const body: PlanBody = { ...facts, changes, ...presented, notes };
  return { ok: true, plan: body };
}

/** Wanted now, or planned by the plan on a board that is not at the saw. */
function openPieces({ job, plan, settings, atTheSaw }: ReplanInput): readonly Wanted[] {
  return piecesToCut(job, settings, undefined, (_, piece) => {
    if (piece.state === 'wanted') return true;
    return piece.state === 'planned' && piece.planId === plan.id && !atTheSaw.has(piece.boardId ?? '');
  });
}

/** The boards as this job may use them, the earlier plan's own holds given back; those at the saw are out of reach. */
function stockOf({ job, boards, settings, plan, atTheSaw }: ReplanInput): readonly ShopBoard[] {
  const woodOf = woodReader(settings);
  return boards
    .filter((board) => board.state === 'in-stock' && !atTheSaw.has(board.id))
    .map((board) => {
      const held = holdsInTheWay(board, job).filter((one) => one.jobId !== job.id || one.planId !== plan.id);
      return shopBoard(board, woodOf(board.species), held, settings);
    });
}

function stillWanted(
  open: readonly Wanted[],
  kept: readonly Layout[],
  partKeys: CuttingInput['partKeys'],
): readonly Wanted[] {
  const only = partKeys && new Set(partKeys);
  const placed = new Set(kept.flatMap(({ pieces }) => pieces.map(pieceKey)));
  return open
    .filter(({ part }) => !only || only.has(part.key))
    .map((asks) => {
      const pieces = asks.pieces.filter((ref) => !placed.has(pieceKey({ partKey: asks.part.key, ...ref })));
      return { ...asks, pieces };
    })
    .filter(({ pieces }) => pieces.length > 0);
}

/** Of a draft in hand, what it cuts beside what is kept, by the boards and rests that are searched. */
function knownBeside(known: readonly Layout[], kept: readonly Layout[], regions: readonly Region[]): readonly Layout[] {
  const keptIds = new Set(kept.map(({ boardId }) => boardId));
  const further = regions.flatMap(({ on, rect, stock }): Layout[] => {
    const layout = known.find(({ boardId }) => boardId === on.board.id);
    const pieces = (layout?.pieces ?? []).filter((piece) => lies(piece, rect)).map((piece) => inside(piece, rect));
    return layout && pieces.length > 0 ? [{ ...layout, boardId: stock.board.id, pieces, cuts: [] }] : [];
  });
  return [...known.filter(({ boardId }) => !keptIds.has(boardId)), ...further];
}

/** Kept boards, their rests cut further where something new comes from them, and boards cut for the first time. */
function joined(
  kept: readonly Layout[],
  regions: readonly Region[],
  added: readonly Layout[],
  settings: Settings,
): readonly Layout[] {
  const kerf = kerfNm(settings);
  const further = kept.map((layout) =>
    regions
      .filter(({ on }) => on.board.id === layout.boardId)
      .reduce((whole, region) => {
        const cut = added.find(({ boardId }) => boardId === region.stock.board.id);
        return cut ? withRegionCut(whole, region, cut, kerf, settings) : whole;
      }, layout),
  );
  const regionIds = new Set(regions.map(({ stock }) => stock.board.id));
  return [...further, ...added.filter(({ boardId }) => !regionIds.has(boardId))];
}

/** What the whole plan uses, and what any plan with its pieces must: over all boards, whatever was kept. */
function figuresOver(
  layouts: readonly Layout[],
  open: readonly Wanted[],
  stock: readonly ShopBoard[],
  settings: Settings,
): StockFigures {
  const woods = [...new Set(open.map((asks) => asks.wood.key))];
  const used = new Set(layouts.map(({ boardId }) => boardId));
  return figuresOfAll(
    woods.flatMap((key): StockFigures[] => {
      const wanted = open.filter((asks) => asks.wood.key === key);
      const able = candidatesOf(wanted, stock, settings, { evenIfThick: true });
      if (able.length === 0) return [];
      const pieces = layouts.flatMap((layout) => layout.pieces.map(pieceKey));
      const placed = wanted.map(({ part, pieces: refs }) => {
        const keys = new Set(refs.map((ref) => pieceKey({ partKey: part.key, ...ref })));
        return pieces.filter((piece) => keys.has(piece)).length;
      });
      const volumesM3 = able.map(({ on }) => cubicMetres(on.board));
      const usedM3 = able.reduce((sum, { on }, at) => (used.has(on.board.id) ? sum + (volumesM3[at] ?? 0) : sum), 0);
      return [
        stockFigures(
          shopProblem(wanted, asIfStraight(able), settings, 'net', COMMON_WORTH).problem,
          volumesM3,
          placed,
          usedM3,
          null,
          'final',
        ),
      ];
    }),
  );
}

/** What stayed and what changed, for the person who has the first plan's cards in hand. */
function changesIn(
  before: Kept,
  regions: readonly Region[],
  added: readonly Layout[],
  { plan, atTheSaw }: ReplanInput,
): string[] {
  const furtherIds = new Set(
    regions.filter(({ stock }) => added.some((cut) => cut.boardId === stock.board.id)).map(({ on }) => on.board.id),
  );
  const same = before.kept.filter(({ boardId }) => !furtherIds.has(boardId));
  const saw = plan.layouts.filter(({ boardId }) => atTheSaw.has(boardId));
  const words: string[] = [];
  if (same.length > 0) words.push(`Stays as it was: ${tagsOf(same)}.`);
  if (saw.length > 0) words.push(`At the saw, left to its session: ${tagsOf(saw)}.`);
  for (const { stock, on } of regions) {
    const cut = added.find(({ boardId }) => boardId === stock.board.id);
    if (cut) words.push(`${on.board.tag}: as it was, and from what it would have left over ${piecesOf(cut)}.`);
  }
  const brokenIds = new Map(before.broken.map(({ layout, why }) => [layout.boardId, why]));
  for (const { layout, why } of before.broken)
    if (!added.some(({ boardId }) => boardId === layout.boardId)) words.push(`${layout.tag} is out: ${why}.`);
  for (const cut of added) {
    if (regions.some(({ stock }) => stock.board.id === cut.boardId)) continue;
    const why = brokenIds.get(cut.boardId);
    words.push(
      why === undefined
        ? `New in the plan: ${cut.tag} for ${piecesOf(cut)}.`
        : `${cut.tag} is cut otherwise (${why}): ${piecesOf(cut)}.`,
    );
  }
  return words;
}

const tagsOf = (layouts: readonly Layout[]): string => layouts.map(({ tag }) => tag).join(', ');

function piecesOf({ pieces }: Layout): string {
  const names = pieces.map((piece) => pieceName(piece));
  return names.length > 4 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');
}
