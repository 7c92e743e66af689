/**
 * Reading rows from the sheet: the table around the selection, how its columns are understood, and the drafts and faults
 * that follow. Changing the understanding reads the same cells anew; nothing leaves the panel until it is asked to.
 */
import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { type Area, type Block, HostError, type SheetHost } from '../../host/host.ts';
import { findTable, type NearCell, type TableFinding } from '../../sheet/find-table.ts';
import { type Mapping, mappingFromText, mappingToText, type ReadDefaults, type Want } from '../../sheet/mapping.ts';
import type { RowsRead } from '../../sheet/read-rows.ts';
import { makeTask, type Task } from './task.ts';
import type { YardFacts } from './yard.ts';

export const ROW_COUNT_MAX = 5_000;

export interface SheetReading<Draft> {
  readonly want: Want;
  readonly task: Task;
  readonly block: ReadonlySignal<Block | null>;
  /** What was selected when the table was read. */
  readonly selected: ReadonlySignal<Area | null>;
  readonly mapping: ReadonlySignal<Mapping | null>;
  /** The user settled this mapping before, in this file. */
  readonly remembered: ReadonlySignal<boolean>;
  /** The whole table, or only the rows that are selected. */
  readonly only: Signal<'table' | 'selected'>;
  readonly defaults: ReadonlySignal<ReadDefaults>;
  readonly rows: ReadonlySignal<RowsRead<Draft> | null>;
  /** Reads the table around the selection, to take the whole of it or only the rows that are selected; without a word as before. */
  read(rows?: 'table' | 'selected'): Promise<boolean>;
  /** The same table as it stands now, or the one around the selection where none was read; for writing beside its rows. */
  fresh(): Promise<FreshTable<Draft> | { readonly told: string }>;
  remap(mapping: Mapping): void;
  setDefaults(defaults: ReadDefaults): void;
  /** Keeps the mapping with the file, for the next time. */
  remember(): Promise<void>;
  clear(): void;
}

export interface FreshTable<Draft> {
  readonly block: Block;
  readonly mapping: Mapping;
  readonly rows: RowsRead<Draft>;
}

export function makeSheetReading<Draft>(
  host: SheetHost,
  want: Want,
  readRows: (block: Block, mapping: Mapping, defaults: ReadDefaults) => RowsRead<Draft>,
): SheetReading<Draft> {
  const task = makeTask();
  const block = signal<Block | null>(null);
  const selected = signal<Area | null>(null);
  const mapping = signal<Mapping | null>(null);
  const remembered = signal(false);
  const only = signal<'table' | 'selected'>('table');
  const defaults = signal<ReadDefaults>({ system: 'in' });

  /** As the user last put the columns right: it outlives the screen, so that going back to select rows costs nothing. */
  let putRight: Mapping | null = null;

  const rows = computed<RowsRead<Draft> | null>(() => {
    if (block.value === null || mapping.value === null || mapping.value.missing.length > 0) return null;
    const all = readRows(block.value, mapping.value, defaults.value);
    return only.value === 'table' || selected.value === null ? all : within(all, selected.value);
  });

  /** What was put right since the last reading is not asked for twice, though it is not kept with the file yet. */
  async function asSettled(found: Mapping, before: Mapping | null) {
    const settled = await settledMapping(host, found);
    if (before?.signature !== found.signature) return settled;
    return { ...settled, mapping: mappingFromText(found, mappingToText(before)) };
  }

  /** Null below the last row, where the cursor stands after typing: the table that it touches is meant. */
  async function filledSelection(): Promise<Area | null> {
    try {
      return (await host.readSelection({ expand: 'none', rowCountMax: ROW_COUNT_MAX })).area;
    } catch (thrown) {
      if (thrown instanceof HostError && thrown.code === 'nothing-selected') return null;
      throw thrown;
    }
  }

  /** A title that stands apart may be selected: then the table is looked for on the whole sheet. */
  async function tableAround(chosen: Area | null): Promise<{ block: Block; found: TableFinding }> {
    const around = await host.readSelection({ expand: 'table', rowCountMax: ROW_COUNT_MAX });
    const found = findTable(around, want, defaults.value, nearIn(around.area, chosen));
    if (found.ok) return { block: around, found };
    const sheets = await host.listSheets();
    const used = sheets.find((sheet) => sheet.name === around.area.sheet)?.used ?? null;
    if (used === null || used.rowCount <= around.area.rowCount) return { block: around, found };
    const all = await host.readArea({ ...used, rowCount: Math.min(used.rowCount, ROW_COUNT_MAX) });
    const again = findTable(all, want, defaults.value, nearIn(all.area, chosen));
    return again.ok ? { block: all, found: again } : { block: around, found };
  }

  return {
    want,
    task,
    block,
    selected,
    mapping,
    remembered,
    only,
    defaults,
    rows,
    read: (rows = only.value) =>
      task.run('Reading the sheet', async () => {
        const before = mapping.value ?? putRight;
        mapping.value = null;
        const chosen = await filledSelection();
        const { block: around, found } = await tableAround(chosen);
        if (!found.ok) return { kind: 'told', help: found.help };
        const settled = await asSettled(found.mapping, before);
        block.value = around;
        selected.value = chosen;
        // One row is a place in the table; only of several is "selected" offered.
        only.value = chosen !== null && chosen.rowCount > 1 ? rows : 'table';
        remembered.value = settled.remembered;
        mapping.value = settled.mapping;
        return null;
      }),
    async fresh() {
      const before = block.value;
      const settled = mapping.value;
      const chosen = await tableAround(selected.value);
      const here = before === null || touches(chosen.block.area, before.area);
      const now = here ? chosen.block : await host.readArea(widened(before.area));
      const found = here ? chosen.found : findTable(now, want, defaults.value);
      if (!found.ok) return { told: found.help };
      const { mapping: again } = await asSettled(found.mapping, settled);
      return { block: now, mapping: again, rows: readRows(now, again, defaults.value) };
    },
    remap(next) {
      putRight = next;
      mapping.value = next;
    },
    setDefaults(next) {
      defaults.value = next;
    },
    async remember() {
      const now = mapping.value;
      if (now !== null) await host.settings.set(keptAs(want, now), mappingToText(now), 'file');
    },
    clear() {
      block.value = null;
      mapping.value = null;
      task.clear();
    },
  };
}

/** The selected cell within what was read, so that of two tables the one is taken that was meant. */
function nearIn(area: Area, chosen: Area | null): NearCell | null {
  if (chosen === null || chosen.sheet !== area.sheet) return null;
  const near = { row: chosen.row - area.row, column: chosen.column - area.column };
  return near.row >= 0 && near.column >= 0 ? near : null;
}

/** Room for the columns that were written beside the table since. */
const OWN_COLUMNS_MAX = 8;
const widened = (area: Area): Area => ({ ...area, columnCount: area.columnCount + OWN_COLUMNS_MAX });

function touches(a: Area, b: Area): boolean {
  return (
    a.sheet === b.sheet &&
    a.row < b.row + b.rowCount &&
    b.row < a.row + a.rowCount &&
    a.column < b.column + b.columnCount &&
    b.column < a.column + a.columnCount
  );
}

/** How the shop measures and counts, and its own woods. */
export function readDefaultsOf(facts: YardFacts | null): ReadDefaults {
  return facts === null
    ? { system: 'in', ownWoods: [] }
    : { system: facts.settings.shown, ownWoods: facts.settings.ownWoods, currency: facts.settings.currency };
}

const keptAs = (want: Want, mapping: Mapping) => `columns ${want} ${mapping.signature}`;

/** As the user settled these headings in this file before, if so. */
export async function settledMapping(host: Pick<SheetHost, 'settings'>, found: Mapping) {
  const kept = await host.settings.get(keptAs(found.want, found), 'file');
  return { mapping: kept === null ? found : mappingFromText(found, kept), remembered: kept !== null };
}

function within<Draft>(all: RowsRead<Draft>, area: Area): RowsRead<Draft> {
  const inside = (one: { readonly sheetRow: number }) =>
    one.sheetRow >= area.row && one.sheetRow < area.row + area.rowCount;
  return {
    rows: all.rows.filter(inside),
    faults: all.faults.filter(inside),
    unread: all.unread.filter(inside),
    skipped: all.skipped.filter(inside),
    notes: all.notes,
    doubts: all.doubts,
  };
}
