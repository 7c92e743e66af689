/**
 * Proven bound for worth: for any rent charged on each blank, no plan beats the rents on all blanks wanted plus what
 * each board could give at prices less rent. Rents are moved against what boards would take too much of.
 */
import { BarBound } from './bar-bound.ts';
import { type Job, UNLIMITED } from './job.ts';

/** A search for the rents that prove most, which can be gone on with later. */
export class WorthBound {
  /** Proven: no plan is worth more. Infinite until the first round. */
  bound = Number.POSITIVE_INFINITY;
  readonly #job: Job;
  readonly #workMost: number;
  readonly #bars: BarBound;
  readonly #values: Float64Array;
  readonly #counts: readonly number[];
  readonly #costs: readonly number[];
  readonly #rents: Float64Array;
  #best: Float64Array;
  #stride = 1;
  #idle = 0;
  #ended = false;

  /** No more rounds once so much work is done, but for the first. */
  constructor(job: Job, workMost: number) {
    const { problem, wanted } = job;
    this.#job = job;
    this.#workMost = workMost;
    this.#bars = new BarBound(problem);
    this.#values = Float64Array.from(problem.blanks, (blank) => Math.max(0, blank.value));
    const total = wanted.reduce((sum, copies) => sum + copies, 0);
    this.#counts = problem.boards.map((board) => Math.min(board.count ?? total, total));
    this.#costs = problem.boards.map((board) => (problem.objective === 'net' ? board.cost : 0));
    this.#rents = new Float64Array(this.#values.length);
    this.#best = this.#rents.slice();
  }

  /** Goes on for so many rounds, or until a plan worth `achieved` is proven best. */
  improve(achieved: number, rounds: number): number {
    const before = this.#bars.work;
    for (let round = 0; round < rounds && !this.#ended && this.bound > achieved + 1e-9; round++) {
      if (this.bound < Number.POSITIVE_INFINITY && this.#bars.work > this.#workMost) break;
      this.#round(achieved);
    }
    this.#job.work += this.#bars.work - before;
    return this.bound;
  }

  #round(achieved: number): void {
    const { wanted } = this.#job;
    const values = this.#values;
    const rents = this.#rents;
    const prices = new Float64Array(values.length);
    const use = new Float64Array(values.length);
    let sum = 0;
    for (let blank = 0; blank < values.length; blank++) {
      prices[blank] = values[blank]! - rents[blank]!;
      if (rents[blank]! > 0) sum += rents[blank]! * wanted[blank]!;
    }
    const found = this.#bars.boards(prices, wanted);
    found.least.forEach((most, board) => {
      const net = most - this.#costs[board]!;
      if (net <= 0) return;
      sum += net * this.#counts[board]!;
      this.#bars.addUse(found, board, this.#counts[board]!, use);
    });
    const proven = sum * (1 + 1e-6);
    if (proven < this.bound - 1e-9) {
      if (proven < this.bound * (1 - 1e-4)) this.#idle = 0;
      this.bound = proven;
      this.#best = rents.slice();
    } else if (++this.#idle > 12) {
      this.#stride *= 0.6;
      this.#idle = 0;
      rents.set(this.#best);
      this.#ended = this.#stride < 1e-3;
      return;
    }
    let norm = 0;
    for (let blank = 0; blank < values.length; blank++) {
      const over = use[blank]! - wanted[blank]!;
      if (wanted[blank]! < UNLIMITED && (over > 0 || rents[blank]! > 0)) norm += over * over;
    }
    this.#ended = norm === 0;
    const step = (this.#stride * (sum - achieved)) / norm;
    for (let blank = 0; blank < values.length && norm > 0; blank++) {
      if (wanted[blank]! >= UNLIMITED) continue;
      const moved = rents[blank]! + step * (use[blank]! - wanted[blank]!);
      rents[blank] = Math.min(values[blank]!, Math.max(0, moved));
    }
  }
}
