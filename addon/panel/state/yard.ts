/** The yard's own facts: its name, the shop's figures, and the unit that sizes are shown in. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { SheetHost } from '../../host/host.ts';
import type { YardApi } from '../api.ts';
import type { Shell } from './shell.ts';
import { isStale, makeTask, type Task, taken } from './task.ts';

export type YardFacts = Answer<'readYard'>;

export interface YardState {
  readonly facts: ReadonlySignal<YardFacts | null>;
  readonly task: Task;
  readonly changing: Task;
  load(): Promise<boolean>;
  change(settings: YardFacts['settings']): Promise<boolean>;
}

export function makeYardState(api: YardApi, shell: Shell, host: Pick<SheetHost, 'settings'>): YardState {
  const keepWoods = woodsKeeper(host);
  const facts = signal<YardFacts | null>(null);
  const task = makeTask();
  const changing = makeTask();
  /** What another screen changed meanwhile is not written over. */
  const asRead = () => (facts.value === null ? {} : { version: facts.value.version });
  return {
    facts,
    task,
    changing,
    async change(settings) {
      const done = await changing.run('Keeping the figures', async (stop) =>
        taken(await api.call('changeSettings', { stop, ...asRead(), body: settings }), (answer) => {
          if (facts.value !== null) facts.value = { ...facts.value, ...answer };
          shell.say('The figures are kept.');
        }),
      );
      if (done || isStale(changing.trouble.value)) shell.changed();
      return done;
    },
    load: () =>
      task.run('Asking the yard', async (stop) =>
        taken(await api.call('readYard', { stop }), (answer) => {
          facts.value = answer;
          void keepWoods(answer.settings.ownWoods);
        }),
      ),
  };
}

/** Where the formulas of a file find the shop's own woods. */
export const FORMULA_WOODS_KEPT_AS = 'formula-woods';

/** Writes the shop's own woods into the file when they change, so that its formulas know them. */
function woodsKeeper(host: Pick<SheetHost, 'settings'>) {
  let kept: string | null | undefined;
  return async (ownWoods: YardFacts['settings']['ownWoods']): Promise<void> => {
    const text = ownWoods.length === 0 ? null : JSON.stringify(ownWoods);
    try {
      if (kept === undefined) kept = await host.settings.get(FORMULA_WOODS_KEPT_AS, 'file');
      if (kept === text) return;
      await host.settings.set(FORMULA_WOODS_KEPT_AS, text, 'file');
      kept = text;
    } catch {
      // A file that takes no settings keeps its formulas on the woods of the table.
    }
  };
}
