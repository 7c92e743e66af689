/** Reads the open Google file: values, shown texts, formulas, formats, hidden rows and merges, in plain data. */
import { overlap, selectedArea, withinSheet } from '../../host/area.ts';
import { cellOf } from '../../host/cell-kind.ts';
import type { ReadBlock } from '../../host/google-wire.ts';
import { type Area, type Cell, HostError } from '../../host/host.ts';
import { sheetGone } from '../../host/sheet-name.ts';
import { serialOf } from './date-serial.ts';

export type Sheet = GoogleAppsScript.Spreadsheet.Sheet;
export type Range = GoogleAppsScript.Spreadsheet.Range;

export const book = () => SpreadsheetApp.getActiveSpreadsheet();

export function sheetNamed(name: string): Sheet {
  const sheet = book().getSheetByName(name);
  if (!sheet) throw new HostError('gone', sheetGone(name));
  return sheet;
}

/** Google counts from one. */
export const rangeOf = (sheet: Sheet, area: Omit<Area, 'sheet'>): Range =>
  sheet.getRange(area.row + 1, area.column + 1, area.rowCount, area.columnCount);

export function areaOfRange(range: Range): Area {
  return {
    sheet: range.getSheet().getName(),
    row: range.getRow() - 1,
    column: range.getColumn() - 1,
    rowCount: range.getNumRows(),
    columnCount: range.getNumColumns(),
  };
}

/** From the first cell to the last filled one; Google does not say where the filled part begins. */
function filledFromTop(sheet: Sheet): Area | null {
  const [rowCount, columnCount] = [sheet.getLastRow(), sheet.getLastColumn()];
  return rowCount > 0 && columnCount > 0 ? { sheet: sheet.getName(), row: 0, column: 0, rowCount, columnCount } : null;
}

function textsOf(sheet: Sheet): string[][] {
  const filled = filledFromTop(sheet);
  return filled ? rangeOf(sheet, filled).getDisplayValues() : [];
}

/** The filled part without the empty rows and columns before it. */
function usedArea(sheet: Sheet, texts: readonly (readonly string[])[]): Area | null {
  const row = texts.findIndex((cells) => cells.some((text) => text !== ''));
  if (row < 0) return filledFromTop(sheet);
  const column = texts.reduce((left, cells) => {
    const first = cells.findIndex((text) => text !== '');
    return first < 0 ? left : Math.min(left, first);
  }, Number.POSITIVE_INFINITY);
  const columnCount = (texts[0]?.length ?? 0) - column;
  return { sheet: sheet.getName(), row, column, rowCount: texts.length - row, columnCount };
}

export function readSelection(expand: 'none' | 'table', rowCountMax: number): ReadBlock {
  const range = book().getActiveRange();
  if (!range) throw new HostError('nothing-selected', 'Select the rows in the sheet first.');
  const sheet = range.getSheet();
  const texts = textsOf(sheet);
  const used = usedArea(sheet, texts);
  const area = selectedArea(
    areaOfRange(range),
    {
      used,
      maxRows: sheet.getMaxRows(),
      maxColumns: sheet.getMaxColumns(),
      texts: () => (used ? texts.slice(used.row).map((cells) => cells.slice(used.column)) : []),
    },
    expand,
    rowCountMax,
  );
  return readBlock(sheet, area);
}

export function readArea(area: Area): ReadBlock {
  const sheet = sheetNamed(area.sheet);
  return readBlock(sheet, withinSheet(area, sheet.getMaxRows(), sheet.getMaxColumns()));
}

export function listSheets(): { name: string; used: Area | null }[] {
  return book()
    .getSheets()
    .map((sheet) => ({ name: sheet.getName(), used: usedArea(sheet, textsOf(sheet)) }));
}

function readBlock(sheet: Sheet, area: Area): ReadBlock {
  const range = rangeOf(sheet, area);
  return {
    area,
    cells: readCells(range),
    hiddenRows: hiddenRows(sheet, area),
    merged: range
      .getMergedRanges()
      .map(areaOfRange)
      .filter((merge) => overlap(merge, area)),
    localeTag: book().getSpreadsheetLocale() ?? '',
  };
}

export function readCells(range: Range): Cell[][] {
  const [texts, formulas, formats] = [range.getDisplayValues(), range.getFormulas(), range.getNumberFormats()];
  return range
    .getValues()
    .map((row, r) =>
      row.map((value: unknown, c) =>
        cellFrom(value, texts[r]?.[c] ?? '', formulas[r]?.[c] ?? '', formats[r]?.[c] ?? ''),
      ),
    );
}

/** What Google calls the format of a number that nobody formatted. */
const AUTOMATIC = /^(?:General|0\.#+)$/;

function cellFrom(value: unknown, text: string, formula: string, formatGiven: string): Cell {
  const format = AUTOMATIC.test(formatGiven) ? '' : formatGiven;
  const serial = serialOf(value);
  if (serial !== null) return { ...cellOf(serial, text, formula, format), kind: 'date' };
  const plain = typeof value === 'number' || typeof value === 'boolean' ? value : String(value ?? '');
  return cellOf(plain, text, formula, format);
}

/** Google tells hidden rows one by one, by filter or by hand. */
export function hiddenRows(sheet: Sheet, area: Area): number[] {
  const rows: number[] = [];
  for (let r = 0; r < area.rowCount; r += 1) if (rowHidden(sheet, area.row + r)) rows.push(r);
  return rows;
}

export function rowHidden(sheet: Sheet, row: number): boolean {
  if (row >= sheet.getMaxRows()) return false;
  return sheet.isRowHiddenByFilter(row + 1) || sheet.isRowHiddenByUser(row + 1);
}
