/** Which columns belong to the table: another table may stand beside it, behind a blank column or right against it. */

import { headingParts, headingPlain } from './heading.ts';
import type { Want } from './mapping.ts';
import { rolesOfWords } from './role-words.ts';

export interface Span {
  readonly first: number;
  readonly last: number;
  /** First column of another table beside it; null where there is none. */
  readonly other: number | null;
}

/** A table names its rows once: two of these are two tables. */
const identifying = new Set(['tag', 'label', 'quantity']);

/**
 * `headings` has the heading of each column, empty where there is none; `filled` says whether anything stands in the
 * column at all. `near` is a column of the table that is wanted, or null: then the one that names most.
 */
export function tableSpan(
  headings: readonly string[],
  filled: readonly boolean[],
  want: Want,
  near: number | null,
): Span {
  const pieces = piecesOf(headings, filled).map((piece) => ({ ...piece, ...namedIn(headings, piece, want) }));
  const base =
    pieces.find((piece) => near !== null && near >= piece.first && near <= piece.last && piece.count >= 3) ??
    pieces.reduce((best, piece) => (piece.count > best.count ? piece : best), pieces[0] ?? NOTHING);
  let { first, last } = base;
  let other: number | null = null;
  const names = new Set(base.identity);
  const at = pieces.indexOf(base);
  const join = (piece: (typeof pieces)[number]): boolean => {
    if (piece.identity.some((role) => names.has(role))) {
      other ??= piece.first;
      return false;
    }
    for (const role of piece.identity) names.add(role);
    first = Math.min(first, piece.first);
    last = Math.max(last, piece.last);
    return true;
  };
  for (const piece of pieces.slice(at + 1)) if (!join(piece)) break;
  for (const piece of pieces.slice(0, Math.max(0, at)).reverse()) if (!join(piece)) break;
  return { first, last, other };
}

interface Piece {
  readonly first: number;
  readonly last: number;
}
const NOTHING = { first: 0, last: -1, count: 0, identity: [] as string[] };

function piecesOf(headings: readonly string[], filled: readonly boolean[]): Piece[] {
  const pieces: Piece[] = [];
  let first: number | null = null;
  const close = (last: number) => {
    if (first !== null) pieces.push(...cutAtRepeat(headings, { first, last }));
    first = null;
  };
  for (const [column, is] of filled.entries()) {
    if (is) first ??= column;
    else close(column - 1);
  }
  close(filled.length - 1);
  return pieces;
}

/** "Part Qty L W Part Qty L W": where the first three headings come again in their order, the next table begins. */
function cutAtRepeat(headings: readonly string[], piece: Piece): Piece[] {
  const plain = headings.map(headingPlain);
  const opening = plain.slice(piece.first, piece.first + 3);
  if (opening.length < 3 || opening.some((word) => word === '')) return [piece];
  for (let column = piece.first + 3; column + 2 <= piece.last; column += 1) {
    if (opening.every((word, i) => plain[column + i] === word)) {
      return [{ first: piece.first, last: column - 1 }, ...cutAtRepeat(headings, { first: column, last: piece.last })];
    }
  }
  return [piece];
}

function namedIn(headings: readonly string[], piece: Piece, want: Want): { count: number; identity: string[] } {
  const roles = new Set<string>();
  for (let column = piece.first; column <= piece.last; column += 1) {
    const [best] = [...rolesOfWords(want, headingParts(headings[column] ?? '').words)].sort((a, b) => b[1] - a[1]);
    if (best !== undefined) roles.add(best[0]);
  }
  return { count: roles.size, identity: [...roles].filter((role) => identifying.has(role)) };
}
