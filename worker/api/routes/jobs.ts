/** Routes of jobs, cut lists, pieces and takeoff. */
import type { JobView, JobWithParts } from '../../contract/job.ts';
import type { Takeoff } from '../../contract/takeoff.ts';
import { takeoff } from '../../takeoff/takeoff.ts';
import { readPartRows } from '../rows.ts';
import { type Asking, good, type Handler, type Outcome, refuse } from '../serve.ts';
import { pageAsk } from './boards.ts';
import { shopBook } from './wood-call.ts';

export const noJob = refuse('not-found', 'There is no such job in this yard.');

async function jobWithParts(call: Asking, jobId: string): Promise<Outcome<JobWithParts>> {
  const found = await call.ask('job', { jobId });
  if (!found.ok) return found;
  return found.value ? good(found.value) : noJob;
}

async function jobView(call: Asking, jobId: string): Promise<Outcome<JobView>> {
  const job = await jobWithParts(call, jobId);
  if (!job.ok) return job;
  const { parts: _, ...view } = job.value;
  return good(view);
}

const openJob: Handler<'openJob'> = async (call) => {
  const told = await call.tell({ do: 'open-job', draft: call.body });
  return told.ok ? jobView(call, told.value.jobId ?? '') : told;
};

const listJobs: Handler<'listJobs'> = async (call) => {
  const page = await call.ask('jobs', { state: call.query.state, page: pageAsk(call.query) });
  if (!page.ok) return page;
  return good({ items: [...(page.value?.items ?? [])], next: page.value?.next ?? null });
};

const readJob: Handler<'readJob'> = (call) => jobWithParts(call, call.path.id ?? '');

const changeJob: Handler<'changeJob'> = async (call) => {
  const jobId = call.path.id ?? '';
  const told = await call.tell({ do: 'change-job', jobId, ifVersion: call.version, patch: call.body });
  return told.ok ? jobView(call, jobId) : told;
};

const setCutList: Handler<'setCutList'> = async (call) => {
  const jobId = call.path.id ?? '';
  const book = await shopBook(call);
  if (!book.ok) return book;
  const read = readPartRows(call.body.parts, book.value);
  const told = await call.tell({
    do: 'set-cut-list',
    jobId,
    parts: read.parts,
    faults: read.faults,
    allOrNothing: call.body.allOrNothing,
    ifVersion: call.version,
  });
  if (!told.ok) return told;
  const job = await jobWithParts(call, jobId);
  if (!job.ok) return job;
  return good({ job: job.value, faults: [...(told.value.faults ?? [])], notes: [...(told.value.notes ?? [])] });
};

const movePieces: Handler<'movePieces'> = async (call) => {
  const jobId = call.path.id ?? '';
  const told = await call.tell({ do: 'move-pieces', jobId, steps: call.body.steps });
  return told.ok ? jobWithParts(call, jobId) : told;
};

const takeoffParts: Handler<'takeoffParts'> = async (call) => {
  const book = await shopBook(call);
  if (!book.ok) return book;
  const read = readPartRows(call.body.parts, book.value);
  if (read.faults.length > 0)
    return refuse('invalid-input', 'Some rows cannot be read; nothing was worked out.', read.faults);
  const snapshot = await call.ask('snapshot', {
    jobIds: [],
    boards: {
      which: 'of-parts',
      parts: read.parts.map(({ species, lengthNm, thicknessNm, lamination }) => ({
        species,
        lengthNm,
        thicknessNm,
        lamination,
      })),
    },
  });
  if (!snapshot.ok) return snapshot;
  if (!snapshot.value) return noJob;
  return good(
    takeoff({ parts: read.parts, boards: snapshot.value.boards, settings: snapshot.value.settings, jobId: null }),
  );
};

async function takeoffOf(call: Asking, jobId: string): Promise<Outcome<Takeoff>> {
  const snapshot = await call.ask('snapshot', { jobIds: [jobId], boards: { which: 'of-jobs', alsoIds: [] } });
  if (!snapshot.ok) return snapshot;
  const job = snapshot.value?.jobs[0];
  if (!snapshot.value || !job) return noJob;
  return good(takeoff({ parts: job.parts, boards: snapshot.value.boards, settings: snapshot.value.settings, jobId }));
}

const takeoffJob: Handler<'takeoffJob'> = (call) => takeoffOf(call, call.path.id ?? '');

const jobStatus: Handler<'jobStatus'> = async (call) => {
  const [job, needs] = await Promise.all([jobWithParts(call, call.path.id ?? ''), takeoffOf(call, call.path.id ?? '')]);
  if (!job.ok) return job;
  if (!needs.ok) return needs;
  const groups = new Map(needs.value.groups.map((group) => [`${group.species} ${group.thicknessCall}`, group]));
  const wanted = new Set(
    job.value.parts.flatMap((part) => (part.pieces.some((piece) => piece.state === 'wanted') ? part.key : [])),
  );
  const short = needs.value.rows
    .filter((row) => wanted.has(row.key))
    .flatMap((row) =>
      [...new Set(row.blanks.map((blank) => blank.thicknessCall))].flatMap((thicknessCall) => {
        const group = groups.get(`${row.species} ${thicknessCall}`);
        const boardFeet = row.blanks
          .filter((blank) => blank.thicknessCall === thicknessCall)
          .reduce((sum, blank) => sum + blank.short.boardFeet, 0);
        if (group === undefined || boardFeet <= 0) return [];
        return [{ key: row.key, speciesName: group.speciesName, thicknessCall, boardFeet }];
      }),
    );
  return good({ job: job.value, short });
};

export const jobHandlers = {
  openJob,
  listJobs,
  readJob,
  changeJob,
  setCutList,
  movePieces,
  takeoffParts,
  takeoffJob,
  jobStatus,
};
