/**
 * Yards of every earlier schema, as they lay on disk then (golden/, written by the code of that time and never since),
 * opened by today's code: the same stock, the same tables as a new yard has, and nothing broken. A finding of "form" here
 * means that a thing of the contract has a new field: say in yard/earlier-forms.ts what an old one has in its place.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { stateDifference } from '../../worker/yard/memory-state.ts';
import { SCHEMA_VERSION, schemaVersion } from '../../worker/yard/schema.ts';
import type { Sql } from '../../worker/yard/sql.ts';
import { checkUp } from './check-up.ts';
import { NodeSql } from './node-sql.ts';
import { NodeYard } from './node-yard.ts';
import { memoryCopy, Shop } from './shop.ts';
import { fileOf, restore } from './yard-file.ts';

const folder = join(import.meta.dirname, 'golden');
const files = readdirSync(folder).filter((name) => name.endsWith('.sql'));

function golden(name: string) {
  const text = readFileSync(join(folder, name), 'utf8');
  const counts: Record<string, number> = JSON.parse(text.slice(3, text.indexOf('\n')));
  return { text, counts };
}

/** What the tables, indexes and triggers are, however they came to be: column by column, for ALTER TABLE writes its own text. */
function shapeOf(sql: Sql): unknown {
  const made = sql.rows<{ type: string; name: string; sql: string | null }>(
    'SELECT type, name, sql FROM sqlite_master ORDER BY type, name',
  );
  return made.map(({ type, name, sql: text }) =>
    type === 'table' ? [name, sql.rows(`PRAGMA table_info(${name})`)] : [type, name, text],
  );
}

test('every schema before this one has its golden yard', () => {
  expect(files.sort()).toEqual(Array.from({ length: SCHEMA_VERSION - 1 }, (_, at) => `schema-${at + 1}.sql`).sort());
});

/** For each schema something that the step from it stumbles over. */
const stumbles: Readonly<Record<string, readonly string[]>> = {
  'schema-1.sql': ['CREATE TABLE identity (in_the_way TEXT)'],
  'schema-2.sql': ['ALTER TABLE api_key ADD COLUMN feed TEXT'],
  'schema-6.sql': ['CREATE TABLE held (in_the_way TEXT)'],
  'schema-5.sql': ['ALTER TABLE journal ADD COLUMN changes TEXT'],
  'schema-4.sql': ['CREATE TABLE tally (in_the_way TEXT)'],
  'schema-3.sql': ['ALTER TABLE receipt ADD COLUMN answer TEXT'],
};

for (const name of files) {
  const inTheWay = stumbles[name] ?? [];
  const version = Number(/\d+/.exec(name)?.[0]);

  test(`a yard of schema ${version} is brought up to ${SCHEMA_VERSION} and lives on`, async () => {
    const { text, counts } = golden(name);
    const sql = new NodeSql();
    sql.run(text);
    expect(schemaVersion(sql)).toBe(version);
    const shop = Shop.over(new NodeYard({ sql }));
    expect(schemaVersion(sql)).toBe(SCHEMA_VERSION);
    for (const [table, count] of Object.entries(counts)) {
      expect(sql.row<{ n: number }>(`SELECT count(*) AS n FROM ${table}`)?.n, table).toBe(count);
    }
    expect(shapeOf(sql)).toEqual(shapeOf((await Shop.open()).yard.sql));
    expect(checkUp(sql).findings).toEqual([]);
    shop.expectSound();
    expect(shop.ask('yard-facts', {}).yardId).toBe('oakyard');
    // Its file restores as any other's.
    const other = await Shop.open();
    expect(restore(other, fileOf(shop))).toMatchObject({ ok: true, restored: { done: true } });
    expect(stateDifference(memoryCopy(other.yard), memoryCopy(shop.yard))).toBeNull();
    expect(fileOf(other)).toEqual(fileOf(shop));
    // What was answered then is still known, and it takes the next write.
    const draft = { name: 'Next', dueOn: null, note: '' };
    const reused = shop.send({ do: 'open-job', draft }, 'write-0');
    expect(reused.ok ? null : reused.refusal.why).toBe('idempotency-key-reused');
    expect(shop.send({ do: 'open-job', draft }, 'after-the-migration').ok).toBe(true);
    expect(checkUp(sql).findings).toEqual([]);
  });

  test(`a yard of schema ${version} that cannot be brought up stays as it was`, () => {
    const sql = new NodeSql();
    sql.run(golden(name).text);
    // In the way of what the last migration makes.
    for (const statement of inTheWay) sql.run(statement);
    const before = sql.rows('SELECT * FROM sqlite_master');
    expect(() => new NodeYard({ sql })).toThrow();
    expect(sql.rows('SELECT * FROM sqlite_master')).toEqual(before);
    expect(schemaVersion(sql)).toBe(version);
  });
}
