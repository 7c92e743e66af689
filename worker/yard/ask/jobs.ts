/** Questions about jobs, their plans, what they hold, and their sessions at the saw. */
import type { Job, JobView, JobWithParts } from '../../contract/job.ts';
import type { Plan } from '../../contract/plan.ts';
import type { ReservationView, Session } from '../../contract/session.ts';
import type { Page, PageAsk, Questions, SessionView } from '../command.ts';
import type { Sql, SqlRow, SqlValue } from '../sql.ts';
import { type ReservationRow, reservationOf, SqlState } from '../sql-state.ts';
import { jobViewOf, jobWithPartsOf } from '../standing.ts';

type BodyRow = { body: string };
type IdRow = { id: string };

export function askJob(sql: Sql, { jobId }: Questions['job']['ask']): JobWithParts | null {
  const state = new SqlState(sql);
  const job = state.get('job', jobId);
  return job && jobWithPartsOf(job, state.partsOfJob(jobId), state.reservationsOfJob(jobId));
}

const MADE_SEQ = {
  job: 'SELECT made_seq FROM job WHERE id = ?',
  plan: 'SELECT made_seq FROM plan WHERE id = ?',
  session: 'SELECT made_seq FROM session WHERE id = ?',
} as const;

/** Newest first: everything made before the thing that the mark names. Null for a mark that names nothing. */
function madeBefore(sql: Sql, table: keyof typeof MADE_SEQ, after: string | null): number | null {
  if (after === null) return Number.MAX_SAFE_INTEGER;
  return sql.row<{ made_seq: number }>(MADE_SEQ[table], after)?.made_seq ?? null;
}

function pageOf<Row, T extends { readonly id: string }>(
  rows: readonly Row[],
  page: PageAsk,
  read: (row: Row) => T,
): Page<T> {
  const items = rows.slice(0, page.limit).map(read);
  return { items, next: rows.length > page.limit ? (items.at(-1)?.id ?? null) : null };
}

const JOBS = 'SELECT body FROM job WHERE made_seq < ? AND (? IS NULL OR state = ?) ORDER BY made_seq DESC LIMIT ?';

export function askJobs(sql: Sql, ask: Questions['jobs']['ask']): Page<JobView> | null {
  const before = madeBefore(sql, 'job', ask.page.after);
  if (before === null) return null;
  const state = new SqlState(sql);
  const wanted = ask.state ?? null;
  const rows = sql.rows<BodyRow>(JOBS, before, wanted, wanted, ask.page.limit + 1);
  return pageOf(rows, ask.page, (row) => {
    const job = JSON.parse(row.body) as Job;
    return jobViewOf(job, state.partsOfJob(job.id), state.reservationsOfJob(job.id));
  });
}

const PLANS = 'SELECT id FROM plan WHERE job_id = ? AND made_seq < ? ORDER BY made_seq DESC LIMIT ?';

export function askPlans(sql: Sql, { jobId, page }: Questions['plans']['ask']): Page<Plan> | null {
  const before = madeBefore(sql, 'plan', page.after);
  if (before === null) return null;
  const state = new SqlState(sql);
  const rows = sql.rows<IdRow>(PLANS, jobId, before, page.limit + 1);
  const plans = rows.flatMap((row) => state.get('plan', row.id) ?? []);
  return pageOf(plans, page, (plan) => plan);
}

type ReservationViewRow = ReservationRow & {
  tag: string;
  length_nm: number;
  job_name: string;
};

const RESERVATION_VIEW = `SELECT r.*, json_extract(b.body, '$.tag') AS tag, b.length_nm, json_extract(j.body, '$.name') AS job_name
  FROM reservation r JOIN board b ON b.id = r.board_id JOIN job j ON j.id = r.job_id`;
const RESERVATIONS_BY_ID = `${RESERVATION_VIEW} WHERE r.id IN (SELECT value FROM json_each(?)) ORDER BY b.tag_sort, r.from_nm`;
const RESERVATION_ORDER = 'ORDER BY r.board_id, r.from_nm LIMIT ?';

function reservationViewOf(row: ReservationViewRow): ReservationView {
  return {
    ...reservationOf(row),
    tag: row.tag,
    jobName: row.job_name,
    whole: row.from_nm === 0 && row.to_nm === row.length_nm,
  };
}

const RESERVATION_MARK = /^(bd_[0-9a-z]{8,32})-(\d{1,15})$/;

/** The mark is the last board and place shown, so that a release between two pages breaks nothing. */
export function askReservations(sql: Sql, ask: Questions['reservations']['ask']): Page<ReservationView> | null {
  const clauses: string[] = [];
  const values: SqlValue[] = [];
  const add = (clause: string, ...given: readonly SqlValue[]) => {
    clauses.push(clause);
    values.push(...given);
  };
  if (ask.jobId !== undefined) add('r.job_id = ?', ask.jobId);
  if (ask.boardId !== undefined) add('r.board_id = ?', ask.boardId);
  if (ask.page.after !== null) {
    const [, boardId, fromNm] = RESERVATION_MARK.exec(ask.page.after) ?? [];
    if (boardId === undefined || fromNm === undefined) return null;
    add('(r.board_id, r.from_nm) > (?, ?)', boardId, Number(fromNm));
  }
  const where = clauses.length > 0 ? `WHERE ${clauses.join(' AND ')}` : '';
  const statement = `${RESERVATION_VIEW} ${where} ${RESERVATION_ORDER}`;
  const rows = sql.rows<ReservationViewRow>(statement, ...values, ask.page.limit + 1);
  const shown = rows.slice(0, ask.page.limit);
  const last = shown.at(-1);
  const next = last && rows.length > shown.length ? `${last.board_id}-${last.from_nm}` : null;
  return { items: shown.map(reservationViewOf), next };
}

export function askReservationsById(
  sql: Sql,
  { ids }: Questions['reservations-by-id']['ask'],
): readonly ReservationView[] {
  return sql.rows<ReservationViewRow>(RESERVATIONS_BY_ID, JSON.stringify(ids)).map(reservationViewOf);
}

type SessionRow = SqlRow & { body: string; job_name: string };
const SESSION_VIEW = `SELECT s.body, json_extract(j.body, '$.name') AS job_name FROM session s JOIN job j ON j.id = s.job_id`;
const SESSION = `${SESSION_VIEW} WHERE s.id = ?`;
const SESSIONS = `${SESSION_VIEW} WHERE s.made_seq < ? AND (? IS NULL OR s.job_id = ?) AND (? IS NULL OR s.state = ?)
  ORDER BY s.made_seq DESC LIMIT ?`;

function sessionViewOf(row: SessionRow): SessionView {
  return { ...(JSON.parse(row.body) as Session), jobName: row.job_name };
}

export function askSession(sql: Sql, { sessionId }: Questions['session']['ask']): SessionView | null {
  const row = sql.row<SessionRow>(SESSION, sessionId);
  return row && sessionViewOf(row);
}

export function askSessions(sql: Sql, ask: Questions['sessions']['ask']): Page<SessionView> | null {
  const before = madeBefore(sql, 'session', ask.page.after);
  if (before === null) return null;
  const [jobId, wanted] = [ask.jobId ?? null, ask.state ?? null];
  const rows = sql.rows<SessionRow>(SESSIONS, before, jobId, jobId, wanted, wanted, ask.page.limit + 1);
  return pageOf(rows, ask.page, sessionViewOf);
}
