/** The route of a delivery as it stands in the yard: its tally against the bill, its grades against what was paid. */
import type { BoardView } from '../../contract/board.ts';
import type { Answer } from '../../contract/wire.ts';
import { deliveryCheck } from '../../wood/delivery.ts';
import { gradeAdvice, gradeIsAtLeast, readGrade } from '../../wood/grade.ts';
import { callOf, readThicknessCall } from '../../wood/thickness.ts';
import { tallyBoardFeet } from '../../wood/volume.ts';
import { good, type Handler, refuse } from '../serve.ts';
import { refusedAt } from './wood-call.ts';
import { deliveryWords } from './wood-size.ts';
import { cite } from './wood-source.ts';

type GradeRow = Answer<'checkDelivery'>['grades'][number];

/** As sold: the call on the board, or the one that its thickness reaches. */
function soldAs(board: BoardView): { readonly call: string; readonly callRoughNm: number } {
  const written = board.thicknessCall === null ? null : readThicknessCall(board.thicknessCall);
  const call = written?.call ?? callOf(board.thicknessNm);
  return { call, callRoughNm: written?.roughNm ?? readThicknessCall(call)?.roughNm ?? board.thicknessNm };
}

function gradeRow(board: BoardView): GradeRow {
  const advice = gradeAdvice(board, board.defects);
  const paid = board.grade === null ? null : readGrade(board.grade);
  const measured = board.defects.length > 0;
  const reached = paid && measured ? gradeIsAtLeast(advice.grade, paid) : null;
  return {
    boardId: board.id,
    tag: board.tag,
    call: soldAs(board).call,
    surfaceMeasureFt2: advice.surfaceMeasure,
    paid: board.grade,
    made: advice.grade,
    reached,
    why: measured ? advice.notes.join('; ') : 'no defects are measured, so it is graded by its size alone',
  };
}

function gradeWords(rows: readonly GradeRow[], short: readonly GradeRow[]): string {
  const judged = rows.filter(({ reached }) => reached !== null).length;
  if (judged === 0) return 'No board has both a grade on the bill and measured defects: nothing to compare.';
  const of = `${judged} of ${rows.length} boards can be compared`;
  return short.length === 0
    ? `${of}; all make the grade that was paid for.`
    : `${of}; ${short.length} fall short of the grade that was paid for.`;
}

const checkDelivery: Handler<'checkDelivery'> = async (call) => {
  const snapshot = await call.ask('snapshot', { jobIds: [], boards: { which: 'all' } });
  if (!snapshot.ok) return snapshot;
  if (!snapshot.value) return refuse('not-found', 'There is no such yard.');
  const { delivery, statedBf, minorPerBoardFoot } = call.body;
  const fold = (text: string) => text.trim().toLowerCase();
  const boards = snapshot.value.boards.filter(
    (board) => fold(board.delivery) === fold(delivery) && board.origin.kind === 'received',
  );
  if (boards.length === 0) return refusedAt('/delivery', 'no board in stock came with a delivery of this name');
  const delivered = boards.map((board) => ({ ...board, ...soldAs(board) }));
  const check = deliveryCheck(delivered, { boardFeet: statedBf ?? 0, minorPerBoardFoot });
  const { currency } = snapshot.value.settings;
  const grades = boards.map(gradeRow);
  const short = grades.filter(({ reached }) => reached === false);
  const shortIds = new Set(short.map(({ boardId }) => boardId));
  const shortBf = delivered.filter(({ id }) => shortIds.has(id)).reduce((sum, board) => sum + tallyBoardFeet(board), 0);
  return good({
    delivery,
    boards: boards.length,
    tally: statedBf === undefined ? null : { ...check, currency, words: deliveryWords(check) },
    tallyBf: check.tallyBf,
    grades,
    short: { boards: short.length, tallyBf: shortBf },
    gradeWords: gradeWords(grades, short),
    sources: [cite.boardFoot, cite.surfaceMeasure, cite.dryTally, cite.gradeTable, cite.gradeFaces],
    notes: [
      'Boards of the delivery that are cut up already are not counted.',
      'Compare like with like: a tally taken before the kiln reads some per cent more than the dry boards.',
      'Grades are advice, not a certificate: only measured defects count, and better cuttings might be found.',
    ],
  });
};

export const woodDeliveryHandlers = { checkDelivery };
