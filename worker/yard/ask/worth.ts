/** What the yard's own past and its open cut lists say of the worth of what is left over. */
import type { WorthFacts } from '../command.ts';
import type { Sql, SqlRow } from '../sql.ts';

/** Older ends say less of what the shop makes today. */
const ENDS_MOST = 400;
const ENDED = `SELECT length_nm AS length_nm, json_extract(body, '$.widthNm') AS width_nm, state FROM board
  WHERE is_offcut = 1 AND state IN ('cut-up', 'written-off') ORDER BY version DESC LIMIT ?`;
const ASKED = `SELECT json_extract(part.body, '$.lengthNm') AS length_nm, json_extract(part.body, '$.widthNm') AS width_nm,
    json_extract(part.body, '$.quantity') AS count
  FROM part JOIN job ON job.id = part.job_id WHERE job.state = 'open' ORDER BY part.job_id, part.place`;

type EndRow = SqlRow & { length_nm: number; width_nm: number; state: string };
type SizeRow = SqlRow & { length_nm: number; width_nm: number; count: number };

export function askWorthFacts(sql: Sql): WorthFacts {
  return {
    offcuts: sql.rows<EndRow>(ENDED, ENDS_MOST).map((row) => {
      return { lengthNm: row.length_nm, widthNm: row.width_nm, isUsed: row.state === 'cut-up' };
    }),
    sizes: sql.rows<SizeRow>(ASKED).map((row) => {
      return { lengthNm: row.length_nm, widthNm: row.width_nm, count: row.count };
    }),
  };
}
