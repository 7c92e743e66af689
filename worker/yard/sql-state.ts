/**
 * The yard's state in SQL. No thing is kept in memory between calls: what a rule reads is what the transaction sees. Each
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
import { Kept } from './kept.ts';
import { KeptThings } from './kept-things.ts';
import { readLongText, writeLongText } from './long-text.ts';
import { type Sql, soleRow } from './sql.ts';
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

/** 0 of an empty journal. */
export const LAST_SEQ = 'SELECT coalesce(max(seq), 0) AS seq FROM journal';

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
/** Holds of a board never overlap, so of those that begin at the run's beginning or before it only the last can have some of it. */
const RESERVATIONS_ACROSS = `SELECT * FROM reservation WHERE board_id = ?1 AND from_nm < ?3 AND to_nm > ?2
  AND from_nm >= coalesce((SELECT max(from_nm) FROM reservation WHERE board_id = ?1 AND from_nm <= ?2), 0)
  ORDER BY from_nm`;
const RESERVATIONS_OF_JOB = 'SELECT * FROM reservation WHERE job_id = ? ORDER BY board_id, from_nm';
const RESERVATIONS_OF_PLAN = 'SELECT * FROM reservation WHERE plan_id = ? ORDER BY board_id, from_nm';
const SESSIONS_OF_PLAN = 'SELECT body FROM session WHERE plan_id = ? ORDER BY made_seq';
const SESSIONS_OF_JOB = 'SELECT body FROM session WHERE job_id = ? ORDER BY made_seq';

const TOUCH_BEFORE = 'SELECT max(seq) AS seq FROM journal_touch WHERE entity = ? AND id = ? AND seq < ?';
const UNDO_OF = 'SELECT max(seq) AS seq FROM journal WHERE undoes = ?';

const ADD_YARD = `INSERT INTO yard (id, body, version) VALUES (?, ?, ?)`;
const PUT_YARD = `${ADD_YARD}
  ON CONFLICT (id) DO UPDATE SET body = excluded.body, version = excluded.version`;
const ADD_BOARD = `INSERT INTO board
  (id, tag_fold, tag_sort, species, length_nm, thickness_nm, moisture_percent, state, is_offcut, looked_for, version, body)
  VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`;
const PUT_BOARD = `${ADD_BOARD}
  ON CONFLICT (id) DO UPDATE SET tag_fold = excluded.tag_fold, tag_sort = excluded.tag_sort, species = excluded.species,
    length_nm = excluded.length_nm, thickness_nm = excluded.thickness_nm, moisture_percent = excluded.moisture_percent,
    state = excluded.state, is_offcut = excluded.is_offcut, looked_for = excluded.looked_for,
    version = excluded.version, body = excluded.body`;
const ADD_JOB = `INSERT INTO job (id, made_seq, state, version, body) VALUES (?, ?, ?, ?, ?)`;
const PUT_JOB = `${ADD_JOB}
  ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version, body = excluded.body`;
const ADD_PART = `INSERT INTO part (id, job_id, place, version, body) VALUES (?, ?, ?, ?, ?)`;
const PUT_PART = `${ADD_PART}
  ON CONFLICT (id) DO UPDATE SET place = excluded.place, version = excluded.version, body = excluded.body`;
const ADD_PLAN = `INSERT INTO plan (id, made_seq, job_id, state, job_revision, made_at_ms, version) VALUES (?, ?, ?, ?, ?, ?, ?)`;
const PUT_PLAN = `${ADD_PLAN}
  ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version`;
const ADD_RESERVATION = `INSERT INTO reservation (id, job_id, board_id, from_nm, to_nm, plan_id, made_at_ms, version)
  VALUES (?, ?, ?, ?, ?, ?, ?, ?)`;
const PUT_RESERVATION = `${ADD_RESERVATION}
  ON CONFLICT (id) DO UPDATE SET board_id = excluded.board_id, from_nm = excluded.from_nm, to_nm = excluded.to_nm,
    plan_id = excluded.plan_id, version = excluded.version`;
const ADD_SESSION = `INSERT INTO session (id, made_seq, job_id, plan_id, state, version, body) VALUES (?, ?, ?, ?, ?, ?, ?)`;
const PUT_SESSION = `${ADD_SESSION}
  ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version, body = excluded.body`;

const WRITE = {
  add: {
    settings: ADD_YARD,
    board: ADD_BOARD,
    job: ADD_JOB,
    part: ADD_PART,
    plan: ADD_PLAN,
    reservation: ADD_RESERVATION,
    session: ADD_SESSION,
  },
  put: {
    settings: PUT_YARD,
    board: PUT_BOARD,
    job: PUT_JOB,
    part: PUT_PART,
    plan: PUT_PLAN,
    reservation: PUT_RESERVATION,
    session: PUT_SESSION,
  },
} as const;

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

type How = 'add' | 'put';

/** Records of yards by their text, so that the same text is the same record and its settings are read once. */
const records = new Kept<YardRecord>(32);

function recordIn(text: string): YardRecord {
  const record = records.get(text) ?? (JSON.parse(text) as YardRecord);
  records.keep(text, record);
  return record;
}

type Readers = { readonly [K in EntityKind]: (sql: Sql, id: string) => Entities[K] | null };
type Writers = { readonly [K in EntityKind]: (sql: Sql, how: How, id: string, entity: Entities[K]) => void };

function bodyIn<T>(sql: Sql, statement: string, id: string): T | null {
  const row = sql.row<BodyRow>(statement, id);
  return row && (JSON.parse(row.body) as T);
}

function planIn(sql: Sql, id: string): Plan | null {
  const row = sql.row<PlanRow>(READ_PLAN, id);
  if (!row) return null;
  const text = readLongText(sql, 'plan_text', row.id);
  if (text === null) throw new Error(`plan ${row.id} has lost its layouts`);
  const body = JSON.parse(text) as PlanBody;
  const plan = { ...body, id: row.id, state: row.state, madeAtMs: row.made_at_ms, version: row.version };
  return inTodaysForm('plan', plan);
}

const readers: Readers = {
  settings: (sql, id) => {
    const row = sql.row<BodyRow>(READ_BODY.settings, id);
    return row && recordIn(row.body);
  },
  board: (sql, id) => bodyIn<Board>(sql, READ_BODY.board, id),
  job: (sql, id) => bodyIn<Job>(sql, READ_BODY.job, id),
  part: (sql, id) => bodyIn<StoredPart>(sql, READ_BODY.part, id),
  session: (sql, id) => bodyIn<Session>(sql, READ_BODY.session, id),
  plan: planIn,
  reservation: (sql, id) => {
    const row = sql.row<ReservationRow>(READ_RESERVATION, id);
    return row && reservationOf(row);
  },
};

/** Its layouts never change, so they are written with a new plan only. */
function writePlan(sql: Sql, how: How, id: string, plan: Plan): void {
  const { jobId, state, jobRevision, madeAtMs, version } = plan;
  sql.run(WRITE[how].plan, id, version, jobId, state, jobRevision, madeAtMs, version);
  if (how === 'put') return;
  const { id: _id, state: _state, madeAtMs: _at, version: _version, ...body } = plan;
  writeLongText(sql, 'plan_text', id, JSON.stringify(body));
}

function writeBoard(sql: Sql, how: How, id: string, board: Board): void {
  sql.run(
    WRITE[how].board,
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

const writers: Writers = {
  settings: (sql, how, id, yard) => sql.run(WRITE[how].settings, id, JSON.stringify(yard), yard.version),
  board: writeBoard,
  job: (sql, how, id, job) => sql.run(WRITE[how].job, id, job.version, job.state, job.version, JSON.stringify(job)),
  part: (sql, how, id, part) =>
    sql.run(WRITE[how].part, id, part.jobId, part.place, part.version, JSON.stringify(part)),
  plan: writePlan,
  reservation: (sql, how, id, held) => {
    const { jobId, boardId, fromNm, toNm, planId, madeAtMs, version } = held;
    sql.run(WRITE[how].reservation, id, jobId, boardId, fromNm, toNm, planId, madeAtMs, version);
  },
  session: (sql, how, id, session) => {
    const { jobId, planId, state, version } = session;
    sql.run(WRITE[how].session, id, version, jobId, planId, state, version, JSON.stringify(session));
  },
};

/** Lives no longer than one transaction, so what it has read or written once need not be read again. */
export class SqlState implements YardState {
  readonly #sql: Sql;
  readonly #kept: KeptThings;
  #seq: number | null;
  readonly #known: { readonly [K in EntityKind]: Map<string, Entities[K] | null> } = {
    settings: new Map(),
    board: new Map(),
    job: new Map(),
    part: new Map(),
    plan: new Map(),
    reservation: new Map(),
    session: new Map(),
  };

  /** seq: of the last movement, where the caller knows it. kept: what calls before this one read or wrote. */
  constructor(sql: Sql, seq: number | null = null, kept = new KeptThings()) {
    this.#sql = sql;
    this.#seq = seq;
    this.#kept = kept;
  }

  #bodies<T>(statement: string, value: string): readonly T[] {
    return this.#sql.rows<BodyRow>(statement, value).map((row) => JSON.parse(row.body) as T);
  }

  #reservations(statement: string, id: string): readonly Reservation[] {
    return this.#sql.rows<ReservationRow>(statement, id).map((row) => this.#reservation(row));
  }

  #reservation(row: ReservationRow): Reservation {
    const reservation = reservationOf(row);
    this.#known.reservation.set(reservation.id, reservation);
    return reservation;
  }

  seq(): number {
    this.#seq ??= soleRow<{ seq: number }>(this.#sql, LAST_SEQ).seq;
    return this.#seq;
  }

  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null {
    const known = this.#known[kind].get(id);
    if (known !== undefined) return known;
    const read = this.#kept.get(kind, id) ?? readers[kind](this.#sql, id);
    this.#know(kind, id, read);
    return read;
  }

  #know<K extends EntityKind>(kind: K, id: string, thing: Entities[K] | null): void {
    this.#known[kind].set(id, thing);
    this.#kept.keep(kind, id, thing);
  }

  boardsByTag(tag: string): readonly Board[] {
    const fold = tagFold(tag);
    const kept = this.#kept.boardsByFold(fold);
    if (kept) return kept;
    const boards = this.#bodies<Board>(BOARDS_BY_TAG, fold);
    for (const board of boards) this.#know('board', board.id, board);
    this.#kept.keepFold(fold, boards);
    return boards;
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

  reservationsAcross(boardId: string, fromNm: number, toNm: number): readonly Reservation[] {
    const rows = this.#sql.rows<ReservationRow>(RESERVATIONS_ACROSS, boardId, fromNm, toNm);
    return rows.map((row) => this.#reservation(row));
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
    return soleRow<{ seq: number | null }>(this.#sql, TOUCH_BEFORE, kind, id, seq).seq;
  }

  undoOf(seq: number): number | null {
    return soleRow<{ seq: number | null }>(this.#sql, UNDO_OF, seq).seq;
  }

  add<K extends EntityKind>(kind: K, id: string, entity: Entities[K]): void {
    try {
      writers[kind](this.#sql, 'add', id, entity);
    } catch (cause) {
      if (readers[kind](this.#sql, id)) throw new Error(`${kind} ${id} is there already`, { cause });
      throw cause;
    }
    this.#written(kind, id, entity);
  }

  #written<K extends EntityKind>(kind: K, id: string, entity: Entities[K] | null): void {
    if (kind === 'board') this.#kept.forgetFolds();
    this.#know(kind, id, entity);
  }

  put<K extends EntityKind>(kind: K, id: string, entity: Entities[K]): void {
    writers[kind](this.#sql, 'put', id, entity);
    this.#written(kind, id, entity);
  }

  remove(kind: EntityKind, id: string): void {
    this.#sql.run(REMOVE[kind], id);
    if (kind === 'plan') this.#sql.run(REMOVE_PLAN_TEXT, id);
    this.#written(kind, id, null);
  }

  append(movement: Movement): void {
    appendMovement(this.#sql, this, movement);
    this.#seq = movement.seq;
  }
}
