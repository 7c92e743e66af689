/** A workbook of the grid from the sheets of a file: what was text stays text, what was a formula is one. */
import { BooleanNumber, CellValueType, type ICellData, type IWorkbookData, LocaleType } from '@univerjs/core';
import type { FileCell, FileSheet } from '../../host/file-host.ts';
import { sheetData } from './book.ts';

export function fileBookData(id: string, name: string, sheets: readonly FileSheet[]): IWorkbookData {
  const data: IWorkbookData['sheets'] = {};
  const sheetOrder = sheets.map((_, index) => `sheet-${index + 1}`);
  sheets.forEach((sheet, index) => {
    const sheetId = sheetOrder[index] ?? '';
    const { name: sheetName, rows, hiddenRows = [], merged = [] } = sheet;
    const empty = rows.map((row) => row.map(() => null));
    const cellData: Record<number, Record<number, ICellData>> = {};
    rows.forEach((row, r) => {
      const cells: Record<number, ICellData> = {};
      row.forEach((given, c) => {
        const cell = gridCell(typeof given === 'object' && given !== null ? given : { value: given });
        if (cell !== null) cells[c] = cell;
      });
      cellData[r] = cells;
    });
    const plain = { name: sheetName, rows: empty, hiddenRows, merged };
    data[sheetId] = { id: sheetId, ...sheetData(plain, () => null), cellData };
  });
  return { id, name, appVersion: '0.25.1', locale: LocaleType.EN_US, styles: {}, sheetOrder, sheets: data };
}

function gridCell({ value, formula, format }: FileCell): ICellData | null {
  const look = format === undefined ? {} : { s: { n: { pattern: format } } };
  if (formula !== undefined) return { f: formula, ...look };
  if (value === null || value === '') return null;
  if (typeof value === 'boolean')
    return { v: value ? BooleanNumber.TRUE : BooleanNumber.FALSE, t: CellValueType.BOOLEAN };
  return { v: value, t: typeof value === 'number' ? CellValueType.NUMBER : CellValueType.STRING, ...look };
}
