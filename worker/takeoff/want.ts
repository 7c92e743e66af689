/** One kind of blank, asked against many boards: which of them give it, at which size, and how many at most. */
import type { RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import type { Grain } from '../wood/shrinkage.ts';
import type { Species } from '../wood/species.ts';
import type { Size } from '../wood/unit.ts';
import { blockedFor, faceClassNm } from './bad-wood.ts';
import { longestClearNm } from './clear-run.ts';
import type { FreeBoard } from './free-board.ts';
import { grainServes, type PieceAtCutting, pieceAtCutting, pieceOnBoard, resawnFromNm } from './piece-on-board.ts';

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
  const pieceAt = piecesByMoisture(blank, species, settings);
  const tooThickNm = resawnFromNm(blank.finished.thicknessNm, settings);
  const able: Able[] = [];
  for (const from of boards) {
    const { thicknessNm } = from.board;
    if (thicknessNm < blank.finished.thicknessNm || thicknessNm >= tooThickNm) continue;
    const given = givenBy(from, blank, pieceAt, settings);
    if (given) able.push({ from, given, isDry: isDryEnough(from, blank) });
  }
  return { blank, able };
}

const isDryEnough = ({ moisturePercent }: FreeBoard, { limitPercent, takesUnread }: DemandBlank): boolean =>
  moisturePercent === null ? takesUnread : moisturePercent <= limitPercent;

type PieceAt = (moisturePercent: number, grain: Grain) => PieceAtCutting;

function givenBy(
  { clear, board, moisturePercent, bad }: FreeBoard,
  { finished, rough, grain, limitPercent, quality }: DemandBlank,
  pieceAt: PieceAt,
  settings: Settings,
): Given | null {
  // What is too short, too narrow or too thin outright is most of a stock.
  if (clear === null || rough.lengthNm > clear.toNm - clear.fromNm || finished.widthNm > board.widthNm) return null;
  if (!grainServes(grain, board.grain)) return null;
  const piece = pieceAt(Math.min(moisturePercent ?? limitPercent, limitPercent), board.grain);
  const { isThickEnough, lengthNm, widthNm, straightWidthNm } = pieceOnBoard(piece, board, settings);
  if (!isThickEnough || widthNm > board.widthNm) return null;
  const blocked = board.defects.length === 0 ? FLAWLESS : blockedFor(bad, quality, faceClassNm(lengthNm));
  if (blocked.length > 0 && longestClearNm(clear, blocked, widthNm) < lengthNm) return null;
  return { lengthNm, widthNm, straightWidthNm, blocked };
}

const FLAWLESS: readonly RectNm[] = [];

/** A board's moisture and grain size the blank; a stock repeats a few of them. */
function piecesByMoisture({ finished }: DemandBlank, species: Species | null, settings: Settings): PieceAt {
  const known = new Map<Grain, Map<number, PieceAtCutting>>();
  return (moisturePercent, grain) => {
    const ofGrain = known.get(grain) ?? new Map<number, PieceAtCutting>();
    known.set(grain, ofGrain);
    const before = ofGrain.get(moisturePercent);
    if (before) return before;
    const piece = pieceAtCutting(finished, settings, { species, moisturePercent, grain });
    ofGrain.set(moisturePercent, piece);
    return piece;
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
