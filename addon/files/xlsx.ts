/** Workbooks of .xlsx files as sheets of plain cells, and back. Loaded only when somebody opens or saves a file. */
import { type CellObject, read, type Sheet, utils, type WorkSheet, write } from '@e965/xlsx';
import type { FileCell, FileSheet } from '../host/file-host.ts';

/** A zip bomb or another shop's whole archive is no cut list. */
export const FILE_BYTES_MAX = 20_000_000;

export class FileFault extends Error {
  override readonly name = 'FileFault';
}

/** Throws FileFault where the bytes are no workbook that can be read. */
export function sheetsFromXlsx(bytes: Uint8Array): FileSheet[] {
  if (bytes.byteLength > FILE_BYTES_MAX) {
    throw new FileFault(`The file has more than ${FILE_BYTES_MAX / 1_000_000} MB. Save the sheet you need by itself.`);
  }
  let book: ReturnType<typeof read>;
  try {
    book = read(bytes, {
      type: 'array',
      cellNF: true,
      cellText: true,
      cellFormula: true,
      cellStyles: true,
      dense: true,
    });
  } catch {
    throw new FileFault('This is no workbook that can be read. Save it as .xlsx or .csv and try again.');
  }
  return book.SheetNames.map((name) => sheetFrom(name, book.Sheets[name]));
}

/** The library keeps the rows of a dense sheet here. */
const ROWS = '!data';

function sheetFrom(name: string, sheet: WorkSheet | undefined): FileSheet {
  const data: readonly (readonly (CellObject | undefined)[])[] = sheet?.[ROWS] ?? [];
  // Rows and cells that hold nothing are holes in it.
  const rows = Array.from({ length: data.length }, (_, r) => {
    const row = data[r] ?? [];
    return Array.from({ length: row.length }, (__, c) => fileCell(row[c]));
  });
  return {
    name,
    rows,
    hiddenRows: hiddenIn(sheet),
    merged: (sheet?.['!merges'] ?? []).map(({ s, e }) => ({
      row: s.r,
      column: s.c,
      rowCount: e.r - s.r + 1,
      columnCount: e.c - s.c + 1,
    })),
  };
}

function hiddenIn(sheet: Sheet | undefined): number[] {
  const rows = (sheet as WorkSheet | undefined)?.['!rows'] ?? [];
  return Array.from({ length: rows.length }, (_, row) => row).filter((row) => rows[row]?.hidden === true);
}

function fileCell(cell: CellObject | undefined): FileCell {
  if (cell === undefined || cell.t === 'z') return { value: null };
  const value = cell.t === 'e' ? (cell.w ?? '#N/A') : cell.v instanceof Date ? cell.v.toISOString() : (cell.v ?? null);
  const format = typeof cell.z === 'string' && cell.z !== 'General' ? cell.z : null;
  return {
    value,
    text: cell.w ?? String(value ?? ''),
    ...(cell.f === undefined ? {} : { formula: `=${cell.f}` }),
    ...(format === null ? {} : { format }),
  };
}

/**
 * Texts are stored as texts, so that none starts a formula, whatever it begins with; only what is a formula in the sheet
 * is one in the file, and it is worked out anew by whoever opens it.
 */
export function xlsxFromSheets(sheets: readonly FileSheet[]): Uint8Array {
  const book = utils.book_new();
  for (const sheet of sheets) utils.book_append_sheet(book, worksheet(sheet), sheet.name.slice(0, 31));
  const written: ArrayBuffer = write(book, { type: 'array', bookType: 'xlsx', compression: true });
  return new Uint8Array(written);
}

function worksheet(sheet: FileSheet): WorkSheet {
  const out: WorkSheet = {};
  let columnCount = 1;
  sheet.rows.forEach((row, r) => {
    columnCount = Math.max(columnCount, row.length);
    row.forEach((given, c) => {
      const cell = cellObject(typeof given === 'object' && given !== null ? given : { value: given });
      if (cell !== null) out[utils.encode_cell({ r, c })] = cell;
    });
  });
  const end = { r: Math.max(0, sheet.rows.length - 1), c: columnCount - 1 };
  out['!ref'] = utils.encode_range({ s: { r: 0, c: 0 }, e: end });
  out['!merges'] = (sheet.merged ?? []).map(({ row, column, rowCount, columnCount: width }) => ({
    s: { r: row, c: column },
    e: { r: row + rowCount - 1, c: column + width - 1 },
  }));
  const rows: { hidden: boolean }[] = [];
  for (const row of sheet.hiddenRows ?? []) rows[row] = { hidden: true };
  out['!rows'] = rows;
  return out;
}

function cellObject({ value, formula, format }: FileCell): CellObject | null {
  const look = format === undefined ? {} : { z: format };
  if (formula !== undefined) return { t: 'n', f: formula.replace(/^=/, ''), ...look };
  if (value === null || value === '') return null;
  if (typeof value === 'number') return { t: 'n', v: value, ...look };
  if (typeof value === 'boolean') return { t: 'b', v: value };
  // As text, so that 5/4 stays 5/4 when the cell is opened and entered again.
  return { t: 's', v: value, z: '@' };
}
