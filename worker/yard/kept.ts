/** What was read last, by its key: so many of it, then all of it is forgotten, and the next calls read what they need. */
export class Kept<V> {
  readonly #most: number;
  readonly #byKey = new Map<string, V>();

  constructor(most: number) {
    this.#most = most;
  }

  /** Null where it is not kept. */
  get(key: string): V | null {
    return this.#byKey.get(key) ?? null;
  }

  /** Another value of a key that is kept takes its place. */
  keep(key: string, value: V): void {
    if (this.#byKey.size >= this.#most && !this.#byKey.has(key)) this.#byKey.clear();
    this.#byKey.set(key, value);
  }

  drop(key: string): void {
    this.#byKey.delete(key);
  }

  forget(): void {
    this.#byKey.clear();
  }
}
