/** A list that comes in pages: the first anew, the next added; an answer that was overtaken is dropped. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Stop } from '../api.ts';
import { makeTask, type Task, type Trouble } from './task.ts';

export interface Page<T> {
  readonly items: readonly T[];
  readonly next: string | null;
}

export interface Pages<T> {
  /** null before the first answer: nothing is known yet, which is not the same as nothing there. */
  readonly items: ReadonlySignal<readonly T[] | null>;
  readonly next: ReadonlySignal<string | null>;
  readonly task: Task;
  load(): Promise<boolean>;
  more(): Promise<boolean>;
}

export function makePages<T>(
  saying: string,
  ask: (after: string | undefined, take: (page: Page<T>) => void, stop: Stop) => Promise<Trouble | null>,
): Pages<T> {
  const items = signal<readonly T[] | null>(null);
  const next = signal<string | null>(null);
  const task = makeTask();
  let turn = 0;
  const read = (after: string | undefined) => {
    turn += 1;
    const mine = turn;
    const take = (page: Page<T>) => {
      if (mine !== turn) return;
      items.value = after === undefined ? page.items : [...(items.value ?? []), ...page.items];
      next.value = page.next;
    };
    return task.run(saying, (stop) => ask(after, take, stop));
  };
  return {
    items,
    next,
    task,
    load: () => read(undefined),
    more: () => (next.value === null ? Promise.resolve(true) : read(next.value)),
  };
}
