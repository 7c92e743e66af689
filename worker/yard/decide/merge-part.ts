/** One row of a cut list set again: which pieces stay, which go, which come, and what stands in the way. */
import type { Part, Piece } from '../../contract/job.ts';
import type { Fault } from '../../contract/problem.ts';
import { sameValue } from '../same-value.ts';
import type { StoredPart } from '../state.ts';
import { counted } from '../words.ts';
import { copyPieces } from './parts-at-work.ts';

export interface MergedPart {
  readonly pieces: readonly Piece[];
  readonly faults: readonly Fault[];
  readonly notes: readonly string[];
}

interface Copy {
  readonly no: number;
  readonly pieces: readonly Piece[];
  /** Nothing of it was planned, cut or failed. */
  readonly isUntouched: boolean;
  readonly isPlanned: boolean;
}

function copiesOf(part: StoredPart): readonly Copy[] {
  const byNo = new Map<number, Piece[]>();
  for (const piece of part.pieces) byNo.set(piece.no, [...(byNo.get(piece.no) ?? []), piece]);
  return [...byNo].map(([no, pieces]) => ({
    no,
    pieces,
    isUntouched: pieces.every((piece) => piece.state === 'wanted' && piece.attempt === 1),
    isPlanned: pieces.some((piece) => piece.state === 'planned'),
  }));
}

function cutTheSame(a: Part, b: Part): boolean {
  const sizes = ['species', 'lengthNm', 'widthNm', 'thicknessNm', 'lamination'] as const;
  return sizes.every((field) => sameValue(a[field], b[field]));
}

function plannedFault(part: Part, place: number | null, field: string, what: string): Fault {
  return {
    pointer: place === null ? '/parts' : `/parts/${place}/${field}`,
    ...(place === null ? {} : { row: place }),
    field,
    read: part.label,
    help: `${what}; drop that plan first, then set the list and plan again`,
  };
}

export function mergePart(old: StoredPart, now: Part, place: number | null): MergedPart {
  const faults: Fault[] = [];
  const notes: string[] = [];
  let copies = copiesOf(old);
  if (!cutTheSame(old, now)) {
    const planned = copies.filter((copy) => copy.isPlanned).length;
    if (planned > 0) {
      faults.push(
        plannedFault(now, place, 'lengthNm', `${counted(planned, 'piece')} of it are planned at the old size`),
      );
    }
    const cut = copies.filter((copy) => !copy.isUntouched && !copy.isPlanned).length;
    if (cut > 0) notes.push(`${now.label}: ${counted(cut, 'piece')} already cut to the old size stay on the list.`);
    copies = copies.map((copy) => (copy.isUntouched ? { ...copy, pieces: copyPieces(now, copy.no) } : copy));
  }
  const surplus = copies.length - now.quantity;
  if (surplus > 0) {
    const untouched = copies.filter((copy) => copy.isUntouched);
    const dropped = new Set(untouched.slice(Math.max(0, untouched.length - surplus)).map((copy) => copy.no));
    copies = copies.filter((copy) => !dropped.has(copy.no));
    const still = copies.length - now.quantity;
    const planned = copies.filter((copy) => copy.isPlanned).length;
    if (still > 0 && planned > 0) {
      faults.push(plannedFault(now, place, 'quantity', `${counted(planned, 'piece')} of it are planned`));
    } else if (still > 0)
      notes.push(`${now.label}: ${counted(still, 'piece')} more than asked for are already cut; they stay.`);
  }
  const nextNo = Math.max(0, ...old.pieces.map((piece) => piece.no)) + 1;
  const added = Array.from({ length: Math.max(0, -surplus) }, (_, at) => copyPieces(now, nextNo + at)).flat();
  const pieces = [...copies.flatMap((copy) => copy.pieces), ...added];
  // A row with a fault stays as it was, so there is nothing to note of it.
  return { pieces, faults, notes: faults.length > 0 ? [] : notes };
}

/** A row that is no longer on the list: untouched copies go, cut ones stay, planned ones stand in the way. */
export function withoutUntouched(old: StoredPart): MergedPart {
  const copies = copiesOf(old).filter((copy) => !copy.isUntouched);
  const planned = copies.filter((copy) => copy.isPlanned).length;
  if (planned > 0) {
    const fault = plannedFault(
      old,
      null,
      'key',
      `it is missing from the list, but ${counted(planned, 'piece')} of it are planned`,
    );
    return { pieces: old.pieces, faults: [fault], notes: [] };
  }
  const notes =
    copies.length > 0
      ? [`${old.label} is no longer on the list; ${counted(copies.length, 'piece')} already cut stay.`]
      : [];
  return { pieces: copies.flatMap((copy) => copy.pieces), faults: [], notes };
}
