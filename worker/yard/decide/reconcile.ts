/**
 * What really came out of the boards, entered against the plan: all boards named, or none. Each board's wood must
 * balance; the session ends with its last board, the plan with its last planned piece.
 */
import type { Board } from '../../contract/board.ts';
import type { Change } from '../../contract/movement.ts';
import type { Layout, Plan } from '../../contract/plan.ts';
import type { Fault } from '../../contract/problem.ts';
import type { BoardOutcome, Session, WoodBalance } from '../../contract/session.ts';
import { changed, removed } from '../change.ts';
import type { Occasion, Refusal } from '../command.ts';
import { type CommandOf, type Decision, moved, notThere, type Refused, refused } from '../decision.ts';
import { type YardReader, yardSettings } from '../state.ts';
import { counted, listed } from '../words.ts';
import { jobName } from './holds.ts';
import { PartsAtWork } from './parts-at-work.ts';
import { planStep } from './plans.ts';
import { type Entry, enterBoard } from './reconcile-board.ts';
import { wantedAgain } from './wanted-again.ts';

/** The boards spoken of, each once, each still open in this session. */
function outcomesFor(
  session: Session,
  command: CommandOf<'reconcile'>,
): { readonly outcomes: readonly BoardOutcome[]; readonly faults: readonly Fault[] } {
  const open = new Set(session.boardIds.filter((id) => !session.doneBoardIds.includes(id)));
  const faults: Fault[] = [];
  const named = new Set<string>();
  for (const [at, { boardId }] of command.boards.entries()) {
    const fault = (help: string) => faults.push({ pointer: `/boards/${at}/boardId`, row: at, read: boardId, help });
    if (named.has(boardId)) fault('this board stands here twice');
    else if (session.doneBoardIds.includes(boardId)) fault('this board is written down already');
    else if (!open.has(boardId)) fault('this board is not in this session');
    named.add(boardId);
  }
  const rest = command.restAsPlanned ? [...open].filter((id) => !named.has(id)) : [];
  const asPlanned = rest.map((boardId): BoardOutcome => ({ as: 'planned', boardId, place: '' }));
  return { outcomes: [...command.boards, ...asPlanned], faults };
}

/** Several refusals as one: the first gives its name, all give their facts. */
function together(refusals: readonly Refusal[]): Refused | null {
  const [first] = refusals;
  if (!first) return null;
  const faults = refusals.flatMap((refusal) => refusal.faults ?? []);
  const conflicts = refusals.flatMap((refusal) => refusal.conflicts ?? []);
  return refused(first.why, refusals.map((refusal) => refusal.detail).join(' '), {
    ...(faults.length > 0 ? { faults } : {}),
    ...(conflicts.length > 0 ? { conflicts } : {}),
  });
}

function boardAndLayout(state: YardReader, plan: Plan, boardId: string): { board: Board; layout: Layout } {
  const board = state.get('board', boardId);
  const layout = plan.layouts.find((each) => each.boardId === boardId);
  if (!board || !layout) throw new Error(`session board ${boardId} is not in its plan`);
  return { board, layout };
}

/** The plan ends when nothing of it is planned any more and nobody is at the saw with it; what it still holds is free. */
function planEnd(
  state: YardReader,
  plan: Plan,
  session: Session,
  sessionCloses: boolean,
  parts: PartsAtWork,
  changes: readonly Change[],
): readonly Change[] {
  const others = state.sessionsOfPlan(plan.id).some((other) => other.id !== session.id && other.state === 'open');
  if (!sessionCloses || others || parts.plannedCount(plan.id) > 0) return [];
  const spoken = new Set(changes.flatMap((change) => (change.entity === 'reservation' ? [change.id] : [])));
  const held = state.reservationsOfPlan(plan.id).filter((reservation) => !spoken.has(reservation.id));
  return [...held.map((reservation) => removed('reservation', reservation.id, reservation)), ...planStep(plan, 'done')];
}

function summaryOf(name: string, all: readonly Entry[]): string {
  const entries = all.filter((entry) => !entry.isUntouched);
  const leftAlone = listed(all.filter((entry) => entry.isUntouched).map((entry) => entry.tag));
  if (entries.length === 0) return `Not touched for ${name}: ${leftAlone}`;
  const good = entries.reduce((sum, entry) => sum + entry.good, 0);
  const failed = entries.reduce((sum, entry) => sum + entry.failed, 0);
  const offcuts = entries.reduce((sum, entry) => sum + entry.offcuts.length, 0);
  const tags = listed(entries.map((entry) => entry.tag));
  const parts = [
    `${counted(good, 'piece')} good`,
    ...(failed > 0 ? [`${failed} failed`] : []),
    counted(offcuts, 'offcut'),
  ];
  const cameOut = `What came out for ${name}, ${tags}: ${parts.join(', ')}`;
  return leftAlone === '' ? cameOut : `${cameOut}; not touched: ${leftAlone}`;
}

export function reconcile(state: YardReader, command: CommandOf<'reconcile'>, occasion: Occasion): Decision {
  const session = state.get('session', command.sessionId);
  if (!session) return notThere('cutting session', command.sessionId);
  if (session.state === 'closed')
    return refused('session-closed', 'This session is closed: all of its boards are written down.');
  const plan = state.get('plan', session.planId);
  if (!plan) throw new Error(`session ${session.id} has lost its plan`);
  const { outcomes, faults } = outcomesFor(session, command);
  if (faults.length > 0)
    return refused('invalid-input', 'Not every board named can be written down; nothing was entered.', { faults });
  if (outcomes.length === 0)
    return refused('invalid-input', 'Say what became of at least one board, or take the rest as planned.');

  const parts = new PartsAtWork(state, session.jobId);
  const before = new PartsAtWork(state, session.jobId);
  const freed = new Set(outcomes.flatMap((outcome) => (outcome.as === 'untouched' ? [] : [outcome.boardId])));
  const work = {
    state,
    occasion,
    plan,
    session,
    parts,
    book: { taken: new Set<string>(), freed },
    restDays: yardSettings(state).restDays,
    allowExtra: command.allowExtra,
  };
  const refusals: Refusal[] = [];
  const entries: Entry[] = [];
  for (const [at, outcome] of outcomes.entries()) {
    const { board, layout } = boardAndLayout(state, plan, outcome.boardId);
    const entered = enterBoard(work, board, layout, outcome, `/boards/${at}`);
    if ('refusal' in entered) refusals.push(entered.refusal);
    else entries.push(entered);
    // What is still to come from a board that was not cut stays planned on it.
    if (outcome.as !== 'untouched') parts.unplanAll(plan.id, (boardId) => boardId === board.id);
  }
  const refusal = together(refusals);
  if (refusal) return refusal;

  const doneBoardIds = [...session.doneBoardIds, ...outcomes.map((outcome) => outcome.boardId)];
  const closes = session.boardIds.every((id) => doneBoardIds.includes(id));
  const boardChanges = [...entries.flatMap((entry) => entry.ends), ...entries.flatMap((entry) => entry.begins)];
  const changes = [
    ...boardChanges,
    ...parts.changes(),
    ...changed('session', session.id, session, { doneBoardIds, ...(closes ? { state: 'closed' as const } : {}) }),
    ...planEnd(state, plan, session, closes, parts, boardChanges),
  ];
  const balances = entries.flatMap((entry): WoodBalance[] => (entry.balance ? [entry.balance] : []));
  const name = jobName(state, session.jobId);
  return moved(
    { kind: 'reconciled', jobId: session.jobId, summary: summaryOf(name, entries), changes, balances },
    {
      jobId: session.jobId,
      planId: plan.id,
      sessionId: session.id,
      balances,
      offcuts: entries.flatMap((entry) => entry.offcuts),
      wantedAgain: wantedAgain(before, parts),
      notes: entries.flatMap((entry) => entry.notes),
    },
  );
}
