/** Questions about boards: one, a page by filter, the tags of a sheet's rows. */
import type { Board, BoardView, Held } from '../../contract/board.ts';
import type { BoardFilter, Page, Questions } from '../command.ts';
import type { Sql, SqlRow, SqlValue } from '../sql.ts';
import { SqlState } from '../sql-state.ts';
import { yardSettings } from '../state.ts';
import { tagFold } from '../tag.ts';

type BodyRow = { body: string };
type HeldRow = {
  board_id: string;
  id: string;
  job_id: string;
  from_nm: number;
  to_nm: number;
  plan_id: string | null;
  job_name: string;
};

const HELD_COLUMNS = `SELECT r.board_id, r.id, r.job_id, r.from_nm, r.to_nm, r.plan_id,
  json_extract(j.body, '$.name') AS job_name FROM reservation r JOIN job j ON j.id = r.job_id`;
const HELD_OF = `${HELD_COLUMNS} WHERE r.board_id IN (SELECT value FROM json_each(?)) ORDER BY r.board_id, r.from_nm`;
const BY_TAGS = `SELECT tag_fold, state, version, body FROM board
  WHERE tag_fold IN (SELECT value FROM json_each(?)) ORDER BY version`;
const PLACE_IN_ORDER = 'SELECT tag_sort FROM board WHERE id = ?';

function heldByBoard(rows: readonly HeldRow[]): Map<string, Held[]> {
  const byBoard = new Map<string, Held[]>();
  for (const row of rows) {
    const held: Held = {
      reservationId: row.id,
      jobId: row.job_id,
      jobName: row.job_name,
      fromNm: row.from_nm,
      toNm: row.to_nm,
      planId: row.plan_id,
    };
    const list = byBoard.get(row.board_id);
    if (list) list.push(held);
    else byBoard.set(row.board_id, [held]);
  }
  return byBoard;
}

export function withHeld(sql: Sql, boards: readonly Board[]): readonly BoardView[] {
  const held = heldByBoard(sql.rows<HeldRow>(HELD_OF, JSON.stringify(boards.map((board) => board.id))));
  return boards.map((board) => ({ ...board, held: held.get(board.id) ?? [] }));
}

export function askBoard(sql: Sql, { boardId }: Questions['board']['ask']): BoardView | null {
  const board = new SqlState(sql).get('board', boardId);
  return board && (withHeld(sql, [board])[0] ?? null);
}

const BOARDS_BY_ID = 'SELECT body FROM board WHERE id IN (SELECT value FROM json_each(?))';

export function askBoardsToDraw(
  sql: Sql,
  { boardIds }: Questions['boards-to-draw']['ask'],
): Questions['boards-to-draw']['answer'] {
  const rows = sql.rows<BodyRow>(BOARDS_BY_ID, JSON.stringify(boardIds));
  return { settings: yardSettings(new SqlState(sql)), boards: rows.map((row) => JSON.parse(row.body) as Board) };
}

/** One condition a field of the filter; in stock unless another state is asked for, so that the ordered index serves. */
function conditions(filter: BoardFilter): { readonly clause: string; readonly value: SqlValue }[] {
  const found = [{ clause: 'state = ?', value: filter.state ?? 'in-stock' }] as { clause: string; value: SqlValue }[];
  const add = (clause: string, value: SqlValue | undefined) => {
    if (value !== undefined) found.push({ clause, value });
  };
  add('species = ?', filter.species);
  add('thickness_nm >= ?', filter.thicknessNmMin);
  add('thickness_nm <= ?', filter.thicknessNmMax);
  add('length_nm >= ?', filter.lengthNmMin);
  add('moisture_percent <= ?', filter.moisturePercentMax);
  add('is_offcut = ?', filter.offcuts === undefined ? undefined : filter.offcuts ? 1 : 0);
  add(
    'EXISTS (SELECT 1 FROM reservation r WHERE r.board_id = board.id) = ?',
    filter.free === undefined ? undefined : filter.free ? 0 : 1,
  );
  add('instr(looked_for, ?) > 0', filter.q === undefined || filter.q === '' ? undefined : tagFold(filter.q));
  return found;
}

/** Null for a page mark that no board of this yard made. */
export function askBoards(sql: Sql, { filter, page }: Questions['boards']['ask']): Page<BoardView> | null {
  const where = conditions(filter);
  const clauses = where.map((condition) => condition.clause);
  const values = where.map((condition) => condition.value);
  if (page.after !== null) {
    const mark = sql.row<{ tag_sort: string }>(PLACE_IN_ORDER, page.after);
    if (!mark) return null;
    clauses.push('(tag_sort, id) > (?, ?)');
    values.push(mark.tag_sort, page.after);
  }
  const statement = `SELECT body FROM board WHERE ${clauses.join(' AND ')} ORDER BY tag_sort, id LIMIT ?`;
  const rows = sql.rows<BodyRow>(statement, ...values, page.limit + 1);
  const boards = rows.slice(0, page.limit).map((row) => JSON.parse(row.body) as Board);
  const next = rows.length > page.limit ? (boards.at(-1)?.id ?? null) : null;
  return { items: withHeld(sql, boards), next };
}

type TagRow = SqlRow & { tag_fold: string; state: string; body: string };

/** For each tag the board in stock that bears it, or else the last one that bore it. */
export function askTagStatus(sql: Sql, { tags }: Questions['tag-status']['ask']): Questions['tag-status']['answer'] {
  const folds = tags.map(tagFold);
  const byFold = new Map<string, TagRow>();
  for (const row of sql.rows<TagRow>(BY_TAGS, JSON.stringify([...new Set(folds)]))) {
    if (byFold.get(row.tag_fold)?.state !== 'in-stock') byFold.set(row.tag_fold, row);
  }
  const found = [...byFold].map(([fold, row]) => [fold, JSON.parse(row.body) as Board] as const);
  const views = withHeld(
    sql,
    found.map(([, board]) => board),
  );
  const viewByFold = new Map(found.map(([fold], at) => [fold, views[at] ?? null]));
  return { seq: new SqlState(sql).seq(), boards: folds.map((fold) => viewByFold.get(fold) ?? null) };
}
