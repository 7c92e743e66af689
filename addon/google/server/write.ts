/**
 * Writes into the Google file under the document's lock: every guard is looked at again inside the lock, formats are set
 * before values, and neighbouring cells of a column go in together.
 */
import { areaAround, covers, overlap } from '../../host/area.ts';
import { cellAddress } from '../../host/bench-address.ts';
import type { WriteAnswer } from '../../host/google-wire.ts';
import {
  clashesOf,
  decideUndo,
  decideWrite,
  HEADING_INK,
  HEADING_TINT,
  journalOf,
  type Put,
  putsOfRows,
  type Standing,
  textOf,
  typedValue,
  type WriteJournal,
} from '../../host/guarded-write.ts';
import { type Area, type Cell, type Clash, HostError, type WritePlan } from '../../host/host.ts';
import { freeSheetName } from '../../host/sheet-name.ts';
import { areaOfRange, book, rangeOf, readCells, rowHidden, type Sheet, sheetNamed } from './read.ts';

const LOCK_WAIT_MS = 10_000;

function locked<T>(act: () => T): T {
  const lock = LockService.getDocumentLock();
  if (!lock.tryLock(LOCK_WAIT_MS)) {
    throw new HostError('busy-editing', 'Somebody else is writing to this file. Try again in a moment.');
  }
  try {
    return act();
  } finally {
    SpreadsheetApp.flush();
    lock.releaseLock();
  }
}

export function planWrite(plan: WritePlan): Clash[] {
  const sheet = sheetNamed(plan.sheet);
  return plan.cells.length === 0 ? [] : clashesOf(plan, standingOf(sheet, plan.cells));
}

export function write(plan: WritePlan, over: readonly string[]): WriteAnswer {
  return locked(() => {
    const sheet = sheetNamed(plan.sheet);
    if (plan.cells.length === 0) return answerOf([], [], { sheet: plan.sheet, cells: [], headings: [] });
    const decision = decideWrite(plan, over, standingOf(sheet, plan.cells));
    makeRoom(sheet, decision.puts);
    putAll(sheet, decision.puts);
    for (const { row, column } of decision.headings) {
      sheet
        .getRange(row + 1, column + 1)
        .setBackground(HEADING_TINT)
        .setFontColor(HEADING_INK)
        .setNote(plan.heading?.note ?? '');
    }
    const journal = journalOf(decision, plan.sheet, textsAfter(sheet, decision.puts));
    return answerOf(decision.puts, decision.stopped, journal);
  });
}

export function undo(journal: WriteJournal): WriteAnswer {
  return locked(() => {
    const sheet = sheetNamed(journal.sheet);
    const at = cellsAt(
      sheet,
      journal.cells.map(({ before }) => before),
    );
    const decision = decideUndo(journal, at);
    putAll(sheet, decision.puts);
    for (const [row, column] of decision.headings) {
      sheet
        .getRange(row + 1, column + 1)
        .setBackground(null)
        .setFontColor(null)
        .setNote('');
    }
    const after = textsAfter(sheet, decision.puts);
    const cells = decision.before.map((before, index) => ({ before, textAfter: after[index] ?? '' }));
    return answerOf(decision.puts, decision.clashes, { sheet: journal.sheet, cells, headings: [] });
  });
}

export function addSheet(
  wanted: string,
  rows: readonly (readonly (string | number | null)[])[],
): { readonly name: string } {
  return locked(() => {
    const file = book();
    const open = file.getActiveSheet();
    const name = freeSheetName(
      wanted,
      file.getSheets().map((sheet) => sheet.getName()),
    );
    const sheet = file.insertSheet(name, file.getSheets().length);
    // A new sheet comes to the front by itself; whoever works in another one stays there.
    file.setActiveSheet(open);
    const puts = putsOfRows(rows);
    makeRoom(sheet, puts.flat());
    putAll(sheet, puts.flat());
    return { name };
  });
}

function answerOf(puts: readonly Put[], clashes: readonly Clash[], journal: WriteJournal): WriteAnswer {
  return { written: puts.length, clashes, journal };
}

/** What stands at these cells, read at once. */
function cellsAt(sheet: Sheet, cells: readonly { row: number; column: number }[]): Standing['at'] {
  if (cells.length === 0) return () => null;
  const whole = { sheet: '', row: 0, column: 0, rowCount: sheet.getMaxRows(), columnCount: sheet.getMaxColumns() };
  const area = overlap(areaAround('', cells), whole);
  const read: readonly (readonly Cell[])[] = area ? readCells(rangeOf(sheet, area)) : [];
  return (row, column) => (area && read[row - area.row]?.[column - area.column]) || null;
}

function standingOf(sheet: Sheet, cells: readonly { row: number; column: number }[]): Standing {
  const whole = { sheet: '', row: 0, column: 0, rowCount: sheet.getMaxRows(), columnCount: sheet.getMaxColumns() };
  const area = overlap(areaAround('', cells), whole);
  const range = area && rangeOf(sheet, area);
  const hidden = new Map<number, boolean>();
  const allEditable = range ? range.canEdit() : true;
  let protections: readonly Protected[] | null = null;
  return {
    at: cellsAt(sheet, cells),
    merged: range ? range.getMergedRanges().map(areaOfRange) : [],
    hidden(row) {
      const known = hidden.get(row) ?? rowHidden(sheet, row);
      hidden.set(row, known);
      return known;
    },
    protectedAt(row, column) {
      if (allEditable || !onSheet(whole, row, column) || canEdit(sheet, row, column)) return null;
      protections ??= protectionsOf(sheet);
      return protections.find(({ area }) => area === null || covers(area, row, column))?.name ?? WHOLE_SHEET(sheet);
    },
  };
}

interface Protected {
  /** null: the whole sheet. */
  readonly area: Area | null;
  readonly name: string;
}
const WHOLE_SHEET = (sheet: Sheet) => `the sheet “${sheet.getName()}”`;

/** What this user may not edit, ranges before the sheet, as the sheet's own list names it. */
function protectionsOf(sheet: Sheet): Protected[] {
  const types = SpreadsheetApp.ProtectionType;
  const shut = (type: GoogleAppsScript.Spreadsheet.ProtectionType) =>
    sheet.getProtections(type).filter((protection) => !protection.canEdit());
  const ranges = shut(types.RANGE).map((protection) => {
    const range = protection.getRange();
    const name = protection.getDescription();
    const area = areaOfRange(range);
    const last = cellAddress(area.row + area.rowCount - 1, area.column + area.columnCount - 1);
    const where = `${cellAddress(area.row, area.column)}:${last}`;
    return { area, name: `${name ? `“${name}” ` : ''}(${where})` };
  });
  return [...ranges, ...shut(types.SHEET).map(() => ({ area: null, name: WHOLE_SHEET(sheet) }))];
}

const onSheet = (whole: Area, row: number, column: number) => row < whole.rowCount && column < whole.columnCount;
const canEdit = (sheet: Sheet, row: number, column: number) => sheet.getRange(row + 1, column + 1).canEdit();

function textsAfter(sheet: Sheet, puts: readonly Put[]): string[] {
  SpreadsheetApp.flush();
  const at = cellsAt(sheet, puts);
  return puts.map(({ row, column }) => textOf(at(row, column)));
}

function makeRoom(sheet: Sheet, puts: readonly Put[]): void {
  if (puts.length === 0) return;
  const { row, column, rowCount, columnCount } = areaAround('', puts);
  const rowsMissing = row + rowCount - sheet.getMaxRows();
  const columnsMissing = column + columnCount - sheet.getMaxColumns();
  if (rowsMissing > 0) sheet.insertRowsAfter(sheet.getMaxRows(), rowsMissing);
  if (columnsMissing > 0) sheet.insertColumnsAfter(sheet.getMaxColumns(), columnsMissing);
}

function putAll(sheet: Sheet, puts: readonly Put[]): void {
  for (const run of columnRuns(puts)) {
    const range = rangeOf(sheet, areaAround('', run));
    if (run.some((put) => put.format !== null)) {
      const formats = range.getNumberFormats();
      range.setNumberFormats(run.map((put, index) => [put.format ?? formats[index]?.[0] ?? 'General']));
    }
    range.setValues(run.map((put) => [typedValue(put)]));
  }
}

/** Cells that stand under one another without a gap. */
function columnRuns(puts: readonly Put[]): Put[][] {
  const sorted = [...puts].sort((a, b) => a.column - b.column || a.row - b.row);
  const runs: Put[][] = [];
  for (const put of sorted) {
    const run = runs[runs.length - 1];
    const last = run?.[run.length - 1];
    if (run && last && last.column === put.column && last.row + 1 === put.row) run.push(put);
    else runs.push([put]);
  }
  return runs;
}
