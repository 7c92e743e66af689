/** The jobs, the one in front, its takeoff, and the steps of its pieces outside the saw. The other screens follow this job. */
import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { JobView, JobWithParts, PieceStep } from '../../../worker/contract/job.ts';
import type { Takeoff } from '../../../worker/contract/takeoff.ts';
import type { YardApi } from '../api.ts';
import { count } from '../words/measure.ts';
import { keptHere, type Outbox, takenOrKept } from './outbox.ts';
import { makePages, type Pages } from './pages.ts';
import type { Shell } from './shell.ts';
import { isStale, makeTask, type Task, taken } from './task.ts';

export interface JobState {
  readonly jobs: Pages<JobView>;
  readonly openId: ReadonlySignal<string | null>;
  readonly job: ReadonlySignal<JobWithParts | null>;
  readonly takeoff: ReadonlySignal<Takeoff | null>;
  /** The yard was changed from here since the takeoff was read: stock was cut, held or taken in. */
  readonly isTakeoffOld: ReadonlySignal<boolean>;
  /** Reading the job in front. */
  readonly reading: Task;
  readonly takingOff: Task;
  readonly writing: Task;
  /** The jobs anew, and the job in front: the one opened last, or the only one there is. */
  load(): Promise<void>;
  open(id: string | null): Promise<boolean>;
  start(draft: { readonly name: string; readonly dueOn: string | null }): Promise<boolean>;
  setCutList(parts: readonly unknown[], allOrNothing: boolean): Promise<boolean>;
  takeOff(): Promise<boolean>;
  /** Takeoff of rows that are not (yet) a job's cut list. */
  takeOffRows(parts: readonly unknown[]): Promise<boolean>;
  move(steps: readonly PieceStep[], said: string): Promise<boolean>;
  finish(state: 'done' | 'cancelled' | 'open'): Promise<boolean>;
}

export function makeJobState(api: YardApi, shell: Shell, outbox: Outbox): JobState {
  const openId = signal<string | null>(null);
  const job = signal<JobWithParts | null>(null);
  const takeoff = signal<Takeoff | null>(null);
  /** The count of changes that it was asked at. */
  const takenOffAt = signal(0);
  const isTakeoffOld = computed(() => takeoff.value !== null && takenOffAt.value !== shell.changes.value);
  const reading = makeTask();
  const takingOff = makeTask();
  const writing = makeTask();
  const jobs = makePages<JobView>('Reading the jobs', async (after, take, stop) =>
    taken(await api.call('listJobs', { stop, query: after === undefined ? {} : { after } }), take),
  );

  const read = (id: string) =>
    reading.run('Reading the job', async (stop) => {
      const result = await api.call('readJob', { stop, path: { id } });
      if (openId.value !== id) return null;
      return taken(result, (answer) => {
        job.value = answer;
      });
    });

  /** What another changed in the job meanwhile is not written over. */
  const asRead = (id: string) => (job.value?.id === id ? { version: job.value.version } : {});

  async function open(id: string | null): Promise<boolean> {
    if (id !== openId.value) {
      openId.value = id;
      job.value = null;
      takeoff.value = null;
      takingOff.clear();
      writing.clear();
    }
    return id === null ? true : read(id);
  }

  return {
    jobs,
    openId,
    job,
    takeoff,
    isTakeoffOld,
    reading,
    takingOff,
    writing,
    open,
    async load() {
      await jobs.load();
      const only = (jobs.items.value ?? []).filter((item) => item.state === 'open');
      const first = openId.value ?? (only.length === 1 ? (only[0]?.id ?? null) : null);
      if (first !== null) await open(first);
    },
    async start(draft) {
      let id: string | null = null;
      const done = await writing.run('Opening the job', async (stop) =>
        taken(await api.call('openJob', { stop, body: { name: draft.name, dueOn: draft.dueOn } }), (answer) => {
          id = answer.id;
          shell.say(`Job “${answer.name}” is open.`);
        }),
      );
      if (!done || id === null) return false;
      await Promise.all([jobs.load(), open(id)]);
      return true;
    },
    async setCutList(parts, allOrNothing) {
      const id = openId.value;
      if (id === null) return false;
      const done = await writing.run('Setting the cut list', async (stop) =>
        taken(
          await api.call('setCutList', {
            stop,
            path: { id },
            ...asRead(id),
            body: { parts: [...parts], allOrNothing },
          }),
          (answer) => {
            job.value = answer.job;
            takeoff.value = null;
            shell.say(`${count(answer.job.parts.length, 'part')} on the cut list.`);
          },
        ),
      );
      if (done || isStale(writing.trouble.value)) shell.changed();
      return done;
    },
    takeOff: () =>
      takingOff.run('Taking off the cut list', async (stop) => {
        const id = openId.value;
        if (id === null) return { kind: 'told', help: 'Choose a job first.' };
        const at = shell.changes.value;
        return taken(await api.call('takeoffJob', { stop, path: { id } }), (answer) => {
          takeoff.value = answer;
          takenOffAt.value = at;
          shell.say('The takeoff is ready.');
        });
      }),
    takeOffRows: (parts) =>
      takingOff.run('Taking off the rows', async (stop) => {
        const at = shell.changes.value;
        return taken(await api.call('takeoffParts', { stop, body: { parts: [...parts] } }), (answer) => {
          takeoff.value = answer;
          takenOffAt.value = at;
          shell.say('The takeoff is ready.');
        });
      }),
    async move(steps, said) {
      const id = openId.value;
      if (id === null) return false;
      const done = await writing.run('Writing it down', async (stop) =>
        takenOrKept(
          await outbox.submit(
            {
              route: 'movePieces',
              pathId: id,
              body: { steps: [...steps] },
              what: `${job.value?.name ?? 'Job'}: ${said}`,
              about: [],
            },
            stop,
          ),
          (answer) => {
            job.value = answer;
            shell.say(said);
          },
          () => shell.say(keptHere),
        ),
      );
      if (done) shell.changed();
      return done;
    },
    async finish(state) {
      const now = job.value;
      if (now === null) return false;
      const done = await writing.run('Writing it down', async (stop) =>
        taken(
          await api.call('changeJob', { stop, path: { id: now.id }, version: now.version, body: { state } }),
          () => {
            shell.say(
              state === 'open'
                ? 'The job is open again.'
                : state === 'done'
                  ? 'The job is done.'
                  : 'The job is cancelled.',
            );
          },
        ),
      );
      if (done) {
        shell.changed();
        await Promise.all([jobs.load(), read(now.id)]);
      }
      return done;
    },
  };
}
