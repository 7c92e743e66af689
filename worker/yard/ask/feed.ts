/** What a feed link shows: the one list that it was made for, whatever else the yard holds. */
import type { FeedAnswer, HeldRow, Page, PageAsk } from '../command.ts';
import type { ApiKey } from '../keys.ts';
import type { Sql } from '../sql.ts';
import { SqlState } from '../sql-state.ts';
import { yardSettings } from '../state.ts';
import { askBoards } from './boards.ts';
import { askJob, askReservations } from './jobs.ts';

const BOARDS = `SELECT id, species, length_nm FROM board WHERE id IN (SELECT value FROM json_each(?))`;
type BoardRow = { id: string; species: string; length_nm: number };

function askHeld(sql: Sql, page: PageAsk): Page<HeldRow> | null {
  const found = askReservations(sql, { page });
  if (!found) return null;
  const ids = JSON.stringify(found.items.map((item) => item.boardId));
  const boards = new Map(sql.rows<BoardRow>(BOARDS, ids).map((row) => [row.id, row]));
  const items = found.items.map((item) => {
    const board = boards.get(item.boardId);
    return { ...item, species: board?.species ?? '', lengthNm: board?.length_nm ?? 0 };
  });
  return { items, next: found.next };
}

/** Null where there is nothing to show: the job is gone, or the page mark is not of this list. */
export function askFeed(sql: Sql, key: ApiKey, page: PageAsk): FeedAnswer | null {
  const settings = yardSettings(new SqlState(sql));
  switch (key.feed?.list) {
    case 'stock': {
      const boards = askBoards(sql, { filter: {}, page });
      return boards && { settings, list: 'stock', page: boards };
    }
    case 'held': {
      const held = askHeld(sql, page);
      return held && { settings, list: 'held', page: held };
    }
    case 'cut-list': {
      const job = key.feed.jobId === null ? null : askJob(sql, { jobId: key.feed.jobId });
      return job && { settings, list: 'cut-list', job };
    }
    case undefined:
      return null;
  }
}
