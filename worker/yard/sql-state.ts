/**
 * The yard's state in SQL. Nothing is kept in memory between calls: what a rule reads is what the transaction sees. Each
 * thing is one row with its JSON body and the few columns that are looked for; a plan's body is long and never changes,
 * so it lies apart from its state.
 */
import type { Board } from '../contract/board.ts';
import type { Job } from '../contract/job.ts';
import type { EntityKind, Movement } from '../contract/movement.ts';
import type { Plan, PlanBody } from '../contract/plan.ts';
import type { Reservation, Session } from '../contract/session.ts';
import { latestReading } from '../wood/reading.ts';
import { inTodaysForm } from './earlier-forms.ts';
import { readLongText, writeLongText } from './long-text.ts';
import type { Sql } from './sql.ts';
import { appendMovement, readMovement } from './sql-journal.ts';
import type { Entities, PlanHead, StoredPart, YardRecord, YardState } from './state.ts';
import { tagFold, tagSort } from './tag.ts';

type BodyRow = { body: string };
type PlanRow = { id: string; state: Plan['state']; made_at_ms: number; version: number };
export type ReservationRow = {
  id: string;
  job_id: string;
  board_id: string;
  from_nm: number;
  to_nm: number;
  plan_id: string | null;
  made_at_ms: number;
  version: number;
};

const LAST_SEQ = 'SELECT max(seq) AS seq FROM journal';

const READ_BODY = {
  settings: 'SELECT body FROM yard WHERE id = ?',
  board: 'SELECT body FROM board WHERE id = ?',
  job: 'SELECT body FROM job WHERE id = ?',
  part: 'SELECT body FROM part WHERE id = ?',
  session: 'SELECT body FROM session WHERE id = ?',
} as const;
const READ_PLAN = 'SELECT id, state, made_at_ms, version FROM plan WHERE id = ?';
const READ_RESERVATION = 'SELECT * FROM reservation WHERE id = ?';

const BOARDS_BY_TAG = 'SELECT body FROM board WHERE tag_fold = ? ORDER BY id';
const PARTS_OF_JOB = 'SELECT body FROM part WHERE job_id = ? ORDER BY place, id';
const PLANS_OF_JOB = 'SELECT id, state, job_revision FROM plan WHERE job_id = ? ORDER BY made_seq';
const RESERVATIONS_ON_BOARD = 'SELECT * FROM reservation WHERE board_id = ? ORDER BY from_nm';
const RESERVATIONS_OF_JOB = 'SELECT * FROM reservation WHERE job_id = ? ORDER BY board_id, from_nm';
const RESERVATIONS_OF_PLAN = 'SELECT * FROM reservation WHERE plan_id = ? ORDER BY board_id, from_nm';
const SESSIONS_OF_PLAN = 'SELECT body FROM session WHERE plan_id = ? ORDER BY made_seq';
const SESSIONS_OF_JOB = 'SELECT body FROM session WHERE job_id = ? ORDER BY made_seq';

const TOUCH_BEFORE = 'SELECT max(seq) AS seq FROM journal_touch WHERE entity = ? AND id = ? AND seq < ?';
const UNDO_OF = 'SELECT max(seq) AS seq FROM journal WHERE undoes = ?';

const PUT_YARD = `INSERT INTO yard (id, body, version) VALUES (?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET body = excluded.body, version = excluded.version`;
const PUT_BOARD = `INSERT INTO board
  (id, tag_fold, tag_sort, species, length_nm, thickness_nm, moisture_percent, state, is_offcut, looked_for, version, body)
  VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET tag_fold = excluded.tag_fold, tag_sort = excluded.tag_sort, species = excluded.species,
    length_nm = excluded.length_nm, thickness_nm = excluded.thickness_nm, moisture_percent = excluded.moisture_percent,
    state = excluded.state, is_offcut = excluded.is_offcut, looked_for = excluded.looked_for,
    version = excluded.version, body = excluded.body`;
const PUT_JOB = `INSERT INTO job (id, made_seq, state, version, body) VALUES (?, ?, ?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version, body = excluded.body`;
const PUT_PART = `INSERT INTO part (id, job_id, place, version, body) VALUES (?, ?, ?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET place = excluded.place, version = excluded.version, body = excluded.body`;
const PUT_PLAN = `INSERT INTO plan (id, made_seq, job_id, state, job_revision, made_at_ms, version) VALUES (?, ?, ?, ?, ?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version`;
const PUT_RESERVATION = `INSERT INTO reservation (id, job_id, board_id, from_nm, to_nm, plan_id, made_at_ms, version)
  VALUES (?, ?, ?, ?, ?, ?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET board_id = excluded.board_id, from_nm = excluded.from_nm, to_nm = excluded.to_nm,
    plan_id = excluded.plan_id, version = excluded.version`;
const PUT_SESSION = `INSERT INTO session (id, made_seq, job_id, plan_id, state, version, body) VALUES (?, ?, ?, ?, ?, ?, ?)
  ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version, body = excluded.body`;

const REMOVE = {
  settings: 'DELETE FROM yard WHERE id = ?',
  board: 'DELETE FROM board WHERE id = ?',
  job: 'DELETE FROM job WHERE id = ?',
  part: 'DELETE FROM part WHERE id = ?',
  plan: 'DELETE FROM plan WHERE id = ?',
  reservation: 'DELETE FROM reservation WHERE id = ?',
  session: 'DELETE FROM session WHERE id = ?',
} as const;
const REMOVE_PLAN_TEXT = 'DELETE FROM plan_text WHERE id = ?';

export function reservationOf(row: ReservationRow): Reservation {
  return {
    id: row.id,
    jobId: row.job_id,
    boardId: row.board_id,
    fromNm: row.from_nm,
    toNm: row.to_nm,
    planId: row.plan_id,
    madeAtMs: row.made_at_ms,
    version: row.version,
  };
}

export class SqlState implements YardState {
  readonly #sql: Sql;
  /** Read once: an instance lives no longer than one transaction. */
  #seq: number | null = null;
  readonly #put: { readonly [K in EntityKind]: (id: string, entity: Entities[K]) => void };
  readonly #get: { readonly [K in EntityKind]: (id: string) => Entities[K] | null };

  constructor(sql: Sql) {
    this.#sql = sql;
    this.#get = {
      settings: (id) => this.#body<YardRecord>(READ_BODY.settings, id),
      board: (id) => this.#body<Board>(READ_BODY.board, id),
      job: (id) => this.#body<Job>(READ_BODY.job, id),
      part: (id) => this.#body<StoredPart>(READ_BODY.part, id),
      session: (id) => this.#body<Session>(READ_BODY.session, id),
      plan: (id) => {
        const row = sql.row<PlanRow>(READ_PLAN, id);
        return row && this.#plan(row);
      },
      reservation: (id) => {
        const row = sql.row<ReservationRow>(READ_RESERVATION, id);
        return row && reservationOf(row);
      },
    };
    this.#put = {
      settings: (id, yard) => sql.run(PUT_YARD, id, JSON.stringify(yard), yard.version),
      board: (id, board) => this.#putBoard(id, board),
      job: (id, job) => sql.run(PUT_JOB, id, job.version, job.state, job.version, JSON.stringify(job)),
      part: (id, part) => sql.run(PUT_PART, id, part.jobId, part.place, part.version, JSON.stringify(part)),
      plan: (id, plan) => this.#putPlan(id, plan),
      reservation: (id, held) =>
        sql.run(
          PUT_RESERVATION,
          id,
          held.jobId,
          held.boardId,
          held.fromNm,
          held.toNm,
          held.planId,
          held.madeAtMs,
          held.version,
        ),
      session: (id, session) =>
        sql.run(
          PUT_SESSION,
          id,
          session.version,
          session.jobId,
          session.planId,
          session.state,
          session.version,
          JSON.stringify(session),
        ),
    };
  }

  #body<T>(statement: string, id: string): T | null {
    const row = this.#sql.row<BodyRow>(statement, id);
    return row && (JSON.parse(row.body) as T);
  }

  #bodies<T>(statement: string, value: string): readonly T[] {
    return this.#sql.rows<BodyRow>(statement, value).map((row) => JSON.parse(row.body) as T);
  }

  #plan(row: PlanRow): Plan {
    const text = readLongText(this.#sql, 'plan_text', row.id);
    if (text === null) throw new Error(`plan ${row.id} has lost its layouts`);
    const body = JSON.parse(text) as PlanBody;
    const plan = { ...body, id: row.id, state: row.state, madeAtMs: row.made_at_ms, version: row.version };
    return inTodaysForm('plan', plan);
  }

  #putPlan(id: string, plan: Plan): void {
    const isNew = !this.#sql.row(READ_PLAN, id);
    this.#sql.run(PUT_PLAN, id, plan.version, plan.jobId, plan.state, plan.jobRevision, plan.madeAtMs, plan.version);
    if (!isNew) return;
    const { id: _id, state: _state, madeAtMs: _at, version: _version, ...body } = plan;
    writeLongText(this.#sql, 'plan_text', id, JSON.stringify(body));
  }

  #putBoard(id: string, board: Board): void {
    this.#sql.run(
      PUT_BOARD,
      id,
      tagFold(board.tag),
      tagSort(board.tag),
      board.species,
      board.lengthNm,
      board.thicknessNm,
      latestReading(board.readings)?.moisturePercent ?? null,
      board.state,
      board.origin.kind === 'offcut' ? 1 : 0,
      `${tagFold(board.tag)}\n${board.place.toLowerCase()}\n${board.note.toLowerCase()}`,
      board.version,
      JSON.stringify(board),
    );
  }

  #reservations(statement: string, id: string): readonly Reservation[] {
    return this.#sql.rows<ReservationRow>(statement, id).map(reservationOf);
  }

  seq(): number {
    this.#seq ??= this.#sql.row<{ seq: number | null }>(LAST_SEQ)?.seq ?? 0;
    return this.#seq;
  }

  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null {
    return this.#get[kind](id);
  }

  boardsByTag(tag: string): readonly Board[] {
    return this.#bodies<Board>(BOARDS_BY_TAG, tagFold(tag));
  }

  partsOfJob(jobId: string): readonly StoredPart[] {
    return this.#bodies<StoredPart>(PARTS_OF_JOB, jobId);
  }

  plansOfJob(jobId: string): readonly PlanHead[] {
    const rows = this.#sql.rows<{ id: string; state: Plan['state']; job_revision: number }>(PLANS_OF_JOB, jobId);
    return rows.map((row) => ({ id: row.id, jobId, jobRevision: row.job_revision, state: row.state }));
  }

  reservationsOnBoard(boardId: string): readonly Reservation[] {
    return this.#reservations(RESERVATIONS_ON_BOARD, boardId);
  }

  reservationsOfJob(jobId: string): readonly Reservation[] {
    return this.#reservations(RESERVATIONS_OF_JOB, jobId);
  }

  reservationsOfPlan(planId: string): readonly Reservation[] {
    return this.#reservations(RESERVATIONS_OF_PLAN, planId);
  }

  sessionsOfPlan(planId: string): readonly Session[] {
    return this.#bodies<Session>(SESSIONS_OF_PLAN, planId);
  }

  sessionsOfJob(jobId: string): readonly Session[] {
    return this.#bodies<Session>(SESSIONS_OF_JOB, jobId);
  }

  movement(seq: number): Movement | null {
    return readMovement(this.#sql, seq);
  }

  touchBefore(kind: EntityKind, id: string, seq: number): number | null {
    return this.#sql.row<{ seq: number | null }>(TOUCH_BEFORE, kind, id, seq)?.seq ?? null;
  }

  undoOf(seq: number): number | null {
    return this.#sql.row<{ seq: number | null }>(UNDO_OF, seq)?.seq ?? null;
  }

  put<K extends EntityKind>(kind: K, id: string, entity: Entities[K]): void {
    this.#put[kind](id, entity);
  }

  remove(kind: EntityKind, id: string): void {
    this.#sql.run(REMOVE[kind], id);
    if (kind === 'plan') this.#sql.run(REMOVE_PLAN_TEXT, id);
  }

  append(movement: Movement): void {
    appendMovement(this.#sql, this, movement);
    this.#seq = movement.seq;
  }
}
