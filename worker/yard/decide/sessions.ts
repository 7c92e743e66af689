/** Going to the saw with a reserved plan: with all of its boards that are still held, or with some. */
import type { Fault } from '../../contract/problem.ts';
import { created } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type CommandOf, changedSince, type Decision, moved, notThere, refused } from '../decision.ts';
import type { YardReader } from '../state.ts';
import { counted, listed } from '../words.ts';
import { boardConflict } from './holds.ts';
import { openJobOf } from './jobs.ts';
import { planStep } from './plans.ts';

export function openSession(state: YardReader, command: CommandOf<'open-session'>, occasion: Occasion): Decision {
  const plan = state.get('plan', command.planId);
  if (!plan) return notThere('plan', command.planId);
  const stale = changedSince(command.ifVersion, plan.version, 'This plan went on');
  if (stale) return stale;
  const open = openJobOf(state, plan.jobId);
  if ('ok' in open) return open;
  const { job } = open;
  if (plan.state !== 'reserved' && plan.state !== 'cutting') {
    const help = plan.state === 'draft' ? 'Hold its boards first.' : 'Make a new plan.';
    return refused('plan-not-open', `This plan is ${plan.state === 'draft' ? 'only a draft' : plan.state}. ${help}`);
  }
  const held = new Set(state.reservationsOfPlan(plan.id).map((reservation) => reservation.boardId));
  const sessions = state.sessionsOfPlan(plan.id);
  const spoken = new Set(sessions.flatMap((session) => (session.state === 'open' ? session.boardIds : [])));
  const ready = plan.layouts.filter((layout) => held.has(layout.boardId) && !spoken.has(layout.boardId));
  const readyIds = new Set(ready.map((layout) => layout.boardId));
  const wanted = command.boardIds ?? [...readyIds];
  const faults = wanted.flatMap((boardId, at): Fault[] => {
    if (readyIds.has(boardId)) return [];
    const help = spoken.has(boardId) ? 'it is in another session' : 'it is not a board that this plan holds';
    return [{ pointer: `/boardIds/${at}`, row: at, read: state.get('board', boardId)?.tag ?? boardId, help }];
  });
  if (faults.length > 0)
    return refused('invalid-input', 'Not every board can go to the saw with this plan.', { faults });
  const boardIds = [...new Set(wanted)];
  if (boardIds.length === 0) {
    return refused('nothing-to-cut', 'Every board of this plan is cut, at the saw, or released.');
  }
  const remeasured = ready.flatMap((layout) => {
    const board = state.get('board', layout.boardId);
    if (!board || !boardIds.includes(board.id)) return [];
    const same =
      board.lengthNm === layout.lengthNm &&
      board.widthNm === layout.widthNm &&
      board.thicknessNm === layout.thicknessNm;
    return same ? [] : [boardConflict(board, 'it was measured anew since the plan; drop the plan and plan again')];
  });
  if (remeasured.length > 0) {
    const tags = listed(remeasured.map((conflict) => conflict.tag));
    return refused('boards-changed', `No longer the size that was planned on: ${tags}.`, { conflicts: remeasured });
  }
  const id = occasion.newId('cs');
  const session = {
    id,
    jobId: job.id,
    planId: plan.id,
    boardIds,
    state: 'open' as const,
    openedAtMs: occasion.atMs,
    doneBoardIds: [],
  };
  const tags = listed(ready.filter((layout) => boardIds.includes(layout.boardId)).map((layout) => layout.tag));
  const changes = [created('session', id, session), ...planStep(plan, 'cutting')];
  const summary = `To the saw for ${job.name}: ${counted(boardIds.length, 'board')}, ${tags}`;
  return moved(
    { kind: 'session-opened', jobId: job.id, summary, changes },
    { jobId: job.id, planId: plan.id, sessionId: id },
  );
}
