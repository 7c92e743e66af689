/**
 * Holding what a plan uses: whole boards, as far as no other job holds a run of them, or only the run that its pieces
 * come from where one crosscut at an end frees the rest.
 */
import type { Board } from '../../contract/board.ts';
import type { Change } from '../../contract/movement.ts';
import type { Layout, Plan } from '../../contract/plan.ts';
import type { Conflict } from '../../contract/problem.ts';
import type { Reservation } from '../../contract/session.ts';
import { created, removed } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type CommandOf, changedSince, type Decision, moved, notThere, refused } from '../decision.ts';
import type { YardReader } from '../state.ts';
import { counted, listed } from '../words.ts';
import { heldConflict, heldWords, type Run, runsOverlap } from './holds.ts';
import { openJobOf } from './jobs.ts';
import { PartsAtWork } from './parts-at-work.ts';
import { boardsAtTheSaw, boardsChangedSince, piecesNoLongerWanted, planStep } from './plans.ts';

/** Between the offcuts at the two ends, if those are the board's full width to its very end: a crosscut frees each. */
export function runUsed(layout: Layout): Run {
  if (layout.pieces.length === 0) return { fromNm: 0, toNm: layout.lengthNm };
  const ends = layout.offcuts.filter((rest) => rest.leftNm === 0 && rest.rightNm === layout.widthNm);
  const near = ends.find((rest) => rest.fromNm === 0);
  const far = ends.find((rest) => rest.toNm === layout.lengthNm);
  return { fromNm: near?.toNm ?? 0, toNm: far?.fromNm ?? layout.lengthNm };
}

/** All of the board around the plan's pieces that no other holds: the whole board where nobody does. */
export function freeRunAround(layout: Layout, others: readonly Run[]): Run {
  const { pieces, lengthNm } = layout;
  if (pieces.length === 0) return { fromNm: 0, toNm: lengthNm };
  const firstNm = Math.min(...pieces.map((piece) => piece.fromNm));
  const lastNm = Math.max(...pieces.map((piece) => piece.toNm));
  return {
    fromNm: Math.max(0, ...others.map((held) => held.toNm).filter((endNm) => endNm <= firstNm)),
    toNm: Math.min(lengthNm, ...others.map((held) => held.fromNm).filter((startNm) => startNm >= lastNm)),
  };
}

interface Holding {
  readonly changes: readonly Change[];
  readonly id: string | null;
  readonly conflicts: readonly Conflict[];
  readonly words: readonly string[];
}

const isForeign = (held: Reservation, plan: { readonly jobId: string }) =>
  held.jobId !== plan.jobId || held.planId !== null;

/** Own holds made by hand give way to the plan's, and those that an earlier plan gives up; all others stand in its way. */
function hold(
  state: YardReader,
  board: Board,
  run: Run,
  plan: { id: string; jobId: string },
  givenUp: ReadonlySet<string>,
  occasion: Occasion,
): Holding {
  const inTheWay = state
    .reservationsOnBoard(board.id)
    .filter((held) => !givenUp.has(held.id) && runsOverlap(held, run));
  const foreign = inTheWay.filter((held) => isForeign(held, plan));
  if (foreign.length > 0) {
    return {
      changes: [],
      id: null,
      conflicts: foreign.map((held) =>
        heldConflict(
          state,
          board,
          held,
          held.jobId === plan.jobId ? 'drop the older plan of this job first' : undefined,
        ),
      ),
      words: foreign.map((held) => heldWords(state, board, held)),
    };
  }
  const id = occasion.newId('rs');
  const fromNm = Math.min(run.fromNm, ...inTheWay.map((held) => held.fromNm));
  const toNm = Math.max(run.toNm, ...inTheWay.map((held) => held.toNm));
  const held = { id, jobId: plan.jobId, boardId: board.id, fromNm, toNm, planId: plan.id, madeAtMs: occasion.atMs };
  return {
    changes: [...inTheWay.map((each) => removed('reservation', each.id, each)), created('reservation', id, held)],
    id,
    conflicts: [],
    words: [],
  };
}

interface GivenUp {
  readonly reservationIds: ReadonlySet<string>;
  readonly changes: readonly Change[];
}

/** What the plan that this one continues gives up: all that is not at the saw now. Its pieces are put back first. */
function givenUpBy(state: YardReader, plan: Pick<Plan, 'continues'>, parts: PartsAtWork): GivenUp {
  const before = plan.continues === null ? null : state.get('plan', plan.continues);
  if (before?.state !== 'reserved' && before?.state !== 'cutting') return { reservationIds: new Set(), changes: [] };
  const atTheSaw = boardsAtTheSaw(state, before.id);
  const released = state.reservationsOfPlan(before.id).filter((held) => !atTheSaw.has(held.boardId));
  parts.unplanAll(before.id, (boardId) => boardId === null || !atTheSaw.has(boardId));
  const end = before.state === 'reserved' ? 'dropped' : 'done';
  return {
    reservationIds: new Set(released.map((held) => held.id)),
    changes: [
      ...released.map((held) => removed('reservation', held.id, held)),
      ...planStep(before, atTheSaw.size > 0 ? before.state : end),
    ],
  };
}

export function reservePlan(state: YardReader, command: CommandOf<'reserve-plan'>, occasion: Occasion): Decision {
  const plan = state.get('plan', command.planId);
  if (!plan) return notThere('plan', command.planId);
  const goneOn = changedSince(command.ifVersion, plan.version, 'This plan went on');
  if (goneOn) return goneOn;
  const open = openJobOf(state, plan.jobId);
  if ('ok' in open) return open;
  const { job } = open;
  if (plan.state !== 'draft')
    return refused('plan-not-open', `Only a draft can be reserved; this plan is ${plan.state}.`);
  if (plan.layouts.length === 0)
    return refused('nothing-to-cut', 'This plan cuts nothing, so there is nothing to hold.');
  if (plan.jobRevision !== job.revision) {
    return refused('boards-changed', `The cut list of ${job.name} was set anew since this plan was made. Plan again.`);
  }
  const stale = boardsChangedSince(state, plan);
  if (stale.length > 0) {
    const tags = listed(stale.map((conflict) => conflict.tag));
    return refused('boards-changed', `Changed since the plan was made: ${tags}. Plan again.`, { conflicts: stale });
  }
  const parts = new PartsAtWork(state, job.id);
  const earlier = givenUpBy(state, plan, parts);
  // What the earlier plan gives up is wanted again by now; what it still plans is at the saw.
  const gone = piecesNoLongerWanted(parts, plan, null);
  if (gone.length > 0) return refused('piece-not-there', `No longer wanted as planned: ${listed(gone)}. Plan again.`);
  const holdings = plan.layouts.flatMap((layout): Holding[] => {
    const board = state.get('board', layout.boardId);
    if (!board) return [];
    const givenUp = earlier.reservationIds;
    const others = state.reservationsOnBoard(board.id).filter((held) => !givenUp.has(held.id) && isForeign(held, plan));
    const run = command.how === 'runs' ? runUsed(layout) : freeRunAround(layout, others);
    return [hold(state, board, run, plan, givenUp, occasion)];
  });
  const conflicts = holdings.flatMap((holding) => holding.conflicts);
  if (conflicts.length > 0) {
    const words = listed(holdings.flatMap((holding) => holding.words));
    return refused('board-held', `${words}. None was held: plan again on free boards, or release them.`, { conflicts });
  }
  for (const layout of plan.layouts) {
    for (const placed of layout.pieces) {
      const piece = parts.current(placed.partKey, placed.no, placed.element);
      if (piece) parts.change(placed.partKey, piece, { state: 'planned', boardId: layout.boardId, planId: plan.id });
    }
  }
  const changes = [
    ...earlier.changes,
    ...holdings.flatMap((holding) => holding.changes),
    ...planStep(plan, 'reserved'),
    ...parts.changes(),
  ];
  const summary = `Held ${counted(plan.layouts.length, 'board')} of the plan for ${job.name}: ${listed(plan.layouts.map((layout) => layout.tag))}`;
  const reservationIds = holdings.flatMap((holding) => holding.id ?? []);
  return moved(
    { kind: 'reserved', jobId: job.id, summary, changes },
    { jobId: job.id, planId: plan.id, reservationIds },
  );
}
