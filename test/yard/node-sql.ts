/** The SQL port over node:sqlite, so that every rule also runs at Node speed. */
import { DatabaseSync, type StatementSync } from 'node:sqlite';
import { assertBindable, type NotAsync, type Sql, type SqlRow, type SqlValue } from '../../worker/yard/sql.ts';

export class NodeSql implements Sql {
  readonly #database: DatabaseSync;
  readonly #prepared = new Map<string, StatementSync>();

  constructor(path = ':memory:') {
    this.#database = new DatabaseSync(path);
  }

  #statement(text: string): StatementSync {
    let statement = this.#prepared.get(text);
    if (!statement) {
      statement = this.#database.prepare(text);
      this.#prepared.set(text, statement);
    }
    return statement;
  }

  rows<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): readonly T[] {
    assertBindable(values);
    return this.#statement(statement).all(...values) as T[];
  }

  row<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): T | null {
    return this.rows<T>(statement, ...values)[0] ?? null;
  }

  each<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): Iterable<T> {
    assertBindable(values);
    return this.#database.prepare(statement).iterate(...values) as Iterable<SqlRow> as Iterable<T>;
  }

  run(statement: string, ...values: readonly SqlValue[]): void {
    assertBindable(values);
    if (values.length === 0) this.#database.exec(statement);
    else this.#statement(statement).run(...values);
  }

  /** Gives a question that says whether any of these tables was written since it was last asked. */
  watch(tables: readonly string[]): () => boolean {
    const open = () => tables.map((table) => this.#database.createSession({ table }));
    let sessions = open();
    return () => {
      const isChanged = sessions.some((session) => session.changeset().byteLength > 0);
      if (isChanged) {
        for (const session of sessions) session.close();
        sessions = open();
      }
      return isChanged;
    };
  }

  once<T>(body: () => NotAsync<T>): T {
    this.#database.exec('BEGIN IMMEDIATE');
    try {
      const result = body() as T;
      this.#database.exec('COMMIT');
      return result;
    } catch (cause) {
      this.#database.exec('ROLLBACK');
      throw cause;
    }
  }
}
