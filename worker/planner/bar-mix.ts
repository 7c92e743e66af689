/**
 * Bars in fractions that give all lengths wanted, kept for the sizes still wanted alone: a dive does most of its work
 * on few sizes, and a pivot costs their number squared.
 */
import type { Bars } from './bar-knapsack.ts';
import { CoverLp } from './cover-lp.ts';

/** A mix is made afresh once no more than this share of its sizes is still wanted. */
const NARROWED = 0.6;

export class BarMix {
  readonly #lp: CoverLp;
  readonly #bars: Bars;
  /** Which size each row stands for. */
  readonly #sizes: readonly number[];
  /** The row of each size; -1 where it has none. */
  readonly #rows: Int32Array;

  private constructor(bars: Bars, sizes: readonly number[], wanted: Int32Array) {
    this.#bars = bars;
    this.#sizes = sizes;
    this.#rows = new Int32Array(bars.sizes.length).fill(-1);
    sizes.forEach((size, row) => {
      this.#rows[size] = row;
    });
    const alone = sizes.map((size) =>
      Math.max(1, Math.min(wanted[size]!, Math.floor(bars.capacity / bars.sizes[size]!))),
    );
    this.#lp = new CoverLp(
      Int32Array.from(sizes, (size) => wanted[size]!),
      Int32Array.from(alone),
    );
  }

  /** The mix of all sizes; each bar at first holds one size alone. wanted: copies of each size. */
  static of(bars: Bars, wanted: Int32Array): BarMix {
    return new BarMix(
      bars,
      Array.from(bars.sizes, (_, size) => size),
      wanted,
    );
  }

  /** Steps done, in entries looked at. */
  get work(): number {
    return this.#lp.work;
  }

  /** Bars in fractions that the mix takes. */
  get total(): number {
    return this.#lp.total;
  }

  /** What one more of each size costs, in bars, never below zero; zero for sizes that the mix leaves out. */
  prices(): Float64Array {
    const prices = new Float64Array(this.#rows.length);
    this.#sizes.forEach((size, row) => {
      prices[size] = Math.max(0, this.#lp.duals[row]!);
    });
    return prices;
  }

  want(wanted: Int32Array): void {
    this.#lp.want(Int32Array.from(this.#sizes, (size) => wanted[size]!));
  }

  solve(): void {
    this.#lp.solve();
  }

  /** A pattern of this mix's sizes: size and copies in turn. */
  add(pattern: readonly number[]): void {
    this.#lp.add(this.#byRow(pattern));
  }

  /** Whether a pattern would make the mix better. */
  pays(pattern: readonly number[]): boolean {
    return this.#lp.worth(this.#byRow(pattern)) > 1 + 1e-7;
  }

  /** Patterns in use, of no more than is wanted, and how many bars of each, in fractions. */
  used(wanted: Int32Array): { readonly pattern: readonly number[]; readonly share: number }[] {
    const used = this.#lp.used();
    const list: { readonly pattern: readonly number[]; readonly share: number }[] = [];
    for (let k = 0; k < used.length; k += 2) {
      const pattern = this.#within(this.#lp.patterns[used[k]!]!, wanted);
      if (pattern.length > 0) list.push({ pattern, share: used[k + 1]! });
    }
    return list;
  }

  /** A mix of what is wanted alone, with all patterns known; this one while most of its sizes still are. */
  narrowed(wanted: Int32Array): BarMix {
    const sizes = this.#sizes.filter((size) => wanted[size]! > 0);
    if (sizes.length > this.#sizes.length * NARROWED) return this;
    const narrow = new BarMix(this.#bars, sizes, wanted);
    const known = new Set<string>();
    for (const pattern of this.#lp.patterns) {
      const part = this.#within(pattern, wanted);
      const key = part.join(' ');
      // One size alone is there from the start.
      if (part.length <= 2 || known.has(key)) continue;
      known.add(key);
      narrow.add(part);
    }
    narrow.#lp.work += this.#lp.patterns.length * 20;
    return narrow;
  }

  #byRow(pattern: readonly number[]): readonly number[] {
    return pattern.map((entry, k) => (k % 2 === 0 ? this.#rows[entry]! : entry));
  }

  /** A pattern by sizes, without what is not wanted. */
  #within(pattern: readonly number[], wanted: Int32Array): number[] {
    const kept: number[] = [];
    for (let k = 0; k < pattern.length; k += 2) {
      const size = this.#sizes[pattern[k]!]!;
      const copies = Math.min(pattern[k + 1]!, wanted[size]!);
      if (copies > 0) kept.push(size, copies);
    }
    return kept;
  }
}
