/** What can be worked on now in a job, what waits and until when, and what is wanted again. Pure, from the pieces' states. */
import type { JobWithParts, PartWithPieces, Piece } from '../../../worker/contract/job.ts';

/** judge: rested, so pass or fail it. glue-up: every layer has passed. mill: passed, or cured. */
export type Step = 'judge' | 'glue-up' | 'mill';

export interface Work {
  readonly part: PartWithPieces;
  readonly step: Step;
  readonly pieces: readonly Piece[];
}

/** Pieces of one part that wait for the same day, or the same hour of the glue. */
export interface Wait {
  readonly part: PartWithPieces;
  readonly pieces: readonly Piece[];
  readonly why: 'resting' | 'curing';
}

export interface WorkOfJob {
  readonly now: readonly Work[];
  readonly waiting: readonly Wait[];
  /** Parts of which a piece failed and another is wanted in its place. */
  readonly again: readonly { readonly part: PartWithPieces; readonly pieces: readonly Piece[] }[];
}

export function workOf(job: JobWithParts, today: string, nowMs: number): WorkOfJob {
  const now: Work[] = [];
  const waiting = new Map<string, { part: PartWithPieces; pieces: Piece[]; why: Wait['why'] }>();
  const wait = (part: PartWithPieces, piece: Piece, why: Wait['why']) => {
    const key = `${part.key} ${why} ${why === 'resting' ? piece.restingUntil : piece.curingUntilMs}`;
    const group = waiting.get(key);
    if (group === undefined) waiting.set(key, { part, pieces: [piece], why });
    else group.pieces.push(piece);
  };
  const again: { part: PartWithPieces; pieces: Piece[] }[] = [];
  for (const part of job.parts) {
    const add = (step: Step, pieces: Piece[]) => {
      if (pieces.length > 0) now.push({ part, step, pieces });
    };
    const live = latest(part.pieces);
    const roughed = live.filter((piece) => piece.state === 'roughed');
    const rested = (piece: Piece) => piece.restingUntil === null || piece.restingUntil <= today;
    add('judge', roughed.filter(rested));
    const whole = live.filter((piece) => piece.element === null);
    add(
      'glue-up',
      whole.filter((piece) => readyToGlue(part, piece, live)),
    );
    const cured = (piece: Piece) => piece.curingUntilMs === null || piece.curingUntilMs <= nowMs;
    add(
      'mill',
      whole.filter((piece) => piece.state === 'passed' || (piece.state === 'glued-up' && cured(piece))),
    );
    for (const piece of roughed) if (!rested(piece)) wait(part, piece, 'resting');
    for (const piece of whole) {
      if (piece.state === 'glued-up' && !cured(piece)) wait(part, piece, 'curing');
    }
    const wantedAgain = live.filter((piece) => piece.attempt > 1 && piece.state === 'wanted');
    if (wantedAgain.length > 0) again.push({ part, pieces: wantedAgain });
  }
  return { now, waiting: [...waiting.values()].sort(soonestFirst), again };
}

function soonestFirst(a: Wait, b: Wait): number {
  const [first, second] = [a.pieces[0], b.pieces[0]];
  return first === undefined || second === undefined ? 0 : untilMs(first) - untilMs(second);
}

/** When the wait of a piece is over; 0 where it waits for nothing. */
export function untilMs(piece: Piece): number {
  if (piece.curingUntilMs !== null) return piece.curingUntilMs;
  return piece.restingUntil === null ? 0 : Date.parse(`${piece.restingUntil}T00:00:00`);
}

/** Of each copy, and each of its layers, the attempt that counts now. */
function latest(pieces: readonly Piece[]): Piece[] {
  const byPlace = new Map<string, Piece>();
  for (const piece of pieces) {
    const place = `${piece.no} ${piece.element ?? ''}`;
    const before = byPlace.get(place);
    if (before === undefined || piece.attempt > before.attempt) byPlace.set(place, piece);
  }
  return [...byPlace.values()].filter((piece) => piece.state !== 'failed');
}

function readyToGlue(part: PartWithPieces, piece: Piece, live: readonly Piece[]): boolean {
  if (part.lamination === null || (piece.state !== 'wanted' && piece.state !== 'planned')) return false;
  const layerCount = part.lamination.kind === 'plies' ? part.lamination.plies.length : part.lamination.count;
  const passed = live.filter((one) => one.no === piece.no && one.element !== null && one.state === 'passed');
  return passed.length >= layerCount;
}
