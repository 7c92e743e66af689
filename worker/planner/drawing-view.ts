/**
 * Where the board lies on the sheet. Boards are long and narrow, so the width may be drawn larger than the length; the
 * factor is stated on the drawing. Letters are sized by the sheet, so that they read the same for any board.
 */
export interface Paper {
  /** How many letter heights make the width of the sheet. */
  readonly lettersAcross: number;
  /** Height that the board should have on the sheet, as part of its drawn length. */
  readonly heightPart: number;
}

/** A narrow column on the screen, about 276 px: letters of 11 px, a board some 50 px high. */
export const PANEL: Paper = { lettersAcross: 24, heightPart: 0.22 };
/** A printed page, about 180 mm: letters of 2.7 mm. */
export const CARD: Paper = { lettersAcross: 66, heightPart: 0.2 };

const FACTOR_MAX = 4;
/** Where narrow strips need it to carry their numbers, the width is drawn larger still, within these bounds. */
const STRIP_LETTERS = 1.8;
const STRIP_FACTOR_MAX = 8;
const STRIP_HEIGHT_PART = 0.6;
/** Margin in letter heights: the tag stands left of the board, clear of the numbers of cuts near its end. */
const LEFT = 2.1;

export interface View {
  readonly letterMm: number;
  /** How much wider than long things are drawn. */
  readonly crossFactor: number;
  readonly leftMm: number;
  readonly topMm: number;
  readonly boardLengthMm: number;
  readonly boardHeightMm: number;
  readonly sheetWidthMm: number;
}

export function viewOf(
  board: { readonly lengthNm: number; readonly widthNm: number },
  paper: Paper,
  room: {
    /** Letter heights above the board for the numbers of cuts, and right of it for its widths. */
    readonly topLetters: number;
    readonly rightLetters: number;
    /** The narrowest strip that must carry a number. */
    readonly narrowestNm: number | null;
  },
): View {
  const { topLetters, rightLetters, narrowestNm } = room;
  const boardLengthMm = board.lengthNm / 1e6;
  const letterMm = boardLengthMm / (paper.lettersAcross - LEFT - rightLetters);
  const boardWidthMm = board.widthNm / 1e6;
  const usual = Math.min(FACTOR_MAX, (boardLengthMm * paper.heightPart) / boardWidthMm);
  const forStrips = Math.min(
    STRIP_FACTOR_MAX,
    narrowestNm === null ? 1 : (STRIP_LETTERS * letterMm) / (narrowestNm / 1e6),
    (boardLengthMm * STRIP_HEIGHT_PART) / boardWidthMm,
  );
  const crossFactor = Math.max(1, Math.floor(usual * 2) / 2, Math.ceil(forStrips * 2) / 2);
  return {
    letterMm,
    crossFactor,
    leftMm: LEFT * letterMm,
    topMm: topLetters * letterMm,
    boardLengthMm,
    boardHeightMm: boardWidthMm * crossFactor,
    sheetWidthMm: boardLengthMm + (LEFT + rightLetters) * letterMm,
  };
}

export const alongMm = (view: View, nm: number): number => view.leftMm + nm / 1e6;
export const acrossMm = (view: View, nm: number): number => view.topMm + (nm / 1e6) * view.crossFactor;
