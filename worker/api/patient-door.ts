/**
 * The yard's door for a crowd: so many calls wait for one yard, and the next is told to come again, instead of all of
 * them waiting until they time out. A call that the platform lost on the way is made once more: a write is safe to send
 * again, since its receipt answers.
 */
import type { YardDoor } from '../yard/command.ts';

/** It cannot be done now; nothing was done, or sending it again is safe. */
export class Busy extends Error {
  constructor(cause?: unknown) {
    super('busy', { cause });
    this.name = 'Busy';
  }
}

/** Lets so many through at the same time by name, in this instance of the service; throws Busy at the next. */
export class Turnstile {
  readonly #most: number;
  readonly #inside = new Map<string, number>();

  constructor(most: number) {
    this.#most = most;
  }

  async through<T>(name: string, call: () => Promise<T>): Promise<T> {
    const before = this.#inside.get(name) ?? 0;
    if (before >= this.#most) throw new Busy();
    this.#inside.set(name, before + 1);
    try {
      return await call();
    } finally {
      const left = (this.#inside.get(name) ?? 1) - 1;
      if (left > 0) this.#inside.set(name, left);
      else this.#inside.delete(name);
    }
  }
}

/** The platform marks its errors: overloaded must not be asked again at once, retryable may. */
const says = (error: unknown, mark: 'overloaded' | 'retryable') =>
  typeof error === 'object' && error !== null && (error as Readonly<Record<string, unknown>>)[mark] === true;

const RETRY_AFTER_MS = 20;
const RETRY_JITTER_MS = 80;
const pause = () => new Promise((resolve) => setTimeout(resolve, RETRY_AFTER_MS + Math.random() * RETRY_JITTER_MS));

async function once<T>(call: () => Promise<T>): Promise<T> {
  try {
    return await call();
  } catch (error) {
    if (says(error, 'overloaded') || says(error, 'retryable')) throw new Busy(error);
    throw error;
  }
}

async function twice<T>(call: () => Promise<T>): Promise<T> {
  try {
    return await call();
  } catch (error) {
    if (says(error, 'overloaded') || !says(error, 'retryable')) return once(() => Promise.reject(error));
    await pause();
    return once(call);
  }
}

export function patientDoor(door: YardDoor, yardId: string, calls: Turnstile): YardDoor {
  return {
    found: (input) => calls.through(yardId, () => twice(() => door.found(input))),
    // Asked again after a lost answer it would say that the id is taken.
    giveOwnerKey: (key) => calls.through(yardId, () => once(() => door.giveOwnerKey(key))),
    command: (asker, receipt, command, occasion) =>
      calls.through(yardId, () => twice(() => door.command(asker, receipt, command, occasion))),
    restore: (asker, firstLine, lines) =>
      calls.through(yardId, () => twice(() => door.restore(asker, firstLine, lines))),
    ask: (asker, name, ask) => calls.through(yardId, () => twice(() => door.ask(asker, name, ask))),
  };
}
