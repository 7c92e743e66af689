/**
 * Group commit. The first write goes through at once; those that arrive while it is being made durable wait, and then go
 * through one after another in one go, so that the database is flushed once for all of them. Each is still a transaction
 * of its own with no await in it: one that fails takes back itself alone. No answer leaves before its write is durable,
 * which the platform's output gate sees to.
 */

/** So many at once, so that reads come in between. */
const GROUP_MOST = 64;

export class WriteGroups {
  readonly #durable: () => Promise<void>;
  #waiting: (() => void)[] = [];
  #isBusy = false;

  /** durable: resolves when all that was written is on disk. */
  constructor(durable: () => Promise<void>) {
    this.#durable = durable;
  }

  /** In the order of calls. Rejects with what the write throws. */
  run<T>(write: () => T): Promise<T> {
    return new Promise<T>((resolve, reject) => {
      this.#waiting.push(() => {
        try {
          resolve(write());
        } catch (thrown) {
          reject(thrown);
        }
      });
      if (!this.#isBusy) void this.#work();
    });
  }

  async #work(): Promise<void> {
    this.#isBusy = true;
    while (this.#waiting.length > 0) {
      for (const write of this.#waiting.splice(0, GROUP_MOST)) write();
      // Where it cannot be made durable the platform breaks the object off, with every answer still held back.
      await this.#durable().catch(() => {});
    }
    this.#isBusy = false;
  }
}
