/**
 * Writes into the bench grid. Every guard is looked at again right before the write, and all cells go in as one change,
 * so that the grid's own undo takes one step. Beside that each write keeps what stood there, for undo by token.
 */
import type { ICellData } from '@univerjs/core';
import type { FUniver } from '@univerjs/core/facade';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import { cellAddress } from './bench-address.ts';
import { mergesWithin, readCells, rowVisible, sheetNamed } from './bench-read.ts';
import {
  type Area,
  type Cell,
  type CellWrite,
  type Clash,
  type ClashWhy,
  HostError,
  type WritePlan,
  type WriteResult,
} from './host.ts';

const SET_CELLS = 'sheet.command.set-range-values';
const TYPE_TEXT = 1;
const TYPE_NUMBER = 2;
const HEADING_TINT = '#E4ECE6';
const HEADING_INK = '#23241F';

type CellMatrix = Record<number, Record<number, ICellData | null>>;

interface Kept {
  readonly row: number;
  readonly column: number;
  readonly before: ICellData | null;
  readonly textAfter: string;
}

/** What a write changed: enough to turn it round, and to see whether somebody typed over it since. */
interface Undoable {
  readonly sheetId: string;
  readonly cells: readonly Kept[];
  readonly noted: readonly (readonly [row: number, column: number])[];
}

export interface BenchWriter {
  clashes(plan: WritePlan): Clash[];
  write(plan: WritePlan, over: readonly string[]): WriteResult;
  undo(undoToken: string): WriteResult;
}

export function benchWriter(api: FUniver, workbook: FWorkbook): BenchWriter {
  const undoables = new Map<string, Undoable>();
  let tokenCount = 0;

  function keep(undoable: Undoable): string {
    tokenCount += 1;
    const token = `write-${tokenCount}`;
    undoables.set(token, undoable);
    return token;
  }

  /** Sets the cells as one change; a null cell is emptied, its format with it. */
  function setCells(sheet: FWorksheet, matrix: CellMatrix, area: Area): void {
    const done = api.syncExecuteCommand(SET_CELLS, {
      unitId: workbook.getId(),
      subUnitId: sheet.getSheetId(),
      range: sheet.getRange(area.row, area.column, area.rowCount, area.columnCount).getRange(),
      value: matrix,
    });
    if (!done) throw new HostError('protected', 'The sheet did not take the change. Check that it is not protected.');
  }

  function write(plan: WritePlan, over: readonly string[]): WriteResult {
    const found = findClashes(workbook, plan);
    const stopped = found.filter((clash) => clash.why === 'merged' || !over.includes(clash.address));
    const stoppedAt = new Set(stopped.map((clash) => clash.address));
    const cells = plan.cells.filter((cell) => !stoppedAt.has(cellAddress(cell.row, cell.column)));
    if (cells.length === 0) return { written: 0, clashes: stopped, undoToken: null };

    const sheet = sheetNamed(workbook, plan.sheet);
    const area = areaOf(plan.sheet, cells);
    makeRoom(sheet, area);
    const headingRow = plan.headerNote === null ? -1 : Math.min(...plan.cells.map((cell) => cell.row));
    const headings = cells.filter((cell) => cell.row === headingRow);
    if (plan.headerNote !== null) for (const cell of headings) setNote(sheet, cell, plan.headerNote);

    const before = cells.map((cell) => storedCell(sheet, cell.row, cell.column));
    const matrix: CellMatrix = {};
    for (const cell of cells) put(matrix, cell.row, cell.column, dataOf(cell, cell.row === headingRow));
    setCells(sheet, matrix, area);
    const textsAfter = textsAt(workbook, plan.sheet, cells, area);
    const undoToken = keep({
      sheetId: sheet.getSheetId(),
      cells: cells.map((cell, index) => ({
        row: cell.row,
        column: cell.column,
        before: before[index] ?? null,
        textAfter: textsAfter[index] ?? '',
      })),
      noted: headings.map((cell) => [cell.row, cell.column] as const),
    });
    return { written: cells.length, clashes: stopped, undoToken };
  }

  /** Puts back what stood there, but only where the cell still holds what we wrote. */
  function undo(undoToken: string): WriteResult {
    const undoable = undoables.get(undoToken);
    const sheet = undoable && workbook.getSheetBySheetId(undoable.sheetId);
    if (!undoable || !sheet) throw new HostError('gone', 'That change can no longer be undone from here.');
    const area = areaOf(sheet.getSheetName(), undoable.cells);
    const textsNow = textsAt(workbook, area.sheet, undoable.cells, area);
    const clashes: Clash[] = [];
    const restored: Kept[] = [];
    const matrix: CellMatrix = {};
    undoable.cells.forEach((cell, index) => {
      const textNow = textsNow[index] ?? '';
      if (textNow !== cell.textAfter) {
        clashes.push(clashAt(cell.row, cell.column, 'changed', textNow));
        return;
      }
      restored.push({ ...cell, before: storedCell(sheet, cell.row, cell.column) });
      put(matrix, cell.row, cell.column, cell.before);
    });
    if (restored.length === 0) return { written: 0, clashes, undoToken: null };
    setCells(sheet, matrix, area);
    const restoredAt = new Set(restored.map((cell) => cellAddress(cell.row, cell.column)));
    for (const [row, column] of undoable.noted) {
      if (restoredAt.has(cellAddress(row, column))) sheet.getRange(row, column).deleteNote();
    }
    undoables.delete(undoToken);
    const textsAfter = textsAt(workbook, area.sheet, restored, area);
    const again = restored.map((cell, index) => ({ ...cell, textAfter: textsAfter[index] ?? '' }));
    return {
      written: restored.length,
      clashes,
      undoToken: keep({ sheetId: undoable.sheetId, cells: again, noted: [] }),
    };
  }

  return { clashes: (plan) => findClashes(workbook, plan), write, undo };
}

function findClashes(workbook: FWorkbook, plan: WritePlan): Clash[] {
  if (plan.cells.length === 0) return [];
  const sheet = sheetNamed(workbook, plan.sheet);
  const area = areaOf(plan.sheet, plan.cells);
  // Cells past the sheet's edge are empty; only what exists can be read.
  const readable: Area = {
    ...area,
    rowCount: Math.min(area.rowCount, sheet.getMaxRows() - area.row),
    columnCount: Math.min(area.columnCount, sheet.getMaxColumns() - area.column),
  };
  const read = readable.rowCount > 0 && readable.columnCount > 0 ? readCells(workbook, readable) : [];
  const merges = mergesWithin(sheet, area);
  const clashes: Clash[] = [];
  for (const cell of plan.cells) {
    const holds = read[cell.row - area.row]?.[cell.column - area.column] ?? null;
    const why = clashWhy(sheet, cell, holds, merges);
    if (why) clashes.push(clashAt(cell.row, cell.column, why, holds?.formula ?? holds?.text ?? ''));
  }
  return clashes;
}

function clashWhy(sheet: FWorksheet, cell: CellWrite, holds: Cell | null, merges: readonly Area[]): ClashWhy | null {
  if (merges.some((merge) => covers(merge, cell.row, cell.column))) return 'merged';
  if (holds?.formula) return 'formula';
  const text = holds?.text ?? '';
  if (text !== (cell.expects ?? '')) return cell.expects === null ? 'not-empty' : 'changed';
  if (cell.row < sheet.getMaxRows() && !rowVisible(sheet, cell.row)) return 'hidden';
  return null;
}

function covers(area: Area, row: number, column: number): boolean {
  return (
    row >= area.row &&
    row < area.row + area.rowCount &&
    column >= area.column &&
    column < area.column + area.columnCount
  );
}

function clashAt(row: number, column: number, why: ClashWhy, holds: string): Clash {
  return { row, column, address: cellAddress(row, column), why, holds };
}

/** Text is stored as text whatever it looks like: "5/4" stays 5/4 and "=A1" never becomes a formula. */
function dataOf(cell: CellWrite, heading: boolean): ICellData | null {
  const style = {
    ...(cell.format === null ? {} : { n: { pattern: cell.format } }),
    ...(heading ? { bg: { rgb: HEADING_TINT }, cl: { rgb: HEADING_INK } } : {}),
  };
  const styled = Object.keys(style).length > 0 ? { s: style } : {};
  if (cell.value === null || cell.value === '') return { v: null, f: null, si: null, p: null, ...styled };
  const type = typeof cell.value === 'number' ? TYPE_NUMBER : TYPE_TEXT;
  return { v: cell.value, t: type, f: null, si: null, p: null, ...styled };
}

function put(matrix: CellMatrix, row: number, column: number, data: ICellData | null): void {
  const cells = matrix[row] ?? {};
  cells[column] = data;
  matrix[row] = cells;
}

/** The cell as stored, every part named, so that setting it again leaves nothing of a later write behind. */
function storedCell(sheet: FWorksheet, row: number, column: number): ICellData | null {
  const data = sheet.getRange(row, column).getCellData();
  if (!data || Object.keys(data).length === 0) return null;
  return {
    v: data.v ?? null,
    f: data.f ?? null,
    si: data.si ?? null,
    p: data.p ?? null,
    s: data.s ?? null,
    custom: data.custom ?? null,
    ...(data.t === undefined ? {} : { t: data.t }),
  };
}

function textsAt(
  workbook: FWorkbook,
  sheet: string,
  at: readonly { row: number; column: number }[],
  area: Area,
): string[] {
  const read = readCells(workbook, { ...area, sheet });
  return at.map((cell) => {
    const found = read[cell.row - area.row]?.[cell.column - area.column];
    return found?.formula ?? found?.text ?? '';
  });
}

function areaOf(sheet: string, cells: readonly { row: number; column: number }[]): Area {
  const rows = cells.map((cell) => cell.row);
  const columns = cells.map((cell) => cell.column);
  const row = Math.min(...rows);
  const column = Math.min(...columns);
  return {
    sheet,
    row,
    column,
    rowCount: Math.max(...rows) - row + 1,
    columnCount: Math.max(...columns) - column + 1,
  };
}

function makeRoom(sheet: FWorksheet, area: Area): void {
  const rowsWanted = area.row + area.rowCount;
  const columnsWanted = area.column + area.columnCount;
  if (rowsWanted > sheet.getMaxRows()) sheet.setRowCount(rowsWanted + 20);
  if (columnsWanted > sheet.getMaxColumns()) sheet.setColumnCount(columnsWanted + 5);
}

function setNote(sheet: FWorksheet, cell: CellWrite, note: string): void {
  const { row, column } = cell;
  sheet
    .getRange(row, column)
    .createOrUpdateNote({ id: `heartside-${row}-${column}`, row, col: column, width: 220, height: 80, note });
}
