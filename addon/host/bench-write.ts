/**
 * Writes into the bench grid. Every guard is looked at again right before the write, and all cells go in as one change,
 * so that the grid's own undo takes one step. Beside that each write keeps what stood there, for undo by token.
 */
import type { ICellData } from '@univerjs/core';
import type { FUniver } from '@univerjs/core/facade';
import type { FWorkbook, FWorksheet } from '@univerjs/sheets/facade';
import { areaAround, covers } from './area.ts';
import { cellAddress } from './bench-address.ts';
import { type BenchProtection, benchProtections } from './bench-protect.ts';
import { mergesWithin, readCells, rowVisible, sheetNamed } from './bench-read.ts';
import {
  clashAt,
  clashesOf,
  decideWrite,
  HEADING_INK,
  HEADING_TINT,
  type Put,
  type Standing,
} from './guarded-write.ts';
import { type Area, type Clash, HostError, type WritePlan, type WriteResult } from './host.ts';

const SET_CELLS = 'sheet.command.set-range-values';
const TYPE_TEXT = 1;
const TYPE_NUMBER = 2;

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
  clashes(plan: WritePlan): Promise<Clash[]>;
  write(plan: WritePlan, over: readonly string[]): Promise<WriteResult>;
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

  async function write(plan: WritePlan, over: readonly string[]): Promise<WriteResult> {
    const sheet = sheetNamed(workbook, plan.sheet);
    if (plan.cells.length === 0) return { written: 0, clashes: [], undoToken: null };
    const guards = await benchProtections(sheet);
    const decision = decideWrite(plan, over, standingAt(workbook, plan, guards));
    const { puts: cells, stopped } = decision;
    if (cells.length === 0) return { written: 0, clashes: stopped, undoToken: null };

    const area = areaAround(plan.sheet, cells);
    makeRoom(sheet, area);
    const { headings } = decision;
    for (const cell of headings) setNote(sheet, cell, plan.heading?.note ?? '');
    const headed = new Set(headings);

    const before = cells.map((cell) => storedCell(sheet, cell.row, cell.column));
    const matrix: CellMatrix = {};
    for (const cell of cells) put(matrix, cell.row, cell.column, dataOf(cell, headed.has(cell)));
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
    const area = areaAround(sheet.getSheetName(), undoable.cells);
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

  return {
    async clashes(plan) {
      const guards = await benchProtections(sheetNamed(workbook, plan.sheet));
      return plan.cells.length === 0 ? [] : clashesOf(plan, standingAt(workbook, plan, guards));
    },
    write,
    undo,
  };
}

/** What stands where the plan wants to write; cells past the sheet's edge are empty. */
function standingAt(workbook: FWorkbook, plan: WritePlan, guards: readonly BenchProtection[]): Standing {
  const sheet = sheetNamed(workbook, plan.sheet);
  const area = areaAround(plan.sheet, plan.cells);
  const rowCount = Math.min(area.rowCount, sheet.getMaxRows() - area.row);
  const columnCount = Math.min(area.columnCount, sheet.getMaxColumns() - area.column);
  const read = rowCount > 0 && columnCount > 0 ? readCells(workbook, { ...area, rowCount, columnCount }) : [];
  return {
    at: (row, column) => read[row - area.row]?.[column - area.column] ?? null,
    merged: mergesWithin(sheet, area),
    hidden: (row) => row < sheet.getMaxRows() && !rowVisible(sheet, row),
    protectedAt: (row, column) => guards.find(({ area }) => covers(area, row, column))?.name ?? null,
  };
}

/** Text is stored as text whatever it looks like: "5/4" stays 5/4 and "=A1" never becomes a formula. */
function dataOf(cell: Put, heading: boolean): ICellData | null {
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

function makeRoom(sheet: FWorksheet, area: Area): void {
  const rowsWanted = area.row + area.rowCount;
  const columnsWanted = area.column + area.columnCount;
  if (rowsWanted > sheet.getMaxRows()) sheet.setRowCount(rowsWanted + 20);
  if (columnsWanted > sheet.getMaxColumns()) sheet.setColumnCount(columnsWanted + 5);
}

function setNote(sheet: FWorksheet, cell: Put, note: string): void {
  const { row, column } = cell;
  sheet
    .getRange(row, column)
    .createOrUpdateNote({ id: `heartside-${row}-${column}`, row, col: column, width: 220, height: 80, note });
}
