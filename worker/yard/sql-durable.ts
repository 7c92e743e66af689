/** The port over a Durable Object's own SQLite. */
import { assertBindable, type NotAsync, type Sql, type SqlRow, type SqlValue } from './sql.ts';

export class DurableSql implements Sql {
  readonly #storage: DurableObjectStorage;

  constructor(storage: DurableObjectStorage) {
    this.#storage = storage;
  }

  rows<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): readonly T[] {
    assertBindable(values);
    return this.#storage.sql
      .exec<Record<string, SqlValue>>(statement, ...values)
      .toArray() as readonly SqlRow[] as readonly T[];
  }

  row<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): T | null {
    return this.rows<T>(statement, ...values)[0] ?? null;
  }

  each<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): Iterable<T> {
    assertBindable(values);
    return this.#storage.sql.exec<Record<string, SqlValue>>(statement, ...values) as Iterable<SqlRow> as Iterable<T>;
  }

  run(statement: string, ...values: readonly SqlValue[]): void {
    assertBindable(values);
    this.#storage.sql.exec(statement, ...values);
  }

  once<T>(body: () => NotAsync<T>): T {
    return this.#storage.transactionSync(() => body() as T);
  }
}
