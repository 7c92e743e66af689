/**
 * Spreads one formula over ranges: single cells stand for every row, ranges are walked together cell by cell, and the
 * result has the shape of the ranges. A row without any of its needed values stays blank, as rows between groups do.
 */
import { type Fault, type Formula, isBlank, isFault, type SheetValue } from './formula.ts';

/** What a spreadsheet hands over for one argument: a cell, or a range by rows. Nothing for one left out. */
export type Given = SheetValue | undefined | readonly (readonly SheetValue[])[];

export interface Shape {
  readonly rowCount: number;
  readonly columnCount: number;
}

/** The cells of a call, by rows, each with the values of its arguments; null where the row is blank. */
export interface Spread {
  readonly shape: Shape;
  readonly ranged: boolean;
  readonly cells: readonly (readonly SheetValue[] | null)[];
}

/** A formula over more cells is a slip of the finger (a whole column) that would hold the sheet up. */
export const CELLS_MAX = 20_000;

export function spread(formula: Formula, given: readonly Given[]): Spread | Fault {
  const grids = formula.arguments.map((_, index) => gridOf(given[index]));
  const ranges = grids.filter((grid) => grid.rowCount * grid.columnCount > 1);
  const rowCount = Math.max(1, ...ranges.map((grid) => grid.rowCount));
  const columnCount = Math.max(1, ...ranges.map((grid) => grid.columnCount));
  // A column beside a row would make a table; nobody means that here, and it hides a wrong range.
  if (ranges.some((grid) => grid.rowCount !== rowCount || grid.columnCount !== columnCount)) {
    return { fault: 'the ranges differ in size; give each the same rows' };
  }
  if (rowCount * columnCount > CELLS_MAX) {
    return { fault: `more than ${CELLS_MAX.toLocaleString('en-US')} cells; give only the rows of the table` };
  }
  const needed = formula.arguments.flatMap((argument, index) => (argument.optional ? [] : [index]));
  const ranged = ranges.length > 0;
  const cells: (readonly SheetValue[] | null)[] = [];
  for (let row = 0; row < rowCount; row += 1) {
    for (let column = 0; column < columnCount; column += 1) {
      const values = grids.map((grid) => grid.at(row, column));
      // A single cell given for every row says nothing of this row.
      const blank = ranged && needed.every((index) => grids[index]?.single || isBlank(values[index]));
      cells.push(blank ? null : values);
    }
  }
  return { shape: { rowCount, columnCount }, ranged, cells };
}

interface Grid extends Shape {
  readonly single: boolean;
  at(row: number, column: number): SheetValue;
}

function gridOf(given: Given): Grid {
  if (!Array.isArray(given)) {
    const value = (given as SheetValue | undefined) ?? null;
    return { rowCount: 1, columnCount: 1, single: true, at: () => value };
  }
  const rows: readonly (readonly SheetValue[])[] = given;
  const rowCount = rows.length;
  const columnCount = rows[0]?.length ?? 0;
  const single = rowCount * columnCount <= 1;
  return {
    rowCount,
    columnCount,
    single,
    at: (row, column) => (single ? rows[0]?.[0] : rows[row]?.[column]) ?? null,
  };
}

export type ResultCell = number | string | Fault;

/** Puts the results of the cells into the shape of the ranges; several values a cell stand side by side. */
export function gathered(
  results: readonly (ResultCell | readonly (number | string)[])[],
  shape: Shape,
): ResultCell[][] | Fault {
  const wide = results.some((result) => Array.isArray(result));
  if (wide && shape.columnCount > 1) return { fault: 'this formula gives several cells; give it one column of rows' };
  const rows: ResultCell[][] = [];
  for (let row = 0; row < shape.rowCount; row += 1) {
    const inRow = results.slice(row * shape.columnCount, (row + 1) * shape.columnCount);
    rows.push(
      inRow.flatMap((result): ResultCell[] =>
        isFault(result) || !Array.isArray(result) ? [result as ResultCell] : [...result],
      ),
    );
  }
  const columnCount = Math.max(...rows.map((cells) => cells.length));
  // A spill must be square: blank rows and faults are filled up to the width of the others.
  for (const cells of rows) while (cells.length < columnCount) cells.push(isFault(cells[0]) ? cells[0] : '');
  return rows;
}
