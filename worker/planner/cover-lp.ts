/**
 * Fewest boards in fractions that cover what is wanted: min sum x over rows sum a x >= wanted, x >= 0. A revised simplex
 * that goes on from where it stood when patterns come in (primal) and when what is wanted changes (dual), so that a dive
 * through one board after another costs a few pivots each.
 */
import { grown } from './grown.ts';
import { invert } from './simplex.ts';

const TINY = 1e-9;
/** Never reached but where rounding turns in circles. */
const PIVOTS_MOST = 5000;

export class CoverLp {
  readonly rows: number;
  /** Steps done, in entries looked at. */
  work = 0;
  /** What covering one more of each row costs. */
  readonly duals: Float64Array;
  readonly #wanted: Float64Array;
  readonly #patterns: (readonly number[])[] = [];
  /** All patterns' entries in one run, for the scan that every pivot makes. */
  #starts = new Int32Array(1024);
  #at = new Int32Array(4096);
  #amounts = new Float64Array(4096);
  #inverse: Float64Array;
  /** Pattern in each place of the basis; below zero stands for that row's surplus. */
  readonly #basis: Int32Array;
  /** Place of each pattern in the basis, or -1. */
  readonly #place: number[] = [];
  readonly #values: Float64Array;
  readonly #entering: Float64Array;
  readonly #weights: number[] = [];
  #reduced = new Float64Array(1024);
  readonly #rowWeights: Float64Array;
  #pivots = 0;

  /** For each row how often one board may hold it alone, at least once: the start. */
  constructor(wanted: Int32Array, alone: Int32Array) {
    const rows = wanted.length;
    this.rows = rows;
    this.duals = new Float64Array(rows);
    this.#wanted = new Float64Array(rows);
    this.#inverse = new Float64Array(rows * rows);
    this.#basis = new Int32Array(rows);
    this.#values = new Float64Array(rows);
    this.#rowWeights = new Float64Array(rows);
    this.#entering = new Float64Array(rows);
    for (let row = 0; row < rows; row++) {
      this.add([row, alone[row]!]);
      this.#place[row] = row;
      this.#basis[row] = row;
      this.#inverse[row * rows + row] = 1 / alone[row]!;
      this.duals[row] = 1 / alone[row]!;
    }
    this.want(wanted);
  }

  get patterns(): readonly (readonly number[])[] {
    return this.#patterns;
  }

  /** A pattern: row and copies in turn. */
  add(pattern: readonly number[]): void {
    const index = this.#patterns.push(pattern) - 1;
    this.#place.push(-1);
    this.#weights.push(1);
    let end = this.#starts[index]!;
    if (index + 2 > this.#starts.length) this.#starts = grown(this.#starts, new Int32Array(2 * this.#starts.length));
    if (end + pattern.length > this.#at.length) {
      this.#at = grown(this.#at, new Int32Array(2 * this.#at.length));
      this.#amounts = grown(this.#amounts, new Float64Array(2 * this.#amounts.length));
    }
    for (let k = 0; k < pattern.length; k += 2, end++) {
      this.#at[end] = pattern[k]!;
      this.#amounts[end] = pattern[k + 1]!;
    }
    this.#starts[index + 1] = end;
  }

  /** Changes what is wanted. */
  want(wanted: Int32Array): void {
    const { rows } = this;
    // A trace more than wanted parts ties, so that degenerate corners do not turn in circles.
    for (let row = 0; row < rows; row++)
      this.#wanted[row] = wanted[row]! === 0 ? 0 : wanted[row]! + 1e-7 * (1 + ((row * 7919) % 97) / 97);
    this.#computeValues();
  }

  /** Boards in fractions, one entry a pattern in use: index and share in turn. */
  used(): number[] {
    const list: number[] = [];
    for (let place = 0; place < this.rows; place++) {
      const pattern = this.#basis[place]!;
      if (pattern >= 0 && this.#values[place]! > 1e-6) list.push(pattern, this.#values[place]!);
    }
    return list;
  }

  /** Boards in fractions that the mix takes. */
  get total(): number {
    let sum = 0;
    for (let place = 0; place < this.rows; place++) if (this.#basis[place]! >= 0) sum += this.#values[place]!;
    return sum;
  }

  /** What a pattern's rows are worth together; above 1 it would make the mix better. */
  worth(pattern: readonly number[]): number {
    let sum = 0;
    for (let k = 0; k < pattern.length; k += 2) sum += this.duals[pattern[k]!]! * pattern[k + 1]!;
    return sum;
  }

  /** To the best mix of the patterns known. */
  solve(): void {
    this.#repair();
    this.#improve();
  }

  #computeValues(): void {
    const { rows } = this;
    for (let place = 0; place < rows; place++) {
      let sum = 0;
      for (let i = 0, at = place * rows; i < rows; i++, at++) sum += this.#inverse[at]! * this.#wanted[i]!;
      this.#values[place] = sum;
    }
    this.work += rows * rows;
  }

  /** Dual pivots until nothing is below zero. */
  #repair(): void {
    const { rows, duals } = this;
    const count = this.#patterns.length;
    const starts = this.#starts;
    const at = this.#at;
    const amounts = this.#amounts;
    for (let pivot = 0; pivot < PIVOTS_MOST; pivot++) {
      let leaving = -1;
      let least = -1e-8;
      for (let place = 0; place < rows; place++) {
        const value = this.#values[place]!;
        if (value < least) {
          least = value;
          leaving = place;
        }
      }
      if (leaving < 0) return;
      const own = leaving * rows;
      const inverse = this.#inverse;
      let chosen = Number.MIN_SAFE_INTEGER;
      let ratio = Number.POSITIVE_INFINITY;
      let strength = 0;
      const consider = (index: number, alpha: number, reduced: number): void => {
        if (alpha >= -TINY) return;
        const step = Math.max(0, reduced) / -alpha;
        if (step > ratio + 1e-12 || (step > ratio - 1e-12 && -alpha <= strength)) return;
        ratio = step;
        strength = -alpha;
        chosen = index;
      };
      for (let index = 0; index < count; index++) {
        if (this.#place[index]! >= 0) continue;
        let alpha = 0;
        for (let k = starts[index]!, end = starts[index + 1]!; k < end; k++)
          alpha += inverse[own + at[k]!]! * amounts[k]!;
        if (alpha >= -TINY) continue;
        let reduced = 1;
        for (let k = starts[index]!, end = starts[index + 1]!; k < end; k++) reduced -= duals[at[k]!]! * amounts[k]!;
        consider(index, alpha, reduced);
      }
      // Surplus in the basis has a price of zero and a row of its own; its alpha is zero there, so it never enters twice.
      for (let row = 0; row < rows; row++) consider(-1 - row, -inverse[own + row]!, duals[row]!);
      this.work += count * 6 + rows;
      if (chosen === Number.MIN_SAFE_INTEGER) return;
      this.#computeEntering(chosen);
      this.#enter(chosen, leaving);
    }
  }

  /** Primal pivots until nothing is worth more than it costs. */
  #improve(): void {
    const { rows, duals } = this;
    const count = this.#patterns.length;
    const weights = this.#weights;
    for (let row = 0; row < rows; row++) this.#rowWeights[row] = 1;
    weights.fill(1);
    if (this.#reduced.length < count) this.#reduced = new Float64Array(2 * count);
    const reduced = this.#reduced;
    this.#computeReduced();
    for (let pivot = 0, fresh = true; pivot < PIVOTS_MOST; pivot++) {
      let chosen = Number.MIN_SAFE_INTEGER;
      let best = 0;
      for (let index = 0; index < count; index++) {
        const cost = reduced[index]!;
        if (cost < -TINY && cost * cost > best * weights[index]!) {
          best = (cost * cost) / weights[index]!;
          chosen = index;
        }
      }
      for (let row = 0; row < rows; row++) {
        if (duals[row]! < -TINY && duals[row]! ** 2 > best * this.#rowWeights[row]!) {
          best = duals[row]! ** 2 / this.#rowWeights[row]!;
          chosen = -1 - row;
        }
      }
      this.work += count + rows;
      if (chosen === Number.MIN_SAFE_INTEGER) {
        if (fresh) return;
        // Rounding has piled up in what was carried on from pivot to pivot.
        this.#computeReduced();
        fresh = true;
        continue;
      }
      this.#computeEntering(chosen);
      let leaving = -1;
      let ratio = Number.POSITIVE_INFINITY;
      for (let place = 0; place < rows; place++) {
        const amount = this.#entering[place]!;
        if (amount <= TINY) continue;
        const step = Math.max(0, this.#values[place]!) / amount;
        if (step < ratio - 1e-12 || (step < ratio + 1e-12 && leaving >= 0 && amount > this.#entering[leaving]!)) {
          ratio = step;
          leaving = place;
        }
      }
      if (leaving < 0) return;
      this.#reweigh(chosen, leaving);
      this.#enter(chosen, leaving);
      fresh = false;
    }
  }

  /** What each pattern costs beyond what its rows are worth; nothing for those in the basis. */
  #computeReduced(): void {
    const { duals } = this;
    const count = this.#patterns.length;
    const starts = this.#starts;
    const at = this.#at;
    const amounts = this.#amounts;
    for (let index = 0; index < count; index++) {
      let cost = this.#place[index]! >= 0 ? 0 : 1;
      if (cost > 0)
        for (let k = starts[index]!, end = starts[index + 1]!; k < end; k++) cost -= duals[at[k]!]! * amounts[k]!;
      this.#reduced[index] = cost;
    }
    this.work += count * 4;
  }

  /**
   * What a pivot does to what each pattern costs, and Devex: how long each edge is, roughly, so that steep ones are taken
   * first.
   */
  #reweigh(chosen: number, leaving: number): void {
    const { rows, duals } = this;
    const count = this.#patterns.length;
    const starts = this.#starts;
    const at = this.#at;
    const amounts = this.#amounts;
    const weights = this.#weights;
    const reduced = this.#reduced;
    const own = leaving * rows;
    const inverse = this.#inverse;
    const pivot = this.#entering[leaving]!;
    const weight = Math.max(1, chosen < 0 ? this.#rowWeights[-1 - chosen]! : weights[chosen]!);
    const scale = weight / (pivot * pivot);
    const step = (chosen < 0 ? duals[-1 - chosen]! : reduced[chosen]!) / pivot;
    for (let index = 0; index < count; index++) {
      if (this.#place[index]! >= 0) continue;
      let alpha = 0;
      for (let k = starts[index]!, end = starts[index + 1]!; k < end; k++)
        alpha += inverse[own + at[k]!]! * amounts[k]!;
      reduced[index]! -= step * alpha;
      const next = alpha * alpha * scale;
      if (next > weights[index]!) weights[index] = next;
    }
    for (let row = 0; row < rows; row++) {
      const next = this.#inverse[own + row]! ** 2 * scale;
      if (next > this.#rowWeights[row]!) this.#rowWeights[row] = next;
    }
    const out = this.#basis[leaving]!;
    if (out < 0) this.#rowWeights[-1 - out] = Math.max(1, scale);
    else {
      weights[out] = Math.max(1, scale);
      reduced[out] = -step;
    }
    if (chosen >= 0) reduced[chosen] = 0;
    this.work += count * 4 + rows;
  }

  #computeEntering(chosen: number): void {
    const { rows } = this;
    const entering = this.#entering;
    if (chosen < 0) {
      const row = -1 - chosen;
      for (let place = 0; place < rows; place++) entering[place] = -this.#inverse[place * rows + row]!;
      return;
    }
    const pattern = this.#patterns[chosen]!;
    for (let place = 0; place < rows; place++) {
      let sum = 0;
      for (let k = 0; k < pattern.length; k += 2) sum += this.#inverse[place * rows + pattern[k]!]! * pattern[k + 1]!;
      entering[place] = sum;
    }
    this.work += rows * pattern.length;
  }

  /** Into the basis; what it changes there is computed. */
  #enter(chosen: number, leaving: number): void {
    const { rows, duals } = this;
    const inverse = this.#inverse;
    const entering = this.#entering;
    let reduced = chosen < 0 ? duals[-1 - chosen]! : 1;
    if (chosen >= 0) {
      const pattern = this.#patterns[chosen]!;
      for (let k = 0; k < pattern.length; k += 2) reduced -= duals[pattern[k]!]! * pattern[k + 1]!;
    }
    const pivot = entering[leaving]!;
    const own = leaving * rows;
    for (let i = 0; i < rows; i++) inverse[own + i]! /= pivot;
    this.#values[leaving]! /= pivot;
    for (let place = 0; place < rows; place++) {
      const factor = entering[place]!;
      if (place === leaving || (factor < 1e-13 && factor > -1e-13)) continue;
      const at = place * rows;
      for (let i = 0; i < rows; i++) inverse[at + i]! -= factor * inverse[own + i]!;
      this.#values[place]! -= factor * this.#values[leaving]!;
    }
    for (let i = 0; i < rows; i++) duals[i]! += reduced * inverse[own + i]!;
    const out = this.#basis[leaving]!;
    if (out >= 0) this.#place[out] = -1;
    if (chosen >= 0) this.#place[chosen] = leaving;
    this.#basis[leaving] = chosen;
    this.work += rows * rows;
    if (++this.#pivots % 100 === 0 && this.#isOff()) this.#refactor();
  }

  /** Whether rounding has piled up: the values no longer give what is wanted. */
  #isOff(): boolean {
    const given = new Float64Array(this.rows);
    for (let place = 0; place < this.rows; place++) {
      const index = this.#basis[place]!;
      const value = this.#values[place]!;
      if (index < 0) given[-1 - index]! -= value;
      else {
        const pattern = this.#patterns[index]!;
        for (let k = 0; k < pattern.length; k += 2) given[pattern[k]!]! += value * pattern[k + 1]!;
      }
    }
    return given.some((sum, row) => Math.abs(sum - this.#wanted[row]!) > 1e-8);
  }

  /** The inverse afresh, so that rounding does not pile up. */
  #refactor(): void {
    const { rows } = this;
    const matrix = new Float64Array(rows * rows);
    for (let place = 0; place < rows; place++) {
      const index = this.#basis[place]!;
      if (index < 0) matrix[(-1 - index) * rows + place] = -1;
      else {
        const pattern = this.#patterns[index]!;
        for (let k = 0; k < pattern.length; k += 2) matrix[pattern[k]! * rows + place] = pattern[k + 1]!;
      }
    }
    this.work += 2 * rows * rows * rows;
    const inverse = invert(matrix, rows);
    if (!inverse) return;
    this.#inverse = inverse;
    this.#computeValues();
    this.duals.fill(0);
    for (let place = 0; place < rows; place++) {
      if (this.#basis[place]! < 0) continue;
      for (let i = 0, at = place * rows; i < rows; i++, at++) this.duals[i]! += inverse[at]!;
    }
  }
}
