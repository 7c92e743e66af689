/** The bench grid as a SheetHost: one narrow door between the sidebar and Univer's facade. */
import type { IWorksheetData } from '@univerjs/core';
import type { FUniver } from '@univerjs/core/facade';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import { firstCell, selectedArea, withinSheet } from './area.ts';
import { BENCH_COMMAND } from './bench-command.ts';
import { showPrintPage } from './bench-print.ts';
import { readBlock, readCells, sheetNamed, usedArea } from './bench-read.ts';
import { benchSettings } from './bench-settings.ts';
import { benchWriter } from './bench-write.ts';
import { type Area, type HostCommand, HostError, type Locale, type SheetHost } from './host.ts';
import { freeSheetName } from './sheet-name.ts';

const SELECTION_PAUSE_MS = 80;
const SELECTS: ReadonlySet<string> = new Set([
  'sheet.operation.set-selections',
  'sheet.operation.set-worksheet-active',
]);

export interface BenchGrid {
  readonly api: FUniver;
  readonly workbook: FWorkbook;
  /** Kept once the grid has drawn itself and can be asked. */
  readonly ready: Promise<void>;
  /** Where the page tells of a picked item of its menu: a CustomEvent of this name, the command as its detail. */
  readonly menu: EventTarget;
  /** Puts the keyboard into the grid. */
  focus(): void;
  /** How the workbook writes numbers and dates. */
  readonly locale: Locale;
  /** A sheet's data from plain rows; the page knows the grid's form. */
  sheetFrom(name: string, rows: readonly (readonly (string | number | null)[])[]): Partial<IWorksheetData>;
}

export function benchHost(grid: BenchGrid): SheetHost {
  const { api, workbook } = grid;
  const writer = benchWriter(api, workbook);
  const read = (area: Area) => readBlock(workbook, area, grid.locale);
  let listening: ((command: HostCommand) => void) | null = null;
  /** Picked before the panel listened. */
  let waiting: HostCommand | null = null;
  grid.menu.addEventListener(BENCH_COMMAND, (event) => {
    if (!(event instanceof CustomEvent)) return;
    if (listening === null) waiting = event.detail;
    else listening(event.detail);
  });

  /** Waits for the grid. Whatever is half typed in a cell is entered first, so that it is read and never lost. */
  async function settle(): Promise<void> {
    await grid.ready;
    if (workbook.isCellEditing()) await workbook.endEditingAsync(true);
  }

  return {
    async capabilities() {
      return { host: 'bench', pushesSelection: true, undoesNatively: true, notes: true };
    },
    async readSelection(options) {
      await settle();
      return read(meantBy(workbook, selectionOf(workbook), options.expand, options.rowCountMax));
    },
    async glanceAtTable(rowCountMax) {
      await grid.ready;
      if (workbook.isCellEditing()) return null;
      return read(meantBy(workbook, firstCell(selectionOf(workbook)), 'table', rowCountMax));
    },
    async readArea(area) {
      await settle();
      const sheet = sheetNamed(workbook, area.sheet);
      return read(withinSheet(area, sheet.getMaxRows(), sheet.getMaxColumns()));
    },
    async listSheets() {
      await settle();
      return workbook.getSheets().map((sheet) => ({ name: sheet.getSheetName(), used: usedArea(sheet) }));
    },
    async planWrite(plan) {
      await settle();
      return writer.clashes(plan);
    },
    async write(plan, over) {
      await settle();
      return writer.write(plan, over);
    },
    async undo(undoToken) {
      await settle();
      return writer.undo(undoToken);
    },
    async addSheet(name, rows) {
      await settle();
      const taken = workbook.getSheets().map((sheet) => sheet.getSheetName());
      const free = freeSheetName(name, taken);
      const sheet = grid.sheetFrom(free, rows);
      workbook.create(free, sheet.rowCount ?? rows.length, sheet.columnCount ?? 1, { sheet });
      return { name: free };
    },
    async reveal(area) {
      await grid.ready;
      const sheet = sheetNamed(workbook, area.sheet);
      if (workbook.getActiveSheet().getSheetId() !== sheet.getSheetId()) sheet.activate();
      const shown = withinSheet(area, sheet.getMaxRows(), sheet.getMaxColumns());
      sheet.getRange(shown.row, shown.column, shown.rowCount, shown.columnCount).activate();
      sheet.scrollToCell(Math.max(0, shown.row - 3), Math.max(0, shown.column - 1));
    },
    onSelection(listener) {
      let timer: ReturnType<typeof setTimeout> | undefined;
      let told = '';
      const tell = () => {
        const range = workbook.getActiveRange();
        if (!range) return;
        const area = areaOfRange(workbook.getActiveSheet(), range);
        const text = JSON.stringify(area);
        if (text !== told) listener(area);
        told = text;
      };
      const later = () => {
        clearTimeout(timer);
        timer = setTimeout(tell, SELECTION_PAUSE_MS);
      };
      // The one hears the user's own hand, the other what is selected by a jump or by turning to another sheet.
      const byHand = workbook.onSelectionChange(later);
      const byCommand = workbook.onCommandExecuted(({ id }) => {
        if (SELECTS.has(id)) later();
      });
      return () => {
        clearTimeout(timer);
        byHand.dispose();
        byCommand.dispose();
      };
    },
    onCommand(listener) {
      listening = listener;
      const before = waiting;
      waiting = null;
      if (before !== null) listener(before);
      return () => {
        if (listening === listener) listening = null;
      };
    },
    settings: benchSettings(workbook.getId()),
    async focusSheet() {
      await grid.ready;
      grid.focus();
    },
    async showPage(title, html) {
      showPrintPage(title, html);
    },
  };
}

function areaOfRange(
  sheet: FWorksheet,
  range: { getRow(): number; getColumn(): number; getHeight(): number; getWidth(): number },
): Area {
  // A whole row or column has no start or end of its own in the grid.
  const row = Number.isNaN(range.getRow()) ? 0 : range.getRow();
  const column = Number.isNaN(range.getColumn()) ? 0 : range.getColumn();
  const rowCount = Number.isNaN(range.getHeight()) ? sheet.getMaxRows() : range.getHeight();
  const columnCount = Number.isNaN(range.getWidth()) ? sheet.getMaxColumns() : range.getWidth();
  return { sheet: sheet.getSheetName(), row, column, rowCount, columnCount };
}

function selectionOf(workbook: FWorkbook): Area {
  const range = workbook.getActiveRange();
  if (!range) throw new HostError('nothing-selected', 'Select the rows in the sheet first.');
  return areaOfRange(workbook.getActiveSheet(), range);
}

/** What a selection on the sheet in front means, by what the grid shows of it. */
function meantBy(workbook: FWorkbook, selected: Area, expand: 'none' | 'table', rowCountMax: number): Area {
  const sheet = workbook.getActiveSheet();
  const used = usedArea(sheet);
  const shown = {
    used,
    maxRows: sheet.getMaxRows(),
    maxColumns: sheet.getMaxColumns(),
    texts: () => (used ? readCells(workbook, used).map((row) => row.map((cell) => cell.text)) : []),
  };
  return selectedArea(selected, shown, expand, rowCountMax);
}
