/**
 * Writes into Excel in two round trips: one reads what stands there and every guard, the other sets formats and values
 * with holes where nothing may change. Both belong to one step of the user's undo.
 */
import { areaAround } from './area.ts';
import { cellAddress } from './bench-address.ts';
import { hiddenRows, loadCells, rangeOf } from './excel-read.ts';
import { changeExcel, readExcel, writesNotes } from './excel-run.ts';
import {
  clashesOf,
  decideUndo,
  decideWrite,
  HEADING_TINT,
  journalOf,
  type Put,
  putsOfRows,
  type Standing,
  textOf,
  typedValue,
} from './guarded-write.ts';
import type { Area, Cell, Clash, WritePlan, WriteResult } from './host.ts';
import { freeSheetName } from './sheet-name.ts';
import type { WriteTokens } from './write-tokens.ts';

type Place = { readonly row: number; readonly column: number };

export function planWrite(plan: WritePlan): Promise<Clash[]> {
  return readExcel(async (context) => {
    if (plan.cells.length === 0) return [];
    return clashesOf(plan, await readStanding(context, plan.sheet, plan.cells));
  });
}

export function write(plan: WritePlan, over: readonly string[], tokens: WriteTokens): Promise<WriteResult> {
  if (plan.cells.length === 0) return Promise.resolve({ written: 0, clashes: [], undoToken: null });
  return changeExcel(async (context) => {
    const decision = decideWrite(plan, over, await readStanding(context, plan.sheet, plan.cells));
    if (decision.puts.length === 0) return { written: 0, clashes: decision.stopped, undoToken: null };
    const sheet = context.workbook.worksheets.getItem(plan.sheet);
    const after = putAll(context, plan.sheet, decision.puts);
    for (const { row, column } of decision.headings) {
      sheet.getCell(row, column).format.fill.color = HEADING_TINT;
      if (writesNotes()) sheet.notes.add(cellAddress(row, column), plan.heading?.note ?? '');
    }
    await context.sync();
    const undoToken = tokens.keep(journalOf(decision, plan.sheet, after()));
    return { written: decision.puts.length, clashes: decision.stopped, undoToken };
  });
}

export function undo(undoToken: string, tokens: WriteTokens): Promise<WriteResult> {
  const journal = tokens.find(undoToken);
  return changeExcel(async (context) => {
    const places = journal.cells.map(({ before }) => before);
    const area = areaAround(journal.sheet, places);
    const loaded = loadCells(rangeOf(context, area));
    await context.sync();
    const decision = decideUndo(journal, cellsWithin(area, loaded.cells()));
    if (decision.puts.length === 0) return { written: 0, clashes: decision.clashes, undoToken: null };
    const sheet = context.workbook.worksheets.getItem(journal.sheet);
    const after = putAll(context, journal.sheet, decision.puts);
    for (const [row, column] of decision.headings) {
      sheet.getCell(row, column).format.fill.clear();
      if (writesNotes()) sheet.notes.getItem(cellAddress(row, column)).delete();
    }
    await context.sync();
    tokens.forget(undoToken);
    const texts = after();
    const cells = decision.before.map((before, index) => ({ before, textAfter: texts[index] ?? '' }));
    const again = tokens.keep({ sheet: journal.sheet, cells, headings: [] });
    return { written: decision.puts.length, clashes: decision.clashes, undoToken: again };
  });
}

export function addSheet(
  wanted: string,
  rows: readonly (readonly (string | number | null)[])[],
): Promise<{ readonly name: string }> {
  return changeExcel(async (context) => {
    const sheets = context.workbook.worksheets;
    sheets.load('items/name');
    await context.sync();
    const name = freeSheetName(
      wanted,
      sheets.items.map((sheet) => sheet.name),
    );
    // Added, never copied: copying a sheet empties the undo list on the desktop.
    sheets.add(name);
    const puts = putsOfRows(rows).flat();
    if (puts.length > 0) putAll(context, name, puts);
    await context.sync();
    return { name };
  });
}

/** Sets the cells, and loads what they show afterwards in the same round trip. */
function putAll(context: Excel.RequestContext, sheet: string, puts: readonly Put[]): () => string[] {
  const area = areaAround(sheet, puts);
  const range = rangeOf(context, area);
  const holes = () => Array.from({ length: area.rowCount }, () => Array<unknown>(area.columnCount).fill(null));
  const [formats, values] = [holes(), holes()];
  for (const put of puts) {
    const [row, column] = [put.row - area.row, put.column - area.column];
    const [formatRow, valueRow] = [formats[row], values[row]];
    if (formatRow && put.format !== null) formatRow[column] = put.format;
    if (valueRow) valueRow[column] = typedValue(put);
  }
  // The format comes first: a text in a cell formatted as text is never read as a date.
  if (puts.some((put) => put.format !== null)) range.numberFormat = formats;
  range.values = values;
  const shown = rangeOf(context, area);
  const loaded = loadCells(shown);
  return () => {
    const at = cellsWithin(area, loaded.cells());
    return puts.map(({ row, column }) => textOf(at(row, column)));
  };
}

function cellsWithin(area: Area, cells: readonly (readonly Cell[])[]): Standing['at'] {
  return (row, column) => cells[row - area.row]?.[column - area.column] ?? null;
}

async function readStanding(
  context: Excel.RequestContext,
  sheetName: string,
  places: readonly Place[],
): Promise<Standing> {
  const area = areaAround(sheetName, places);
  const sheet = context.workbook.worksheets.getItem(sheetName);
  const range = rangeOf(context, area);
  const loaded = loadCells(range);
  const merges = range.getMergedAreasOrNullObject();
  merges.load('address');
  sheet.protection.load('protected');
  range.format.protection.load('locked');
  await context.sync();

  const hidden = new Set((await hiddenRows(context, range, area, loaded.allHidden())).map((row) => row + area.row));
  const locked = sheet.protection.protected
    ? await lockedCells(context, sheet, places, range.format.protection.locked ?? null)
    : () => false;
  const by = `the sheet “${sheetName}”`;
  return {
    at: cellsWithin(area, loaded.cells()),
    merged: merges.isNullObject ? [] : areasOfAddress(sheetName, merges.address),
    hidden: (row) => hidden.has(row),
    protectedAt: (row, column) => (locked(row, column) ? by : null),
  };
}

/** On a protected sheet the cells that are locked; asked one by one only where some are and some are not. */
async function lockedCells(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  places: readonly Place[],
  all: boolean | null,
): Promise<(row: number, column: number) => boolean> {
  if (all !== null) return () => all;
  const cells = places.map(({ row, column }) => {
    const protection = sheet.getCell(row, column).format.protection;
    protection.load('locked');
    return { address: cellAddress(row, column), protection };
  });
  await context.sync();
  const locked = new Set(cells.filter(({ protection }) => protection.locked).map(({ address }) => address));
  return (row, column) => locked.has(cellAddress(row, column));
}

/** "Boards!A1:F1,Boards!C9:D9" as areas. */
export function areasOfAddress(sheet: string, address: string): Area[] {
  return [...address.matchAll(/([A-Z]+)(\d+):([A-Z]+)(\d+)(?=,|$)/g)].map(
    ([, left = '', top = '', right = '', bottom = '']) => {
      const [row, column] = [Number(top) - 1, columnOf(left)];
      return { sheet, row, column, rowCount: Number(bottom) - row, columnCount: columnOf(right) - column + 1 };
    },
  );
}

const columnOf = (letters: string) =>
  [...letters].reduce((count, letter) => count * 26 + letter.charCodeAt(0) - 64, 0) - 1;
