/**
 * Plans results beside the rows: own columns to the right of the table, found again by their heading, each cell with
 * what stood there when it was read. Nothing is written here, and nothing that is not the add-on's own is planned over.
 */
import type { Block, CellWrite, WritePlan } from '../host/host.ts';
import { cellWords } from './cell-values.ts';
import { type CellValue, cellFormat, cellText, cellValue } from './cells.ts';
import { headingPlain } from './heading.ts';
import type { Mapping } from './mapping.ts';

/** Headings of the add-on's own columns. */
export const ownHeadings = {
  boardFeet: 'Board feet, gross',
  roughSize: 'Rough size',
  status: 'Status',
  heldBy: 'Held by',
  readyOn: 'Ready on',
  short: 'Short',
  yardRef: 'Yard ref',
} as const;

/** What the add-on's own columns were headed before: a column of ours that still is gets its new heading. */
const earlierHeadings: Readonly<Record<string, string>> = { [ownHeadings.boardFeet]: 'Board feet' };

export interface OwnColumn {
  readonly heading: string;
  /** By row of the sheet, 0-based. A row that is left out is left alone; null clears the cell. */
  readonly values: ReadonlyMap<number, CellValue>;
}

export interface WriteBack {
  readonly plan: WritePlan;
  /** Where each column stands, 0-based on the sheet. */
  readonly columns: readonly { readonly heading: string; readonly column: number; readonly isNew: boolean }[];
  /** "12 cells in 2 new columns", for the preview. */
  readonly summary: string;
}

/**
 * known: headings that this file's settings say are the add-on's. A column of the user's that happens to have the same
 * heading is not overwritten: its filled cells come back as clashes.
 */
export function planOwnColumns(
  block: Block,
  mapping: Mapping,
  own: readonly OwnColumn[],
  options: { readonly known: ReadonlySet<string>; readonly label: string; readonly headingNote: string },
): WriteBack {
  const headerSheetRow = block.area.row + mapping.headerRow;
  const cells: CellWrite[] = [];
  const columns: { heading: string; column: number; isNew: boolean }[] = [];
  let free = firstFreeColumn(block, mapping);
  for (const { heading, values } of own) {
    const earlier = earlierHeading(block, mapping, heading, options.known);
    const at = earlier === null ? columnOfHeading(block, mapping, heading) : earlier.column;
    const isNew = at === null;
    const column = at ?? free;
    if (isNew) free += 1;
    if (isNew || earlier !== null)
      cells.push(write(headerSheetRow, block.area.column + column, cellText(heading), earlier?.text ?? null));
    columns.push({ heading, column: block.area.column + column, isNew });
    const ours = !isNew && (earlier !== null || options.known.has(heading));
    for (const [sheetRow, raw] of values) {
      const value = cellValue(raw);
      const there = block.cells[sheetRow - block.area.row]?.[column];
      const text = there === undefined || there.kind === 'empty' || there.text === '' ? null : there.text;
      if (there?.formula == null && sameValue(there?.raw ?? null, value)) continue;
      if (value === null && text === null) continue;
      cells.push(write(sheetRow, block.area.column + column, value, ours ? text : null));
    }
  }
  const plan = {
    sheet: block.area.sheet,
    label: options.label,
    cells,
    heading: { row: headerSheetRow, note: options.headingNote },
  };
  return { plan, columns, summary: summaryOf(cells.length, columns) };
}

function write(row: number, column: number, value: CellValue, expects: string | null): CellWrite {
  return { row, column, value, expects, format: cellFormat(value) };
}

/** What a guarded text looks like once the sheet holds it. */
function sameValue(there: string | number | boolean | null, value: CellValue): boolean {
  if (typeof value === 'string' && value.startsWith("'")) return there === value || there === value.slice(1);
  return there === value;
}

/** The last heading's or filled cell's right neighbour. */
function firstFreeColumn(block: Block, mapping: Mapping): number {
  let last = -1;
  for (let row = mapping.headerRow; row <= mapping.lastRow; row += 1) {
    const cells = block.cells[row] ?? [];
    for (let column = cells.length - 1; column > last; column -= 1) {
      const cell = cells[column];
      if (cell !== undefined && (cellWords(cell) !== '' || cell.formula !== null)) last = column;
    }
  }
  return last + 1;
}

/** Whether a column of this heading stands beside the table already. */
export function hasHeading(block: Block, mapping: Mapping, heading: string): boolean {
  return columnOfHeading(block, mapping, heading) !== null;
}

/** The column of ours that still bears the earlier heading; null where there is none, or it is the user's. */
function earlierHeading(block: Block, mapping: Mapping, heading: string, known: ReadonlySet<string>) {
  const before = earlierHeadings[heading];
  if (before === undefined || !known.has(before) || hasHeading(block, mapping, heading)) return null;
  const column = columnOfHeading(block, mapping, before);
  const cell = column === null ? undefined : block.cells[mapping.headerRow]?.[column];
  return column === null || cell === undefined ? null : { column, text: cell.text };
}

/** The rightmost column with this heading that is not one of the table's own. */
function columnOfHeading(block: Block, mapping: Mapping, heading: string): number | null {
  const wanted = headingPlain(heading);
  const taken = new Set(mapping.columns.filter((c) => c.role !== 'key').map((c) => c.column));
  const header = block.cells[mapping.headerRow] ?? [];
  for (let column = header.length - 1; column >= 0; column -= 1) {
    const cell = header[column];
    if (cell !== undefined && !taken.has(column) && headingPlain(cellWords(cell)) === wanted) return column;
  }
  return null;
}

function summaryOf(cellCount: number, columns: readonly { readonly isNew: boolean }[]): string {
  const newCount = columns.filter(({ isNew }) => isNew).length;
  const count = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`;
  if (newCount === 0) return `${count(cellCount, 'cell')} in columns that are here already`;
  return `${count(cellCount, 'cell')} in ${count(newCount, 'new column')}`;
}
