/** What a piece of wood can still make, and the best home for a part. */
import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { BoardView } from '../../../worker/contract/board.ts';
import type { HomesAnswer, UsesAnswer } from '../../../worker/contract/plan.ts';
import type { Body } from '../../../worker/contract/wire.ts';
import type { YardApi } from '../api.ts';
import { count } from '../words/measure.ts';
import { makePages, type Pages } from './pages.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';

export interface OffcutsState {
  readonly asking: Signal<'uses' | 'homes'>;
  readonly offcuts: Pages<BoardView>;
  readonly uses: ReadonlySignal<UsesAnswer | null>;
  readonly homes: ReadonlySignal<HomesAnswer | null>;
  /** What the answer in front is for, in words. */
  readonly about: ReadonlySignal<string>;
  readonly task: Task;
  askUses(question: NonNullable<Body<'offcutUses'>>, about: string): Promise<boolean>;
  askHomes(question: NonNullable<Body<'offcutHomes'>>, about: string): Promise<boolean>;
  /** Back to the question. */
  leave(): void;
}

export function makeOffcuts(api: YardApi, shell: Shell): OffcutsState {
  const uses = signal<UsesAnswer | null>(null);
  const homes = signal<HomesAnswer | null>(null);
  const about = signal('');
  const task = makeTask();
  const offcuts = makePages<BoardView>('Reading the offcuts', async (after, take, stop) =>
    taken(
      await api.call('listBoards', {
        stop,
        query: { offcuts: 'true', state: 'in-stock', ...(after === undefined ? {} : { after }) },
      }),
      take,
    ),
  );
  return {
    asking: signal<'uses' | 'homes'>('uses'),
    offcuts,
    uses,
    homes,
    about,
    task,
    leave() {
      uses.value = null;
      homes.value = null;
      task.clear();
    },
    askUses(question, words) {
      uses.value = null;
      about.value = words;
      return task.run('Trying the open parts on it', async (stop) =>
        taken(await api.call('offcutUses', { stop, body: question }), (answer) => {
          uses.value = answer;
          shell.say(
            answer.parts.length === 0
              ? 'No open part fits.'
              : `${count(answer.parts.length, 'part fits', 'parts fit')}.`,
          );
        }),
      );
    },
    askHomes(question, words) {
      homes.value = null;
      about.value = words;
      return task.run('Looking through the stock', async (stop) =>
        taken(await api.call('offcutHomes', { stop, body: question }), (answer) => {
          homes.value = answer;
          shell.say(
            answer.homes.length === 0 ? 'No board can give it.' : `${count(answer.homes.length, 'board')} can give it.`,
          );
        }),
      );
    },
  };
}
