/** The bench grid as a SheetHost: one narrow door between the sidebar and Univer's facade. */
import type { IWorksheetData } from '@univerjs/core';
import type { FUniver } from '@univerjs/core/facade';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import { showPrintPage } from './bench-print.ts';
import { readBlock, readCells, sheetNamed, usedArea } from './bench-read.ts';
import { regionAround } from './bench-region.ts';
import { benchSettings } from './bench-settings.ts';
import { benchWriter } from './bench-write.ts';
import { type Area, HostError, type Locale, type SheetHost } from './host.ts';

const SELECTION_PAUSE_MS = 80;

export interface BenchGrid {
  readonly api: FUniver;
  readonly workbook: FWorkbook;
  /** Kept once the grid has drawn itself and can be asked. */
  readonly ready: Promise<void>;
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
      const area = selectedArea(workbook, options.expand);
      if (area.rowCount > options.rowCountMax) {
        throw new HostError(
          'too-large',
          `${area.rowCount} rows are selected; ${options.rowCountMax} can be read at once. Select fewer rows.`,
        );
      }
      return read(area);
    },
    async readArea(area) {
      await settle();
      return read(withinSheet(sheetNamed(workbook, area.sheet), area));
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
      const free = freeName(workbook, name);
      const sheet = grid.sheetFrom(free, rows);
      workbook.create(free, sheet.rowCount ?? rows.length, sheet.columnCount ?? 1, { sheet });
      return { name: free };
    },
    async reveal(area) {
      await grid.ready;
      const sheet = sheetNamed(workbook, area.sheet);
      if (workbook.getActiveSheet().getSheetId() !== sheet.getSheetId()) sheet.activate();
      const shown = withinSheet(sheet, area);
      sheet.getRange(shown.row, shown.column, shown.rowCount, shown.columnCount).activate();
      sheet.scrollToCell(Math.max(0, shown.row - 3), Math.max(0, shown.column - 1));
    },
    onSelection(listener) {
      let timer: ReturnType<typeof setTimeout> | undefined;
      const subscription = workbook.onSelectionChange(() => {
        clearTimeout(timer);
        timer = setTimeout(() => {
          const range = workbook.getActiveRange();
          if (range) listener(areaOfRange(workbook.getActiveSheet(), range));
        }, SELECTION_PAUSE_MS);
      });
      return () => {
        clearTimeout(timer);
        subscription.dispose();
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

function selectedArea(workbook: FWorkbook, expand: 'none' | 'table'): Area {
  const sheet = workbook.getActiveSheet();
  const range = workbook.getActiveRange();
  if (!range) throw new HostError('nothing-selected', 'Select the rows in the sheet first.');
  const used = usedArea(sheet);
  if (!used)
    throw new HostError('nothing-selected', `${sheet.getSheetName()} is empty. Select rows that hold something.`);
  const selected = areaOfRange(sheet, range);
  const wholeRows = selected.columnCount >= sheet.getMaxColumns();
  const small =
    !wholeRows && (selected.rowCount === 1 || selected.columnCount === 1) && selected.rowCount < sheet.getMaxRows();
  if (expand === 'table' && small) {
    const from = {
      ...used,
      row: 0,
      column: 0,
      rowCount: used.row + used.rowCount,
      columnCount: used.column + used.columnCount,
    };
    const texts = readCells(workbook, from).map((row) => row.map((cell) => cell.text));
    const region = { sheet: selected.sheet, ...regionAround(texts, selected) };
    if (region.rowCount > 1 || region.columnCount > 1 || overlap(selected, used))
      return overlap(region, used) ?? region;
  }
  const area = overlap(selected, used);
  if (!area)
    throw new HostError('nothing-selected', 'The selected cells are empty. Select the rows in the sheet first.');
  return area;
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

function withinSheet(sheet: FWorksheet, area: Area): Area {
  const whole = { ...area, row: 0, column: 0, rowCount: sheet.getMaxRows(), columnCount: sheet.getMaxColumns() };
  const inside = overlap(area, whole);
  if (!inside) throw new HostError('gone', `Those cells are no longer on the sheet “${area.sheet}”.`);
  return inside;
}

function overlap(a: Area, b: Area): Area | null {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rowCount = Math.min(a.row + a.rowCount, b.row + b.rowCount) - row;
  const columnCount = Math.min(a.column + a.columnCount, b.column + b.columnCount) - column;
  return rowCount > 0 && columnCount > 0 ? { sheet: a.sheet, row, column, rowCount, columnCount } : null;
}

function freeName(workbook: FWorkbook, wanted: string): string {
  const taken = new Set(workbook.getSheets().map((sheet) => sheet.getSheetName().toLowerCase()));
  // Characters that spreadsheets refuse in a sheet's name, and their limit of 31.
  const base =
    wanted
      .replace(/[\\/?*[\]:]/g, '-')
      .slice(0, 27)
      .trim() || 'Sheet';
  let name = base;
  for (let count = 2; taken.has(name.toLowerCase()); count += 1) name = `${base} ${count}`;
  return name;
}
