/** The journal, newest first, for the whole yard, one board or one job; and undoing by a counter-movement. */
import { type Signal, signal } from '@preact/signals';
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
  undo(seq: number): Promise<boolean>;
}

export function makeJournal(api: YardApi, shell: Shell): JournalState {
  const of = signal<JournalOf>({ kind: 'yard' });
  const undoing = makeTask();
  const movements = makePages<MovementView>('Reading the journal', async (after, take) => {
    const { value } = of;
    return taken(
      await api.call('listMovements', {
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
    async undo(seq) {
      const done = await undoing.run('Turning it round', async () =>
        taken(await api.call('undoMovement', { path: { seq: String(seq) } }), (answer) => {
          shell.say(`Undone: ${answer.summary}`);
        }),
      );
      if (done) shell.changed();
      return done;
    },
  };
}
