/**
 * The narrow door to SQLite. Two adapters stand behind it, the Durable Object's own database and node:sqlite, so every
 * rule also runs at Node speed. Values bind as text, null or safe integers and finite reals: booleans and bigints would
 * be stored as something else without a word.
 */
export type SqlValue = string | number | null;
export type SqlRow = { readonly [column: string]: SqlValue };

/** A body that returns a promise would commit before it is done, so its type refuses one. */
export type NotAsync<T> = T extends PromiseLike<unknown> ? { readonly error: 'a transaction has no await' } : T;

export interface Sql {
  rows<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): readonly T[];
  /** The first row; null for none. */
  row<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): T | null;
  /** Row by row, for lists that are not to be in memory at once. Nothing may be written while it runs. */
  each<T extends SqlRow>(statement: string, ...values: readonly SqlValue[]): Iterable<T>;
  run(statement: string, ...values: readonly SqlValue[]): void;
  /** Everything in body, or nothing of it when it throws. Not nested. */
  once<T>(body: () => NotAsync<T>): T;
}

/** The row of a question that always has one: a count, a greatest, the one row of a table. */
export function soleRow<T extends SqlRow>(sql: Sql, statement: string, ...values: readonly SqlValue[]): T {
  const row = sql.row<T>(statement, ...values);
  if (row === null) throw new Error(`no row came of: ${statement}`);
  return row;
}

export function assertBindable(values: readonly SqlValue[]): void {
  for (const value of values) {
    if (typeof value !== 'number') continue;
    const fits = Number.isInteger(value) ? Number.isSafeInteger(value) : Number.isFinite(value);
    if (!fits) throw new RangeError(`${value} does not survive the database`);
  }
}
