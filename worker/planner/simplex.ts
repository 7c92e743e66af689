/**
 * A small revised simplex that takes new columns while it runs, so that column generation goes on from where it stood.
 * All rows are "at most", so doing nothing is always a start.
 */
import type { LpAnswer, LpColumn, LpEngine, LpProblem } from './lp.ts';

export class Simplex {
  readonly #limits: Float64Array;
  readonly #columns: LpColumn[] = [];
  /** All columns' entries in one run, for the scan that every pivot makes. */
  readonly #starts: number[] = [0];
  readonly #entryRows: number[] = [];
  readonly #entryAmounts: number[] = [];
  readonly #worths: number[] = [];
  readonly #rows: number;
  #inverse: Float64Array;
  /** Column in each row's place; below zero stands for that row's slack. */
  readonly #basis: Int32Array;
  readonly #values: Float64Array;
  #pivots = 0;
  work = 0;

  constructor(limits: Float64Array) {
    const rows = limits.length;
    this.#rows = rows;
    this.#limits = limits;
    this.#inverse = new Float64Array(rows * rows);
    this.#basis = new Int32Array(rows);
    this.#values = limits.slice();
    for (let row = 0; row < rows; row++) {
      this.#inverse[row * rows + row] = 1;
      this.#basis[row] = -1 - row;
      // A trace of slack parts ties, so that degenerate corners do not turn in circles.
      this.#values[row]! += 1e-7 * (1 + ((row * 7919) % 97) / 97);
    }
  }

  add(column: LpColumn): void {
    this.#columns.push(column);
    for (let k = 0; k < column.rows.length; k++) {
      this.#entryRows.push(column.rows[k]!);
      this.#entryAmounts.push(column.amounts[k]!);
    }
    this.#starts.push(this.#entryRows.length);
    this.#worths.push(column.worth);
  }

  duals(): Float64Array {
    const rows = this.#rows;
    const duals = new Float64Array(rows);
    for (let row = 0; row < rows; row++) {
      const column = this.#basis[row]!;
      const worth = column < 0 ? 0 : this.#columns[column]!.worth;
      if (worth === 0) continue;
      const from = row * rows;
      for (let i = 0; i < rows; i++) duals[i]! += worth * this.#inverse[from + i]!;
    }
    for (let i = 0; i < rows; i++) if (duals[i]! < 0) duals[i] = 0;
    return duals;
  }

  run(pivotsMost: number): void {
    const rows = this.#rows;
    const entering = new Float64Array(rows);
    let duals = this.#exactDuals();
    let fresh = true;
    const starts = this.#starts;
    const entryRows = this.#entryRows;
    const entryAmounts = this.#entryAmounts;
    const worths = this.#worths;
    for (let pivot = 0; pivot < pivotsMost; pivot++) {
      let best = 1e-9;
      let chosen = Number.MIN_SAFE_INTEGER;
      for (let index = 0; index < worths.length; index++) {
        let reduced = worths[index]!;
        for (let k = starts[index]!, end = starts[index + 1]!; k < end; k++) {
          reduced -= duals[entryRows[k]!]! * entryAmounts[k]!;
        }
        if (reduced > best * 1.0000001 + 1e-12 * Math.abs(worths[index]!)) {
          best = reduced;
          chosen = index;
        }
      }
      for (let row = 0; row < rows; row++) {
        if (-duals[row]! > best) {
          best = -duals[row]!;
          chosen = -1 - row;
        }
      }
      this.work += entryRows.length;
      if (chosen === Number.MIN_SAFE_INTEGER) {
        if (fresh) return;
        duals = this.#exactDuals();
        fresh = true;
        continue;
      }
      entering.fill(0);
      if (chosen < 0) {
        const at = -1 - chosen;
        for (let row = 0; row < rows; row++) entering[row] = this.#inverse[row * rows + at]!;
      } else {
        const column = this.#columns[chosen]!;
        for (let row = 0; row < rows; row++) {
          let sum = 0;
          for (let k = 0; k < column.rows.length; k++) {
            sum += this.#inverse[row * rows + column.rows[k]!]! * column.amounts[k]!;
          }
          entering[row] = sum;
        }
      }
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
      this.#pivot(entering, leaving, chosen);
      if (++this.#pivots % 200 === 0) {
        this.#refactor();
        duals = this.#exactDuals();
        fresh = true;
      } else {
        for (let i = 0; i < rows; i++) duals[i]! += best * this.#inverse[leaving * rows + i]!;
        fresh = false;
      }
    }
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
      const worth = column < 0 ? 0 : this.#columns[column]!.worth;
      if (worth === 0) continue;
      const from = row * rows;
      for (let i = 0; i < rows; i++) duals[i]! += worth * this.#inverse[from + i]!;
    }
    this.work += rows * rows;
    return duals;
  }

  #pivot(entering: Float64Array, leaving: number, chosen: number): void {
    const rows = this.#rows;
    const inverse = this.#inverse;
    const pivot = entering[leaving]!;
    const own = leaving * rows;
    for (let i = 0; i < rows; i++) inverse[own + i]! /= pivot;
    this.#values[leaving]! /= pivot;
    for (let row = 0; row < rows; row++) {
      const factor = entering[row]!;
      if (row === leaving || factor === 0) continue;
      const at = row * rows;
      for (let i = 0; i < rows; i++) inverse[at + i]! -= factor * inverse[own + i]!;
      this.#values[row]! -= factor * this.#values[leaving]!;
      if (this.#values[row]! < 0) this.#values[row] = 0;
    }
    this.#basis[leaving] = chosen;
    this.work += rows * rows;
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
      for (let i = 0; i < rows; i++)
        sum += inverse[row * rows + i]! * (this.#limits[i]! + 1e-7 * (1 + ((i * 7919) % 97) / 97));
      this.#values[row] = Math.max(0, sum);
    }
    this.work += rows * rows * rows;
  }
}

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
