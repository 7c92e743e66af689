/**
 * What the rows that are selected in the sheet are, so that the first screen's button can name them: so many boards, parts
 * or prices. A look that nobody asked for: it asks the yard nothing, disturbs no one who types, says nothing aloud, and
 * keeps what it knew until it knows better.
 */
import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Area, Block, SheetHost } from '../../host/host.ts';
import { findTable } from '../../sheet/find-table.ts';
import type { Mapping, ReadDefaults } from '../../sheet/mapping.ts';
import { readBoardRows } from '../../sheet/read-boards.ts';
import { readPartRows } from '../../sheet/read-parts.ts';
import { priceColumns, readPriceRows } from '../../sheet/read-prices.ts';
import { tableKind } from '../../sheet/table-kind.ts';
import { settledMapping } from './sheet-reading.ts';
import type { FromSheet, Shell } from './shell.ts';

interface Rows {
  readonly want: FromSheet;
  readonly count: number;
}

export interface SelectedRows {
  /** null while nothing that can be read is selected, or the program doesn't tell. */
  readonly now: ReadonlySignal<Rows | null>;
  /** Follows the selection; gives the way to stop. */
  follow(): () => void;
}

/** After the last change of the selection, and of the screen. */
const PAUSE_MS = 250;
/** Tables beyond this are read when they are asked for only. */
const ROWS_LOOKED_AT = 2_000;

export function makeSelectedRows(host: SheetHost, shell: Shell, defaults: () => ReadDefaults): SelectedRows {
  const now = signal<Rows | null>(null);
  const selected = signal<Area | null>(null);
  let looks = 0;

  async function look(area: Area): Promise<void> {
    looks += 1;
    const mine = looks;
    const found = area.rowCount < 2 ? null : await counted(area).catch(() => null);
    if (mine !== looks || found === 'later') return;
    if (found?.want !== now.value?.want || found?.count !== now.value?.count) now.value = found;
  }

  async function counted(area: Area) {
    const block = await host.glanceAtTable?.(ROWS_LOOKED_AT);
    // Somebody types: the next change of the selection looks again.
    if (block === null || block === undefined) return 'later';
    if (block.area.sheet !== area.sheet) return null;
    const want = tableKind(block);
    if (want === 'prices') return pricesWithin(block, area, defaults());
    const near = { row: area.row - block.area.row, column: Math.max(0, area.column - block.area.column) };
    const found = want === null ? null : findTable(block, want, defaults(), near);
    if (want === null || found === null || !found.ok) return null;
    const mapping = (await settledMapping(host, found.mapping)).mapping;
    const count = mapping.missing.length > 0 ? 0 : readable(block, within(mapping, block.area, area), defaults());
    return count === 0 ? null : { want, count };
  }

  return {
    now,
    follow() {
      if (host.glanceAtTable === undefined) return () => {};
      let timer: ReturnType<typeof setTimeout> | undefined;
      const stopListening = host.onSelection((area) => {
        selected.value = area;
      });
      const stopLooking = effect(() => {
        const area = selected.value;
        const inSight = shell.fromSheet.value === null && (shell.tab.value === 'Stock' || shell.tab.value === 'Job');
        clearTimeout(timer);
        if (area !== null && inSight) timer = setTimeout(() => void look(area), PAUSE_MS);
      });
      return () => {
        clearTimeout(timer);
        stopListening();
        stopLooking();
      };
    },
  };
}

function pricesWithin(block: Block, selected: Area, { system, ownWoods, currency }: ReadDefaults): Rows | null {
  const columns = priceColumns(block);
  if (columns === null) return null;
  const shop = { system, ownWoods: ownWoods ?? [], currency: currency ?? 'USD' };
  const { rows } = readPriceRows(block, columns, columns.pricedBy ?? 'board-foot', shop);
  const count = rows.filter(
    ({ sheetRow }) => sheetRow >= selected.row && sheetRow < selected.row + selected.rowCount,
  ).length;
  return count === 0 ? null : { want: 'prices', count };
}

/** The rows of the table that are selected. */
function within(mapping: Mapping, table: Area, selected: Area): Mapping {
  const first = selected.row - table.row;
  return {
    ...mapping,
    firstRow: Math.max(mapping.firstRow, first),
    lastRow: Math.min(mapping.lastRow, first + selected.rowCount - 1),
  };
}

/** A size that the sheet made a date of counts: whether dates are fractions is asked once the rows are read. */
const readable = (block: Block, mapping: Mapping, defaults: ReadDefaults): number =>
  (mapping.want === 'boards' ? readBoardRows : readPartRows)(block, { ...mapping, datesAreFractions: true }, defaults)
    .rows.length;
