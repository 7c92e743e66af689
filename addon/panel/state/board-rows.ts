/** Boards from the sheet into the yard, and what the yard knows of them back beside the rows. */
import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Answer } from '../../../worker/contract/wire.ts';
import type { SheetHost } from '../../host/host.ts';
import { type BoardInput, readBoardRows } from '../../sheet/read-boards.ts';
import { ownHeadings } from '../../sheet/write-back.ts';
import type { YardApi } from '../api.ts';
import { count } from '../words/measure.ts';
import { makeSheetReading, ROW_COUNT_MAX, type SheetReading } from './sheet-reading.ts';
import { tagsOf } from './sheet-tags.ts';
import type { Shell } from './shell.ts';
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
  readonly task: Task;
  readonly result: ReadonlySignal<TakenIn | null>;
  takeIn(): Promise<boolean>;
  /** Tags in the rows that are selected now. */
  selectedTags(): Promise<readonly string[] | { readonly told: string }>;
  /** Status and who holds it, beside every row with a tag. */
  writeStatus(): Promise<boolean>;
  startOver(): void;
}

export function makeBoardRows(api: YardApi, host: SheetHost, shell: Shell, writeBack: WriteBack): BoardRows {
  const reading = makeSheetReading(host, 'boards', readBoardRows);
  const allOrNothing = signal(false);
  const task = makeTask();
  const result = signal<TakenIn | null>(null);

  async function statusColumns(): Promise<Wanted> {
    const table = await reading.fresh();
    if ('told' in table) return table;
    const tags = tagsOf(table.block, table.mapping, null);
    if (tags.length === 0) return { told: 'No tags stand in this table. Which column holds them?' };
    const asked = await api.call('boardStatus', { body: { tags: tags.map((one) => one.tag) } });
    if (!asked.ok) {
      return { told: 'offline' in asked ? 'The yard cannot be reached; nothing was written.' : asked.problem.detail };
    }
    const status = new Map(asked.answer.rows.map((row) => [row.tag, row]));
    return {
      block: table.block,
      mapping: table.mapping,
      columns: [
        {
          heading: ownHeadings.status,
          values: new Map(tags.map((one) => [one.sheetRow, statusWord(status.get(one.tag))])),
        },
        {
          heading: ownHeadings.heldBy,
          values: new Map(tags.map((one) => [one.sheetRow, status.get(one.tag)?.heldBy.join(', ') || null])),
        },
      ],
    };
  }

  return {
    reading,
    allOrNothing,
    task,
    result,
    async takeIn() {
      const rows = reading.rows.value;
      if (rows === null || rows.rows.length === 0) return false;
      if (allOrNothing.value && rows.faults.length > 0) {
        return task.run('', async () => ({
          kind: 'told',
          help: 'Some rows cannot be read. Put them right in the sheet and read again, or take in the good rows only.',
        }));
      }
      const done = await task.run(`Taking in ${count(rows.rows.length, 'board')}`, async () =>
        taken(
          await api.call('takeInBoards', {
            body: { boards: rows.rows.map((row) => row.draft), allOrNothing: allOrNothing.value },
          }),
          (answer) => {
            result.value = {
              count: answer.taken.length,
              faults: answer.faults.map((fault) => ({
                sheetRow: fault.row === undefined ? null : (rows.rows[fault.row]?.sheetRow ?? null),
                help: fault.help,
                read: fault.read ?? null,
              })),
            };
            shell.say(`${count(answer.taken.length, 'board')} taken in.`);
          },
        ),
      );
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
      const tags = tagsOf(table.block, table.mapping, chosen.area).map((one) => one.tag);
      return tags.length === 0 ? { told: 'Select rows of your board list that have a tag.' } : tags;
    },
    writeStatus: () => writeBack.preview('Status beside the boards', statusColumns),
    startOver() {
      result.value = null;
      task.clear();
      reading.clear();
    },
  };
}

type Status = Answer<'boardStatus'>['rows'][number];

/** Short and steady, because people count them: the job's name stands in its own column. */
function statusWord(status: Status | undefined): string {
  if (status === undefined || !status.found) return 'not in the yard';
  return status.heldBy.length > 0 ? 'held' : status.words;
}
