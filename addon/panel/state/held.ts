/** Who holds what: reservations by job, holding boards by their tags, and letting them go. */
import { signal } from '@preact/signals';
import type { ReservationView } from '../../../worker/contract/session.ts';
import type { YardApi } from '../api.ts';
import { makePages, type Pages } from './pages.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';

export interface HoldAsk {
  readonly tag: string;
  /** A run of the length in nanometres; null holds the whole board. */
  readonly run: { readonly fromNm: number; readonly toNm: number } | null;
}

export interface HeldState {
  readonly reservations: Pages<ReservationView>;
  readonly writing: Task;
  /** Tags just held, for the line that says so. */
  readonly justHeld: { readonly value: readonly string[] };
  hold(jobId: string, asks: readonly HoldAsk[]): Promise<boolean>;
  release(reservations: readonly ReservationView[]): Promise<boolean>;
}

export function makeHeld(api: YardApi, shell: Shell): HeldState {
  const writing = makeTask();
  const justHeld = signal<readonly string[]>([]);
  const reservations = makePages<ReservationView>('Reading what is held', async (after, take, stop) =>
    taken(
      await api.call('listReservations', { stop, query: after === undefined ? { limit: 200 } : { limit: 200, after } }),
      take,
    ),
  );
  return {
    reservations,
    writing,
    justHeld,
    async hold(jobId, asks) {
      const boards = asks.map((ask) => ({ tag: ask.tag, ...(ask.run === null ? {} : ask.run) }));
      const done = await writing.run('Holding the boards', async (stop) =>
        taken(await api.call('reserve', { stop, body: { jobId, boards } }), (answer) => {
          justHeld.value = answer.reservations.map((item) => item.tag);
          shell.say(
            `${answer.reservations.length === 1 ? 'Held' : `${answer.reservations.length} held`}: ${justHeld.value.join(', ')}.`,
          );
        }),
      );
      if (done) shell.changed();
      return done;
    },
    async release(items) {
      const done = await writing.run('Releasing', async (stop) =>
        taken(await api.call('release', { stop, body: { ids: items.map((item) => item.id) } }), () => {
          shell.say(`Released: ${items.map((item) => item.tag).join(', ')}.`);
        }),
      );
      if (done) shell.changed();
      return done;
    },
  };
}
