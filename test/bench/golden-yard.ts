/**
 * `node test/bench/golden-yard.ts`: writes test/yard/golden/schema-N.sql, a small yard as the present schema keeps it, for
 * the test of the migrations. Run it once for each new schema version, before the next one; never write a file anew.
 */
import { existsSync, writeFileSync } from 'node:fs';
import { SCHEMA_VERSION } from '../../worker/yard/schema.ts';
import type { Sql, SqlRow, SqlValue } from '../../worker/yard/sql.ts';
import { RandomHistory } from '../yard/random-history.ts';
import { Shop } from '../yard/shop.ts';

const file = new URL(`../yard/golden/schema-${SCHEMA_VERSION}.sql`, import.meta.url).pathname;

function literal(value: SqlValue): string {
  if (value === null) return 'NULL';
  return typeof value === 'number' ? String(value) : `'${value.replaceAll("'", "''")}'`;
}

/** Tables and rows first, then what guards and finds them. */
function dump(sql: Sql): string {
  const made = sql.rows<{ type: string; name: string; sql: string }>(
    `SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type <> 'table', rowid`,
  );
  const tables = made.filter((each) => each.type === 'table');
  const rows = tables.flatMap(({ name }) =>
    sql
      .rows<SqlRow>(`SELECT * FROM ${name}`)
      .map((row) => `INSERT INTO ${name} VALUES (${Object.values(row).map(literal).join(', ')});`),
  );
  const statements = (list: typeof made) => list.map((each) => `${each.sql};`);
  return [...statements(tables), ...rows, ...statements(made.filter((each) => each.type !== 'table')), ''].join('\n');
}

const shop = await Shop.open();
const history = new RandomHistory(shop, 7);
while (shop.seq() < 60) history.step();
const counts = (table: string) => shop.yard.sql.row<{ n: number }>(`SELECT count(*) AS n FROM ${table}`)?.n ?? 0;
const held = Object.fromEntries(
  ['board', 'job', 'part', 'plan', 'reservation', 'session', 'journal', 'receipt'].map((table) => [
    table,
    counts(table),
  ]),
);
if (existsSync(file)) throw new Error(`${file} is there; it stays as it is`);
writeFileSync(file, `-- ${JSON.stringify(held)}\n${dump(shop.yard.sql)}`);
console.log(file);
