/** What a piece of a cut list is called, at the saw, on a card and in the sidebar. */

export interface NamedPiece {
  readonly label: string;
  readonly no: number;
  /** Which layer of a glued-up part, counted from 0. */
  readonly element: number | null;
  readonly what: 'solid' | 'ply' | 'stave';
  readonly attempt: number;
}

/** "Rail 2", "Post 1, ply 3", "Rail 2 again" for a replacement. */
export function pieceName(piece: NamedPiece): string {
  const layer = piece.element === null ? '' : `, ${piece.what} ${piece.element + 1}`;
  return `${piece.label} ${piece.no}${layer}${piece.attempt > 1 ? ' again' : ''}`;
}
