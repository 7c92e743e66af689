/** One kind of blank, asked against many boards: which of them give it, at which size, and how many at most. */
import type { RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import type { Grain } from '../wood/shrinkage.ts';
import type { Species } from '../wood/species.ts';
import type { Size } from '../wood/unit.ts';
import { blockedFor, faceClassNm } from './bad-wood.ts';
import { PLANING_GIVE_NM, planingAllowanceNm } from './blank.ts';
import { longestClearNm } from './clear-run.ts';
import type { FreeBoard } from './free-board.ts';
import {
  grainServes,
  isThickEnough,
  type PieceAtCutting,
  pieceAtCutting,
  pieceOnBoard,
  resawnFromNm,
} from './piece-on-board.ts';

export interface DemandBlank {
  readonly finished: Size;
  /** As cut from the wettest stock that it may be cut from. */
  readonly rough: Size;
  /** What it asks for; unknown takes any. */
  readonly grain: Grain;
  /** What it asks of its faces, an index of `qualities`. */
  readonly quality: number;
  /** 1 is the most urgent. */
  readonly tier: number;
  readonly count: number;
  /** Of all of them. */
  readonly grossM3: number;
  readonly limitPercent: number;
  /** Whether wood without a reading will do. */
  readonly takesUnread: boolean;
}

/** A blank on one board, as the saw is set there. */
export interface Given {
  readonly lengthNm: number;
  /** With the crook over its own length. */
  readonly widthNm: number;
  /** Where a rip before has straightened the edge. */
  readonly straightWidthNm: number;
  /** Spoiled wood that it must not touch. */
  readonly blocked: readonly RectNm[];
}

/** A board that gives a blank. */
export interface Able {
  readonly from: FreeBoard;
  readonly given: Given;
  /** Dry enough already; a wet one is measured as it will be once it is. */
  readonly isDry: boolean;
}

/** A kind of blank with every board that gives it, in the order of the boards. */
export interface Want<Blank extends DemandBlank = DemandBlank> {
  readonly blank: Blank;
  readonly able: readonly Able[];
}

/** Asks each board. species null: a wood of which no figure is published. */
export function wantOf<Blank extends DemandBlank>(
  blank: Blank,
  boards: readonly FreeBoard[],
  species: Species | null,
  settings: Settings,
): Want<Blank> {
  const askedOf = askedByMoisture(blank, species, settings);
  const { finished, rough } = blank;
  const tooThickNm = resawnFromNm(finished.thicknessNm, settings);
  // At its driest a blank is its finished size and the allowances: what is less outright is most of a stock.
  const thinnestNm = finished.thicknessNm + planingAllowanceNm(finished.thicknessNm, settings) - PLANING_GIVE_NM;
  const narrowestNm = finished.widthNm + settings.allowances.widthNm;
  const able: Able[] = [];
  for (const from of boards) {
    const { thicknessNm, widthNm } = from.board;
    if (thicknessNm < thinnestNm || thicknessNm >= tooThickNm || widthNm < narrowestNm) continue;
    if (from.clear === null || rough.lengthNm > from.clear.toNm - from.clear.fromNm) continue;
    const given = givenBy(from, blank, askedOf, settings);
    if (given) able.push({ from, given, isDry: isDryEnough(from, blank) });
  }
  return { blank, able };
}

const isDryEnough = ({ moisturePercent }: FreeBoard, { limitPercent, takesUnread }: DemandBlank): boolean =>
  moisturePercent === null ? takesUnread : moisturePercent <= limitPercent;

/** A blank as wood of one moisture content and grain must give it. */
interface Asked {
  readonly piece: PieceAtCutting;
  /** From a board that is flat and flawless: the same from all of them. */
  readonly given: Given;
}
type AskedOf = (moisturePercent: number, grain: Grain) => Asked;

function givenBy(
  { clear, board, moisturePercent, bad }: FreeBoard,
  { grain, limitPercent, quality }: DemandBlank,
  askedOf: AskedOf,
  settings: Settings,
): Given | null {
  if (clear === null || !grainServes(grain, board.grain)) return null;
  const asked = askedOf(Math.min(moisturePercent ?? limitPercent, limitPercent), board.grain);
  // Warp only takes from a board.
  if (asked.given.widthNm > board.widthNm || !isThickEnough(board.thicknessNm, asked.piece)) return null;
  const isFlawless = board.defects.length === 0;
  if (board.warp === null && isFlawless) return asked.given;
  const onIt = pieceOnBoard(asked.piece, board, settings);
  if (!onIt.isThickEnough || onIt.widthNm > board.widthNm) return null;
  const blocked = isFlawless ? FLAWLESS : blockedFor(bad, quality, faceClassNm(onIt.lengthNm));
  if (blocked.length > 0 && longestClearNm(clear, blocked, onIt.widthNm) < onIt.lengthNm) return null;
  const { lengthNm, widthNm, straightWidthNm } = onIt;
  return { lengthNm, widthNm, straightWidthNm, blocked };
}

const FLAWLESS: readonly RectNm[] = [];

/** A board's moisture and grain size the blank; a stock repeats a few of them. */
function askedByMoisture({ finished }: DemandBlank, species: Species | null, settings: Settings): AskedOf {
  const known = new Map<Grain, Map<number, Asked>>();
  return (moisturePercent, grain) => {
    let ofGrain = known.get(grain);
    if (ofGrain === undefined) {
      ofGrain = new Map();
      known.set(grain, ofGrain);
    }
    const before = ofGrain.get(moisturePercent);
    if (before) return before;
    const piece = pieceAtCutting(finished, settings, { species, moisturePercent, grain });
    const { lengthNm, widthNm } = piece.rough;
    const given = { lengthNm, widthNm, straightWidthNm: widthNm, blocked: FLAWLESS };
    const asked = { piece, given };
    ofGrain.set(moisturePercent, asked);
    return asked;
  };
}

/** No way to cut the board gives more of them, even where nothing else is cut from it and no defect is in the way. */
export function mostOn(
  { from, given }: Able,
  { ripNm, crosscutNm }: { readonly ripNm: number; readonly crosscutNm: number },
): number {
  if (from.clear === null) return 0;
  const { fromNm, toNm, leftNm, rightNm } = from.clear;
  const along = Math.floor((toNm - fromNm + crosscutNm) / (given.lengthNm + crosscutNm));
  return along * Math.floor((rightNm - leftNm + ripNm) / (given.straightWidthNm + ripNm));
}
