/** The rows of a table under its headings: which hold data, and why the others are passed over. Each is counted and named. */
import type { Block, Cell } from '../host/host.ts';
import { isBlank } from './cell-length.ts';
import { cellWords } from './cell-values.ts';
import { headingParts, unitWord } from './heading.ts';
import { rolesOfWords } from './role-words.ts';

const empty: Cell = { kind: 'empty', raw: null, text: '', formula: null, format: null };

/** The block's cells, with the value of a cell merged over several rows standing in each of them. */
export function cellsWithMerges(block: Block): readonly (readonly Cell[])[] {
  const tall = block.merged.filter((area) => area.rowCount > 1);
  if (tall.length === 0) return block.cells;
  const cells = block.cells.map((row) => [...row]);
  for (const area of tall) {
    const top = area.row - block.area.row;
    const column = area.column - block.area.column;
    const value = cells[top]?.[column];
    if (value === undefined) continue;
    for (let row = top + 1; row < top + area.rowCount; row += 1) {
      const target = cells[row];
      if (target !== undefined && isBlank(target[column])) target[column] = value;
    }
  }
  return cells;
}

export function cellAt(cells: readonly (readonly Cell[])[], row: number, column: number): Cell {
  return cells[row]?.[column] ?? empty;
}

export type RowKind =
  | { readonly kind: 'data' }
  | { readonly kind: 'skip'; readonly why: string; readonly section?: string }
  | { readonly kind: 'stop'; readonly why: string };

const skip = (why: string): RowKind => ({ kind: 'skip', why });

const totalWords = /^(?:grand\s+|sub\s*-?\s*)?(?:totals?|sums?|average|avg)\b\s*[:.]?/i;
/** A formula that sums or counts down a column. */
const sumsColumn =
  /^=\s*(?:SUM|SUBTOTAL|COUNTA?|AVERAGE|SUMIFS?|COUNTIFS?)\s*\((?:\d+[,;])?\s*\$?[A-Z]{1,3}\$?(\d+)\s*:\s*\$?[A-Z]{1,3}\$?(\d+)/i;

/** What a row under the headings is. `row` is as the sheet holds it, not with merged values spread. */
export function rowKind(
  row: readonly Cell[],
  headings: ReadonlyMap<number, string>,
  rolesNamedBy: RolesNamed,
): RowKind {
  const filled = row.map((cell, column) => ({ cell, column })).filter(({ cell }) => cellWords(cell) !== '');
  const first = filled[0]?.cell;
  if (first === undefined) return skip('blank');
  const firstText = filled.find(({ cell }) => cell.kind === 'text')?.cell;
  if (firstText !== undefined && totalWords.test(cellWords(firstText)) && filled.length < headings.size)
    return skip('totals row');
  if (filled.some(({ cell }) => sumsDown(cell.formula))) return skip('totals row');
  if (repeatsHeadings(filled, headings)) return skip('headings again');
  if (filled.length === 1) {
    if (first.kind !== 'text') return skip('one figure alone');
    return { kind: 'skip', why: `section title “${cellWords(first).slice(0, 60)}”`, section: cellWords(first) };
  }
  if (filled.every(({ cell }) => cell.kind === 'text') && filled.length >= 4 && rolesNamedBy(row) >= 4) {
    return { kind: 'stop', why: 'another table starts here; select it to read it' };
  }
  return { kind: 'data' };
}

export type RolesNamed = (row: readonly Cell[]) => number;

function sumsDown(formula: string | null): boolean {
  const range = formula === null ? null : sumsColumn.exec(formula);
  return range !== null && range[1] !== range[2];
}

function repeatsHeadings(
  filled: readonly { readonly cell: Cell; readonly column: number }[],
  headings: ReadonlyMap<number, string>,
): boolean {
  const same = filled.filter(({ cell, column }) => {
    const heading = headings.get(column);
    return heading !== undefined && cell.kind === 'text' && cellWords(cell).toLowerCase() === heading.toLowerCase();
  });
  return same.length >= 2 && same.length >= filled.length * 0.6;
}

/** "(in)", "mm", "%": a row of units under the headings, by column. Null when the row is something else. */
export function unitRow(row: readonly Cell[]): ReadonlyMap<number, string> | null {
  const units = new Map<number, string>();
  for (const [column, cell] of row.entries()) {
    const words = cellWords(cell);
    if (words === '') continue;
    if (cell.kind !== 'text' || (unitWord(words) === null && !/^\(?(?:%|[$€£]|pcs?|no\.?)\)?$/i.test(words)))
      return null;
    units.set(column, words);
  }
  return [...units.values()].some((words) => unitWord(words) !== null) ? units : null;
}

/** How many roles a row names as if it were headings. */
export function rolesNamed(row: readonly Cell[], want: 'boards' | 'parts'): { count: number; score: number } {
  const best = new Map<string, number>();
  let letters = 0;
  for (const cell of row) {
    const words = cell.kind === 'text' ? cellWords(cell) : '';
    if (words === '' || words.length > 40) continue;
    const found = rolesOfWords(want, headingParts(words).words);
    let top: readonly [string, number] | null = null;
    for (const [role, score] of found) {
      if (score > (best.get(role) ?? 0) && (top === null || score > top[1])) top = [role, score];
    }
    if (top === null) continue;
    if (top[1] < 0.56) letters += 1;
    best.set(top[0], top[1]);
  }
  const count = best.size;
  if (count > 0 && letters === count && count < 3) return { count: 0, score: 0 };
  return { count, score: [...best.values()].reduce((sum, score) => sum + score, 0) };
}
