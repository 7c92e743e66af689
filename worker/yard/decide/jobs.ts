/** Opening a job, and changing it. A job that is done or cancelled holds nothing. */
import type { Job } from '../../contract/job.ts';
import type { Change } from '../../contract/movement.ts';
import { changed, created, removed } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type CommandOf, type Decision, moved, notThere, type Refused, refused } from '../decision.ts';
import type { YardReader } from '../state.ts';
import { counted } from '../words.ts';
import { boardConflict } from './holds.ts';
import { PartsAtWork } from './parts-at-work.ts';

export function openJob(command: CommandOf<'open-job'>, occasion: Occasion): Decision {
  const id = occasion.newId('jb');
  const changes = [created('job', id, { ...command.draft, id, state: 'open', revision: 0 })];
  return moved(
    { kind: 'job-opened', jobId: id, summary: `Opened the job ${command.draft.name}`, changes },
    { jobId: id },
  );
}

/** The job, if work may still be done for it. */
export function openJobOf(state: YardReader, jobId: string): { readonly job: Job } | Refused {
  const job = state.get('job', jobId);
  if (!job) return notThere('job', jobId);
  if (job.state !== 'open') {
    return refused('job-not-open', `The job ${job.name} is ${job.state}. Open it again to go on with it.`);
  }
  return { job };
}

function planState(id: string, was: string, now: string): Change {
  return { entity: 'plan', id, was: { state: was }, now: { state: now } };
}

/** What a closing job lets go: its holds, its plans, the pieces that were planned. */
function letGo(
  state: YardReader,
  job: Job,
): { readonly changes: readonly Change[]; readonly notes: readonly string[] } {
  const held = state.reservationsOfJob(job.id);
  const plans = state.plansOfJob(job.id).filter((plan) => plan.state !== 'done' && plan.state !== 'dropped');
  const parts = new PartsAtWork(state, job.id);
  for (const plan of plans) parts.unplanAll(plan.id);
  const notes = held.length > 0 ? [`Released ${counted(held.length, 'reservation')}.`] : [];
  return {
    changes: [
      ...held.map((reservation) => removed('reservation', reservation.id, reservation)),
      ...plans.map((plan) => planState(plan.id, plan.state, plan.state === 'cutting' ? 'done' : 'dropped')),
      ...parts.changes(),
    ],
    notes,
  };
}

export function changeJob(state: YardReader, command: CommandOf<'change-job'>): Decision {
  const job = state.get('job', command.jobId);
  if (!job) return notThere('job', command.jobId);
  if (job.version !== command.ifVersion) {
    return refused(
      'version-stale',
      `The job ${job.name} was changed since you read it. Read it again and repeat the change.`,
    );
  }
  const closes = job.state === 'open' && command.patch.state !== undefined && command.patch.state !== 'open';
  const atTheSaw = state.sessionsOfJob(job.id).filter((session) => session.state === 'open');
  if (closes && atTheSaw.length > 0) {
    const boards = atTheSaw.flatMap((session) => session.boardIds.filter((id) => !session.doneBoardIds.includes(id)));
    return refused(
      'board-held',
      `Boards of ${job.name} are at the saw. Write down what came out, then close the job.`,
      {
        conflicts: boards.map((id) =>
          boardConflict(
            { id, tag: state.get('board', id)?.tag ?? id },
            'write down what came out of it, or that it was not touched',
          ),
        ),
      },
    );
  }
  const closing = closes ? letGo(state, job) : { changes: [], notes: [] };
  const changes = [...closing.changes, ...changed('job', job.id, job, command.patch)];
  const words = closes
    ? `The job ${job.name} is ${command.patch.state}`
    : `Changed the job ${command.patch.name ?? job.name}`;
  return moved(
    { kind: 'job-changed', jobId: job.id, summary: words, changes },
    { jobId: job.id, notes: closing.notes },
  );
}
