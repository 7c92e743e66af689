/** What is dry and what waits: boards by their last reading against the shop's figures; resting pieces and curing glue-ups. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { BoardView, Reading } from '../../../worker/contract/board.ts';
import type { JobWithParts } from '../../../worker/contract/job.ts';
import type { Settings } from '../../../worker/contract/settings.ts';
import { latestReading } from '../../../worker/wood/reading.ts';
import { type DryFor, dryFor } from '../../../worker/wood/ready.ts';
import type { YardApi } from '../api.ts';
import { makePages, type Pages } from './pages.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';
import { type WorkOfJob, workOf } from './work.ts';

/** A job with what of it waits, or has waited long enough to be looked at. */
export interface WaitingJob {
  readonly job: JobWithParts;
  readonly work: WorkOfJob;
}

export interface DryingState {
  readonly boards: Pages<BoardView>;
  readonly waiting: ReadonlySignal<readonly WaitingJob[] | null>;
  readonly task: Task;
  /** Pieces that rest or cure, over all open jobs. */
  loadWaiting(): Promise<boolean>;
}

export function makeDrying(api: YardApi, shell: Shell): DryingState {
  const waiting = signal<readonly WaitingJob[] | null>(null);
  const task = makeTask();
  const boards = makePages<BoardView>('Reading the stock', async (after, take, stop) =>
    taken(
      await api.call('listBoards', {
        stop,
        query: { state: 'in-stock', limit: 200, ...(after === undefined ? {} : { after }) },
      }),
      take,
    ),
  );
  return {
    boards,
    waiting,
    task,
    loadWaiting: () =>
      task.run('Reading the open jobs', async (stop) => {
        const list = await api.call('listJobs', { stop, query: { state: 'open' } });
        if (!list.ok) return taken(list, () => {});
        const jobs = await Promise.all(
          list.answer.items
            .filter(
              (job) =>
                (job.standing.pieces.roughed ?? 0) +
                  (job.standing.layers.roughed ?? 0) +
                  (job.standing.pieces['glued-up'] ?? 0) >
                0,
            )
            .map((job) => api.call('readJob', { stop, path: { id: job.id } })),
        );
        const failed = jobs.find((result) => !result.ok);
        if (failed !== undefined && !failed.ok) return taken(failed, () => {});
        waiting.value = jobs.flatMap((result) =>
          result.ok ? [{ job: result.answer, work: workOf(result.answer, shell.today(), shell.nowMs()) }] : [],
        );
        return null;
      }),
  };
}

export const lastReading = (board: Pick<BoardView, 'readings'>): Reading | null => latestReading(board.readings);

/** The most demanding use that the board's last reading allows, by the shop's own figures. */
export const readiness = (board: Pick<BoardView, 'readings'>, moistureMax: Settings['moistureMax']): DryFor =>
  dryFor(lastReading(board)?.moisturePercent ?? null, moistureMax);
