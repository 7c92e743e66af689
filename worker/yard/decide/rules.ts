/**
 * What must hold of a yard whatever happened: checked around the things that some changes touched. An undo asks this
 * before it goes ahead, and tests ask it of every board, job and plan.
 */
import type { Change } from '../../contract/movement.ts';
import type { Conflict } from '../../contract/problem.ts';
import type { YardReader } from '../state.ts';
import { tagFold } from '../tag.ts';
import { heldConflict, heldWords, jobName, openSessionOn, runsOverlap } from './holds.ts';

export interface Broken {
  readonly words: string;
  readonly conflict: Conflict | null;
}

function broken(words: string, conflict: Conflict | null = null): Broken {
  return { words, conflict };
}

/** Held runs lie on boards in stock, within them, and apart; a tag names one board in stock. `gone` names a board no longer there. */
export function boardRules(state: YardReader, boardId: string, gone = 'a board'): readonly Broken[] {
  const board = state.get('board', boardId);
  const holds = state.reservationsOnBoard(boardId);
  if (!board) return holds.map((held) => broken(`${gone} would go, but it is held for ${jobName(state, held.jobId)}`));
  const found: Broken[] = [];
  for (const [at, held] of holds.entries()) {
    const inTheWay = (words: string) => found.push(broken(words, heldConflict(state, board, held, 'release it first')));
    if (board.state !== 'in-stock') inTheWay(`${heldWords(state, board, held)}, and it would no longer be in stock`);
    if (held.toNm > board.lengthNm) inTheWay(`${heldWords(state, board, held)}, and it would end before that`);
    const other = holds.slice(at + 1).find((each) => runsOverlap(held, each));
    if (other) inTheWay(`${heldWords(state, board, other)}, and also ${heldWords(state, board, held)}`);
  }
  const namesake = state
    .boardsByTag(board.tag)
    .find((other) => other.id !== board.id && other.state === 'in-stock' && tagFold(other.tag) === tagFold(board.tag));
  if (board.state === 'in-stock' && namesake) found.push(broken(`another board in stock bears the tag ${board.tag}`));
  return found;
}

function reservationRules(state: YardReader, id: string): readonly Broken[] {
  const held = state.get('reservation', id);
  if (!held) return [];
  const found: Broken[] = [];
  if (state.get('job', held.jobId)?.state !== 'open')
    found.push(broken('wood would be held for a job that is not open'));
  const plan = held.planId === null ? null : state.get('plan', held.planId);
  const isLive = plan?.state === 'reserved' || plan?.state === 'cutting';
  if (held.planId !== null && !isLive) found.push(broken('wood would be held for a plan that is no longer open'));
  return [...boardRules(state, held.boardId), ...found];
}

export function jobRules(state: YardReader, jobId: string): readonly Broken[] {
  const job = state.get('job', jobId);
  if (job?.state === 'open') return [];
  const what = job ? `the job ${job.name} would not be open` : 'the job would go';
  const found: Broken[] = [];
  if (state.reservationsOfJob(jobId).length > 0) found.push(broken(`${what}, but it holds boards`));
  if (state.sessionsOfJob(jobId).some((session) => session.state === 'open'))
    found.push(broken(`${what}, but it is at the saw`));
  if (!job && (state.partsOfJob(jobId).length > 0 || state.plansOfJob(jobId).length > 0))
    found.push(broken(`${what}, but it has parts or plans`));
  return found;
}

function planRules(state: YardReader, planId: string): readonly Broken[] {
  const plan = state.get('plan', planId);
  if (plan?.state === 'reserved' || plan?.state === 'cutting') return [];
  const found: Broken[] = [];
  if (state.reservationsOfPlan(planId).length > 0) found.push(broken('the plan would end, but it holds boards'));
  if (state.sessionsOfPlan(planId).some((session) => session.state === 'open'))
    found.push(broken('the plan would end, but it is at the saw'));
  return found;
}

/** A planned piece has a live plan that holds its board. */
function partRules(state: YardReader, id: string): readonly Broken[] {
  const part = state.get('part', id);
  if (!part) return [];
  const adrift = part.pieces.find((piece) => {
    if (piece.state !== 'planned' || piece.planId === null) return false;
    return !state.reservationsOfPlan(piece.planId).some((held) => held.boardId === piece.boardId);
  });
  return adrift
    ? [broken(`${part.label} no. ${adrift.no} would be planned on a board that its plan no longer holds`)]
    : [];
}

function sessionRules(state: YardReader, id: string): readonly Broken[] {
  const session = state.get('session', id);
  if (session?.state !== 'open') return [];
  const isLive =
    state.get('plan', session.planId)?.state === 'cutting' && state.get('job', session.jobId)?.state === 'open';
  return isLive ? [] : [broken('a session would be open whose plan or job is closed')];
}

/** The tag of a board that a change takes away. */
function tagWas(change: Change): string | undefined {
  const tag = change.was?.tag;
  return typeof tag === 'string' ? tag : undefined;
}

function resized(change: Change): boolean {
  return ['lengthNm', 'widthNm', 'thicknessNm'].some(
    (size) => change.was !== null && change.now !== null && size in change.now,
  );
}

function rulesAround(state: YardReader, change: Change): readonly Broken[] {
  switch (change.entity) {
    case 'board': {
      const atTheSaw = resized(change) && openSessionOn(state, change.id);
      return [
        ...boardRules(state, change.id, tagWas(change)),
        ...(atTheSaw ? [broken('the board is at the saw')] : []),
      ];
    }
    case 'reservation':
      return reservationRules(state, change.id);
    case 'job':
      return jobRules(state, change.id);
    case 'plan':
      return planRules(state, change.id);
    case 'part':
      return partRules(state, change.id);
    case 'session':
      return sessionRules(state, change.id);
    case 'settings':
      return [];
  }
}

/** Every rule that the state breaks around what these changes touched; empty when all is well. */
export function brokenRules(state: YardReader, changes: readonly Change[]): readonly Broken[] {
  return changes.flatMap((change) => rulesAround(state, change));
}
