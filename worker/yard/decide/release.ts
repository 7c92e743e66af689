/** Letting held wood go. What is at the saw cannot be released; it is reconciled. */
import type { Change } from '../../contract/movement.ts';
import type { Conflict, Fault } from '../../contract/problem.ts';
import type { Reservation } from '../../contract/session.ts';
import { removed } from '../change.ts';
import { type CommandOf, type Decision, moved, refused } from '../decision.ts';
import type { YardReader } from '../state.ts';
import { counted, listed } from '../words.ts';
import { heldConflict } from './holds.ts';
import { PartsAtWork } from './parts-at-work.ts';

/** Pieces planned on a released board are wanted again; a plan that holds nothing any more is a draft again. */
function plansAfter(
  state: YardReader,
  released: readonly Reservation[],
): { readonly changes: readonly Change[]; readonly notes: readonly string[] } {
  const changes: Change[] = [];
  const notes: string[] = [];
  const planIds = [...new Set(released.flatMap((held) => held.planId ?? []))];
  const partsByJob = new Map<string, PartsAtWork>();
  for (const planId of planIds) {
    const ofPlan = released.filter((held) => held.planId === planId);
    const jobId = ofPlan[0]?.jobId ?? '';
    const parts = partsByJob.get(jobId) ?? new PartsAtWork(state, jobId);
    partsByJob.set(jobId, parts);
    const boardIds = new Set(ofPlan.map((held) => held.boardId));
    const count = parts.unplanAll(planId, (boardId) => boardId !== null && boardIds.has(boardId));
    if (count > 0) notes.push(`${counted(count, 'piece')} planned on them ${count === 1 ? 'is' : 'are'} wanted again.`);
    if (state.reservationsOfPlan(planId).length === ofPlan.length) {
      changes.push({ entity: 'plan', id: planId, was: { state: 'reserved' }, now: { state: 'draft' } });
    }
  }
  for (const parts of partsByJob.values()) changes.push(...parts.changes());
  return { changes, notes };
}

export function release(state: YardReader, command: CommandOf<'release'>): Decision {
  const faults: Fault[] = [];
  const conflicts: Conflict[] = [];
  const released: Reservation[] = [];
  const seen = new Set<string>();
  for (const [at, id] of command.ids.entries()) {
    if (seen.has(id)) continue;
    seen.add(id);
    const held = state.get('reservation', id);
    const board = held && state.get('board', held.boardId);
    if (!held || !board) {
      faults.push({
        pointer: `/ids/${at}`,
        row: at,
        read: id,
        help: 'no such reservation; it may have been released already',
      });
    } else if (held.planId !== null && state.get('plan', held.planId)?.state === 'cutting') {
      conflicts.push(heldConflict(state, board, held, 'write down what came out of it, or drop the rest of the plan'));
    } else released.push(held);
  }
  if (faults.length > 0)
    return refused('not-found', 'Not every reservation is there; none was released.', { faults, conflicts });
  if (conflicts.length > 0) {
    const tags = listed(conflicts.map((conflict) => conflict.tag));
    return refused('board-held', `Being cut: ${tags}. None was released.`, { conflicts });
  }
  const after = plansAfter(state, released);
  const changes = [...released.map((held) => removed('reservation', held.id, held)), ...after.changes];
  const tags = listed([...new Set(released.map((held) => state.get('board', held.boardId)?.tag ?? held.boardId))]);
  const jobIds = new Set(released.map((held) => held.jobId));
  const jobId = jobIds.size === 1 ? (released[0]?.jobId ?? null) : null;
  const reservationIds = released.map((held) => held.id);
  return moved(
    { kind: 'released', jobId, summary: `Released ${tags}`, changes },
    { reservationIds, notes: after.notes },
  );
}
