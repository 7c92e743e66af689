/** Reads cells of the bench grid into a Block: stored value, shown text, formula, number format, hidden rows, merges. */
import type { ICellData, Nullable } from '@univerjs/core';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import { overlap } from './area.ts';
import { cellOf } from './cell-kind.ts';
import { type Area, type Block, type Cell, HostError, type Locale } from './host.ts';
import { revisionOf } from './revision.ts';
import { sheetGone } from './sheet-name.ts';

/** Univer's own numbers for what a cell holds. */
const TYPE_BOOLEAN = 3;

export function sheetNamed(workbook: FWorkbook, name: string): FWorksheet {
  const sheet = workbook.getSheetByName(name);
  if (!sheet) throw new HostError('gone', sheetGone(name));
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
  const formulas = range.getFormulas();
  return range.getCellDatas().map((cells, r) =>
    cells.map((data, c) => {
      const row = area.row + r;
      const column = area.column + c;
      const format = sheet.getSheet().getComposedCellStyleByCellData(row, column, data).n?.pattern ?? '';
      const shown = plainText(data, format) ?? sheet.getRange(row, column).getDisplayValue();
      return cellFrom(data || null, shown, formulas[r]?.[c] ?? '', format);
    }),
  );
}

/** Digits that the grid shows of a number without a format, whatever the column's width. */
const PLAIN_DIGITS = 10;

/** What the grid shows of a cell without a number format; null where it has to be asked, which takes long for many cells. */
function plainText(data: Nullable<ICellData>, format: string): string | null {
  if (!data || data.p) return data ? null : '';
  const value = data.v ?? '';
  if (typeof value === 'string') return format === '' || format === '@' || format === 'General' ? value : null;
  if (typeof value !== 'number' || (format !== '' && format !== 'General')) return null;
  return Number(value.toPrecision(PLAIN_DIGITS)) === value ? String(value) : null;
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
    if (overlap(merge, area)) merges.push(merge);
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
  const value = data?.p ? shown.trimEnd() : (data?.v ?? '');
  const isBoolean = value !== '' && (data?.t === TYPE_BOOLEAN || typeof value === 'boolean');
  if (!isBoolean) return cellOf(value, shown, formula, format);
  const raw = value === true || value === 1 || value === 'TRUE';
  return cellOf(raw, raw ? 'TRUE' : 'FALSE', formula, format);
}
