/** Questions about the journal: a page newest first, one movement, and the whole of it for replay. */
import type { Movement, MovementView } from '../../contract/movement.ts';
import type { WoodBalance } from '../../contract/session.ts';
import type { Page, Questions } from '../command.ts';
import type { Sql, SqlValue } from '../sql.ts';
import { type JournalRow, movementOf } from '../sql-journal.ts';
import { SqlState } from '../sql-state.ts';
import { undoneBy } from '../undone.ts';

/** Without the changes, which may be long and are not shown. */
const HEAD = 'seq, at_ms, by, kind, job_id, summary, balances, board_tags, undoes';
const MOVEMENT = `SELECT ${HEAD} FROM journal WHERE seq = ?`;
const OF_BOARD = 'seq IN (SELECT seq FROM journal_board WHERE board_id = ?)';
const JOURNAL = 'SELECT * FROM journal WHERE seq > ? ORDER BY seq LIMIT ?';

type HeadRow = Omit<JournalRow, 'changes'>;

function viewOf(sql: Sql, row: HeadRow): MovementView {
  return {
    seq: row.seq,
    atMs: row.at_ms,
    by: row.by,
    kind: row.kind,
    jobId: row.job_id,
    summary: row.summary,
    balances: JSON.parse(row.balances) as WoodBalance[],
    undoes: row.undoes,
    undoneBy: undoneBy(new SqlState(sql), row.seq),
    boardTags: JSON.parse(row.board_tags) as string[],
  };
}

export function askMovement(sql: Sql, { seq }: Questions['movement']['ask']): MovementView | null {
  const row = sql.row<HeadRow>(MOVEMENT, seq);
  return row && viewOf(sql, row);
}

export function askMovements(sql: Sql, ask: Questions['movements']['ask']): Page<MovementView> | null {
  const clauses: string[] = [];
  const values: SqlValue[] = [];
  if (ask.page.after !== null) {
    if (!/^\d{1,15}$/.test(ask.page.after)) return null;
    clauses.push('seq < ?');
    values.push(Number(ask.page.after));
  }
  if (ask.jobId !== undefined) {
    clauses.push('job_id = ?');
    values.push(ask.jobId);
  }
  if (ask.boardId !== undefined) {
    clauses.push(OF_BOARD);
    values.push(ask.boardId);
  }
  const where = clauses.length > 0 ? `WHERE ${clauses.join(' AND ')}` : '';
  const statement = `SELECT ${HEAD} FROM journal ${where} ORDER BY seq DESC LIMIT ?`;
  const rows = sql.rows<HeadRow>(statement, ...values, ask.page.limit + 1);
  const items = rows.slice(0, ask.page.limit).map((row) => viewOf(sql, row));
  return { items, next: rows.length > items.length ? String(items.at(-1)?.seq ?? '') : null };
}

export function askJournal(sql: Sql, { afterSeq, limit }: Questions['journal']['ask']): readonly Movement[] {
  return sql.rows<JournalRow>(JOURNAL, afterSeq, limit).map((row) => movementOf(sql, row));
}
