/** Turns plain rows into the grid's workbook: text stays text (5/4 never becomes a date), "=" starts a formula. */
import {
  BooleanNumber,
  CellValueType,
  type ICellData,
  type IRange,
  type IWorkbookData,
  type IWorksheetData,
} from '@univerjs/core';
import type { PlainBook, PlainSheet } from './plain-book.ts';

/** Room to work below and beside what is there. */
const SPARE_ROWS = 120;
const SPARE_COLUMNS = 8;

export function bookData(book: PlainBook, version: string, locale: IWorkbookData['locale']): IWorkbookData {
  const sheets: IWorkbookData['sheets'] = {};
  const sheetOrder: string[] = [];
  book.sheets.forEach((sheet, index) => {
    const id = `sheet-${index + 1}`;
    sheetOrder.push(id);
    sheets[id] = { id, ...sheetData(sheet, typedCell) };
  });
  return { id: book.id, name: book.name, appVersion: version, locale, styles: {}, sheetOrder, sheets };
}

type CellOf = (value: string | number | null) => ICellData | null;

export function sheetData(sheet: PlainSheet, cellOf: CellOf): Partial<IWorksheetData> {
  const columnCount = Math.max(0, ...sheet.rows.map((row) => row.length));
  return {
    name: sheet.name,
    cellData: cellsOf(sheet, cellOf),
    columnData: Object.fromEntries((sheet.columnWidths ?? []).map((width, column) => [column, { w: width }])),
    rowData: Object.fromEntries((sheet.hiddenRows ?? []).map((row) => [row, { hd: BooleanNumber.TRUE }])),
    mergeData: (sheet.merged ?? []).map(rangeOf),
    rowCount: Math.max(160, sheet.rows.length + SPARE_ROWS),
    columnCount: Math.max(18, columnCount + SPARE_COLUMNS),
    defaultStyle: { fs: 10 },
    defaultRowHeight: 22,
  };
}

function cellsOf(sheet: PlainSheet, cellOf: CellOf): Record<number, Record<number, ICellData>> {
  const cellData: Record<number, Record<number, ICellData>> = {};
  sheet.rows.forEach((row, rowIndex) => {
    const cells: Record<number, ICellData> = {};
    row.forEach((value, column) => {
      const cell = cellOf(value);
      if (cell) cells[column] = cell;
    });
    cellData[rowIndex] = cells;
  });
  for (const { row, column, format } of sheet.formats ?? []) {
    const cell = cellData[row]?.[column];
    if (cell) cell.s = { n: { pattern: format } };
  }
  return cellData;
}

/** As a person types it: "=" starts a formula. */
function typedCell(value: string | number | null): ICellData | null {
  return typeof value === 'string' && value.startsWith('=') ? { f: value } : plainCell(value);
}

/** Text is text, whatever it starts with. */
export function plainCell(value: string | number | null): ICellData | null {
  if (value === null || value === '') return null;
  return { v: value, t: typeof value === 'number' ? CellValueType.NUMBER : CellValueType.STRING };
}

function rangeOf(area: { row: number; column: number; rowCount: number; columnCount: number }): IRange {
  return {
    startRow: area.row,
    endRow: area.row + area.rowCount - 1,
    startColumn: area.column,
    endColumn: area.column + area.columnCount - 1,
  };
}
