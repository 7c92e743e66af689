/**
 * What strips of one kind hold between two cuts, size by size, at one set of prices. Runs that the cuts leave whole are
 * summed up once for each kind and size, so a section costs its first and its last run however many defects it meets.
 */
import type { StripKind } from './strip-set.ts';

/** Fewer whole runs than this are looked up one by one. */
const SUMMED_LEAST = 2;

export class ClearStrips {
  /** By size: the most that a clear strip holds, by its length and a blade. */
  readonly #tables: readonly Float64Array[];
  readonly #kerf: number;
  /** By kind: for each size the worth of all runs before each run; not a number where that was not worked out yet. */
  readonly #sums = new Map<StripKind, Float64Array>();
  #kind: StripKind | null = null;
  #runs: Int32Array = new Int32Array(0);
  #first = 0;
  #last = -1;
  #from = 0;
  #stop = 0;

  constructor(tables: readonly Float64Array[], kerf: number) {
    this.#tables = tables;
    this.#kerf = kerf;
  }

  /** Runs between the cuts: those that `worth` speaks of from now on. */
  between(kind: StripKind, from: number, stop: number): void {
    const runs = kind.runs[0];
    this.#last = -1;
    if (!runs) return;
    let first = 0;
    let last = runs.length - 2;
    while (first <= last && runs[first + 1]! <= from) first += 2;
    while (last >= first && runs[last]! >= stop) last -= 2;
    this.#kind = kind;
    this.#runs = runs;
    this.#first = first;
    this.#last = last;
    this.#from = from;
    this.#stop = stop;
  }

  worth(size: number): number {
    const runs = this.#runs;
    const first = this.#first;
    const last = this.#last;
    if (last < first) return 0;
    const table = this.#tables[size]!;
    const kerf = this.#kerf;
    const from = Math.max(runs[first]!, this.#from);
    const stop = Math.min(runs[last + 1]!, this.#stop);
    if (first === last) return table[stop - from + kerf]!;
    let worth = table[runs[first + 1]! - from + kerf]! + table[stop - runs[last]! + kerf]!;
    if (last - first > 2 * SUMMED_LEAST) {
      const places = (runs.length >> 1) + 1;
      const sums = this.#sumsOf(size, table, places);
      return worth + sums[size * places + (last >> 1)]! - sums[size * places + (first >> 1) + 1]!;
    }
    for (let run = first + 2; run < last; run += 2) worth += table[runs[run + 1]! - runs[run]! + kerf]!;
    return worth;
  }

  #sumsOf(size: number, table: Float64Array, places: number): Float64Array {
    let sums = this.#sums.get(this.#kind!);
    if (!sums) {
      sums = new Float64Array(this.#tables.length * places).fill(Number.NaN);
      this.#sums.set(this.#kind!, sums);
    }
    const row = size * places;
    if (!Number.isNaN(sums[row]!)) return sums;
    const runs = this.#runs;
    sums[row] = 0;
    for (let run = 0; run < runs.length; run += 2) {
      sums[row + (run >> 1) + 1] = sums[row + (run >> 1)]! + table[runs[run + 1]! - runs[run]! + this.#kerf]!;
    }
    return sums;
  }
}
