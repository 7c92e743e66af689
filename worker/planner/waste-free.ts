/**
 * Rectangles that blanks fill without waste: two that share a whole side make a larger one. Built by the number of
 * blanks in them; two of one size with the same blanks are one. Where too many have the same number of blanks, the
 * dearest are kept.
 */
import { grown } from './grown.ts';
import { saltsFor } from './salts.ts';
import { TallyShape } from './tally.ts';
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

/** Above any side of a sheet, and any number of rectangles in a layer. */
const KEY = 1 << 17;

/** What a slice takes of the sheet's length, or of its width. */
export interface Slice {
  readonly at: number;
  readonly isAlong: boolean;
  readonly size: number;
}

const PART = 0;
const ALONG = 1;
const ACROSS = 2;

/** Rectangles with one side in common, the other ascending; what a join asks first of each stands in the same order. */
interface Lines {
  /** Where those of a side begin, by side. */
  readonly starts: Int32Array;
  readonly ids: Int32Array;
  readonly lengths: Int32Array;
  readonly prices: Float64Array;
  readonly made: Uint8Array;
  readonly tally: Int32Array;
}

interface Layer {
  readonly ids: Int32Array;
  /** By the side across, and by that along. */
  readonly rows: Lines;
  readonly columns: Lines;
}

export class WasteFree {
  readonly #sheet: WasteFreeSheet;
  readonly #shape: TallyShape;
  readonly #words: number;
  #bias: Int32Array;
  #room = 1 << 12;
  #count = 0;
  #along = new Int32Array(this.#room);
  #across = new Int32Array(this.#room);
  #made = new Uint8Array(this.#room);
  #first = new Int32Array(this.#room);
  #second = new Int32Array(this.#room);
  #price = new Float64Array(this.#room);
  /** Of the blanks held, by adding up. */
  #hash = new Int32Array(this.#room);
  #tally: Int32Array;
  readonly #salts: Int32Array;
  /** Tally and bias of the rectangle in hand. */
  readonly #own: Int32Array;
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
    this.#shape = new TallyShape(copies);
    this.#words = this.#shape.words;
    this.#bias = this.#shape.biasOf(copies);
    this.#own = new Int32Array(this.#words);
    this.#salts = saltsFor(items.length);
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
    this.#bias = this.#shape.biasOf(task.copies);
    this.#parts(task);
    const first = this.#layer(0);
    const layers: Layer[] = [first, first];
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

  /** Rectangles across or along the whole sheet that take half of it at most. */
  slices(): Slice[] {
    const { along, across } = this.#sheet;
    const slices: Slice[] = [];
    for (let at = 0; at < this.#count; at++) {
      const length = this.#along[at]!;
      const width = this.#across[at]!;
      if (width === across && 2 * length <= along) slices.push({ at, isAlong: true, size: length });
      else if (length === along && 2 * width <= across) slices.push({ at, isAlong: false, size: width });
    }
    return slices;
  }

  /** How many of each item a rectangle holds. */
  counts(rectangle: number): Int32Array {
    return this.#shape.copies(this.#tally, rectangle * this.#words);
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
      this.#shape.setOne(this.#tally, at * this.#words, i);
      this.#price[at] = prices[i]!;
      this.#hash[at] = this.#salts[i]!;
      const slot = this.#slotOf(at, at, -1);
      if (this.#table[slot] === 0) this.#enter(at, slot);
      else this.#count--;
    });
  }

  /** Every pair of two layers that share a side. */
  #join(one: Layer, other: Layer): void {
    const { along, across } = this.#sheet;
    const small = one.ids.length <= other.ids.length ? one : other;
    const large = small === one ? other : one;
    this.#work += small.ids.length;
    for (const a of small.ids) {
      const from = a * this.#words;
      for (let w = 0; w < this.#words; w++) this.#own[w] = this.#tally[from + w]! + this.#bias[w]!;
      if (this.#along[a]! < along) this.#joinIn(ALONG, a, large.rows);
      if (this.#across[a]! < across) this.#joinIn(ACROSS, a, large.columns);
    }
  }

  /** A rectangle with those that have a side of its own. */
  #joinIn(made: number, a: number, lines: Lines): void {
    const isAlong = made === ALONG;
    const side = isAlong ? this.#across[a]! : this.#along[a]!;
    const length = isAlong ? this.#along[a]! : this.#across[a]!;
    const most = (isAlong ? this.#sheet.along : this.#sheet.across) - length;
    const { lengths, prices, tally, ids, starts } = lines;
    const end = starts[side + 1]!;
    const price = this.#price[a]!;
    // Three in a row are joined one to two, so two rows are never joined.
    const shun = this.#made[a] === made ? made : -1;
    const isWhole = side === (isAlong ? this.#sheet.across : this.#sheet.along);
    const words = this.#words;
    const own = this.#own;
    const { guard } = this.#shape;
    let floor = this.#floor;
    let k = starts[side]!;
    for (; k < end && lengths[k]! <= most; k++) {
      if (price + prices[k]! < floor && !(isWhole && lengths[k] === most)) continue;
      let over = 0;
      for (let w = 0, q = k * words; w < words; w++, q++) over |= (own[w]! + tally[q]!) & guard[w]!;
      if (over !== 0 || lines.made[k] === shun) continue;
      this.#offer(made, a, ids[k]!, length + lengths[k]!, side);
      floor = this.#floor;
    }
    this.#work += k - starts[side]! + 1;
  }

  /** Two that hold no blank too often. */
  #offer(made: number, a: number, b: number, length: number, side: number): void {
    const at = this.#make(made, a, b, made === ALONG ? length : side, made === ALONG ? side : length);
    this.#hash[at] = (this.#hash[a]! + this.#hash[b]!) | 0;
    const slot = this.#slotOf(at, a, b);
    if (this.#table[slot] !== 0) {
      this.#count--;
      return;
    }
    const words = this.#words;
    const tally = this.#tally;
    for (let w = 0, to = at * words, p = a * words, q = b * words; w < words; w++, to++, p++, q++)
      tally[to] = tally[p]! + tally[q]!;
    this.#price[at] = this.#price[a]! + this.#price[b]!;
    this.#enter(at, slot);
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
    this.#along = grown(this.#along, new Int32Array(this.#room));
    this.#across = grown(this.#across, new Int32Array(this.#room));
    this.#made = grown(this.#made, new Uint8Array(this.#room));
    this.#first = grown(this.#first, new Int32Array(this.#room));
    this.#second = grown(this.#second, new Int32Array(this.#room));
    this.#price = grown(this.#price, new Float64Array(this.#room));
    this.#hash = grown(this.#hash, new Int32Array(this.#room));
    this.#tally = grown(this.#tally, new Int32Array(this.#room * this.#words));
    this.#table = new Int32Array(this.#room * 2);
    for (let at = 0; at < this.#count; at++) this.#table[this.#slotOf(at, at, -1)] = at + 1;
  }

  #enter(at: number, slot: number): void {
    this.#table[slot] = at + 1;
    if (this.#isWhole(at)) this.#sheets.push(at);
  }

  /** Where a rectangle stands in the table, or the same blanks in the same size: those of `a`, and of `b` unless below 0. */
  #slotOf(at: number, a: number, b: number): number {
    const words = this.#words;
    const tally = this.#tally;
    const table = this.#table;
    const hashes = this.#hash;
    const along = this.#along[at]!;
    const across = this.#across[at]!;
    const hash = hashes[at]!;
    const spread = Math.imul(hash ^ Math.imul(along, 0x9e3779b1) ^ Math.imul(across, 0xc2b2ae35), 0x85ebca6b);
    const mask = table.length - 1;
    for (let slot = (spread ^ (spread >>> 15)) & mask; ; slot = (slot + 1) & mask) {
      const known = table[slot]! - 1;
      if (known < 0) return slot;
      if (hashes[known] !== hash || this.#along[known] !== along || this.#across[known] !== across) continue;
      let same = true;
      for (let w = 0, q = known * words; w < words && same; w++)
        same = tally[q + w] === tally[a * words + w]! + (b < 0 ? 0 : tally[b * words + w]!);
      if (same) return slot;
    }
  }

  #isWhole(at: number): boolean {
    return this.#along[at] === this.#sheet.along && this.#across[at] === this.#sheet.across;
  }

  /** The dearest of those made since, but for whole sheets. */
  #layer(from: number): Layer {
    let ids = new Int32Array(this.#count - from);
    let count = 0;
    for (let at = from; at < this.#count; at++) if (!this.#isWhole(at)) ids[count++] = at;
    this.#work += count * 4;
    if (from > 0 && count > this.#layerMost) {
      this.#complete = false;
      const prices = new Float64Array(count);
      for (let k = 0; k < count; k++) prices[k] = this.#price[ids[k]!]!;
      prices.sort();
      const floor = prices[count - this.#layerMost]!;
      let kept = 0;
      for (let k = 0; k < count && kept < this.#layerMost; k++)
        if (this.#price[ids[k]!]! >= floor) ids[kept++] = ids[k]!;
      count = kept;
    }
    ids = ids.slice(0, count);
    const { along, across } = this.#sheet;
    return {
      ids,
      rows: this.#lines(ids, this.#across, across, this.#along),
      columns: this.#lines(ids, this.#along, along, this.#across),
    };
  }

  #lines(all: Int32Array, side: Int32Array, sideMost: number, length: Int32Array): Lines {
    const count = all.length;
    // By side, then length, then place: as one number each, since those sort without being compared by a function.
    const keys = new Float64Array(count);
    for (let k = 0; k < count; k++) keys[k] = (side[all[k]!]! * KEY + length[all[k]!]!) * KEY + k;
    keys.sort();
    const ids = new Int32Array(count);
    for (let k = 0; k < count; k++) ids[k] = all[keys[k]! % KEY]!;
    const words = this.#words;
    const lines = {
      starts: new Int32Array(sideMost + 2),
      ids,
      lengths: new Int32Array(count),
      prices: new Float64Array(count),
      made: new Uint8Array(count),
      tally: new Int32Array(count * words),
    };
    for (let k = 0; k < count; k++) {
      const at = ids[k]!;
      lines.starts[side[at]! + 1]!++;
      lines.lengths[k] = length[at]!;
      lines.prices[k] = this.#price[at]!;
      lines.made[k] = this.#made[at]!;
      for (let w = 0; w < words; w++) lines.tally[k * words + w] = this.#tally[at * words + w]!;
    }
    for (let k = 0; k <= sideMost; k++) lines.starts[k + 1]! += lines.starts[k]!;
    return lines;
  }
}
