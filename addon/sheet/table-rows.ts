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

const totalWords =
  /^(?:grand\s+|sub\s*-?\s*|zwischen)?(?:totals?|sums?|average|avg|summe|gesamt|insgesamt|somme|sous[- ]total|suma|somma|totale|totaal|summa|totalt|i alt)(?![\p{L}])\s*[:.]?/iu;
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
  if (filled.every(({ cell }) => cell.formula !== null && cell.raw === 0)) return skip('formulas without a value');
  const again = headingsAgain(filled, headings, () => rolesNamedBy(row));
  if (again === 'same') return skip('headings again');
  if (again === 'others') return { kind: 'stop', why: ANOTHER_TABLE };
  if (filled.length === 1) {
    if (first.kind !== 'text') return skip('one figure alone');
    return { kind: 'skip', why: `section title “${cellWords(first).slice(0, 60)}”`, section: cellWords(first) };
  }
  if (filled.every(({ cell }) => cell.kind === 'text') && filled.length >= 4 && rolesNamedBy(row) >= 4) {
    return { kind: 'stop', why: ANOTHER_TABLE };
  }
  return { kind: 'data' };
}

const ANOTHER_TABLE = 'another table starts here; select a cell in it to read it';

export type RolesNamed = (row: readonly Cell[]) => number;

function sumsDown(formula: string | null): boolean {
  const range = formula === null ? null : sumsColumn.exec(formula);
  return range !== null && range[1] !== range[2];
}

/** The headings of the table once more, or in another order: then the rows below mean other things. */
function headingsAgain(
  filled: readonly { readonly cell: Cell; readonly column: number }[],
  headings: ReadonlyMap<number, string>,
  rolesNamedHere: () => number,
): 'same' | 'others' | null {
  const known = loweredHeadings(headings);
  let same = 0;
  let moved = 0;
  for (const { cell, column } of filled) {
    if (cell.kind !== 'text') continue;
    const words = cellWords(cell).toLowerCase();
    if (known.get(column) === words) same += 1;
    else if (known.words.has(words)) moved += 1;
  }
  if (same + moved < Math.max(2, filled.length * 0.6)) return null;
  if (moved >= 2 && rolesNamedHere() >= 3) return 'others';
  return same >= 2 && same >= filled.length * 0.6 ? 'same' : null;
}

/** Rows are many and their headings few. */
const lowered = new WeakMap<ReadonlyMap<number, string>, LoweredHeadings>();
interface LoweredHeadings {
  readonly words: ReadonlySet<string>;
  get(column: number): string | undefined;
}

function loweredHeadings(headings: ReadonlyMap<number, string>): LoweredHeadings {
  const before = lowered.get(headings);
  if (before !== undefined) return before;
  const byColumn = new Map([...headings].map(([column, words]) => [column, words.toLowerCase()]));
  const made = {
    words: new Set([...byColumn.values()].filter((words) => words !== '')),
    get: (column: number) => byColumn.get(column),
  };
  lowered.set(headings, made);
  return made;
}

/** What stands outside these columns is not part of the table. The very block where nothing does. */
export function withinColumns(
  cells: readonly (readonly Cell[])[],
  first: number,
  last: number,
): readonly (readonly Cell[])[] {
  if (first <= 0 && cells.every((row) => row.length <= last + 1)) return cells;
  return cells.map((row) => row.map((cell, column) => (column < first || column > last ? empty : cell)));
}

/** "(in)", "mm", "%": a row of units under the headings, by column. Null when the row is something else. */
export function unitRow(row: readonly Cell[]): ReadonlyMap<number, string> | null {
  const units = new Map<number, string>();
  for (const [column, cell] of row.entries()) {
    const words = cellWords(cell);
    if (words === '') continue;
    if (
      cell.kind !== 'text' ||
      (unitWord(words) === null && !/^[([]?(?:%|[$€£]|pcs?\.?|no\.?|stk?\.?|x|ea\.?)[)\]]?$/i.test(words))
    )
      return null;
    units.set(column, words);
  }
  return [...units.values()].some((words) => unitWord(words) !== null) ? units : null;
}

/** How many roles a row names as if it were headings. */
export function rolesNamed(row: readonly Cell[], want: 'boards' | 'parts'): { count: number; score: number } {
  const best = new Map<string, number>();
  let letters = 0;
  const texts = row.map((cell) => (cell.kind === 'text' ? cellWords(cell) : ''));
  // Letters last: W is the width where another heading names the wood.
  for (const words of texts.sort((a, b) => Number(a.length === 1) - Number(b.length === 1))) {
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
