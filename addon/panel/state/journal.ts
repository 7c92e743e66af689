/** The journal, newest first, for the whole yard, one board or one job; and undoing by a counter-movement. */
import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { MovementView } from '../../../worker/contract/movement.ts';
import type { YardApi } from '../api.ts';
import { makePages, type Pages } from './pages.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';

export type JournalOf =
  | { readonly kind: 'yard' }
  | { readonly kind: 'board'; readonly id: string; readonly tag: string }
  | { readonly kind: 'job'; readonly id: string; readonly name: string };

export interface JournalState {
  readonly of: Signal<JournalOf>;
  readonly movements: Pages<MovementView>;
  readonly undoing: Task;
  /** The movement that was last asked to be turned round; what came of it is shown there. */
  readonly asked: ReadonlySignal<number | null>;
  undo(seq: number): Promise<boolean>;
}

export function makeJournal(api: YardApi, shell: Shell): JournalState {
  const of = signal<JournalOf>({ kind: 'yard' });
  const undoing = makeTask();
  const asked = signal<number | null>(null);
  const movements = makePages<MovementView>('Reading the journal', async (after, take, stop) => {
    const { value } = of;
    return taken(
      await api.call('listMovements', {
        stop,
        query: {
          limit: 50,
          ...(value.kind === 'board' ? { boardId: value.id } : {}),
          ...(value.kind === 'job' ? { jobId: value.id } : {}),
          ...(after === undefined ? {} : { after }),
        },
      }),
      take,
    );
  });
  return {
    of,
    movements,
    undoing,
    asked,
    async undo(seq) {
      asked.value = seq;
      const done = await undoing.run('Turning it round', async (stop) =>
        taken(await api.call('undoMovement', { stop, path: { seq: String(seq) } }), () => {
          shell.say(`No. ${seq} is turned round.`);
        }),
      );
      if (done) shell.changed();
      return done;
    },
  };
}
