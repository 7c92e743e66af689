/**
 * A small revised simplex that takes new columns while it runs, so that column generation goes on from where it stood.
 * All rows are "at most", so doing nothing is always a start.
 */
import { grown } from './grown.ts';
import type { LpAnswer, LpColumn, LpEngine, LpProblem } from './lp.ts';

/** Columns that promised most at the last look over all of them; the others are not priced until these are used up. */
const CANDIDATES_MOST = 40;
/** Pivots between two looks at how much rounding has piled up. */
const PIVOTS_CHECKED = 100;

export class Simplex {
  readonly #limits: Float64Array;
  readonly #columns: LpColumn[] = [];
  /** All columns' entries in one run, for the scan over all of them. */
  #starts = new Int32Array(256);
  #entryRows = new Int32Array(1024);
  #entryAmounts = new Float64Array(1024);
  #worths = new Float64Array(256);
  readonly #rows: number;
  #inverse: Float64Array;
  /** Column in each row's place; below zero stands for that row's slack. */
  readonly #basis: Int32Array;
  readonly #values: Float64Array;
  /** Where the row that a pivot turns on is not zero. */
  readonly #filled: Int32Array;
  #pivots = 0;
  work = 0;

  constructor(limits: Float64Array) {
    const rows = limits.length;
    this.#rows = rows;
    this.#limits = limits;
    this.#inverse = new Float64Array(rows * rows);
    this.#basis = new Int32Array(rows);
    this.#filled = new Int32Array(rows);
    this.#values = new Float64Array(rows);
    for (let row = 0; row < rows; row++) {
      this.#inverse[row * rows + row] = 1;
      this.#basis[row] = -1 - row;
      this.#values[row] = this.#limit(row);
    }
  }

  /** A trace of slack parts ties, so that degenerate corners do not turn in circles. */
  #limit(row: number): number {
    return this.#limits[row]! + 1e-7 * (1 + ((row * 7919) % 97) / 97);
  }

  add(column: LpColumn): void {
    const index = this.#columns.push(column) - 1;
    let end = this.#starts[index]!;
    if (index + 2 > this.#starts.length) {
      this.#starts = grown(this.#starts, new Int32Array(2 * this.#starts.length));
      this.#worths = grown(this.#worths, new Float64Array(2 * this.#worths.length));
    }
    if (end + column.rows.length > this.#entryRows.length) {
      const length = 2 * this.#entryRows.length + column.rows.length;
      this.#entryRows = grown(this.#entryRows, new Int32Array(length));
      this.#entryAmounts = grown(this.#entryAmounts, new Float64Array(length));
    }
    for (let k = 0; k < column.rows.length; k++, end++) {
      this.#entryRows[end] = column.rows[k]!;
      this.#entryAmounts[end] = column.amounts[k]!;
    }
    this.#starts[index + 1] = end;
    this.#worths[index] = column.worth;
  }

  duals(): Float64Array {
    const duals = this.#exactDuals();
    for (let i = 0; i < duals.length; i++) if (duals[i]! < 0) duals[i] = 0;
    return duals;
  }

  /** Columns in the basis, for a start of another program from here. */
  used(): number[] {
    return Array.from(this.#basis).filter((column) => column >= 0);
  }

  /** first: columns that are likely to be in the basis, looked at before all others. */
  run(pivotsMost: number, first: readonly number[] = []): void {
    const rows = this.#rows;
    const entering = new Float64Array(rows);
    let candidates: readonly number[] = first;
    let duals = this.#exactDuals();
    let fresh = true;
    for (let pivot = 0; pivot < pivotsMost; pivot++) {
      let { chosen, best } = this.#bestOf(candidates, duals);
      if (chosen === NONE) {
        candidates = this.#candidates(duals);
        ({ chosen, best } = this.#bestOf(candidates, duals));
      }
      if (chosen === NONE) {
        if (fresh) return;
        duals = this.#exactDuals();
        fresh = true;
        continue;
      }
      this.#computeEntering(chosen, entering);
      let leaving = -1;
      let ratio = Number.POSITIVE_INFINITY;
      for (let row = 0; row < rows; row++) {
        if (entering[row]! <= 1e-9) continue;
        const step = this.#values[row]! / entering[row]!;
        if (step < ratio - 1e-12 || (step < ratio + 1e-12 && leaving >= 0 && entering[row]! > entering[leaving]!)) {
          ratio = step;
          leaving = row;
        }
      }
      if (leaving < 0) return;
      const count = this.#pivot(entering, leaving, chosen);
      if (++this.#pivots % PIVOTS_CHECKED === 0 && this.#isOff()) {
        this.#refactor();
        duals = this.#exactDuals();
        fresh = true;
      } else {
        for (let k = 0, at = leaving * rows; k < count; k++) {
          const i = this.#filled[k]!;
          duals[i]! += best * this.#inverse[at + i]!;
        }
        fresh = false;
      }
    }
  }

  /** The column, or slack of a row, that pays most for one unit of it. */
  #bestOf(candidates: readonly number[], duals: Float64Array): { chosen: number; best: number } {
    const worths = this.#worths;
    let best = 1e-9;
    let chosen = NONE;
    for (const index of candidates) {
      const reduced = this.#reduced(index, duals);
      if (reduced > best * 1.0000001 + 1e-12 * Math.abs(worths[index]!)) {
        best = reduced;
        chosen = index;
      }
    }
    for (let row = 0; row < this.#rows; row++) {
      if (-duals[row]! > best) {
        best = -duals[row]!;
        chosen = -1 - row;
      }
    }
    this.work += candidates.length * 4 + this.#rows;
    return { chosen, best };
  }

  #reduced(index: number, duals: Float64Array): number {
    const rows = this.#entryRows;
    const amounts = this.#entryAmounts;
    let reduced = this.#worths[index]!;
    for (let k = this.#starts[index]!, end = this.#starts[index + 1]!; k < end; k++) {
      reduced -= duals[rows[k]!]! * amounts[k]!;
    }
    return reduced;
  }

  /** Those of all columns that promise most. */
  #candidates(duals: Float64Array): readonly number[] {
    const count = this.#columns.length;
    const found: { index: number; reduced: number }[] = [];
    for (let index = 0; index < count; index++) {
      const reduced = this.#reduced(index, duals);
      if (reduced > 1e-9 + 1e-12 * Math.abs(this.#worths[index]!)) found.push({ index, reduced });
    }
    this.work += this.#starts[count]!;
    return found
      .sort((a, b) => b.reduced - a.reduced || a.index - b.index)
      .slice(0, CANDIDATES_MOST)
      .map(({ index }) => index);
  }

  #computeEntering(chosen: number, entering: Float64Array): void {
    const rows = this.#rows;
    const inverse = this.#inverse;
    if (chosen < 0) {
      for (let row = 0, at = -1 - chosen; row < rows; row++, at += rows) entering[row] = inverse[at]!;
      return;
    }
    const from = this.#starts[chosen]!;
    const to = this.#starts[chosen + 1]!;
    for (let row = 0, at = 0; row < rows; row++, at += rows) {
      let sum = 0;
      for (let k = from; k < to; k++) sum += inverse[at + this.#entryRows[k]!]! * this.#entryAmounts[k]!;
      entering[row] = sum;
    }
    this.work += rows * (to - from);
  }

  answer(): LpAnswer {
    const x = new Float64Array(this.#columns.length);
    let value = 0;
    for (let row = 0; row < this.#rows; row++) {
      const column = this.#basis[row]!;
      if (column < 0) continue;
      x[column] = Math.max(0, this.#values[row]!);
      value += x[column]! * this.#columns[column]!.worth;
    }
    return { value, x, duals: this.duals() };
  }

  #exactDuals(): Float64Array {
    const rows = this.#rows;
    const duals = new Float64Array(rows);
    for (let row = 0; row < rows; row++) {
      const column = this.#basis[row]!;
      const worth = column < 0 ? 0 : this.#worths[column]!;
      if (worth === 0) continue;
      const from = row * rows;
      for (let i = 0; i < rows; i++) duals[i]! += worth * this.#inverse[from + i]!;
      this.work += rows;
    }
    return duals;
  }

  /** Leaves in `filled` where the row turned on is not zero; how many there are. */
  #pivot(entering: Float64Array, leaving: number, chosen: number): number {
    const rows = this.#rows;
    const inverse = this.#inverse;
    const filled = this.#filled;
    const pivot = entering[leaving]!;
    const own = leaving * rows;
    let count = 0;
    for (let i = 0; i < rows; i++) {
      if (inverse[own + i] === 0) continue;
      inverse[own + i]! /= pivot;
      filled[count++] = i;
    }
    this.#values[leaving]! /= pivot;
    let turned = 0;
    for (let row = 0; row < rows; row++) {
      const factor = entering[row]!;
      if (row === leaving || (factor < 1e-13 && factor > -1e-13)) continue;
      const at = row * rows;
      for (let k = 0; k < count; k++) inverse[at + filled[k]!]! -= factor * inverse[own + filled[k]!]!;
      this.#values[row]! -= factor * this.#values[leaving]!;
      if (this.#values[row]! < 0) this.#values[row] = 0;
      turned++;
    }
    this.#basis[leaving] = chosen;
    this.work += turned * count + 2 * rows;
    return count;
  }

  /** Whether rounding has piled up: what is in the basis no longer gives the limits. */
  #isOff(): boolean {
    const given = new Float64Array(this.#rows);
    for (let row = 0; row < this.#rows; row++) {
      const column = this.#basis[row]!;
      const value = this.#values[row]!;
      if (column < 0) given[-1 - column]! += value;
      else {
        for (let k = this.#starts[column]!; k < this.#starts[column + 1]!; k++)
          given[this.#entryRows[k]!]! += value * this.#entryAmounts[k]!;
      }
    }
    return given.some((sum, row) => Math.abs(sum - this.#limit(row)) > 1e-8);
  }

  /** The inverse afresh, so that rounding does not pile up. */
  #refactor(): void {
    const rows = this.#rows;
    const matrix = new Float64Array(rows * rows);
    for (let place = 0; place < rows; place++) {
      const column = this.#basis[place]!;
      if (column < 0) matrix[(-1 - column) * rows + place] = 1;
      else {
        const { rows: at, amounts } = this.#columns[column]!;
        for (let k = 0; k < at.length; k++) matrix[at[k]! * rows + place] = amounts[k]!;
      }
    }
    const inverse = invert(matrix, rows);
    if (!inverse) return;
    this.#inverse = inverse;
    for (let row = 0; row < rows; row++) {
      let sum = 0;
      for (let i = 0; i < rows; i++) sum += inverse[row * rows + i]! * this.#limit(i);
      this.#values[row] = Math.max(0, sum);
    }
    this.work += rows * rows * rows;
  }
}

/** No column and no slack. */
const NONE = Number.MIN_SAFE_INTEGER;

export function invert(matrix: Float64Array, size: number): Float64Array | null {
  const inverse = new Float64Array(size * size);
  for (let i = 0; i < size; i++) inverse[i * size + i] = 1;
  for (let column = 0; column < size; column++) {
    let best = column;
    for (let row = column + 1; row < size; row++) {
      if (Math.abs(matrix[row * size + column]!) > Math.abs(matrix[best * size + column]!)) best = row;
    }
    const pivot = matrix[best * size + column]!;
    if (Math.abs(pivot) < 1e-11) return null;
    if (best !== column) {
      for (let i = 0; i < size; i++) {
        const a = matrix[best * size + i]!;
        matrix[best * size + i] = matrix[column * size + i]!;
        matrix[column * size + i] = a;
        const b = inverse[best * size + i]!;
        inverse[best * size + i] = inverse[column * size + i]!;
        inverse[column * size + i] = b;
      }
    }
    for (let i = 0; i < size; i++) {
      matrix[column * size + i]! /= pivot;
      inverse[column * size + i]! /= pivot;
    }
    for (let row = 0; row < size; row++) {
      const factor = matrix[row * size + column]!;
      if (row === column || factor === 0) continue;
      for (let i = 0; i < size; i++) {
        matrix[row * size + i]! -= factor * matrix[column * size + i]!;
        inverse[row * size + i]! -= factor * inverse[column * size + i]!;
      }
    }
  }
  return inverse;
}

export const ownLpEngine: LpEngine = {
  solve(problem: LpProblem): LpAnswer {
    const simplex = new Simplex(problem.limits);
    for (const column of problem.columns) simplex.add(column);
    simplex.run(50_000);
    return simplex.answer();
  },
};
