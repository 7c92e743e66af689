/**
 * Keeps the status columns of the sheet in front true: looked at when the sidebar opens and whenever it is asked to, in one
 * call to the yard whatever the number of rows. Nothing is written on opening unless this file was told to.
 */
import { effect, type ReadonlySignal, signal, untracked } from '@preact/signals';
import type { SheetHost } from '../../host/host.ts';
import { ownHeadings } from '../../sheet/write-back.ts';
import type { BoardRows } from './board-rows.ts';
import type { CutListState } from './cut-list.ts';
import { statusKeptAs } from './status-columns.ts';
import { makeTask, type Task } from './task.ts';
import { knownHeadings, type Wanted, type WriteBack } from './write-back.ts';

export interface SheetStatus {
  /** The sheet shows an older state than the yard has: so many cells, on this sheet. */
  readonly stale: ReadonlySignal<{ readonly sheet: string; readonly cells: number } | null>;
  /** This file refreshes its status columns by itself when the sidebar opens. */
  readonly byItself: ReadonlySignal<boolean>;
  readonly task: Task;
  setByItself(on: boolean): Promise<void>;
  /** Looks whether the sheet in front is behind; says nothing where it holds nothing of ours. */
  look(): Promise<void>;
  /** Shows what would change in the sheet in front, to be written or left. */
  refresh(): Promise<boolean>;
}

const BY_ITSELF = 'status by itself';

export function makeSheetStatus(
  host: SheetHost,
  writeBack: WriteBack,
  boardRows: BoardRows,
  cutList: CutListState,
): SheetStatus {
  const stale = signal<{ sheet: string; cells: number } | null>(null);
  const byItself = signal(false);
  const task = makeTask();

  /** What the status columns of the sheet in front are about; null where there are none of ours. */
  async function aboutHere(): Promise<{ sheet: string; about: string } | null> {
    const { area } = await host.readSelection({ expand: 'none', rowCountMax: Number.MAX_SAFE_INTEGER });
    const about = await host.settings.get(statusKeptAs(area.sheet), 'file');
    if (about === null) return null;
    const ours = await knownHeadings(host, area.sheet);
    return ours.has(ownHeadings.status) ? { sheet: area.sheet, about } : null;
  }

  const wanted = (about: string): Promise<Wanted> =>
    about === 'boards' ? boardRows.statusColumns() : cutList.statusColumns(about);

  /** After a write of ours into the sheet that was behind: counted anew, in one call. */
  async function countAgain(): Promise<void> {
    const here = await aboutHere();
    const columns = here === null ? null : await wanted(here.about);
    if (here === null || columns === null || 'told' in columns) return;
    const cells = await writeBack.cellsBehind(columns);
    stale.value = cells === 0 ? null : { sheet: here.sheet, cells };
  }
  effect(() => {
    const written = writeBack.last.value?.sheet;
    untracked(() => {
      // Where it cannot be counted the notice stays; what it offers says why.
      if (written !== undefined && written === stale.value?.sheet) countAgain().catch(() => {});
    });
  });

  return {
    stale,
    byItself,
    task,
    async setByItself(on) {
      await host.settings.set(BY_ITSELF, on ? 'yes' : null, 'file');
      byItself.value = on;
    },
    async look() {
      try {
        await writeBack.log.load();
        byItself.value = (await host.settings.get(BY_ITSELF, 'file')) === 'yes';
        const here = await aboutHere();
        if (here === null) return;
        const columns = await wanted(here.about);
        if ('told' in columns) return;
        if (byItself.value && !writeBack.log.readOnly.value) {
          await writeBack.writeUnlessClash(WHAT, async () => columns);
          return;
        }
        const cells = await writeBack.cellsBehind(columns);
        stale.value = cells === 0 ? null : { sheet: here.sheet, cells };
      } catch {
        // Nothing was asked for, so nothing need be said; the user's own next step will say it.
      }
    },
    refresh,
  };

  function refresh(): Promise<boolean> {
    return task.run('Asking the yard', async () => {
      const here = await aboutHere();
      if (here === null) {
        return {
          kind: 'told',
          help: 'No status of ours stands on this sheet. Write it beside the rows first, under Held or Job.',
        };
      }
      stale.value = null;
      await writeBack.preview(WHAT, () => wanted(here.about));
      return null;
    });
  }
}

const WHAT = 'Status refreshed';
