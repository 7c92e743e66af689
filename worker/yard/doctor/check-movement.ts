/** One movement: its form, its index, what it undoes, and where the wood went of the boards that it ended. */
import type { Board } from '../../contract/board.ts';
import type { Finding } from '../../contract/doctor.ts';
import { type Change, type Movement, movement as movementForm } from '../../contract/movement.ts';
import type { WoodBalance } from '../../contract/session.ts';
import type { Sql } from '../sql.ts';
import type { JournalPages } from './journal-pages.ts';

const TOUCHES = 'SELECT 1 AS yes FROM journal_touch WHERE entity = ? AND id = ? AND seq = ?';
const SPEAKS_OF = 'SELECT 1 AS yes FROM journal_board WHERE board_id = ? AND seq = ?';

/** Worked out here and not by the yard's own function, which is what is being checked. */
function volumeNm3(size: Pick<Board, 'lengthNm' | 'widthNm' | 'thicknessNm'>): bigint {
  return BigInt(size.lengthNm) * BigInt(size.widthNm) * BigInt(size.thicknessNm);
}

function accountFault(balance: WoodBalance): string | null {
  const { inNm3, partsNm3, failedNm3, offcutsNm3, kerfNm3, scrapNm3, writeOffNm3 } = balance;
  const out = [partsNm3, failedNm3, offcutsNm3, kerfNm3, scrapNm3, writeOffNm3].map(BigInt);
  const difference = BigInt(inNm3) - out.reduce((sum, nm3) => sum + nm3, 0n);
  if (difference !== 0n) return `${difference} cubic nanometres of ${balance.tag} are not accounted for`;
  return out.some((nm3) => nm3 < 0n) ? `the account of ${balance.tag} has a volume below zero` : null;
}

type BoardFields = Partial<Board>;

/** Boards that this movement took out of stock, or out of the yard altogether. */
function endedBoards(movement: Movement): readonly string[] {
  return movement.changes.flatMap((change) => {
    if (change.entity !== 'board') return [];
    const [was, now] = [change.was as BoardFields | null, change.now as BoardFields | null];
    return was?.state === 'in-stock' && now?.state !== 'in-stock' ? [change.id] : [];
  });
}

function offcutsOf(movement: Movement, boardId: string): bigint {
  let sum = 0n;
  for (const change of movement.changes) {
    if (change.entity !== 'board' || change.was !== null || change.now === null) continue;
    const made = change.now as Board;
    if (made.origin.kind === 'offcut' && made.origin.parentId === boardId) sum += volumeNm3(made);
  }
  return sum;
}

function woodFaults(movement: Movement, pages: JournalPages): readonly string[] {
  if (movement.undoes !== null) return [];
  const faults: string[] = [];
  const byBoard = new Map(movement.balances.map((balance) => [balance.boardId, balance]));
  for (const boardId of endedBoards(movement)) {
    // A write-off by hand that is older than its account: all of the board is the write-off.
    if (!byBoard.has(boardId) && movement.kind !== 'board-written-off')
      faults.push(`${boardId} ended without an account`);
  }
  for (const [boardId, balance] of byBoard) {
    const fault = accountFault(balance);
    if (fault) faults.push(fault);
    const before = pages.folded(
      'board',
      boardId,
      pages.lifeOf('board', boardId).filter((seq) => seq < movement.seq),
    );
    if (!before) faults.push(`the account of ${balance.tag} is of a board that was not there`);
    else if (volumeNm3(before) !== BigInt(balance.inNm3))
      faults.push(`the account of ${balance.tag} begins with another volume`);
    if (offcutsOf(movement, boardId) !== BigInt(balance.offcutsNm3)) {
      faults.push(`the offcuts of ${balance.tag} are not the ones of its account`);
    }
  }
  return faults;
}

function indexFaults(sql: Sql, movement: Movement): readonly string[] {
  const lost = (change: Change) =>
    !sql.row(TOUCHES, change.entity, change.id, movement.seq) ||
    (change.entity === 'board' && !sql.row(SPEAKS_OF, change.id, movement.seq));
  return movement.changes.filter(lost).map((change) => `${change.entity} ${change.id} does not lead to it`);
}

export function checkMovement(sql: Sql, pages: JournalPages, movement: Movement): readonly Finding[] {
  const what = `movement ${movement.seq}`;
  const found = (rule: Finding['rule'], words: string): Finding => ({ rule, what, words });
  const form = movementForm.safeParse(movement);
  if (!form.success) {
    const [issue] = form.error.issues;
    return [found('movement-form', `${issue?.path.join('.')}: ${issue?.message}`)];
  }
  const undone = movement.undoes;
  const hasUndone = undone === null || (undone < movement.seq && pages.page(undone) !== null);
  return [
    ...indexFaults(sql, movement).map((words) => found('journal-index', words)),
    ...(hasUndone ? [] : [found('undo', `it undoes movement ${undone}, which did not come before it`)]),
    ...woodFaults(movement, pages).map((words) => found('wood-conserved', words)),
  ];
}
