/**
 * The steps of a guarded write that every host takes alike: what the plan runs into, which cells may be written, and
 * the journal that turns a write round. A host only reads what stands there and sets the cells it is told.
 */
import { covers } from './area.ts';
import { cellAddress } from './bench-address.ts';
import type { Area, Cell, CellWrite, Clash, ClashWhy, WritePlan } from './host.ts';

/** What stands in a sheet where a plan wants to write. */
export interface Standing {
  /** Null past the sheet's edge. */
  at(row: number, column: number): Cell | null;
  readonly merged: readonly Area[];
  hidden(row: number): boolean;
  /** What protects the cell, named for a person; null where nothing does. */
  protectedAt(row: number, column: number): string | null;
}

/** What a cell is set to; a null format leaves the format alone. */
export interface Put {
  readonly row: number;
  readonly column: number;
  readonly formula: string | null;
  readonly value: number | string | boolean | null;
  readonly format: string | null;
}

export interface KeptCell {
  /** What stood there, to be put again. Its format is the plain one where the sheet named none. */
  readonly before: Put;
  readonly textAfter: string;
}

/** What a write changed; plain data, so that it can be kept on either side of a wire. */
export interface WriteJournal {
  readonly sheet: string;
  readonly cells: readonly KeptCell[];
  /** Headings that were tinted and given a note. */
  readonly headings: readonly (readonly [row: number, column: number])[];
}

export interface WriteDecision {
  readonly puts: readonly Put[];
  readonly headings: readonly Put[];
  readonly before: readonly Put[];
  readonly stopped: readonly Clash[];
}

export function clashesOf(plan: WritePlan, standing: Standing): Clash[] {
  return plan.cells.flatMap((cell) => {
    const holds = standing.at(cell.row, cell.column);
    const why = clashWhy(cell, holds, standing);
    if (why === null) return [];
    const clash = clashAt(cell.row, cell.column, why, textOf(holds));
    const by = why === 'protected' ? standing.protectedAt(cell.row, cell.column) : null;
    return [by === null ? clash : { ...clash, protectedBy: by }];
  });
}

function clashWhy(cell: CellWrite, holds: Cell | null, standing: Standing): ClashWhy | null {
  if (standing.merged.some((merge) => covers(merge, cell.row, cell.column))) return 'merged';
  if (standing.protectedAt(cell.row, cell.column) !== null) return 'protected';
  if (holds?.formula) return 'formula';
  if ((holds?.text ?? '') !== (cell.expects ?? '')) return cell.expects === null ? 'not-empty' : 'changed';
  return standing.hidden(cell.row) ? 'hidden' : null;
}

/** No naming of a cell opens a merge or a protected range. */
const NEVER_OVER: readonly ClashWhy[] = ['merged', 'protected'];

export function decideWrite(plan: WritePlan, over: readonly string[], standing: Standing): WriteDecision {
  const named = new Set(over);
  const stopped = clashesOf(plan, standing).filter(
    (clash) => NEVER_OVER.includes(clash.why) || !named.has(clash.address),
  );
  const stoppedAt = new Set(stopped.map((clash) => clash.address));
  const cells = plan.cells.filter((cell) => !stoppedAt.has(cellAddress(cell.row, cell.column)));
  const puts = cells.map(putOf);
  return {
    puts,
    headings: puts.filter((put) => put.row === plan.heading?.row),
    before: cells.map((cell) => storedPut(cell.row, cell.column, standing.at(cell.row, cell.column))),
    stopped,
  };
}

function putOf(cell: CellWrite): Put {
  const value = cell.value === '' ? null : cell.value;
  return { row: cell.row, column: cell.column, formula: null, value, format: cell.format ?? textFormat(value) };
}

/** A text with figures ("5/4") is only safe as text. */
function textFormat(value: CellWrite['value']): string | null {
  return typeof value === 'string' && /\d/.test(value) && !startsFormula(value) ? '@' : null;
}

const startsFormula = (text: string): boolean => /^[=+\-@']/.test(text);

/**
 * A value as it is handed to Excel or Google Sheets, which read texts as if they were typed: an apostrophe in front keeps
 * a text a text, and is not shown.
 */
export function typedValue(put: Put): number | string | boolean {
  if (put.formula !== null) return put.formula;
  const value = put.value ?? '';
  if (typeof value !== 'string') return value;
  const readOtherwise = (/\d/.test(value) && put.format !== '@') || /^(true|false)$/i.test(value);
  return startsFormula(value) || readOtherwise ? `'${value}` : value;
}

/** Plain rows of a new sheet as puts, from its first cell. */
export function putsOfRows(rows: readonly (readonly (string | number | null)[])[]): Put[][] {
  return rows.map((cells, row) =>
    cells.map((value, column) => putOf({ row, column, value, expects: null, format: null })),
  );
}

function storedPut(row: number, column: number, cell: Cell | null): Put {
  return { row, column, formula: cell?.formula ?? null, value: cell?.raw ?? null, format: cell?.format ?? 'General' };
}

export function journalOf(decision: WriteDecision, sheet: string, textsAfter: readonly string[]): WriteJournal {
  return {
    sheet,
    cells: decision.before.map((before, index) => ({ before, textAfter: textsAfter[index] ?? '' })),
    headings: decision.headings.map(({ row, column }) => [row, column] as const),
  };
}

export interface UndoDecision {
  readonly puts: readonly Put[];
  /** What stands there now, so that the undo can be turned round too. */
  readonly before: readonly Put[];
  readonly headings: readonly (readonly [row: number, column: number])[];
  readonly clashes: readonly Clash[];
}

/** Puts back only where the cell still holds what was written. */
export function decideUndo(journal: WriteJournal, at: Standing['at']): UndoDecision {
  const still = (kept: KeptCell) => textOf(at(kept.before.row, kept.before.column)) === kept.textAfter;
  const restored = journal.cells.filter(still);
  const restoredAt = new Set(restored.map(({ before }) => cellAddress(before.row, before.column)));
  return {
    puts: restored.map(({ before }) => before),
    before: restored.map(({ before }) => storedPut(before.row, before.column, at(before.row, before.column))),
    headings: journal.headings.filter(([row, column]) => restoredAt.has(cellAddress(row, column))),
    clashes: journal.cells
      .filter((kept) => !still(kept))
      .map(({ before }) => clashAt(before.row, before.column, 'changed', textOf(at(before.row, before.column)))),
  };
}

/** What a cell says of itself: its formula, or the text shown. */
export function textOf(cell: Cell | null): string {
  return cell?.formula ?? cell?.text ?? '';
}

export function clashAt(row: number, column: number, why: ClashWhy, holds: string): Clash {
  return { row, column, address: cellAddress(row, column), why, holds };
}

/** A look that says "ours" without shouting; the same in every host. */
export const HEADING_TINT = '#E4ECE6';
export const HEADING_INK = '#23241F';
