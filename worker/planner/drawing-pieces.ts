/** Short marks for the pieces on a drawing, and the key that says what they stand for. */
import type { PlacedPiece } from '../contract/plan.ts';
import { pieceName } from '../wood/piece-name.ts';
import { type Shown, tape } from './cut-words.ts';

/** A, B, … Z, AA, AB. */
function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}

const kindKey = (piece: PlacedPiece): string => `${piece.partKey}\n${piece.element ?? ''}`;

/** "B2": a letter a part (and layer) in the order of the layout, and the number of the copy. */
export function pieceMarks(pieces: readonly PlacedPiece[]): string[] {
  const kinds = [...new Set(pieces.map(kindKey))];
  return pieces.map((piece) => `${letters(kinds.indexOf(kindKey(piece)))}${piece.no}`);
}

/** Across x along. */
export const roughSize = (
  r: { readonly fromNm: number; readonly toNm: number; readonly leftNm: number; readonly rightNm: number },
  shown: Shown,
): string => `${tape(r.rightNm - r.leftNm, shown)} × ${tape(r.toNm - r.fromNm, shown)}`;

export interface PieceRow {
  readonly letter: string;
  readonly label: string;
  /** ", ply 2", or nothing for a solid part. */
  readonly layer: string;
  readonly size: string;
  /** "1-3, 5". */
  readonly numbers: string;
  readonly count: number;
  readonly piece: PlacedPiece;
}

/** One row for each part and rough size, in the order of the letters. */
export function pieceRows(pieces: readonly PlacedPiece[], shown: Shown): PieceRow[] {
  const marks = pieceMarks(pieces);
  const rows = new Map<string, { letter: string; pieces: PlacedPiece[] }>();
  for (const [index, piece] of pieces.entries()) {
    const letter = (marks[index] ?? '').replace(/\d+$/, '');
    const key = `${letter} ${roughSize(piece, shown)}`;
    const row = rows.get(key);
    if (row) row.pieces.push(piece);
    else rows.set(key, { letter, pieces: [piece] });
  }
  return [...rows.values()]
    .sort((a, b) => a.letter.length - b.letter.length || (a.letter < b.letter ? -1 : 1))
    .flatMap(({ letter, pieces: alike }) => {
      const piece = alike[0];
      if (!piece) return [];
      return {
        letter,
        label: piece.label,
        layer: piece.element === null ? '' : `, ${piece.what} ${piece.element + 1}`,
        size: roughSize(piece, shown),
        numbers: runsText(alike.map((one) => one.no)),
        count: alike.length,
        piece,
      };
    });
}

function runsText(numbers: readonly number[]): string {
  const sorted = [...new Set(numbers)].sort((a, b) => a - b);
  const runs: [number, number][] = [];
  for (const no of sorted) {
    const run = runs.at(-1);
    if (run && no === run[1] + 1) run[1] = no;
    else runs.push([no, no]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}-${to}`)).join(', ');
}

export const pieceTitle = (piece: PlacedPiece, shown: Shown): string =>
  `${pieceName(piece)}: ${roughSize(piece, shown)}, from ${tape(piece.fromNm, shown)} to ${tape(piece.toNm, shown)}`;
