/** Reads cells of the bench grid into a Block: stored value, shown text, formula, number format, hidden rows, merges. */
import type { ICellData, Nullable } from '@univerjs/core';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import { type Area, type Block, type Cell, type CellKind, HostError, type Locale } from './host.ts';

/** Univer's own numbers for what a cell holds. */
const TYPE_BOOLEAN = 3;
/** A number format that shows a date. */
const DATE_FORMAT = /[dmy]+[^a-z0-9]+[dmy]+/i;

export function sheetNamed(workbook: FWorkbook, name: string): FWorksheet {
  const sheet = workbook.getSheetByName(name);
  if (!sheet)
    throw new HostError('gone', `The sheet “${name}” is no longer there. Open the sheet you want and try again.`);
  return sheet;
}

export function readBlock(workbook: FWorkbook, area: Area, locale: Locale): Block {
  const sheet = sheetNamed(workbook, area.sheet);
  const cells = readCells(workbook, area);
  return {
    area,
    cells,
    hiddenRows: cells.flatMap((_, r) => (rowVisible(sheet, area.row + r) ? [] : [r])),
    merged: mergesWithin(sheet, area),
    locale,
    revision: revisionOf(cells),
  };
}

export function readCells(workbook: FWorkbook, area: Area): Cell[][] {
  const sheet = sheetNamed(workbook, area.sheet);
  const range = sheet.getRange(area.row, area.column, area.rowCount, area.columnCount);
  const shown = range.getDisplayValues();
  const formulas = range.getFormulas();
  const formats = range.getNumberFormats();
  return range
    .getCellDatas()
    .map((row, r) =>
      row.map((data, c) => cellFrom(data || null, shown[r]?.[c] ?? '', formulas[r]?.[c] ?? '', formats[r]?.[c] ?? '')),
    );
}

export function rowVisible(sheet: FWorksheet, row: number): boolean {
  return sheet.getSheet().getRowVisible(row);
}

export function mergesWithin(sheet: FWorksheet, area: Area): Area[] {
  const merges: Area[] = [];
  for (const range of sheet.getMergedRanges()) {
    const merge: Area = {
      sheet: area.sheet,
      row: range.getRow(),
      column: range.getColumn(),
      rowCount: range.getHeight(),
      columnCount: range.getWidth(),
    };
    const apart =
      merge.row >= area.row + area.rowCount ||
      merge.row + merge.rowCount <= area.row ||
      merge.column >= area.column + area.columnCount ||
      merge.column + merge.columnCount <= area.column;
    if (!apart) merges.push(merge);
  }
  return merges;
}

/** The part of a sheet that holds anything, or null. */
export function usedArea(sheet: FWorksheet): Area | null {
  let bottom = -1;
  let right = -1;
  let top = Number.POSITIVE_INFINITY;
  let left = Number.POSITIVE_INFINITY;
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((row, column, data) => {
      if (!holdsSomething(data)) return;
      top = Math.min(top, row);
      left = Math.min(left, column);
      bottom = Math.max(bottom, row);
      right = Math.max(right, column);
    });
  if (bottom < 0) return null;
  return {
    sheet: sheet.getSheetName(),
    row: top,
    column: left,
    rowCount: bottom - top + 1,
    columnCount: right - left + 1,
  };
}

function holdsSomething(data: Nullable<ICellData>): boolean {
  if (!data) return false;
  return (
    (data.v !== undefined && data.v !== null && data.v !== '') || Boolean(data.f) || Boolean(data.si) || Boolean(data.p)
  );
}

function cellFrom(data: ICellData | null, shown: string, formula: string, format: string): Cell {
  const text = shown.replace(/[\r\n]+$/, '');
  const usedFormat = format === '' || format === 'General' ? null : format;
  const formulaText = formula === '' ? null : formula;
  const value = data?.p ? text : (data?.v ?? null);
  if (value === null || value === '') {
    return { kind: 'empty', raw: null, text, formula: formulaText, format: usedFormat };
  }
  if (data?.t === TYPE_BOOLEAN || typeof value === 'boolean') {
    const raw = value === true || value === 1 || value === 'TRUE';
    return { kind: 'boolean', raw, text: raw ? 'TRUE' : 'FALSE', formula: formulaText, format: usedFormat };
  }
  return { kind: kindOf(value, formulaText, usedFormat), raw: value, text, formula: formulaText, format: usedFormat };
}

function kindOf(value: string | number, formula: string | null, format: string | null): CellKind {
  if (typeof value === 'number') return format && DATE_FORMAT.test(format) ? 'date' : 'number';
  return formula && /^#[A-Z/0!?]+/.test(value) ? 'error' : 'text';
}

/** A short hash of formulas and texts (FNV-1a, 32 bit, twice with different seeds). */
function revisionOf(cells: readonly (readonly Cell[])[]): string {
  let first = 0x811c9dc5;
  let second = 0x9747b28c;
  for (const row of cells) {
    for (const cell of row) {
      const text = `${cell.formula ?? ''}\u0001${cell.text}\u0002`;
      for (let i = 0; i < text.length; i += 1) {
        const code = text.charCodeAt(i);
        first = Math.imul(first ^ code, 0x01000193);
        second = Math.imul(second ^ code, 0x01000193);
      }
    }
  }
  return (first >>> 0).toString(16).padStart(8, '0') + (second >>> 0).toString(16).padStart(8, '0');
}
