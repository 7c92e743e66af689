/**
 * From the shop's world to the planner's grid. Boards round down and blanks round up; a board is its free run. Every
 * wanted piece is worth more than the dearest board, since the job needs them all, and boards cost their wood, so that
 * among plans that cut the same pieces the one that opens least wins.
 */

import type { RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { blockedFor, faceClassNm } from '../takeoff/bad-wood.ts';
import type { Run } from '../takeoff/free-run.ts';
import { gridNm, tapeStepNm } from '../takeoff/grid.ts';
import { kerfNm } from '../takeoff/usable-run.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { cubicMetres } from '../wood/volume.ts';
import type { Blank, Problem, Rect, RoughEdges, StockBoard, UnevenEdge } from './problem.ts';
import type { ShopBoard } from './shop-board.ts';
import { crookOverRunNm, sectionsOf, straightenedOffNm, unevenEdgesNm } from './shop-edges.ts';
import { type FitOptions, placeOn } from './shop-fit.ts';
import { boardCosts, type CostOf } from './shop-price.ts';
import type { Wanted } from './shop-wanted.ts';
import type { Worth } from './shop-worth.ts';
import { RIP_LEAST_NM } from './short-rips.ts';
import type { HandlingCost } from './tidy.ts';

/** Old offcuts first: they count for a little less than their wood. Common practice, no source. */
const OFFCUT_COST = 0.85;
/** Boards that this job holds come before others. Common practice, no source. */
const OURS_COST = 0.8;
/** What boards leave that are cut anyway costs only what else it could serve. Common practice, no source. */
const OPENED_COST = 0.3;
/** A board of which another job holds a run is opened only when nothing else serves. */
const SHARED_COST = 3;
/** Prices count up to so many times the cheapest: beyond that a typing slip is likelier than dear wood. */
const DEARNESS_MOST = 5;
/** The least piece is worth this many of the dearest board: opening one for it always pays. */
const WORTH_OVER_COST = 2;
/** Worth grows with length beyond area: long clear wood is the hardest to find again. */
const LENGTH_POWER = 0.5;

/**
 * What a setting, a walk to the other saw, a cut, and a rip of stock too short to be held are worth, in square inches of
 * a board's face. Common practice, no source.
 */
const HANDLING_IN2 = { setting: 12, walk: 8, cut: 2, shortRip: 100 };

export function handlingCost(settings: Settings): HandlingCost {
  const stepNm = gridNm(settings);
  const perIn2 = (NM_PER_INCH / stepNm) ** 2;
  const { setting, walk, cut, shortRip } = HANDLING_IN2;
  return {
    setting: setting * perIn2,
    walk: walk * perIn2,
    cut: cut * perIn2,
    shortRip: shortRip * perIn2,
    ripLeast: RIP_LEAST_NM / stepNm,
  };
}

export type GridFit = { readonly length: number; readonly width: number } | null;

export interface ShopProblem {
  readonly problem: Problem;
  /** By the problem's index. */
  readonly boards: readonly ShopBoard[];
  readonly wanted: readonly Wanted[];
}

/** Size of each wanted piece on a board, in steps of the grid; null where the board can't give it. */
export function gridFits(
  wanted: readonly Wanted[],
  on: ShopBoard,
  settings: Settings,
  options: FitOptions,
): readonly GridFit[] {
  const stepNm = gridNm(settings);
  return wanted.map((asks) => {
    if (asks.wood.key !== on.wood.key || !on.run) return null;
    const fit = placeOn(asks, on, settings, options);
    return fit.ok ? { length: Math.round(fit.lengthNm / stepNm), width: Math.round(fit.cutWidthNm / stepNm) } : null;
  });
}

/** A board that can give at least one of the pieces, with what it gives. */
export interface Candidate {
  readonly on: ShopBoard;
  readonly fits: readonly GridFit[];
  /** Where a crooked board is crosscut before it is straightened, nanometres on the board, near side of each blade. */
  readonly partedAtNm?: readonly number[];
}

export function shopProblem(
  wanted: readonly Wanted[],
  candidates: readonly Candidate[],
  settings: Settings,
  objective: 'net' | 'value',
  worth: Worth,
): ShopProblem {
  const stepNm = gridNm(settings);
  const thinnestNm = Math.min(...candidates.map(({ on }) => on.board.thicknessNm));
  const dearness = dearnessOf(candidates, boardCosts(settings));
  const classes = classesOf(wanted, candidates, stepNm);
  const boards = candidates.map((each) => stockBoard(each, classes.all, settings, thinnestNm, dearness(each.on)));
  const costMost = Math.max(1, ...boards.map((board) => board.cost));
  const kerf = kerfNm(settings);
  const problem: Problem = {
    kerf: { rip: kerf.ripNm / stepNm, crosscut: kerf.crosscutNm / stepNm },
    maxStages: null,
    boards,
    blanks: blanksOf(wanted, candidates, classes.ofKind, costMost, stepNm),
    objective,
    rest: {
      lengthMin: Math.ceil(settings.offcutMin.lengthNm / stepNm),
      widthMin: Math.ceil(settings.offcutMin.widthNm / stepNm),
      perArea: worth.share,
      lengthRef: Math.max(1, ...boards.map((board) => board.length)),
      lengthPower: worth.lengthPower,
      widthRef: Math.max(1, ...boards.map((board) => board.width)),
      widthPower: worth.widthPower,
    },
  };
  return { problem, boards: candidates.map(({ on }) => on), wanted };
}

/** What a board cost for its wood, against the cheapest; those without a price are taken as the middle of the others. */
function dearnessOf(candidates: readonly Candidate[], costOf: CostOf): (on: ShopBoard) => number {
  const perM3 = (on: ShopBoard) => {
    const cost = costOf(on);
    return cost === null || cost.minor === 0 ? null : cost.minor / cubicMetres(on.board);
  };
  const prices = candidates.flatMap(({ on }) => perM3(on) ?? []).sort((a, b) => a - b);
  const cheapest = prices[0];
  const middle = prices[prices.length >> 1];
  if (cheapest === undefined || middle === undefined) return () => 1;
  return (on) => Math.min(DEARNESS_MOST, (perM3(on) ?? middle) / cheapest);
}

/** What blanks ask of faces, and up to which length: where one clear face is asked for, short ones find more places. */
interface FaceClass {
  readonly quality: number;
  readonly lengthMostNm: number;
}

/** The classes in use, and which is each kind's. A class is as long as its longest blank on any board, in few steps. */
function classesOf(wanted: readonly Wanted[], candidates: readonly Candidate[], stepNm: number) {
  const all: FaceClass[] = [];
  const ofKind = wanted.map(({ quality, finished }, kind) => {
    const steps = candidates.reduce((most, { fits }) => Math.max(most, fits[kind]?.length ?? 0), 0);
    const lengthNm = Math.max(steps * stepNm, finished.lengthNm);
    const lengthMostNm = faceClassNm(lengthNm);
    const known = all.findIndex((one) => one.quality === quality && one.lengthMostNm === lengthMostNm);
    return known >= 0 ? known : all.push({ quality, lengthMostNm }) - 1;
  });
  return { all, ofKind };
}

function stockBoard(
  { on, fits, partedAtNm = [] }: Candidate,
  classes: readonly FaceClass[],
  settings: Settings,
  thinnestNm: number,
  dearness: number,
): StockBoard {
  const stepNm = gridNm(settings);
  const run = on.run ?? { fromNm: 0, toNm: 0 };
  const length = Math.floor((run.toNm - run.fromNm) / stepNm);
  const width = Math.floor(on.board.widthNm / stepNm);
  const wear =
    (on.board.origin.kind === 'offcut' ? OFFCUT_COST : 1) *
    (on.held.length > 0 ? SHARED_COST : 1) *
    (on.isOpened ? OPENED_COST : on.isOurs ? OURS_COST : 1);
  const placed = (rect: RectNm) => onGrid(rect, run.fromNm, stepNm, { length, width });
  const lost = straightening(on, run, partedAtNm, settings);
  const edges = edgesOf(
    on,
    placed,
    partedAtNm.map((atNm) => Math.round((atNm - run.fromNm) / stepNm)),
    stepNm,
  );
  return {
    tag: on.board.tag,
    length,
    width,
    count: 1,
    cost: Math.round(length * width * (on.board.thicknessNm / thinnestNm) * wear * dearness),
    blocked: classes.map(({ quality, lengthMostNm }) =>
      [...lost, ...blockedFor(on.bad, quality, lengthMostNm)].map(placed).filter((rect) => rect !== null),
    ),
    fits,
    ...(edges ? { edges } : {}),
  };
}

/** What straightening takes of each section, and the blades between the sections. */
function straightening(on: ShopBoard, run: Run, partedAtNm: readonly number[], settings: Settings): readonly RectNm[] {
  const crookNm = crookOverRunNm(on);
  if (crookNm === 0) return [];
  const bladeNm = kerfNm(settings).crosscutNm;
  return [
    ...sectionsOf(run, partedAtNm, bladeNm).map((section) => {
      const rightNm = straightenedOffNm(section, run, crookNm, tapeStepNm(settings));
      return { ...section, leftNm: 0, rightNm };
    }),
    ...partedAtNm.map((atNm) => ({ fromNm: atNm, toNm: atNm + bladeNm, leftNm: 0, rightNm: on.board.widthNm })),
  ];
}

function edgesOf(
  on: ShopBoard,
  placed: (rect: RectNm) => Rect | null,
  partedAt: readonly number[],
  stepNm: number,
): RoughEdges | null {
  const uneven = unevenEdgesNm(on).flatMap(({ side, fromNm, toNm }): UnevenEdge[] => {
    const there = placed({ fromNm, toNm, leftNm: 0, rightNm: on.board.widthNm });
    return there ? [{ side, from: there.from, to: there.to }] : [];
  });
  return uneven.length > 0 ? { crook: crookOverRunNm(on) / stepNm, uneven, partedAt } : null;
}

/** Spoiled wood grows to whole steps. */
function onGrid(
  rect: RectNm,
  startNm: number,
  stepNm: number,
  board: { readonly length: number; readonly width: number },
): Rect | null {
  const grown: Rect = {
    from: Math.max(0, Math.floor((rect.fromNm - startNm) / stepNm)),
    to: Math.min(board.length, Math.ceil((rect.toNm - startNm) / stepNm)),
    left: Math.max(0, Math.floor(rect.leftNm / stepNm)),
    right: Math.min(board.width, Math.ceil(rect.rightNm / stepNm)),
  };
  return grown.from < grown.to && grown.left < grown.right ? grown : null;
}

function blanksOf(
  wanted: readonly Wanted[],
  candidates: readonly Candidate[],
  classOfKind: readonly number[],
  costMost: number,
  stepNm: number,
): readonly Blank[] {
  const sizes = wanted.map(({ finished }, index) => {
    for (const { fits } of candidates) {
      const fit = fits[index];
      if (fit) return fit;
    }
    return { length: Math.ceil(finished.lengthNm / stepNm), width: Math.ceil(finished.widthNm / stepNm) };
  });
  const areaLeast = Math.min(...sizes.map((size) => size.length * size.width));
  const lengthLeast = Math.min(...sizes.map((size) => size.length));
  return wanted.map((asks, index): Blank => {
    const size = sizes[index] ?? { length: 1, width: 1 };
    const worth = ((size.length * size.width) / areaLeast) * (size.length / lengthLeast) ** LENGTH_POWER;
    return {
      part: `${asks.part.label}${asks.element === null ? '' : ` ${asks.what} ${asks.element + 1}`}`,
      length: size.length,
      width: size.width,
      quantity: asks.pieces.length,
      value: Math.round(WORTH_OVER_COST * costMost * worth),
      tier: asks.tier,
      quality: classOfKind[index] ?? 0,
      matchGroup: null,
    };
  });
}
