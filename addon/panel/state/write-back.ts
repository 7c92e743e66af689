/**
 * Writing beside the rows of the sheet: what will be written is shown first, what stands in the way is told, and the
 * last write can be taken back. The sheet is the user's: formulas and foreign cells are never written over unasked.
 */

import { type ReadonlySignal, signal } from '@preact/signals';
import { dayText } from '../../../worker/wood/day.ts';
import type { Area, Block, Clash, SheetHost, WriteResult } from '../../host/host.ts';
import type { Mapping } from '../../sheet/mapping.ts';
import { type OwnColumn, type WriteBack as Planned, planOwnColumns } from '../../sheet/write-back.ts';
import { count } from '../words/measure.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, type Trouble } from './task.ts';
import { makeWriteLog, READ_ONLY_HELP, type WriteLog } from './write-log.ts';

export interface Pending {
  readonly planned: Planned;
  readonly clashes: readonly Clash[];
  /** What the write is for, in words: "Takeoff beside 26 rows". */
  readonly what: string;
}

export interface LastWrite {
  readonly what: string;
  readonly sheet: string;
  readonly undoToken: string;
  /** The top of its columns, which may stand out of sight: the view stays where the user has it. null where cells were written. */
  readonly top: Area | null;
}

/** The columns to write beside a table, or why there is nothing to write. */
export type Wanted =
  | { readonly block: Block; readonly mapping: Mapping; readonly columns: readonly OwnColumn[] }
  | { readonly told: string };

export interface WriteBack {
  readonly pending: ReadonlySignal<Pending | null>;
  /** Of this sidebar; null before it wrote. */
  readonly last: ReadonlySignal<LastWrite | null>;
  readonly log: WriteLog;
  readonly task: Task;
  /** Looks what the write would run into, and shows it. */
  preview(what: string, want: () => Promise<Wanted>): Promise<boolean>;
  /** Looks what these cells of the user's hold, and shows each, to be written over or left. */
  previewCells(
    what: string,
    sheet: string,
    cells: readonly { readonly row: number; readonly column: number; readonly value: string | number }[],
  ): Promise<boolean>;
  /** Writes at once where nothing stands in the way, else shows it; answers whether all is written. */
  writeUnlessClash(what: string, want: () => Promise<Wanted>): Promise<boolean>;
  /** How many cells the sheet is behind in columns of ours; writes and shows nothing. */
  cellsBehind(wanted: Exclude<Wanted, { told: string }>): Promise<number>;
  write(over: readonly string[]): Promise<boolean>;
  cancel(): void;
  /** Takes the last write back: of this sidebar, else the last one that this device knows of in the file. */
  undo(): Promise<boolean>;
}

const READ_ONLY: Trouble = { kind: 'told', help: READ_ONLY_HELP };

export function makeWriteBack(host: SheetHost, shell: Shell): WriteBack {
  const pending = signal<Pending | null>(null);
  const last = signal<LastWrite | null>(null);
  const log = makeWriteLog(host);
  const task = makeTask();

  async function planned(what: string, wanted: Exclude<Wanted, { told: string }>): Promise<Planned> {
    const { block, mapping, columns } = wanted;
    return planOwnColumns(block, mapping, columns, {
      known: await knownHeadings(host, block.area.sheet),
      label: what,
      headingNote: `Written by Heartside on ${dayText(shell.today())}. You may delete this column.`,
    });
  }

  async function wrote(what: string, done: Planned, result: WriteResult): Promise<void> {
    const headings = done.columns.map((column) => column.heading);
    if (result.undoToken !== null)
      last.value = { what, sheet: done.plan.sheet, undoToken: result.undoToken, top: topOf(done) };
    if (result.written > 0) {
      const { sheet } = done.plan;
      const { written: cells, undoToken } = result;
      await log.add({ atMs: shell.nowMs(), what, sheet, cells, columns: headings, undoToken, undone: false });
    }
    if (headings.length > 0) await keepHeadings(host, done.plan.sheet, headings);
    const left = result.clashes.length;
    shell.say(`${count(result.written, 'cell')} written${left === 0 ? '' : `, ${left} left as they were`}.`);
  }

  return {
    pending,
    last,
    log,
    task,
    preview: (what, want) =>
      task.run('Looking at the sheet', async () => {
        pending.value = null;
        if (log.readOnly.value) return READ_ONLY;
        const wanted = await want();
        if ('told' in wanted) return { kind: 'told', help: wanted.told };
        const plan = await planned(what, wanted);
        if (plan.plan.cells.length === 0) {
          shell.say('The sheet shows this already.');
          return null;
        }
        pending.value = { planned: plan, clashes: await host.planWrite(plan.plan), what };
        return null;
      }),
    previewCells: (what, sheet, cells) =>
      task.run('Looking at the sheet', async () => {
        if (log.readOnly.value) return READ_ONLY;
        const plan = {
          sheet,
          label: what,
          heading: null,
          cells: cells.map((cell) => ({ ...cell, expects: null, format: null })),
        };
        pending.value = { planned: { plan, columns: [], summary: '' }, clashes: await host.planWrite(plan), what };
        return null;
      }),
    async writeUnlessClash(what, want) {
      let clear = true;
      const done = await task.run('Writing into the sheet', async () => {
        pending.value = null;
        if (log.readOnly.value) return READ_ONLY;
        const wanted = await want();
        if ('told' in wanted) return { kind: 'told', help: wanted.told };
        const plan = await planned(what, wanted);
        if (plan.plan.cells.length === 0) return null;
        const clashes = await host.planWrite(plan.plan);
        if (clashes.length > 0) {
          clear = false;
          pending.value = { planned: plan, clashes, what };
          return null;
        }
        await wrote(what, plan, await host.write(plan.plan, []));
        return null;
      });
      return done && clear;
    },
    cellsBehind: async (wanted) => (await planned('', wanted)).plan.cells.length,
    write: (over) =>
      task.run('Writing into the sheet', async () => {
        const now = pending.value;
        if (now === null) return null;
        if (log.readOnly.value) return READ_ONLY;
        const result = await host.write(now.planned.plan, over);
        pending.value = null;
        await wrote(now.what, now.planned, result);
        return null;
      }),
    cancel() {
      pending.value = null;
      task.clear();
    },
    undo: () =>
      task.run('Taking the last write back', async () => {
        const now = last.value ?? log.entries.value.find((entry) => !entry.undone && entry.undoToken !== null) ?? null;
        if (now === null || now.undoToken === null)
          return { kind: 'told', help: 'Nothing was written into this file yet.' };
        const result = await host.undo(now.undoToken);
        last.value = null;
        await log.markUndone(now.undoToken);
        const left = result.clashes.length;
        shell.say(
          `Taken back: ${now.what}.${left === 0 ? '' : ` ${count(left, 'cell was', 'cells were')} changed since and ${left === 1 ? 'stays' : 'stay'}.`}`,
        );
        return null;
      }),
  };
}

function topOf({ plan, columns }: Planned): Area | null {
  const first = columns[0];
  if (first === undefined) return null;
  const row = Math.min(...plan.cells.map((cell) => cell.row));
  return { sheet: plan.sheet, row, column: first.column, rowCount: 1, columnCount: columns.length };
}

/** Headings of columns on this sheet that are the panel's own, because it wrote them. */
export async function knownHeadings(host: SheetHost, sheet: string): Promise<Set<string>> {
  const kept = await host.settings.get(`own columns ${sheet}`, 'file');
  return new Set(kept === null ? [] : kept.split('\n'));
}

async function keepHeadings(host: SheetHost, sheet: string, headings: readonly string[]): Promise<void> {
  const all = new Set([...(await knownHeadings(host, sheet)), ...headings]);
  await host.settings.set(`own columns ${sheet}`, [...all].join('\n'), 'file');
}
