/** Whether the yard answers, and how old what is shown is when it does not. */
import { type ReadonlySignal, signal } from '@preact/signals';

export interface Unreached {
  /** When the oldest of the answers shown was given; null before any came from memory. */
  readonly asOfMs: number | null;
}

export interface Reach {
  /** null while the yard answers. */
  readonly unreached: ReadonlySignal<Unreached | null>;
  found(): void;
  /** Nothing came back; asOfMs of the kept answer that stands in, if there is one. */
  missed(asOfMs: number | null): void;
}

export function makeReach(): Reach {
  const unreached = signal<Unreached | null>(null);
  return {
    unreached,
    found() {
      unreached.value = null;
    },
    missed(asOfMs) {
      const before = unreached.value?.asOfMs ?? null;
      const oldest = before === null || asOfMs === null ? (before ?? asOfMs) : Math.min(before, asOfMs);
      if (unreached.value === null || oldest !== before) unreached.value = { asOfMs: oldest };
    },
  };
}
