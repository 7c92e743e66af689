/** Holding boards, or runs of their length, for a job: all of them or none. Two live reservations never overlap. */
import type { Board } from '../../contract/board.ts';
import type { Change } from '../../contract/movement.ts';
import type { Conflict, Fault } from '../../contract/problem.ts';
import type { Reservation } from '../../contract/session.ts';
import { changed, created, removed } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type CommandOf, type Decision, moved, refused } from '../decision.ts';
import { liveBoardByTag, type YardReader, yardSettings } from '../state.ts';
import { counted, listed, tape } from '../words.ts';
import { boardConflict, heldConflict, heldWords, type Run } from './holds.ts';
import { openJobOf } from './jobs.ts';

type Asked = CommandOf<'reserve'>['boards'][number];

interface Wanted extends Run {
  readonly board: Board;
}

/** Everything that stands in the way, so that the user hears of all of it at once. */
interface Hindrances {
  readonly missing: Fault[];
  readonly notInStock: Conflict[];
  readonly outside: Fault[];
  readonly twice: Fault[];
  readonly held: Conflict[];
  readonly words: string[];
}

function boardAsked(state: YardReader, asked: Asked): Board | null {
  if (asked.boardId === undefined) {
    if (asked.tag === undefined) return null;
    return liveBoardByTag(state, asked.tag) ?? state.boardsByTag(asked.tag)[0] ?? null;
  }
  return state.get('board', asked.boardId);
}

function wantedRun(state: YardReader, asked: Asked, at: number, hindrances: Hindrances): Wanted | null {
  const board = boardAsked(state, asked);
  const pointer = `/boards/${at}`;
  if (!board) {
    const read = asked.tag ?? asked.boardId ?? '';
    const help = read ? 'no board of this yard bears this tag or id' : 'name the board by its tag or its id';
    hindrances.missing.push({ pointer, row: at, field: 'tag', read, help });
    return null;
  }
  if (board.state !== 'in-stock') {
    hindrances.notInStock.push(
      boardConflict(board, `it ${board.state === 'cut-up' ? 'was cut up' : 'was written off'}; take another`),
    );
    return null;
  }
  const fromNm = asked.fromNm ?? 0;
  const toNm = asked.toNm ?? board.lengthNm;
  if (fromNm >= toNm || toNm > board.lengthNm) {
    const settings = yardSettings(state);
    hindrances.outside.push({
      pointer,
      row: at,
      field: 'toNm',
      read: `${tape(fromNm, settings)} to ${tape(toNm, settings)}`,
      help: `${board.tag} runs from 0 to ${tape(board.lengthNm, settings)}; a run begins before it ends, within that`,
    });
    return null;
  }
  return { board, fromNm, toNm };
}

/** Own holds that the new run meets become one with it; the first keeps its id. */
function joined(
  wanted: Wanted,
  own: readonly Reservation[],
  occasion: Occasion,
  jobId: string,
): { readonly changes: readonly Change[]; readonly id: string } {
  const [first, ...others] = own;
  const { board, fromNm, toNm } = wanted;
  if (!first) {
    const id = occasion.newId('rs');
    const held = { id, jobId, boardId: board.id, fromNm, toNm, planId: null, madeAtMs: occasion.atMs };
    return { id, changes: [created('reservation', id, held)] };
  }
  const union = {
    fromNm: Math.min(fromNm, ...own.map((each) => each.fromNm)),
    toNm: Math.max(toNm, ...own.map((each) => each.toNm)),
  };
  const gone = others.map((each) => removed('reservation', each.id, each));
  return { id: first.id, changes: [...gone, ...changed('reservation', first.id, first, union)] };
}

export function reserve(state: YardReader, command: CommandOf<'reserve'>, occasion: Occasion): Decision {
  const open = openJobOf(state, command.jobId);
  if ('ok' in open) return open;
  const { job } = open;
  const hindrances: Hindrances = { missing: [], notInStock: [], outside: [], twice: [], held: [], words: [] };
  const accepted: Wanted[] = [];
  const changes: Change[] = [];
  const ids: string[] = [];
  for (const [at, asked] of command.boards.entries()) {
    const wanted = wantedRun(state, asked, at, hindrances);
    if (!wanted) continue;
    const { board } = wanted;
    if (accepted.some((other) => other.board.id === board.id)) {
      const help = 'the same board stands twice in this list; hold it in one go, as one run';
      hindrances.twice.push({ pointer: `/boards/${at}`, row: at, field: 'tag', read: board.tag, help });
      continue;
    }
    accepted.push(wanted);
    const inTheWay = state.reservationsAcross(board.id, wanted.fromNm, wanted.toNm);
    const foreign = inTheWay.filter((held) => held.jobId !== job.id || held.planId !== null);
    for (const held of foreign) {
      const own = held.jobId === job.id;
      hindrances.held.push(heldConflict(state, board, held, own ? 'a plan of this job holds it already' : undefined));
      hindrances.words.push(heldWords(state, board, held));
    }
    if (foreign.length > 0) continue;
    const hold = joined(wanted, inTheWay, occasion, job.id);
    changes.push(...hold.changes);
    ids.push(hold.id);
  }
  const faults = [...hindrances.missing, ...hindrances.outside, ...hindrances.twice];
  const conflicts = [...hindrances.notInStock, ...hindrances.held];
  if (hindrances.missing.length > 0)
    return refused('not-found', 'Not every board is in this yard; none was held.', { faults, conflicts });
  if (hindrances.notInStock.length > 0) {
    const tags = listed(hindrances.notInStock.map((conflict) => conflict.tag));
    return refused('board-not-in-stock', `No longer in stock: ${tags}. None was held.`, { faults, conflicts });
  }
  if (hindrances.outside.length > 0)
    return refused('run-outside-board', 'A run lies outside its board; none was held.', { faults, conflicts });
  if (hindrances.twice.length > 0)
    return refused('invalid-input', 'A board is named twice; none was held.', { faults, conflicts });
  if (hindrances.held.length > 0)
    return refused('board-held', `${listed(hindrances.words)}. None was held.`, { conflicts });
  const tags = listed(accepted.map((wanted) => wanted.board.tag));
  const notes = changes.length === 0 ? [`${job.name} holds this already.`] : [];
  const summary = `Held ${counted(accepted.length, 'board')} for ${job.name}: ${tags}`;
  return moved({ kind: 'reserved', jobId: job.id, summary, changes }, { jobId: job.id, reservationIds: ids, notes });
}
