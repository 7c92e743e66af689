/** What no single movement shows: things that no movement tells of, holds that overlap, texts that nothing owns, the file itself. */
import type { Finding } from '../../contract/doctor.ts';
import type { EntityKind } from '../../contract/movement.ts';
import type { Sql } from '../sql.ts';

const SHOWN = 20;

const tables: { readonly [K in EntityKind]: string } = {
  settings: 'yard',
  board: 'board',
  job: 'job',
  part: 'part',
  plan: 'plan',
  reservation: 'reservation',
  session: 'session',
};

const strays = (kind: EntityKind) => `SELECT id FROM ${tables[kind]} AS thing
  WHERE NOT EXISTS (SELECT 1 FROM journal_touch t WHERE t.entity = '${kind}' AND t.id = thing.id) LIMIT ${SHOWN}`;

const OVERLAPS = `SELECT a.board_id, a.id AS one, b.id AS other FROM reservation a
  JOIN reservation b ON b.board_id = a.board_id AND b.id > a.id AND b.from_nm < a.to_nm AND a.from_nm < b.to_nm
  LIMIT ${SHOWN}`;
const LOST_RECEIPT_TEXT = `SELECT DISTINCT id FROM receipt_text AS t
  WHERE NOT EXISTS (SELECT 1 FROM receipt r WHERE r.key_id = substr(t.id, 1, instr(t.id, '/') - 1) AND r.idempotency_key = substr(t.id, instr(t.id, '/') + 1))
  LIMIT ${SHOWN}`;
const LOST_PLAN_TEXT = `SELECT DISTINCT id FROM plan_text AS t
  WHERE NOT EXISTS (SELECT 1 FROM plan p WHERE p.id = t.id) LIMIT ${SHOWN}`;
const MISCOUNTED = `SELECT in_stock, offcuts FROM tally WHERE
  in_stock <> (SELECT count(*) FROM board WHERE state = 'in-stock') OR
  offcuts <> (SELECT count(*) FROM board WHERE state = 'in-stock' AND is_offcut = 1)`;
const HAS_TALLY = "SELECT 1 AS yes FROM sqlite_master WHERE name = 'tally'";
const QUICK_CHECK = `PRAGMA quick_check(${SHOWN})`;

export function checkTables(sql: Sql): readonly Finding[] {
  const kinds = Object.keys(tables) as EntityKind[];
  return [
    ...kinds.flatMap((kind) =>
      sql.rows<{ id: string }>(strays(kind)).map(
        ({ id }): Finding => ({
          rule: 'replay',
          what: `${kind} ${id}`,
          words: 'no movement of the journal tells of it',
        }),
      ),
    ),
    ...sql.rows<{ board_id: string; one: string; other: string }>(OVERLAPS).map(
      ({ board_id, one, other }): Finding => ({
        rule: 'overlap',
        what: `board ${board_id}`,
        words: `${one} and ${other} hold the same run of it`,
      }),
    ),
    ...sql
      .rows<{ id: string }>(LOST_RECEIPT_TEXT)
      .map(({ id }): Finding => ({ rule: 'receipt', what: `receipt ${id}`, words: 'an answer to no write' })),
    ...sql
      .rows<{ id: string }>(LOST_PLAN_TEXT)
      .map(({ id }): Finding => ({ rule: 'plan', what: `plan ${id}`, words: 'layouts of no plan' })),
    ...(sql.row(HAS_TALLY) ? sql.rows<{ in_stock: number; offcuts: number }>(MISCOUNTED) : []).map(
      ({ in_stock, offcuts }): Finding => ({
        rule: 'columns',
        what: 'tally',
        words: `says ${in_stock} boards in stock and ${offcuts} offcuts, which is not their number`,
      }),
    ),
    ...sql
      .rows<{ quick_check: string }>(QUICK_CHECK)
      .filter((row) => row.quick_check !== 'ok')
      .map((row): Finding => ({ rule: 'database', what: 'database', words: row.quick_check })),
  ];
}
