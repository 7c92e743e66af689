/**
 * What a write answers beside its movement: the thing as it stood in the same transaction. It is kept with the receipt, so
 * that the same write sent again gets the same answer whatever happened since, and the caller need not ask once more.
 */

import type { ReservationView } from '../contract/session.ts';
import { askBoard } from './ask/boards.ts';
import { askJob, askSession } from './ask/jobs.ts';
import { askMovement } from './ask/journal.ts';
import type { Command, Shown, Told } from './command.ts';
import type { Sql } from './sql.ts';
import { type YardReader, yardRecord } from './state.ts';
import { tagSort } from './tag.ts';

/** A job of thousands of pieces is not kept with each of its receipts: its second answer shows it as it is then. */
const JOB_CHARS_MAX = 200_000;

const PLAN_HEAD = 'SELECT id, state, version FROM plan WHERE id = ?';

function shownJob(sql: Sql, jobId: string | undefined): Shown {
  const job = jobId === undefined ? null : askJob(sql, { jobId });
  return job && JSON.stringify(job).length <= JOB_CHARS_MAX ? { job } : {};
}

function shownPlan(sql: Sql, planId: string | undefined): Shown {
  const plan = planId === undefined ? null : sql.row<NonNullable<Shown['plan']>>(PLAN_HEAD, planId);
  return plan ? { plan: { id: plan.id, state: plan.state, version: plan.version } } : {};
}

function shownSession(sql: Sql, sessionId: string | undefined): Shown {
  const session = sessionId === undefined ? null : askSession(sql, { sessionId });
  return session ? { session } : {};
}

/** By tag and place along the board, as a list of them is. All of it was read or written just before. */
function shownReservations(state: YardReader, ids: readonly string[]): readonly ReservationView[] {
  const found = ids.flatMap((id): ReservationView[] => {
    const held = state.get('reservation', id);
    const board = held && state.get('board', held.boardId);
    const job = held && state.get('job', held.jobId);
    if (!board || !job) return [];
    const whole = held.fromNm === 0 && held.toNm === board.lengthNm;
    return [{ ...held, tag: board.tag, jobName: job.name, whole }];
  });
  return found
    .map((view) => ({ place: tagSort(view.tag), view }))
    .sort((a, b) => (a.place === b.place ? a.view.fromNm - b.view.fromNm : a.place < b.place ? -1 : 1))
    .map(({ view }) => view);
}

/** Reads only; called when the changes of the command have been folded in. */
export function shownAfter(sql: Sql, state: YardReader, command: Command, told: Told): Shown {
  switch (command.do) {
    case 'correct-board':
    case 'read-moisture':
    case 'write-off-board': {
      const board = askBoard(sql, { boardId: command.boardId });
      return board ? { board } : {};
    }
    case 'open-job':
    case 'change-job':
    case 'set-cut-list':
    case 'move-pieces':
      return shownJob(sql, command.do === 'open-job' ? told.jobId : command.jobId);
    case 'keep-plan':
    case 'drop-plan':
      return shownPlan(sql, told.planId);
    case 'reserve-plan':
    case 'reserve':
      return { ...shownPlan(sql, told.planId), reservations: shownReservations(state, told.reservationIds ?? []) };
    case 'open-session':
      return { ...shownPlan(sql, told.planId), ...shownSession(sql, told.sessionId) };
    case 'reconcile':
      return shownSession(sql, command.sessionId);
    case 'undo': {
      const movement = askMovement(sql, { seq: told.seq });
      return movement ? { movement } : {};
    }
    case 'change-settings':
      return { settings: { version: yardRecord(state).version } };
    case 'take-in-boards':
    case 'release':
      return {};
  }
}
