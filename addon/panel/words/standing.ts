/** Where the pieces of a part stand, in words for a cell or a line. */
import type { PartWithPieces, Piece, PieceState } from '../../../worker/contract/job.ts';
import { count } from './measure.ts';
import { type Laminated, layersWord, layerWords, pieceOrder, pieceWords } from './trade.ts';

export type Counts = Partial<Record<PieceState, number>>;

/** Pieces still on their way: a failed one has another in its place, and is counted as wanted again by that. */
export function countsOf(pieces: readonly Piece[]): Counts {
  const counts: Counts = {};
  for (const piece of pieces) counts[piece.state] = (counts[piece.state] ?? 0) + 1;
  return counts;
}

/** "2 wanted, 1 roughed"; what a part is glued up from stands after it: "1 wanted (plies: 2 passed)". */
export function standingText({ pieces, ...part }: PartWithPieces): string {
  const whole = countsText(countsOf(pieces.filter((piece) => piece.element === null)));
  const layers = countsText(countsOf(pieces.filter((piece) => piece.element !== null && piece.state !== 'failed')));
  return layers === '' ? whole : `${whole} (${layersWord([part])}: ${layers})`;
}

/** "41 of 53 pieces are cut already.": what comes from the saw, of a glued-up part its plies or staves; null while none is. */
export function cutAlreadyText(parts: readonly Pick<PartWithPieces, 'pieces' | 'lamination'>[]): string | null {
  const sawn = parts.flatMap(({ pieces, lamination }) =>
    pieces.filter(({ state, element }) => state !== 'failed' && (element === null) === (lamination === null)),
  );
  const all = sawn.length;
  const cut = sawn.filter(({ state }) => state !== 'wanted' && state !== 'planned').length;
  return cut === 0 ? null : `${cut} of ${all} ${all === 1 ? 'piece is' : 'pieces are'} cut already.`;
}

/** The pieces that still have to come from the saw, whether a plan has a place for them or not: of a glued-up part its layers. */
export function toCutOf({ pieces, lamination }: Pick<PartWithPieces, 'pieces' | 'lamination'>): readonly Piece[] {
  return pieces.filter(
    ({ state, element }) => (state === 'wanted' || state === 'planned') && (element === null) === (lamination === null),
  );
}

/** "20 pieces are not made yet: 10 wanted, 10 planned"; null when all are milled. */
export function notMadeText(counts: Counts): string | null {
  const { milled: _milled, failed: _failed, ...open } = counts;
  const many = Object.values(open).reduce((sum, each) => sum + each, 0);
  return many === 0 ? null : `${count(many, 'piece is', 'pieces are')} not made yet: ${countsText(open)}`;
}

export function countsText(counts: Counts): string {
  return pieceOrder
    .filter((state) => (counts[state] ?? 0) > 0)
    .map((state) => `${counts[state]} ${pieceWords[state]}`)
    .join(', ');
}

/** The last day that a piece of these waits for, ISO; null when none waits past today. */
export function untilText(pieces: readonly Piece[], today: string): string | null {
  const days = pieces
    .filter((piece) => piece.state === 'roughed' && piece.restingUntil !== null)
    .map((piece) => piece.restingUntil ?? '')
    .sort();
  const last = days.at(-1);
  return last === undefined || last <= today ? null : last;
}

/** "no. 1", "3 pieces", "no. 2, ply 1", "6 staves". */
export function piecesText(pieces: readonly Piece[], part: Laminated): string {
  const [only] = pieces;
  if (only === undefined) return '';
  if (pieces.length === 1) return `no. ${only.no}${layerWords(only.element, part)}`;
  return `${pieces.length} ${pieces.every((piece) => piece.element !== null) ? layersWord([part]) : 'pieces'}`;
}
