/** Boards from the sheet into the yard, and what the yard knows of them back beside the rows. */
import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { SheetHost } from '../../host/host.ts';
import { type Comparison, compareBoards, type DifferingBoard, type YardBoard } from '../../sheet/compare-boards.ts';
import { columnFor } from '../../sheet/mapping.ts';
import { type BoardInput, readBoardRows, saysOffcut } from '../../sheet/read-boards.ts';
import type { ReadRow } from '../../sheet/read-rows.ts';
import type { YardApi } from '../api.ts';
import { count } from '../words/measure.ts';
import { makeSheetReading, ROW_COUNT_MAX, type SheetReading } from './sheet-reading.ts';
import { tagsOf } from './sheet-tags.ts';
import type { Shell } from './shell.ts';
import { boardColumns, statusKeptAs } from './status-columns.ts';
import { makeTakingIn, type Progress } from './take-in-parts.ts';
import { makeTask, type Task, taken } from './task.ts';
import type { Wanted, WriteBack } from './write-back.ts';

export interface TakenIn {
  readonly count: number;
  /** Faults that the yard found, by the row of the sheet (0-based). */
  readonly faults: readonly { readonly sheetRow: number | null; readonly help: string; readonly read: string | null }[];
}

export interface BoardRows {
  readonly reading: SheetReading<BoardInput>;
  readonly allOrNothing: Signal<boolean>;
  /** Which of the rows are offcuts: those that say so themselves, all, or none. */
  readonly offcuts: Signal<Offcuts>;
  /** The rows that the yard does not have yet, as they would be taken in. */
  readonly toTakeIn: ReadonlySignal<readonly ReadRow<BoardInput>[]>;
  /** How many of them say themselves that they are offcuts. */
  readonly sayOffcut: ReadonlySignal<number>;
  readonly task: Task;
  readonly result: ReadonlySignal<TakenIn | null>;
  /** How much of a long list is in. */
  readonly progress: ReadonlySignal<Progress | null>;
  /** The rows beside what the yard has under their tags; null before it was asked. */
  readonly compared: ReadonlySignal<Comparison<ReadRow<BoardInput>> | null>;
  readonly correcting: Task;
  /** Asks the yard, in one call, what it has under the tags of the rows. */
  compare(): Promise<boolean>;
  /** The sizes of the row into the yard, if the board there is still as it was shown. */
  correctYard(board: DifferingBoard): Promise<boolean>;
  /** The yard's sizes into the row; each cell of the user's is asked for. */
  correctSheet(board: DifferingBoard, shown: (nm: number) => string): Promise<boolean>;
  /** Takes in the rows whose boards the yard does not have yet. */
  takeIn(): Promise<boolean>;
  /** Tags in the rows that are selected now. */
  selectedTags(): Promise<readonly string[] | { readonly told: string }>;
  /** Status and who holds it, beside every row with a tag. */
  writeStatus(): Promise<boolean>;
  statusColumns(): Promise<Wanted>;
  startOver(): void;
}

export type Offcuts = 'said' | 'all' | 'none';

const roleOf = { lengthNm: 'length', widthNm: 'width', thicknessNm: 'thickness' } as const;

export function makeBoardRows(api: YardApi, host: SheetHost, shell: Shell, writeBack: WriteBack): BoardRows {
  const reading = makeSheetReading(host, 'boards', readBoardRows);
  const allOrNothing = signal(false);
  const task = makeTask();
  const result = signal<TakenIn | null>(null);
  const known = signal<readonly YardBoard[] | null>(null);
  const compared = computed(() => {
    const rows = reading.rows.value;
    return rows === null || known.value === null ? null : compareBoards(rows.rows, known.value);
  });
  const fresh = computed(() => compared.value?.fresh ?? reading.rows.value?.rows ?? []);
  const offcuts = signal<Offcuts>('said');
  const sayOffcut = computed(() => fresh.value.filter(({ draft }) => saysOffcut(draft)).length);
  const toTakeIn = computed(() =>
    fresh.value.map((row) =>
      offcuts.value === 'all' || (offcuts.value === 'said' && saysOffcut(row.draft))
        ? { ...row, draft: { ...row.draft, offcut: true } }
        : row,
    ),
  );
  const correcting = makeTask();
  const takingIn = makeTakingIn(api);

  /** A person stopped waiting for a part: whether it went in is asked before the rest is sent. */
  let partOut = false;

  async function statusColumns(): Promise<Wanted> {
    const table = await reading.fresh();
    if ('told' in table) return table;
    const tags = tagsOf(table, null);
    if (tags.length === 0) return { told: 'No tags stand in this table. Which column holds them?' };
    const asked = await api.call('boardStatus', { body: { tags: tags.map((one) => one.tag) } });
    if (!asked.ok) {
      return { told: 'offline' in asked ? 'The yard cannot be reached; nothing was written.' : asked.problem.detail };
    }
    await host.settings.set(statusKeptAs(table.block.area.sheet), 'boards', 'file');
    return {
      block: table.block,
      mapping: table.mapping,
      columns: boardColumns(table, tags, asked.answer.rows, shell.today()),
    };
  }

  const compare = () =>
    task.run('Asking the yard', async (stop) => {
      const rows = reading.rows.value?.rows ?? [];
      known.value = null;
      if (rows.length === 0) return null;
      const result = await api.call('boardStatus', { stop, body: { tags: rows.map((row) => row.draft.tag) } });
      return taken(result, (answer) => {
        known.value = answer.rows;
      });
    });

  return {
    reading,
    allOrNothing,
    offcuts,
    toTakeIn,
    sayOffcut,
    task,
    result,
    compared,
    correcting,
    progress: takingIn.progress,
    compare,
    correctYard: (board) =>
      correcting.run('Correcting the yard', async (stop) => {
        const { thicknessCall } = board;
        const sizes = Object.fromEntries(board.differences.map((one) => [one.size, one.sheetNm]));
        // The call says what the board is sold as; a row that names none leaves the yard's.
        const patch = thicknessCall === null ? sizes : { ...sizes, thicknessCall };
        const result = await api.call('correctBoard', {
          stop,
          path: { id: board.boardId },
          version: board.version,
          body: patch,
        });
        if (result.ok) shell.say(`${board.tag} is corrected in the yard.`);
        // Whatever the yard said, what it has now is shown anew.
        await compare();
        return taken(result, () => shell.changed());
      }),
    correctSheet: (board, shown) =>
      correcting.run('Looking at the sheet', async () => {
        const block = reading.block.value;
        const mapping = reading.mapping.value;
        if (block === null || mapping === null) return null;
        const cells = board.differences.flatMap((one) => {
          const column = columnFor(mapping, roleOf[one.size]);
          return column === null
            ? []
            : [{ row: board.sheetRow, column: block.area.column + column.column, value: shown(one.yardNm) }];
        });
        await writeBack.previewCells(`The yard’s sizes of ${board.tag}`, block.area.sheet, cells);
        return null;
      }),
    async takeIn() {
      if (partOut && !(await compare())) return false;
      partOut = false;
      const all = reading.rows.value;
      if (all === null) return false;
      const rows = { ...all, rows: toTakeIn.value };
      if (rows.rows.length === 0) return false;
      if (allOrNothing.value && rows.faults.length > 0) {
        return task.run('', async () => ({
          kind: 'told',
          help: 'Some rows cannot be read. Put them right in the sheet and read again, or take in the good rows only.',
        }));
      }
      const done = await task.run(`Taking in ${count(rows.rows.length, 'board')}`, (stop) => {
        stop.signal.addEventListener('abort', () => {
          partOut = true;
        });
        return takingIn.send(rows.rows, allOrNothing.value, stop, (all) => {
          result.value = {
            count: all.count,
            faults: all.faults.map(({ row, fault }) => ({
              sheetRow: row?.sheetRow ?? null,
              help: fault.help,
              read: fault.read ?? null,
            })),
          };
          shell.say(`${count(all.count, 'board')} taken in.`);
        });
      });
      if (done) {
        await reading.remember();
        shell.changed();
      }
      return done;
    },
    async selectedTags() {
      const table = await reading.fresh();
      if ('told' in table) return table;
      const chosen = await host.readSelection({ expand: 'none', rowCountMax: ROW_COUNT_MAX });
      const tags = tagsOf(table, chosen.area).map((one) => one.tag);
      return tags.length === 0 ? { told: 'Select rows of your board list that have a tag.' } : tags;
    },
    statusColumns,
    writeStatus: () => writeBack.preview('Status beside the boards', statusColumns),
    startOver() {
      result.value = null;
      offcuts.value = 'said';
      takingIn.startOver();
      known.value = null;
      correcting.clear();
      task.clear();
      reading.clear();
    },
  };
}
