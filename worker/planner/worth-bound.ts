/**
 * Proven bound for worth: for any rent charged on each blank, no plan beats the rents on all blanks wanted plus what
 * each board could give at prices less rent. Rents are moved against what boards would take too much of; then a mix of
 * what boards would give says where the best rents must lie, and boards are looked at more closely there.
 */
import { BarBound } from './bar-bound.ts';
import { type Job, UNLIMITED } from './job.ts';
import { Simplex } from './simplex.ts';
import { StackBound } from './stack-bound.ts';

/** Rents that the mix asks for are gone towards by so much from the best so far. */
const TOWARDS = 0.3;
/** A mix within this share of what is proven leaves nothing to be gained. */
const CLOSED_SHARE = 1e-4;
const PIVOTS_MOST = 3000;

/** What one board would give as it is looked at: the most, and how much of each blank, in fractions. */
type Visit = (board: number, most: number, use: Float64Array) => void;

/** A search for the rents that prove most, which can be gone on with later. */
export class WorthBound {
  /** Proven: no plan is worth more. Infinite until the first round. */
  bound = Number.POSITIVE_INFINITY;
  readonly #job: Job;
  readonly #workMost: number;
  readonly #bars: BarBound;
  readonly #stacks: StackBound;
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
    this.#stacks = new StackBound(problem);
    this.#values = Float64Array.from(problem.blanks, (blank, index) =>
      wanted[index]! > 0 ? Math.max(0, blank.value) : 0,
    );
    const total = wanted.reduce((sum, copies) => sum + copies, 0);
    this.#counts = problem.boards.map((board) => Math.min(board.count ?? total, total));
    this.#costs = problem.boards.map((board) => (problem.objective === 'net' ? board.cost : 0));
    this.#rents = new Float64Array(this.#values.length);
    this.#best = this.#rents.slice();
  }

  /** Goes on for so many rounds, or until a plan worth `achieved` is proven best. Boards are looked at by bars. */
  improve(achieved: number, rounds: number): number {
    for (let round = 0; round < rounds && !this.#ended && this.bound > achieved + 1e-9; round++) {
      if (this.#isSpent()) break;
      this.#round(achieved);
    }
    return this.bound;
  }

  /** The same by a mix of what boards would give, looked at by stacks too: closer, in few rounds. */
  improveByMix(achieved: number, rounds: number): number {
    const { wanted } = this.#job;
    const values = this.#values;
    const simplex = new Simplex(Float64Array.from([...wanted, ...this.#counts]));
    let rents = this.#best;
    for (let round = 0; round < rounds && this.bound > achieved + 1e-9 && !this.#isSpent(); round++) {
      const at = rents;
      this.#prove(at, true, (board, most, use) => {
        const rows: number[] = [];
        const amounts: number[] = [];
        let worth = most - this.#costs[board]!;
        use.forEach((amount, blank) => {
          if (amount <= 1e-12) return;
          rows.push(blank);
          amounts.push(amount);
          worth += amount * at[blank]!;
        });
        rows.push(values.length + board);
        amounts.push(1);
        simplex.add({ worth, rows: Int32Array.from(rows), amounts: Float64Array.from(amounts) });
      });
      const before = simplex.work;
      simplex.run(PIVOTS_MOST, []);
      this.#job.work += Math.round((simplex.work - before) / 2);
      const { value, duals } = simplex.answer();
      if (this.bound - value <= CLOSED_SHARE * this.bound) break;
      const best = this.#best;
      rents = best.map((rent, blank) =>
        wanted[blank]! >= UNLIMITED
          ? 0
          : Math.min(values[blank]!, Math.max(0, rent + TOWARDS * (duals[blank]! - rent))),
      );
    }
    return this.bound;
  }

  #isSpent(): boolean {
    return this.bound < Number.POSITIVE_INFINITY && this.#bars.work + this.#stacks.work > this.#workMost;
  }

  /** What these rents prove. A mix needs boards looked at in one way, though the other may prove less of some. */
  #prove(rents: Float64Array, byStacks: boolean, visit: Visit): number {
    const bars = this.#bars;
    const stacks = this.#stacks;
    const { wanted } = this.#job;
    const before = bars.work + stacks.work;
    const prices = this.#values.map((value, blank) => value - rents[blank]!);
    const use = new Float64Array(prices.length);
    let sum = rents.reduce((total, rent, blank) => (rent > 0 ? total + rent * wanted[blank]! : total), 0);
    const found = bars.boards(prices, wanted);
    found.least.forEach((least, board) => {
      if (least <= this.#costs[board]!) return;
      const seen = byStacks ? stacks.most(board, prices, use.fill(0)) : least;
      if (!byStacks) bars.addUse(found, board, 1, use.fill(0));
      const most = Math.min(least, seen);
      sum += Math.max(0, most - this.#costs[board]!) * this.#counts[board]!;
      if (seen > this.#costs[board]!) visit(board, seen, use);
    });
    this.#job.work += bars.work + stacks.work - before;
    const proven = sum * (1 + 1e-6);
    if (proven < this.bound - 1e-9) {
      if (proven < this.bound * (1 - 1e-4)) this.#idle = 0;
      this.bound = proven;
      this.#best = rents.slice();
    } else this.#idle++;
    return sum;
  }

  #round(achieved: number): void {
    const { wanted } = this.#job;
    const values = this.#values;
    const rents = this.#rents;
    const total = new Float64Array(values.length);
    const sum = this.#prove(rents, false, (board, _, use) => {
      for (let blank = 0; blank < total.length; blank++) total[blank]! += this.#counts[board]! * use[blank]!;
    });
    if (this.#idle > 12) {
      this.#stride *= 0.6;
      this.#idle = 0;
      rents.set(this.#best);
      this.#ended = this.#stride < 1e-3;
      return;
    }
    let norm = 0;
    for (let blank = 0; blank < values.length; blank++) {
      const over = total[blank]! - wanted[blank]!;
      if (wanted[blank]! < UNLIMITED && (over > 0 || rents[blank]! > 0)) norm += over * over;
    }
    this.#ended = norm === 0;
    const step = (this.#stride * (sum - achieved)) / norm;
    for (let blank = 0; blank < values.length && norm > 0; blank++) {
      if (wanted[blank]! >= UNLIMITED) continue;
      const moved = rents[blank]! + step * (total[blank]! - wanted[blank]!);
      rents[blank] = Math.min(values[blank]!, Math.max(0, moved));
    }
  }
}
