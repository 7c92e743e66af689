/** What is learnt of a board after it came in: corrections, moisture readings, and its end as a write-off. */
import type { Board, BoardPatch } from '../../contract/board.ts';
import { limits } from '../../contract/limits.ts';
import type { Change } from '../../contract/movement.ts';
import type { Conflict } from '../../contract/problem.ts';
import { dayText } from '../../wood/day.ts';
import { changed } from '../change.ts';
import type { Occasion } from '../command.ts';
import { type CommandOf, type Decision, moved, notThere, type Refused, refused } from '../decision.ts';
import { liveBoardByTag, type YardReader, yardSettings } from '../state.ts';
import { defectFaults, defectsWithin } from './defects.ts';
import { heldConflict, heldWords, openSessionOn } from './holds.ts';
import { readingsToCome } from './readings.ts';
import { writeOffBalance } from './wood-balance.ts';

export function notInStock(board: Board): Refused {
  const what = board.state === 'cut-up' ? 'was cut up' : 'was written off';
  return refused('board-not-in-stock', `${board.tag} ${what}; it is no longer in stock.`, {
    conflicts: [
      {
        boardId: board.id,
        tag: board.tag,
        jobId: null,
        jobName: null,
        fromNm: null,
        toNm: null,
        wayOut: `undo the movement if that was a mistake`,
      },
    ],
  });
}

function changesSize(board: Board, patch: BoardPatch): boolean {
  const sizes = ['lengthNm', 'widthNm', 'thicknessNm'] as const;
  return sizes.some((size) => patch[size] !== undefined && patch[size] !== board[size]);
}

/** A hold of the whole board stays one when the board is measured anew; any other run must still lie on it. */
function heldRunsAfter(
  state: YardReader,
  board: Board,
  lengthNm: number,
): { readonly changes: readonly Change[]; readonly conflicts: readonly Conflict[] } {
  const changes: Change[] = [];
  const conflicts: Conflict[] = [];
  for (const held of state.reservationsOnBoard(board.id)) {
    const isWhole = held.fromNm === 0 && held.toNm === board.lengthNm;
    if (isWhole && held.planId === null) changes.push(...changed('reservation', held.id, held, { toNm: lengthNm }));
    else if (held.toNm > lengthNm) {
      const wayOut = held.planId
        ? 'drop the plan that holds it, then correct the board and plan again'
        : 'release the run, then correct the board';
      conflicts.push(heldConflict(state, board, held, wayOut));
    }
  }
  return { changes, conflicts };
}

/** The board's origin once it is called an offcut, or no offcut; null where the yard knows better. */
function originAs({ origin }: Board, offcut: boolean): Board['origin'] | null {
  if ((origin.kind === 'offcut') === offcut) return origin;
  if (origin.kind === 'received') return { kind: 'offcut', parentId: null, sessionId: null };
  return origin.kind === 'offcut' && origin.parentId === null ? { kind: 'received' } : null;
}

export function correctBoard(state: YardReader, command: CommandOf<'correct-board'>): Decision {
  const { boardId, ifVersion, patch } = command;
  const board = state.get('board', boardId);
  if (!board) return notThere('board', boardId);
  if (board.version !== ifVersion) {
    return refused(
      'version-stale',
      `${board.tag} was changed since you read it. Read it again and repeat the correction.`,
    );
  }
  if (board.state !== 'in-stock') return notInStock(board);
  const bearer = patch.tag === undefined ? null : liveBoardByTag(state, patch.tag);
  if (patch.tag !== undefined && bearer && bearer.id !== board.id) {
    const help = 'another board in stock bears this tag; choose a free one';
    return refused('tag-taken', `The tag ${patch.tag} is taken.`, {
      faults: [{ pointer: '/tag', field: 'tag', read: patch.tag, help }],
    });
  }
  if (changesSize(board, patch) && openSessionOn(state, boardId)) {
    return refused('board-held', `${board.tag} is at the saw: write down what came out, then correct its size.`, {
      conflicts: state
        .reservationsOnBoard(boardId)
        .map((held) => heldConflict(state, board, held, 'write down what came out of its session')),
    });
  }
  const size = { lengthNm: patch.lengthNm ?? board.lengthNm, widthNm: patch.widthNm ?? board.widthNm };
  const faults = defectFaults(patch.defects ?? [], size, yardSettings(state), { pointer: '/defects' });
  if (faults.length > 0) return refused('invalid-input', 'A defect lies outside the board.', { faults });
  const held = heldRunsAfter(state, board, size.lengthNm);
  if (held.conflicts.length > 0) {
    return refused('board-held', `${board.tag} cannot end before a run that is held.`, { conflicts: held.conflicts });
  }
  const whole = { fromNm: 0, toNm: size.lengthNm, leftNm: 0, rightNm: size.widthNm };
  const defects = patch.defects ?? defectsWithin(board.defects, whole);
  const { offcut = board.origin.kind === 'offcut', ...fieldsGiven } = patch;
  const origin = originAs(board, offcut);
  if (origin === null) {
    const help = `${board.tag} came ${board.origin.kind === 'offcut' ? 'off a board of this yard' : 'from a glue-up'}; that stays`;
    return refused('invalid-input', 'Where this board came from is known.', {
      faults: [{ pointer: '/offcut', field: 'offcut', read: String(offcut), help }],
    });
  }
  const changes = [...changed('board', boardId, board, { ...fieldsGiven, defects, origin }), ...held.changes];
  const fields = Object.keys(changes[0]?.now ?? {}).map((name) => name.replace(/Nm$/, ''));
  const summary = `Corrected ${board.tag}: ${fields.join(', ') || 'nothing differed'}`;
  return moved({ kind: 'board-corrected', summary, changes }, { boardId });
}

export function readMoisture(state: YardReader, command: CommandOf<'read-moisture'>, occasion: Occasion): Decision {
  const board = state.get('board', command.boardId);
  if (!board) return notThere('board', command.boardId);
  if (board.state !== 'in-stock') return notInStock(board);
  const faults = readingsToCome(command.readings, occasion.atMs, { pointer: '/readings' });
  if (faults.length > 0)
    return refused('invalid-input', 'No reading can be of a day that is still to come.', { faults });
  const readings = [...board.readings, ...command.readings].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  if (readings.length > limits.readingsPerBoard) {
    return refused(
      'invalid-input',
      `${board.tag} would have ${readings.length} readings; the most is ${limits.readingsPerBoard}.`,
    );
  }
  const figures = command.readings.map((reading) => `${reading.moisturePercent} % on ${dayText(reading.on)}`);
  const changes = changed('board', board.id, board, { readings });
  const summary = `Read ${board.tag}: ${figures.join(', ')}`;
  return moved({ kind: 'moisture-read', summary, changes }, { boardId: board.id });
}

export function writeOffBoard(state: YardReader, command: CommandOf<'write-off-board'>): Decision {
  const board = state.get('board', command.boardId);
  if (!board) return notThere('board', command.boardId);
  if (board.state !== 'in-stock') return notInStock(board);
  const held = state.reservationsOnBoard(board.id);
  if (held.length > 0) {
    const detail = `${held.map((each) => heldWords(state, board, each)).join('; ')}. Release it first.`;
    const conflicts = held.map((each) => heldConflict(state, board, each, 'release it, then write the board off'));
    return refused('board-held', detail, { conflicts });
  }
  const changes = changed('board', board.id, board, { state: 'written-off' });
  const summary = `Wrote off ${board.tag}: ${command.why}`;
  return moved(
    { kind: 'board-written-off', summary, changes, balances: [writeOffBalance(board)] },
    { boardId: board.id },
  );
}
