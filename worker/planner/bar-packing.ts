/**
 * Lengths from the fewest bars of one kind. Patterns are priced exactly until none is missing, so the mix of patterns
 * proves how many bars it takes at least; then bars are fixed one after another as the mix is surest of them, with new
 * patterns for what is left, and given back where the mix proves that a bar too many would follow.
 */
import { BarKnapsack, type Bars } from './bar-knapsack.ts';
import { BarMix } from './bar-mix.ts';
import type { Random } from './random.ts';

export interface BarPacking {
  /** Patterns, one a bar: index of size and copies, in turn. Together just what is wanted. */
  readonly bars: readonly (readonly number[])[];
  readonly bound: number;
  readonly work: number;
}

export interface BarTask extends Bars {
  readonly wanted: Int32Array;
  /** A packing to better. */
  readonly start: readonly (readonly number[])[];
  /** Proven least so far. */
  readonly bound: number;
  readonly workMost: number;
  readonly random: Random;
}

/** Share of the steady prices. */
const STEADY = 0.6;
/** Patterns taken from one pricing. */
const COLUMNS = 12;
const COLUMNS_DIVING = 6;
/** Branches of one pricing where bars are too long for a table: on the way, and for the proof. */
const NODES = 3000;
const NODES_EXACT = 600_000;
/** Passes of filling bar after bar. */
const PASSES = 10;
/** And of so many the patterns are kept. */
const PASSES_KNOWN = 6;
/** Other choices tried at most between the root and a full packing, one dive after another. */
const DETOURS = [0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2] as const;
const CHOICES = 3;

export function* packBars(task: BarTask): Generator<BarPacking, BarPacking> {
  const packer = new BarPacker(task);
  for (let pass = 0; pass < PASSES && !packer.isDone; pass++) {
    packer.pass(pass);
    if (pass % 20 === 0) yield packer.answer();
  }
  packer.mix();
  yield packer.answer();
  for (let turn = 0; !packer.isDone; turn++) {
    packer.dive(DETOURS[Math.min(turn, DETOURS.length - 1)]!, turn > 0);
    yield packer.answer();
  }
  return packer.answer();
}

class BarPacker {
  readonly #task: BarTask;
  readonly #knapsack: BarKnapsack;
  readonly #mix: BarMix;
  readonly #left: Int32Array;
  readonly #fixed: (readonly number[])[] = [];
  #best: readonly (readonly number[])[];
  #bound: number;
  #work = 0;
  #detours = 0;
  #shaken = false;
  #nodes = 0;
  readonly #learned: Float64Array;

  constructor(task: BarTask) {
    this.#task = task;
    this.#knapsack = new BarKnapsack(task);
    this.#left = task.wanted.slice();
    this.#mix = BarMix.of(task, task.wanted);
    for (const pattern of task.start) this.#mix.add(pattern);
    this.#learned = Float64Array.from(task.sizes, (size) => (size / task.capacity) ** 1.01);
    this.#best = task.start;
    this.#bound = task.bound;
  }

  get #spent(): number {
    return this.#work + this.#mix.work;
  }

  get isDone(): boolean {
    return this.#best.length <= this.#bound || this.#spent >= this.#task.workMost;
  }

  answer(): BarPacking {
    return { bars: this.#best, bound: this.#bound, work: this.#spent };
  }

  /**
   * Bar after bar filled at prices that learn from pass to pass: what lay on badly filled bars is dearer next time
   * (sequential value correction, Belov and Scheithauer 2007, from memory).
   */
  pass(turn: number): void {
    const { sizes, capacity, wanted, random } = this.#task;
    const power = 1.005 + 0.06 * random.next();
    const memory = turn === 0 ? 1 : 0.5 + 0.4 * random.next();
    const left = wanted.slice();
    const bars: (readonly number[])[] = [];
    for (let open = left.reduce((sum, copies) => sum + copies, 0); open > 0; ) {
      const found = this.#knapsack.best(this.#learned, left, 1, NODES);
      this.#work += found.work;
      const pattern = found.sets[0]!.pattern;
      const copies = this.#copiesOf(pattern, left);
      let filled = 0;
      for (let k = 0; k < pattern.length; k += 2) filled += sizes[pattern[k]!]! * pattern[k + 1]!;
      for (let copy = 0; copy < copies; copy++) bars.push(pattern);
      for (let k = 0; k < pattern.length; k += 2) {
        const i = pattern[k]!;
        left[i]! -= pattern[k + 1]! * copies;
        open -= pattern[k + 1]! * copies;
        const fresh = ((sizes[i]! / capacity) * (capacity / Math.max(0.3 * capacity, filled))) ** power;
        this.#learned[i] = memory * this.#learned[i]! + (1 - memory) * fresh;
      }
    }
    if (turn < PASSES_KNOWN || bars.length < this.#best.length)
      for (const pattern of new Set(bars)) this.#mix.add(pattern);
    if (bars.length < this.#best.length) this.#best = bars;
  }

  /**
   * Patterns until none pays. Prices are mixed with those that proved most so far, which keeps them from swinging from
   * one round to the next (Wentges 1997, from memory).
   */
  mix(): void {
    const { sizes, capacity, wanted } = this.#task;
    const steady = Float64Array.from(sizes, (size) => size / capacity);
    let proven = 0;
    let weight = STEADY;
    let nodesMost = NODES;
    for (let round = 0; round < 1000 && !this.isDone; round++) {
      this.#mix.solve();
      const duals = this.#mix.prices();
      const prices = steady.map((price, i) => weight * price + (1 - weight) * duals[i]!);
      const found = this.#knapsack.best(prices, wanted, COLUMNS, nodesMost);
      this.#work += found.work;
      const least = prices.reduce((sum, price, i) => sum + price * wanted[i]!, 0) / Math.max(1e-9, found.most);
      if (least > proven) {
        proven = least;
        steady.set(prices.map((price) => price / found.most));
        this.#bound = Math.max(this.#bound, Math.ceil(least - 1e-6));
      }
      let fresh = false;
      for (const { pattern } of found.sets) {
        if (!this.#mix.pays(pattern)) continue;
        this.#mix.add(pattern);
        fresh = true;
      }
      if (!fresh && weight === 0 && nodesMost === NODES_EXACT) break;
      nodesMost = !fresh && weight === 0 ? NODES_EXACT : NODES;
      weight = fresh ? STEADY : 0;
    }
  }

  dive(detours: number, shaken: boolean): void {
    this.#detours = detours;
    this.#shaken = shaken;
    this.#nodes = 400;
    this.#left.set(this.#task.wanted);
    this.#fixed.length = 0;
    this.#descend(this.#mix);
    this.#left.set(this.#task.wanted);
    this.#mix.want(this.#left);
  }

  /** New patterns for what is left, which takes `least` bars, proven. */
  #price(mix: BarMix): { readonly fresh: boolean; readonly least: number } {
    const left = this.#left;
    const prices = mix.prices();
    const found = this.#knapsack.best(prices, left, COLUMNS_DIVING, NODES);
    this.#work += found.work;
    let sum = 0;
    for (let i = 0; i < left.length; i++) sum += prices[i]! * left[i]!;
    let fresh = false;
    for (const { value, pattern } of found.sets) {
      if (value <= 1 + 1e-7) break;
      this.#mix.add(pattern);
      if (mix !== this.#mix) mix.add(pattern);
      fresh = true;
    }
    return { fresh, least: sum / Math.max(1, found.most) };
  }

  /** Whether what is left may go on `room` bars, by patterns known or priced now; false is proven. */
  #mayFit(mix: BarMix, room: number): boolean {
    mix.want(this.#left);
    for (let round = 0; ; round++) {
      mix.solve();
      if (mix.total <= room + 1e-6) return true;
      const { fresh, least } = this.#price(mix);
      if (Math.ceil(least - 1e-6) > room) return false;
      if (!fresh || round >= 60) return true;
    }
  }

  /** From what is fixed to a better packing; true once there is one. */
  #descend(above: BarMix): boolean {
    const target = this.#best.length - 1;
    const room = target - this.#fixed.length;
    if (this.isDone || this.#nodes-- <= 0) return false;
    const mix = above.narrowed(this.#left);
    const before = mix === above ? mix.work : 0;
    const mayFit = this.#mayFit(mix, room);
    if (mix !== this.#mix) this.#work += mix.work - before;
    if (!mayFit) return false;
    const choices = mix.used(this.#left).map(({ pattern, share }) => ({
      pattern,
      share: share >= 1 - 1e-6 ? 1 + share : share * (this.#shaken ? 0.7 + 0.6 * this.#task.random.next() : 1),
      copies: Math.max(1, Math.min(Math.floor(share + 1e-6), this.#copiesOf(pattern, this.#left))),
    }));
    choices.sort((a, b) => b.share - a.share);
    let tried = 0;
    for (const { pattern, copies } of choices) {
      if (tried > 0 && (tried >= CHOICES || this.#detours <= 0)) return false;
      if (tried > 0) this.#detours--;
      tried++;
      const before = this.#fixed.length;
      for (let copy = 0; copy < copies; copy++) this.#fix(pattern);
      if (this.#left.every((copies) => copies === 0)) {
        if (this.#fixed.length < this.#best.length) {
          this.#best = this.#fixed.slice();
          return true;
        }
      } else if (this.#descend(mix)) return true;
      while (this.#fixed.length > before) this.#unfix();
      if (this.isDone || this.#nodes <= 0) return false;
    }
    return false;
  }

  #fix(pattern: readonly number[]): void {
    this.#fixed.push(pattern);
    for (let k = 0; k < pattern.length; k += 2) this.#left[pattern[k]!]! -= pattern[k + 1]!;
  }

  #unfix(): void {
    const pattern = this.#fixed.pop()!;
    for (let k = 0; k < pattern.length; k += 2) this.#left[pattern[k]!]! += pattern[k + 1]!;
  }

  /** As often as the pattern is still wanted whole. */
  #copiesOf(pattern: readonly number[], left: Int32Array): number {
    let copies = Number.POSITIVE_INFINITY;
    for (let k = 0; k < pattern.length; k += 2)
      copies = Math.min(copies, Math.floor(left[pattern[k]!]! / pattern[k + 1]!));
    return copies;
  }
}
