/**
 * Whether a board can give a piece, and the size it must be cut to there: moisture sizes it, warp over its own length
 * and width takes from the thickness and the width. A refusal names every reason and by how much.
 */
import type { Settings } from '../contract/settings.ts';
import { blockedFor } from '../takeoff/bad-wood.ts';
import type { WoodAtCutting } from '../takeoff/blank.ts';
import { longestClearNm } from '../takeoff/clear-run.ts';
import { dryEnough } from '../takeoff/dry-enough.ts';
import { comparedStyle, gridNm, roundedUpNm, tapeStepNm, tapeStyle } from '../takeoff/grid.ts';
import {
  canResaw,
  grainServes,
  type PieceAtCutting,
  type PieceOnBoard,
  pieceAtCutting,
  pieceOnBoard,
} from '../takeoff/piece-on-board.ts';
import { lengthText } from '../wood/length.ts';
import { type ShopBoard, shopBoard } from './shop-board.ts';
import { isCrooked } from './shop-edges.ts';
import type { Wanted } from './shop-wanted.ts';

/** What a piece asks of wood, without which pieces they are. */
export type Asks = Omit<Wanted, 'element' | 'pieces'>;

export interface Fail {
  /** How far from fitting, as a share of what is needed. */
  readonly share: number;
  readonly words: string;
  /** Goes away with the same board: a hold that is released, a reading that is taken, wood that dries. */
  readonly passes?: true;
}
export type Fit =
  | {
      readonly ok: true;
      readonly lengthNm: number;
      /** With the crook over the piece's own length: the least that the board must have. */
      readonly widthNm: number;
      /** Width at which it is cut. */
      readonly cutWidthNm: number;
    }
  | { readonly ok: false; readonly fails: readonly Fail[] };

export interface FitOptions {
  /** Boards named by a person may be planed down however thick they are. */
  readonly evenIfThick: boolean;
}

/** Reasons that have no size of their own. */
const NOT_RECORDED = 0.4;

export function fitOn(asks: Asks, on: ShopBoard, settings: Settings, options: FitOptions): Fit {
  const { board } = on;
  const piece = pieceAtCutting(asks.finished, settings, woodAtCutting(asks, on));
  const there = pieceOnBoard(piece, board, settings);
  const fails = [
    ...grainFails(asks, on),
    ...moistureFails(asks, on),
    ...thicknessFails(asks, on, piece, there, settings, options),
    ...faceFails(there, on, settings),
  ];
  if (fails.length > 0) return { ok: false, fails };
  const { lengthNm, widthNm, straightWidthNm } = there;
  return { ok: true, lengthNm, widthNm, cutWidthNm: isCrooked(on) ? straightWidthNm : widthNm };
}

/** As `fitOn`, and with a clear place for it among the defects of the board as it stands. */
export function placeOn(asks: Asks, on: ShopBoard, settings: Settings, options: FitOptions): Fit {
  if (!on.run) {
    const free = placeOn(asks, shopBoard(on.board, on.wood, [], settings), settings, options);
    return { ok: false, fails: [heldFail(on), ...(free.ok ? [] : free.fails)] };
  }
  const fit = fitOn(asks, on, settings, options);
  if (!fit.ok) return fit;
  const within = { ...on.run, leftNm: 0, rightNm: on.board.widthNm };
  const clearNm = longestClearNm(within, blockedFor(on.bad, asks.quality, fit.lengthNm), fit.widthNm);
  if (clearNm >= fit.lengthNm) return fit;
  return { ok: false, fails: [tooShort(fit.lengthNm, clearNm, 'longest clear run', settings)] };
}

/** A board without a reading is taken to be as wet as the piece allows. */
function woodAtCutting(asks: Asks, on: ShopBoard): WoodAtCutting {
  return {
    species: on.wood.species,
    moisturePercent: on.moisturePercent ?? asks.limitPercent,
    grain: on.board.grain,
  };
}

function grainFails({ part }: Asks, { board }: ShopBoard): readonly Fail[] {
  if (grainServes(part.grain, board.grain)) return [];
  const words =
    board.grain === 'unknown'
      ? `its grain is not recorded, ${part.grain} is asked for`
      : `${board.grain} grain, ${part.grain} is asked for`;
  return [{ share: NOT_RECORDED, words, ...(board.grain === 'unknown' ? { passes: true } : {}) }];
}

function moistureFails(asks: Asks, { moisturePercent }: ShopBoard): readonly Fail[] {
  if (dryEnough(moisturePercent, asks.limitPercent, asks.part.use)) return [];
  if (moisturePercent === null)
    return [{ share: NOT_RECORDED, words: 'no moisture reading, and critical parts need one', passes: true }];
  return [
    {
      share: (moisturePercent - asks.limitPercent) / Math.max(1, asks.limitPercent),
      words: `${moisturePercent} % moisture, at most ${asks.limitPercent} % for this part`,
      passes: true,
    },
  ];
}

function thicknessFails(
  asks: Asks,
  on: ShopBoard,
  { neededThicknessNm: neededNm }: PieceAtCutting,
  { flatNm, isThickEnough }: PieceOnBoard,
  settings: Settings,
  options: FitOptions,
): readonly Fail[] {
  const show = (thicknessNm: number) => lengthText(thicknessNm, tapeStyle(settings));
  const { thicknessNm } = on.board;
  const stepNm = gridNm(settings);
  if (!isThickEnough) {
    const needsNm = roundedUpNm(neededNm, stepNm);
    const leftNm = Math.floor(flatNm / stepNm) * stepNm;
    // What is said to be wanting is the difference of the two that are read beside it.
    const shortNm = needsNm - leftNm;
    const warpWords =
      flatNm < thicknessNm ? ` once flat over this piece (${show(leftNm)} left of ${show(thicknessNm)} rough)` : '';
    const words = `${show(shortNm)} too thin${warpWords}: needs ${show(needsNm)}`;
    return [{ share: (neededNm - flatNm) / neededNm, words }];
  }
  if (options.evenIfThick || !canResaw(thicknessNm, asks.finished.thicknessNm, settings)) return [];
  const words = `${show(thicknessNm)} is thick enough to resaw for ${show(roundedUpNm(neededNm, stepNm))}: resaw it first, or name it for this plan`;
  return [{ share: NOT_RECORDED, words }];
}

function faceFails(
  needed: { readonly lengthNm: number; readonly widthNm: number; readonly crookNm: number },
  on: ShopBoard,
  settings: Settings,
): readonly Fail[] {
  const fails: Fail[] = [];
  if (on.trimmed === null) {
    fails.push(heldFail(on));
    if (on.board.lengthNm < needed.lengthNm)
      fails.push(tooShort(needed.lengthNm, on.board.lengthNm, 'whole piece', settings));
  } else {
    const runNm = on.trimmed.toNm - on.trimmed.fromNm;
    if (runNm < needed.lengthNm) fails.push(tooShort(needed.lengthNm, runNm, runWords(on, runNm), settings));
  }
  const { widthNm } = on.board;
  if (widthNm < needed.widthNm) {
    const show = (acrossNm: number) => lengthText(acrossNm, tapeStyle(settings));
    const up = (acrossNm: number) => show(roundedUpNm(acrossNm, tapeStepNm(settings)));
    fails.push({
      share: (needed.widthNm - widthNm) / needed.widthNm,
      words: `${up(needed.widthNm - widthNm)} too narrow: ${show(widthNm)} wide, needs ${up(needed.widthNm)}${needed.crookNm > 0 ? `, ${up(needed.crookNm)} of it for the crook over its length` : ''}`,
    });
  }
  return fails;
}

function heldFail({ held }: ShopBoard): Fail {
  const holders = [...new Set(held.map(({ jobName }) => jobName))].join(', ');
  return { share: NOT_RECORDED, words: `held for ${holders}`, passes: true };
}

function runWords(on: ShopBoard, runNm: number): string {
  if (on.held.length > 0) return 'longest free run';
  return runNm < on.board.lengthNm ? 'trimmed' : 'whole piece';
}

function tooShort(neededNm: number, hasNm: number, what: string, settings: Settings): Fail {
  const stepNm = gridNm(settings);
  const show = (lengthNm: number) =>
    lengthText(Math.floor(lengthNm / stepNm) * stepNm, comparedStyle(neededNm, settings));
  return {
    share: (neededNm - hasNm) / neededNm,
    words: `${show(roundedUpNm(neededNm - hasNm, stepNm))} too short: ${what} ${show(hasNm)}, needs ${show(neededNm)}`,
  };
}
