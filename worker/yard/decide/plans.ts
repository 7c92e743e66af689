/** Keeping a cut plan that was made on a snapshot, and dropping one. A plan is kept only if the yard is still as it was planned on. */
import type { Change } from '../../contract/movement.ts';
import type { PlanBody } from '../../contract/plan.ts';
import type { Conflict } from '../../contract/problem.ts';
import { created, removed } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type CommandOf, changedSince, type Decision, moved, notThere, refused } from '../decision.ts';
import type { PlanHead, YardReader } from '../state.ts';
import { counted, listed } from '../words.ts';
import { boardConflict } from './holds.ts';
import { openJobOf } from './jobs.ts';
import { PartsAtWork } from './parts-at-work.ts';

export function planStep(plan: Pick<PlanHead, 'id' | 'state'>, now: PlanHead['state']): readonly Change[] {
  if (plan.state === now) return [];
  return [{ entity: 'plan', id: plan.id, was: { state: plan.state }, now: { state: now } }];
}

/** Boards of the plan that are gone, or whose facts changed since it was planned. */
export function boardsChangedSince(state: YardReader, plan: PlanBody): readonly Conflict[] {
  return plan.layouts.flatMap((layout): Conflict[] => {
    const board = state.get('board', layout.boardId);
    if (!board)
      return [boardConflict({ id: layout.boardId, tag: layout.tag }, 'it is no longer in the yard; plan again')];
    if (board.state !== 'in-stock') return [boardConflict(board, 'it is no longer in stock; plan again')];
    if (board.version === plan.boardVersions[board.id]) return [];
    return [boardConflict(board, 'it was corrected or read since the plan was made; plan again')];
  });
}

/** Boards of a plan that are at the saw now. */
export function boardsAtTheSaw(state: YardReader, planId: string): ReadonlySet<string> {
  const open = state.sessionsOfPlan(planId).filter((session) => session.state === 'open');
  return new Set(open.flatMap((session) => session.boardIds.filter((id) => !session.doneBoardIds.includes(id))));
}

/** Pieces of the plan that are no longer wanted as planned. Those that `earlierId` plans are its own to take; null: none are. */
export function piecesNoLongerWanted(parts: PartsAtWork, plan: PlanBody, earlierId: string | null): readonly string[] {
  return plan.layouts
    .flatMap((layout) => layout.pieces)
    .filter((placed) => {
      const piece = parts.current(placed.partKey, placed.no, placed.element);
      const isFree = piece?.state === 'wanted' || (piece?.state === 'planned' && piece.planId === earlierId);
      return !isFree || piece?.attempt !== placed.attempt;
    })
    .map((placed) => `${placed.label} no. ${placed.no}`);
}

export function keepPlan(state: YardReader, command: CommandOf<'keep-plan'>, occasion: Occasion): Decision {
  const { plan } = command;
  const open = openJobOf(state, plan.jobId);
  if ('ok' in open) return open;
  const { job } = open;
  if (plan.jobRevision !== job.revision) {
    return refused('boards-changed', `The cut list of ${job.name} was set anew while the plan was made. Plan again.`);
  }
  const conflicts = boardsChangedSince(state, plan);
  if (conflicts.length > 0) {
    const tags = listed(conflicts.map((conflict) => conflict.tag));
    return refused('boards-changed', `Changed while the plan was made: ${tags}. Plan again.`, { conflicts });
  }
  if (plan.continues !== null && state.get('plan', plan.continues)?.jobId !== job.id) {
    return refused('plan-not-open', `The plan that this one continues is not one of ${job.name}.`);
  }
  const gone = piecesNoLongerWanted(new PartsAtWork(state, job.id), plan, plan.continues);
  if (gone.length > 0) {
    return refused('piece-not-there', `No longer wanted as planned: ${listed(gone)}. Plan again.`);
  }
  const id = occasion.newId('pl');
  const drafts = state.plansOfJob(job.id).filter((other) => other.state === 'draft');
  const changes = [
    ...drafts.flatMap((draft) => planStep(draft, 'dropped')),
    created('plan', id, { ...plan, id, state: 'draft', madeAtMs: occasion.atMs }),
  ];
  const summary = `Planned ${job.name}: ${plan.placedCount} of ${counted(plan.wantedCount, 'piece')} from ${counted(plan.layouts.length, 'board')}`;
  return moved({ kind: 'plan-kept', jobId: job.id, summary, changes }, { jobId: job.id, planId: id });
}

/** A plan that was partly cut is done with what it has; the rest of its wood is free again. */
export function dropPlan(state: YardReader, command: CommandOf<'drop-plan'>): Decision {
  const plan = state.get('plan', command.planId);
  if (!plan) return notThere('plan', command.planId);
  const stale = changedSince(command.ifVersion, plan.version, 'This plan went on');
  if (stale) return stale;
  if (plan.state === 'done' || plan.state === 'dropped') {
    return refused('plan-not-open', `This plan is ${plan.state} already.`);
  }
  const atTheSaw = state.sessionsOfPlan(plan.id).filter((session) => session.state === 'open');
  if (atTheSaw.length > 0) {
    return refused(
      'plan-not-open',
      'This plan is at the saw. Write down what came out first; boards left alone are entered as not touched.',
    );
  }
  const held = state.reservationsOfPlan(plan.id);
  const parts = new PartsAtWork(state, plan.jobId);
  const count = parts.unplanAll(plan.id);
  const changes = [
    ...held.map((reservation) => removed('reservation', reservation.id, reservation)),
    ...parts.changes(),
    ...planStep(plan, plan.state === 'cutting' ? 'done' : 'dropped'),
  ];
  const name = state.get('job', plan.jobId)?.name ?? plan.jobId;
  const notes = count > 0 ? [`${counted(count, 'piece')} ${count === 1 ? 'is' : 'are'} wanted again.`] : [];
  const boardCount = new Set(held.map(({ boardId }) => boardId)).size;
  const summary = `Dropped a plan of ${name}${boardCount === 0 ? '' : `: ${counted(boardCount, 'board')} released`}`;
  return moved(
    { kind: 'plan-dropped', jobId: plan.jobId, summary, changes },
    { jobId: plan.jobId, planId: plan.id, notes },
  );
}
