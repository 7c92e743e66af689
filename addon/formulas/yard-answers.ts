/** What the yard must be asked for a batch of questions, and the answers made from what it said. Knows no network. */
import type { BoardView } from '../../worker/contract/board.ts';
import type { Answer } from '../../worker/contract/wire.ts';
import { callOf } from '../../worker/wood/thickness.ts';
import { boardFeet } from '../../worker/wood/volume.ts';
import type { YardQuestion } from './formula.ts';
import type { YardAnswer } from './yard-asker.ts';

export type TagStatus = Answer<'boardStatus'>['rows'][number];
export type StockBoard = Pick<BoardView, 'species' | 'lengthNm' | 'widthNm' | 'thicknessNm' | 'state'> & {
  readonly held: readonly { readonly fromNm: number; readonly toNm: number }[];
};

/** The tags to look up, each once; whether the list of boards is needed at all. */
export function needsOf(questions: readonly YardQuestion[]): {
  readonly tags: readonly string[];
  readonly boards: boolean;
} {
  const tags = new Set<string>();
  let boards = false;
  for (const question of questions) {
    if (question.about === 'tag') tags.add(question.tag);
    else boards = true;
  }
  return { tags: [...tags], boards };
}

export function answersTo(
  questions: readonly YardQuestion[],
  statuses: readonly TagStatus[],
  stock: StockTable,
): YardAnswer[] {
  const words = new Map(statuses.map((status) => [status.tag, status.words]));
  return questions.map((question) => {
    if (question.about === 'tag') return words.get(question.tag) ?? 'unknown tag';
    const calls = stock[question.species] ?? {};
    if (question.thicknessNm !== null) return rounded(calls[callOf(question.thicknessNm)] ?? 0);
    return rounded(Object.values(calls).reduce((sum, free) => sum + free, 0));
  });
}

/** Free board feet by species and call; plain data, so that it can be kept as a text. */
export type StockTable = Readonly<Record<string, Readonly<Record<string, number>>>>;

/** A measured thickness counts as the call that it reaches. */
export function freeByWood(boards: readonly StockBoard[]): StockTable {
  const stock: Record<string, Record<string, number>> = {};
  for (const board of boards) {
    if (board.state !== 'in-stock') continue;
    const calls = stock[board.species] ?? {};
    stock[board.species] = calls;
    const call = callOf(board.thicknessNm);
    calls[call] = (calls[call] ?? 0) + boardFeet({ ...board, lengthNm: freeLengthNm(board) });
  }
  return stock;
}

/** What is left of the length beside the held runs, which may touch or overlap. */
function freeLengthNm(board: StockBoard): number {
  let freeNm = 0;
  let atNm = 0;
  for (const run of [...board.held].sort((a, b) => a.fromNm - b.fromNm)) {
    freeNm += Math.max(0, run.fromNm - atNm);
    atNm = Math.max(atNm, run.toNm);
  }
  return freeNm + Math.max(0, board.lengthNm - atNm);
}

const rounded = (feet: number) => Math.round(feet * 100) / 100;
