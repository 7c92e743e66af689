/** Sends what waits by itself: when the panel opens, when the yard answers again, and every now and then. */
import { effect, untracked } from '@preact/signals';
import { type Outbox, tooOld } from './outbox.ts';
import type { Reach } from './reach.ts';
import type { Shell } from './shell.ts';

const FIRST_PAUSE_MS = 15_000;
const LONGEST_PAUSE_MS = 300_000;

export interface SendingEnvironment {
  /** Calls back when the device has a network again. */
  onOnline(listener: () => void): void;
  /** Calls back once, later; gives the way to call it off. */
  later(listener: () => void, ms: number): () => void;
}

export const pageSending: SendingEnvironment = {
  onOnline: (listener) => globalThis.addEventListener('online', listener),
  later(listener, ms) {
    const timer = setTimeout(listener, ms);
    return () => clearTimeout(timer);
  },
};

export function keepSending(outbox: Outbox, reach: Reach, shell: Shell, environment: SendingEnvironment): void {
  let pauseMs = FIRST_PAUSE_MS;
  let callOff = () => {};
  const sendable = () => outbox.waiting.value.some((thing) => thing.refused === null && !tooOld(thing, shell.nowMs()));

  async function send(): Promise<void> {
    callOff();
    await outbox.send().catch(() => 0);
    if (!sendable()) {
      pauseMs = FIRST_PAUSE_MS;
      return;
    }
    callOff = environment.later(() => void send(), pauseMs);
    pauseMs = Math.min(LONGEST_PAUSE_MS, pauseMs * 2);
  }

  environment.onOnline(() => void send());
  void send();
  effect(() => {
    const reached = reach.unreached.value === null;
    const waits = outbox.waiting.value.length > 0;
    if (reached || waits) untracked(() => (sendable() ? void later() : undefined));
  });

  /** Not inside the call whose answer told that the yard is there. */
  function later(): void {
    callOff();
    callOff = environment.later(() => void send(), reach.unreached.value === null ? 0 : pauseMs);
  }
}
