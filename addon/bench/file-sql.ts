/** A yard's file on this machine, to be read only. */
import { DatabaseSync, type StatementSync } from 'node:sqlite';
import type { NotAsync, Sql, SqlRow, SqlValue } from '../../worker/yard/sql.ts';

export class FileSql implements Sql {
  readonly #database: DatabaseSync;
  readonly #prepared = new Map<string, StatementSync>();

  constructor(path: string) {
    this.#database = new DatabaseSync(path, { readOnly: true });
  }

  #statement(text: string): StatementSync {
    const statement = this.#prepared.get(text) ?? this.#database.prepare(text);
    this.#prepared.set(text, statement);
    return statement;
  }

  rows<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): readonly T[] {
    return this.#statement(statement).all(...values) as T[];
  }

  row<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): T | null {
    return (this.#statement(statement).get(...values) as T | undefined) ?? null;
  }

  each<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): Iterable<T> {
    return this.#database.prepare(statement).iterate(...values) as Iterable<SqlRow> as Iterable<T>;
  }

  run(): void {
    throw new Error('this file is opened for reading only');
  }

  once<T>(_body: () => NotAsync<T>): T {
    throw new Error('this file is opened for reading only');
  }

  close(): void {
    this.#database.close();
  }
}
