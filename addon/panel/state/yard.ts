/** The yard's own facts: its name, the shop's figures, and the unit that sizes are shown in. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { YardApi } from '../api.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';

export type YardFacts = Answer<'readYard'>;

export interface YardState {
  readonly facts: ReadonlySignal<YardFacts | null>;
  readonly task: Task;
  readonly changing: Task;
  load(): Promise<boolean>;
  change(settings: YardFacts['settings']): Promise<boolean>;
}

export function makeYardState(api: YardApi, shell: Shell): YardState {
  const facts = signal<YardFacts | null>(null);
  const task = makeTask();
  const changing = makeTask();
  return {
    facts,
    task,
    changing,
    async change(settings) {
      const done = await changing.run('Keeping the figures', async () =>
        taken(await api.call('changeSettings', { body: settings }), () => {
          shell.say('The figures are kept.');
        }),
      );
      if (done) shell.changed();
      return done;
    },
    load: () =>
      task.run('Asking the yard', async () =>
        taken(await api.call('readYard'), (answer) => {
          facts.value = answer;
        }),
      ),
  };
}
