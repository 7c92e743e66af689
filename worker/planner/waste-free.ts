/**
 * Rectangles that blanks fill without waste: two that share a whole side make a larger one. Built by the number of
 * blanks in them; two of one size with the same blanks are one. Where too many have the same number of blanks, the
 * dearest are kept.
 */
import type { Item, Spot } from './view.ts';

export interface WasteFreeSheet {
  /** Sizes with the blade beside and behind each, as the sheet's. */
  readonly items: readonly Item[];
  /** Most copies of each item that will ever be asked for. */
  readonly copies: Int32Array;
  readonly along: number;
  readonly across: number;
}

export interface WasteFreeTask {
  readonly copies: Int32Array;
  readonly prices: Float64Array;
  /** Rectangles kept of one number of blanks. */
  readonly layerMost: number;
  /** Blanks in one rectangle at most. */
  readonly blanksMost: number;
  readonly workMost: number;
}

/** Rectangles that fill the sheet, and whether there are no others. */
export interface WasteFreeFound {
  readonly sheets: readonly number[];
  readonly complete: boolean;
  readonly work: number;
}

const PART = 0;
const ALONG = 1;
const ACROSS = 2;

interface Layer {
  readonly all: readonly number[];
  /** By one side, the other ascending. */
  readonly byAcross: readonly (readonly number[] | undefined)[];
  readonly byAlong: readonly (readonly number[] | undefined)[];
}

export class WasteFree {
  readonly #sheet: WasteFreeSheet;
  readonly #words: number;
  /** Where the copies of an item are counted: its word, how far up in it, and how many bits. */
  readonly #wordOf: Int32Array;
  readonly #shiftOf: Int32Array;
  readonly #bitsOf: Int32Array;
  /** A sum of two tallies that goes beyond the copies of an item carries into its guard bit. */
  readonly #bias: Int32Array;
  readonly #guard: Int32Array;
  #room = 1 << 15;
  #count = 0;
  #along = new Int32Array(this.#room);
  #across = new Int32Array(this.#room);
  #made = new Uint8Array(this.#room);
  #first = new Int32Array(this.#room);
  #second = new Int32Array(this.#room);
  #price = new Float64Array(this.#room);
  #tally: Int32Array;
  /** Open addressing: rectangle and one, 0 for none. */
  #table = new Int32Array(this.#room * 2);
  #sheets: number[] = [];
  #complete = true;
  #work = 0;
  #layerMost = 0;
  /** Where the layer in hand begins, and the price that is not worth a place in it. */
  #from = 0;
  #floor = 0;
  #sinceRaised = 0;

  constructor(sheet: WasteFreeSheet) {
    this.#sheet = sheet;
    const { items, copies } = sheet;
    this.#wordOf = new Int32Array(items.length);
    this.#shiftOf = new Int32Array(items.length);
    this.#bitsOf = Int32Array.from(copies, (most) => 32 - Math.clz32(most));
    const guard: number[] = [0];
    let bit = 0;
    for (let i = 0; i < items.length; i++) {
      const bits = this.#bitsOf[i]! + 1;
      if (bit + bits > 31) {
        guard.push(0);
        bit = 0;
      }
      const word = guard.length - 1;
      this.#wordOf[i] = word;
      this.#shiftOf[i] = bit;
      guard[word]! |= 1 << (bit + bits - 1);
      bit += bits;
    }
    this.#words = guard.length;
    this.#bias = new Int32Array(this.#words);
    this.#guard = Int32Array.from(guard);
    this.#tally = new Int32Array(this.#room * this.#words);
  }

  /** What was found before is forgotten. */
  find(task: WasteFreeTask): WasteFreeFound {
    this.#count = 0;
    this.#table.fill(0);
    this.#sheets = [];
    this.#complete = true;
    this.#work = this.#table.length >> 5;
    this.#layerMost = task.layerMost;
    this.#from = 0;
    this.#floor = Number.NEGATIVE_INFINITY;
    this.#sinceRaised = 0;
    this.#bias.fill(0);
    task.copies.forEach((copies, i) => {
      this.#bias[this.#wordOf[i]!]! += ((1 << this.#bitsOf[i]!) - 1 - copies) << this.#shiftOf[i]!;
    });
    this.#parts(task);
    const layers: Layer[] = [{ all: [], byAcross: [], byAlong: [] }, this.#layer(0)];
    let largest = 1;
    for (let size = 2; size <= 2 * largest && this.#work < task.workMost; size++) {
      if (size > task.blanksMost) {
        this.#complete = false;
        break;
      }
      const from = this.#count;
      this.#from = from;
      this.#floor = Number.NEGATIVE_INFINITY;
      this.#sinceRaised = 0;
      for (let small = 1; 2 * small <= size && this.#work < task.workMost; small++)
        this.#join(layers[small]!, layers[size - small]!);
      if (this.#count > from) largest = size;
      layers.push(this.#layer(from));
    }
    if (this.#work >= task.workMost) this.#complete = false;
    return { sheets: this.#sheets, complete: this.#complete, work: this.#work };
  }

  /** How many of each item a rectangle holds. */
  counts(rectangle: number): Int32Array {
    const from = rectangle * this.#words;
    return this.#bitsOf.map(
      (bits, i) => (this.#tally[from + this.#wordOf[i]!]! >>> this.#shiftOf[i]!) & ((1 << bits) - 1),
    );
  }

  /** Where its blanks lie. */
  spots(rectangle: number): Spot[] {
    const spots: Spot[] = [];
    const stack: number[] = [rectangle, 0, 0];
    while (stack.length > 0) {
      const across = stack.pop()!;
      const along = stack.pop()!;
      const at = stack.pop()!;
      const a = this.#first[at]!;
      const b = this.#second[at]!;
      if (this.#made[at] === PART) {
        spots.push({ item: this.#sheet.items[a]!, along, across });
        continue;
      }
      stack.push(a, along, across);
      if (this.#made[at] === ALONG) stack.push(b, along + this.#along[a]!, across);
      else stack.push(b, along, across + this.#across[a]!);
    }
    return spots;
  }

  #parts({ copies, prices }: WasteFreeTask): void {
    const { items, along, across } = this.#sheet;
    items.forEach((item, i) => {
      if (copies[i]! === 0 || item.along > along || item.across > across) return;
      const at = this.#make(PART, i, i, item.along, item.across);
      const from = at * this.#words;
      this.#tally.fill(0, from, from + this.#words);
      this.#tally[from + this.#wordOf[i]!] = 1 << this.#shiftOf[i]!;
      this.#price[at] = prices[i]!;
      this.#keep(at);
    });
  }

  /** Every pair of two layers that share a side. */
  #join(one: Layer, other: Layer): void {
    const { along, across } = this.#sheet;
    const small = one.all.length <= other.all.length ? one : other;
    const large = small === one ? other : one;
    const made = this.#made;
    let work = small.all.length;
    for (const a of small.all) {
      const length = this.#along[a]!;
      const width = this.#across[a]!;
      // Three in a row are joined one to two, so two rows are never joined.
      const rows = length < along ? large.byAcross[width] : undefined;
      if (rows) {
        const lengths = this.#along;
        for (const b of rows) {
          work++;
          if (length + lengths[b]! > along) break;
          if (made[a] === ALONG && made[b] === ALONG) continue;
          this.#offer(ALONG, a, b, length + lengths[b]!, width);
        }
      }
      const columns = width < across ? large.byAlong[length] : undefined;
      if (columns) {
        const widths = this.#across;
        for (const b of columns) {
          work++;
          if (width + widths[b]! > across) break;
          if (made[a] === ACROSS && made[b] === ACROSS) continue;
          this.#offer(ACROSS, a, b, length, width + widths[b]!);
        }
      }
    }
    this.#work += work;
  }

  #offer(made: number, a: number, b: number, along: number, across: number): void {
    const price = this.#price[a]! + this.#price[b]!;
    const whole = along === this.#sheet.along && across === this.#sheet.across;
    if (price < this.#floor && !whole) return;
    const words = this.#words;
    const tally = this.#tally;
    const bias = this.#bias;
    const guard = this.#guard;
    for (let w = 0, p = a * words, q = b * words; w < words; w++) {
      if (((tally[p + w]! + tally[q + w]! + bias[w]!) & guard[w]!) !== 0) return;
    }
    const at = this.#make(made, a, b, along, across);
    const counted = this.#tally;
    for (let w = 0, to = at * words, p = a * words, q = b * words; w < words; w++)
      counted[to + w] = counted[p + w]! + counted[q + w]!;
    this.#price[at] = price;
    if (!this.#keep(at)) {
      this.#count--;
      return;
    }
    if (++this.#sinceRaised > 4 * this.#layerMost) this.#raise();
  }

  /** A layer far too large already: what would not stay in it is no longer taken in. */
  #raise(): void {
    const prices = this.#price.slice(this.#from, this.#count).sort();
    this.#floor = prices[prices.length - this.#layerMost]!;
    this.#complete = false;
    this.#sinceRaised = 0;
    this.#work += prices.length;
  }

  #make(made: number, a: number, b: number, along: number, across: number): number {
    if (this.#count === this.#room) this.#grow();
    const at = this.#count++;
    this.#made[at] = made;
    this.#first[at] = a;
    this.#second[at] = b;
    this.#along[at] = along;
    this.#across[at] = across;
    return at;
  }

  #grow(): void {
    this.#room *= 2;
    const into = <T extends Int32Array | Uint8Array | Float64Array>(fresh: T, old: T): T => {
      fresh.set(old);
      return fresh;
    };
    this.#along = into(new Int32Array(this.#room), this.#along);
    this.#across = into(new Int32Array(this.#room), this.#across);
    this.#made = into(new Uint8Array(this.#room), this.#made);
    this.#first = into(new Int32Array(this.#room), this.#first);
    this.#second = into(new Int32Array(this.#room), this.#second);
    this.#price = into(new Float64Array(this.#room), this.#price);
    this.#tally = into(new Int32Array(this.#room * this.#words), this.#tally);
    this.#table = new Int32Array(this.#room * 2);
    for (let at = 0; at < this.#count; at++) this.#table[this.#slotOf(at)] = at + 1;
  }

  /** False where the same blanks in the same size are known already. */
  #keep(at: number): boolean {
    const slot = this.#slotOf(at);
    if (this.#table[slot] !== 0) return false;
    this.#table[slot] = at + 1;
    if (this.#isWhole(at)) this.#sheets.push(at);
    return true;
  }

  #slotOf(at: number): number {
    const words = this.#words;
    const tally = this.#tally;
    const table = this.#table;
    const from = at * words;
    const along = this.#along[at]!;
    const across = this.#across[at]!;
    let hash = Math.imul(along, 0x9e3779b1) ^ across;
    for (let w = 0; w < words; w++) hash = Math.imul(hash ^ tally[from + w]!, 0x85ebca6b) ^ (hash >>> 13);
    const mask = table.length - 1;
    for (let slot = (hash ^ (hash >>> 15)) & mask; ; slot = (slot + 1) & mask) {
      const known = table[slot]! - 1;
      if (known < 0) return slot;
      if (this.#along[known] !== along || this.#across[known] !== across) continue;
      let same = true;
      for (let w = 0, q = known * words; w < words && same; w++) same = tally[q + w] === tally[from + w];
      if (same) return slot;
    }
  }

  #isWhole(at: number): boolean {
    return this.#along[at] === this.#sheet.along && this.#across[at] === this.#sheet.across;
  }

  /** The dearest of those made since, but for whole sheets. */
  #layer(from: number): Layer {
    let all: number[] = [];
    for (let at = from; at < this.#count; at++) if (!this.#isWhole(at)) all.push(at);
    this.#work += all.length * 4;
    if (from > 0 && all.length > this.#layerMost) {
      this.#complete = false;
      const prices = Float64Array.from(all, (at) => this.#price[at]!).sort();
      const floor = prices[prices.length - this.#layerMost]!;
      all = all.filter((at) => this.#price[at]! >= floor).slice(0, this.#layerMost);
    }
    return { all, byAcross: grouped(all, this.#across, this.#along), byAlong: grouped(all, this.#along, this.#across) };
  }
}

function grouped(all: readonly number[], key: Int32Array, order: Int32Array): number[][] {
  const groups: number[][] = [];
  for (const at of all) {
    const group = groups[key[at]!];
    if (group) group.push(at);
    else groups[key[at]!] = [at];
  }
  for (const group of groups) group?.sort((a, b) => order[a]! - order[b]! || a - b);
  return groups;
}
