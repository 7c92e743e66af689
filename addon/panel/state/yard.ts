/** The yard's own facts: its name, the shop's figures, and the unit that sizes are shown in. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { YardApi } from '../api.ts';
import { makeTask, type Task, taken } from './task.ts';

export type YardFacts = Answer<'readYard'>;

export interface YardState {
  readonly facts: ReadonlySignal<YardFacts | null>;
  /** When the facts were read; null before. */
  readonly readAtMs: ReadonlySignal<number | null>;
  readonly task: Task;
  load(): Promise<boolean>;
}

export function makeYardState(api: YardApi, nowMs: () => number): YardState {
  const facts = signal<YardFacts | null>(null);
  const readAtMs = signal<number | null>(null);
  const task = makeTask();
  return {
    facts,
    readAtMs,
    task,
    load: () =>
      task.run('Asking the yard', async () =>
        taken(await api.call('readYard'), (answer) => {
          facts.value = answer;
          readAtMs.value = nowMs();
        }),
      ),
  };
}
