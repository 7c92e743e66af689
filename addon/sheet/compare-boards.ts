/** Board rows of a sheet beside what the yard has under the same tags. Pure; nothing decides here which of the two is right. */
import type { BoardInput } from './read-boards.ts';

export interface YardBoard {
  readonly tag: string;
  readonly found: boolean;
  readonly boardId: string | null;
  readonly state: 'in-stock' | 'cut-up' | 'written-off' | null;
  readonly words: string;
  readonly facts: {
    readonly lengthNm: number;
    readonly widthNm: number;
    readonly thicknessNm: number;
    readonly version: number;
  } | null;
}

export const comparedSizes = ['lengthNm', 'widthNm', 'thicknessNm'] as const;
export type ComparedSize = (typeof comparedSizes)[number];

export interface SizeDifference {
  readonly size: ComparedSize;
  readonly sheetNm: number;
  readonly yardNm: number;
}

export interface DifferingBoard {
  /** 0-based on the sheet. */
  readonly sheetRow: number;
  readonly tag: string;
  readonly boardId: string;
  readonly version: number;
  /** No longer in stock: "cut", "written off"; null while it is. */
  readonly gone: string | null;
  readonly differences: readonly SizeDifference[];
  /** What the row calls its thickness, such as "8/4"; null where it says none. */
  readonly thicknessCall: string | null;
}

export interface Comparison<Row> {
  /** Not in the yard: to be taken in. */
  readonly fresh: readonly Row[];
  readonly sameCount: number;
  readonly differing: readonly DifferingBoard[];
}

export function compareBoards<Row extends { readonly sheetRow: number; readonly draft: BoardInput }>(
  rows: readonly Row[],
  yard: readonly YardBoard[],
): Comparison<Row> {
  const boards = new Map(yard.filter((board) => board.found).map((board) => [board.tag, board]));
  const fresh: Row[] = [];
  const differing: DifferingBoard[] = [];
  let sameCount = 0;
  for (const row of rows) {
    const board = boards.get(row.draft.tag);
    if (board === undefined || board.facts === null || board.boardId === null) {
      fresh.push(row);
      continue;
    }
    const { facts } = board;
    const differences = comparedSizes.flatMap((size): SizeDifference[] => {
      const sheetNm = row.draft[size];
      // A size in words ("8/4") is a name that the yard reads by its own table; it is no other measurement.
      if (typeof sheetNm !== 'number' || sheetNm === facts[size]) return [];
      return [{ size, sheetNm, yardNm: facts[size] }];
    });
    const gone = board.state === 'in-stock' ? null : board.words;
    if (gone === null && differences.length === 0) sameCount += 1;
    else {
      differing.push({
        sheetRow: row.sheetRow,
        tag: board.tag,
        boardId: board.boardId,
        version: facts.version,
        gone,
        differences,
        thicknessCall: row.draft.thicknessCall ?? null,
      });
    }
  }
  return { fresh, sameCount, differing };
}
