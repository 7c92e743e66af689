/**
 * The parts of a job while one command changes their pieces: read once, changed in memory, given back as changes. The
 * current piece of a copy (or of one of its layers) is its last attempt; failed attempts stay as its history.
 */
import type { Piece } from '../../contract/job.ts';
import type { Change } from '../../contract/movement.ts';
import { changed } from '../change.ts';
import type { StoredPart, YardReader } from '../state.ts';

export function wantedPiece(no: number, element: number | null, attempt = 1): Piece {
  return {
    no,
    element,
    attempt,
    state: 'wanted',
    boardId: null,
    planId: null,
    sessionId: null,
    restingUntil: null,
    curingUntilMs: null,
    why: '',
  };
}

export function layerCount(part: Pick<StoredPart, 'lamination'>): number {
  if (part.lamination === null) return 0;
  return part.lamination.kind === 'plies' ? part.lamination.plies.length : part.lamination.count;
}

/** The piece of one copy and, for a laminated part, each of its layers. */
export function copyPieces(part: Pick<StoredPart, 'lamination'>, no: number): readonly Piece[] {
  const layers = Array.from({ length: layerCount(part) }, (_, element) => wantedPiece(no, element));
  return [wantedPiece(no, null), ...layers];
}

/** Attempts at one piece come one after the other already, and a sort leaves them so. */
function byPlace(a: Piece, b: Piece): number {
  return a.no - b.no || (a.element ?? -1) - (b.element ?? -1);
}

export class PartsAtWork {
  readonly #parts: ReadonlyMap<string, StoredPart>;
  readonly #pieces = new Map<string, Piece[]>();

  constructor(state: YardReader, jobId: string) {
    this.#parts = new Map(state.partsOfJob(jobId).map((part) => [part.key, part]));
  }

  part(key: string): StoredPart | null {
    return this.#parts.get(key) ?? null;
  }

  keys(): readonly string[] {
    return [...this.#parts.keys()];
  }

  pieces(key: string): readonly Piece[] {
    return this.#pieces.get(key) ?? this.#parts.get(key)?.pieces ?? [];
  }

  #atWork(key: string): Piece[] {
    let pieces = this.#pieces.get(key);
    if (!pieces) {
      pieces = [...(this.#parts.get(key)?.pieces ?? [])];
      this.#pieces.set(key, pieces);
    }
    return pieces;
  }

  /** The last attempt at this copy or layer; null where there is no such copy. */
  current(key: string, no: number, element: number | null): Piece | null {
    let last: Piece | null = null;
    for (const piece of this.pieces(key)) {
      if (piece.no === no && piece.element === element && (!last || piece.attempt > last.attempt)) last = piece;
    }
    return last;
  }

  change(key: string, piece: Piece, patch: Partial<Piece>): Piece {
    const pieces = this.#atWork(key);
    const at = pieces.indexOf(piece);
    if (at < 0) throw new Error(`piece ${piece.no} of ${key} is not at work`);
    const after = { ...piece, ...patch };
    pieces[at] = after;
    return after;
  }

  add(key: string, piece: Piece): Piece {
    this.#atWork(key).push(piece);
    return piece;
  }

  /** The piece failed and stays as history; a new attempt is wanted in its place. */
  fail(key: string, piece: Piece, why: string, patch: Partial<Piece> = {}): Piece {
    this.change(key, piece, { ...patch, state: 'failed', restingUntil: null, curingUntilMs: null, why });
    return this.add(key, wantedPiece(piece.no, piece.element, piece.attempt + 1));
  }

  /** Takes a planned piece out of its plan. */
  unplan(key: string, piece: Piece): Piece {
    return this.change(key, piece, { state: 'wanted', boardId: null, planId: null });
  }

  /** Every piece still planned by this plan, on one of its boards or on any. Gives how many there were. */
  unplanAll(planId: string, onBoard: (boardId: string | null) => boolean = () => true): number {
    let count = 0;
    for (const key of this.keys()) {
      for (const piece of [...this.pieces(key)]) {
        if (piece.state !== 'planned' || piece.planId !== planId || !onBoard(piece.boardId)) continue;
        this.unplan(key, piece);
        count += 1;
      }
    }
    return count;
  }

  plannedCount(planId: string): number {
    const isPlanned = (piece: Piece) => piece.state === 'planned' && piece.planId === planId;
    return this.keys().reduce((count, key) => count + this.pieces(key).filter(isPlanned).length, 0);
  }

  changes(): readonly Change[] {
    return [...this.#pieces].flatMap(([key, pieces]) => {
      const part = this.#parts.get(key);
      if (!part) return [];
      return changed('part', `${part.jobId}/${key}`, part, { pieces: [...pieces].sort(byPlace) });
    });
  }
}
