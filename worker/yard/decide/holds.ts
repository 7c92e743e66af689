/** Held runs of a board: where they overlap, what is free between them, and a conflict in words with its way out. */
import type { Board } from '../../contract/board.ts';
import type { Conflict } from '../../contract/problem.ts';
import type { Reservation } from '../../contract/session.ts';
import { type YardReader, yardSettings } from '../state.ts';
import { runWords, tape } from '../words.ts';

export interface Run {
  readonly fromNm: number;
  readonly toNm: number;
}

/** Runs that only touch do not overlap. */
export function runsOverlap(a: Run, b: Run): boolean {
  return a.fromNm < b.toNm && b.fromNm < a.toNm;
}

/** The longest run that nobody holds; null where all of the board is held. */
export function longestFreeRun(lengthNm: number, held: readonly Run[]): Run | null {
  let longest: Run | null = null;
  let fromNm = 0;
  const offer = (toNm: number) => {
    if (toNm > fromNm && (!longest || toNm - fromNm > longest.toNm - longest.fromNm)) longest = { fromNm, toNm };
  };
  for (const run of [...held].sort((a, b) => a.fromNm - b.fromNm)) {
    offer(run.fromNm);
    fromNm = Math.max(fromNm, run.toNm);
  }
  offer(lengthNm);
  return longest;
}

export function jobName(state: YardReader, jobId: string): string {
  return state.get('job', jobId)?.name ?? jobId;
}

/** A board that another reservation stands on. The way out is worked out when none is given. */
export function heldConflict(state: YardReader, board: Board, held: Reservation, wayOut?: string): Conflict {
  const settings = yardSettings(state);
  const name = jobName(state, held.jobId);
  const free = longestFreeRun(board.lengthNm, state.reservationsOnBoard(board.id));
  const freeWords = free
    ? `, or hold only a free run: ${runWords(free, board.lengthNm, settings)} (${tape(free.toNm - free.fromNm, settings)} long)`
    : '';
  return {
    boardId: board.id,
    tag: board.tag,
    jobId: held.jobId,
    jobName: name,
    fromNm: held.fromNm,
    toNm: held.toNm,
    wayOut: wayOut ?? `take another board, ${free ? '' : 'or '}release it from ${name}${freeWords}`,
  };
}

/** A board that stands in the way by itself: changed, gone, or not in stock. */
export function boardConflict(board: { readonly id: string; readonly tag: string }, wayOut: string): Conflict {
  return { boardId: board.id, tag: board.tag, jobId: null, jobName: null, fromNm: null, toNm: null, wayOut };
}

/** "Q-7 is held for Hall table (all of it)". */
export function heldWords(state: YardReader, board: Board, held: Reservation): string {
  const run = runWords(held, board.lengthNm, yardSettings(state));
  return `${board.tag} is held for ${jobName(state, held.jobId)} (${run})`;
}

/** A session at the saw that still works on this board. */
export function openSessionOn(state: YardReader, boardId: string): boolean {
  return state
    .reservationsOnBoard(boardId)
    .some(
      (held) =>
        held.planId !== null &&
        state
          .sessionsOfPlan(held.planId)
          .some(
            (session) =>
              session.state === 'open' && session.boardIds.includes(boardId) && !session.doneBoardIds.includes(boardId),
          ),
    );
}
