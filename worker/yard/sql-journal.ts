/** The journal's rows: each movement, what it touched, and which boards it speaks of. Written once, never changed. */
import type { Change, Movement, MovementKind } from '../contract/movement.ts';
import type { WoodBalance } from '../contract/session.ts';
import { readLongText, writeLongText } from './long-text.ts';
import type { Sql } from './sql.ts';
import type { YardReader } from './state.ts';

export type JournalRow = {
  seq: number;
  at_ms: number;
  by: string;
  kind: MovementKind;
  job_id: string | null;
  summary: string;
  balances: string;
  board_tags: string;
  undoes: number | null;
  /** Null where they are long and lie in journal_text, as all did before schema 6. */
  changes: string | null;
};

/** So many tags are named with a movement; a delivery may have two thousand. */
const TAGS_NAMED = 40;

/** Longer changes lie in pieces beside their movement. */
const BESIDE_CHARS = 100_000;

const WRITE_MOVEMENT = `INSERT INTO journal (seq, at_ms, by, kind, job_id, summary, balances, board_tags, undoes, changes)
  VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`;
const WRITE_TOUCH = 'INSERT INTO journal_touch (entity, id, seq) VALUES (?, ?, ?)';
const WRITE_TOUCHES = `INSERT OR IGNORE INTO journal_touch (entity, id, seq)
  SELECT json_extract(value, '$[0]'), json_extract(value, '$[1]'), ? FROM json_each(?)`;
const WRITE_BOARD = 'INSERT INTO journal_board (board_id, seq) VALUES (?, ?)';
const WRITE_BOARDS = 'INSERT OR IGNORE INTO journal_board (board_id, seq) SELECT value, ? FROM json_each(?)';
const READ_MOVEMENT = 'SELECT * FROM journal WHERE seq = ?';

function textsIn(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value];
  return Array.isArray(value) ? value.filter((item) => typeof item === 'string') : [];
}

/** Boards that a change speaks of: the board itself, or the one that a reservation or a session names. */
function boardsOf(reader: YardReader, change: Change): readonly string[] {
  if (change.entity === 'board') return [change.id];
  if (change.entity === 'reservation') {
    const named = [...textsIn(change.was?.boardId), ...textsIn(change.now?.boardId)];
    return named.length > 0 ? named : textsIn(reader.get('reservation', change.id)?.boardId);
  }
  if (change.entity !== 'session') return [];
  const fields = { ...change.was, ...change.now };
  return [...textsIn(fields.boardIds), ...textsIn(fields.doneBoardIds)];
}

function tagOf(reader: YardReader, movement: Movement, boardId: string): string | null {
  const present = reader.get('board', boardId);
  if (present) return present.tag;
  const gone = movement.changes.find((change) => change.entity === 'board' && change.id === boardId)?.was?.tag;
  return typeof gone === 'string' ? gone : null;
}

/** Most movements touch one thing: plain values cost a third of a list that the database unpacks. */
function writeTouches(sql: Sql, movement: Movement): void {
  const [only, ...more] = movement.changes;
  if (!only) return;
  if (more.length === 0) sql.run(WRITE_TOUCH, only.entity, only.id, movement.seq);
  else
    sql.run(WRITE_TOUCHES, movement.seq, JSON.stringify(movement.changes.map((change) => [change.entity, change.id])));
}

function writeBoards(sql: Sql, seq: number, boardIds: readonly string[]): void {
  const [only, ...more] = boardIds;
  if (only === undefined) return;
  if (more.length === 0) sql.run(WRITE_BOARD, only, seq);
  else sql.run(WRITE_BOARDS, seq, JSON.stringify(boardIds));
}

/** Called when the changes have been folded in. */
export function appendMovement(sql: Sql, after: YardReader, movement: Movement): void {
  const boardIds = [...new Set(movement.changes.flatMap((change) => boardsOf(after, change)))];
  const tags = boardIds.slice(0, TAGS_NAMED).flatMap((boardId) => tagOf(after, movement, boardId) ?? []);
  if (boardIds.length > TAGS_NAMED) tags.push(`and ${boardIds.length - TAGS_NAMED} more`);
  const changes = JSON.stringify(movement.changes);
  const isShort = changes.length <= BESIDE_CHARS;
  sql.run(
    WRITE_MOVEMENT,
    movement.seq,
    movement.atMs,
    movement.by,
    movement.kind,
    movement.jobId,
    movement.summary,
    JSON.stringify(movement.balances),
    JSON.stringify(tags),
    movement.undoes,
    isShort ? changes : null,
  );
  if (!isShort) writeLongText(sql, 'journal_text', movement.seq, changes);
  writeTouches(sql, movement);
  writeBoards(sql, movement.seq, boardIds);
}

/** The changes as they were written, from where they lie. */
export function changesText(sql: Sql, row: JournalRow): string {
  const text = row.changes ?? readLongText(sql, 'journal_text', row.seq);
  if (text === null) throw new Error(`movement ${row.seq} has lost its changes`);
  return text;
}

export function movementOf(sql: Sql, row: JournalRow): Movement {
  return {
    seq: row.seq,
    atMs: row.at_ms,
    by: row.by,
    kind: row.kind,
    jobId: row.job_id,
    summary: row.summary,
    changes: JSON.parse(changesText(sql, row)) as Change[],
    balances: JSON.parse(row.balances) as WoodBalance[],
    undoes: row.undoes,
  };
}

export function readMovement(sql: Sql, seq: number): Movement | null {
  const row = sql.row<JournalRow>(READ_MOVEMENT, seq);
  return row && movementOf(sql, row);
}
