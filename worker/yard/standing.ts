/** Where the pieces of a job stand: counts for a list, parts with their pieces for a panel. */
import type { Job, JobView, JobWithParts, PartWithPieces, PieceState } from '../contract/job.ts';
import type { Reservation } from '../contract/session.ts';
import type { StoredPart } from './state.ts';

type Counts = Partial<Record<PieceState, number>>;

export function jobViewOf(job: Job, parts: readonly StoredPart[], reservations: readonly Reservation[]): JobView {
  const pieces: Counts = {};
  const layers: Counts = {};
  for (const piece of parts.flatMap((part) => part.pieces)) {
    const counts = piece.element === null ? pieces : layers;
    counts[piece.state] = (counts[piece.state] ?? 0) + 1;
  }
  const heldBoards = new Set(reservations.map((reservation) => reservation.boardId)).size;
  return { ...job, standing: { pieces, layers }, heldBoards };
}

export function jobWithPartsOf(
  job: Job,
  parts: readonly StoredPart[],
  reservations: readonly Reservation[],
): JobWithParts {
  const shown = parts.map(({ jobId: _job, place: _place, ...part }): PartWithPieces => part);
  return { ...jobViewOf(job, parts, reservations), parts: shown };
}
