/**
 * Patterns for a clear sheet built from the blanks up: blocks set beside each other make larger blocks. Of each class of
 * areas so many are kept, those first that waste least. Where none had to be dropped, the answer is the best there is.
 */

import { Lines } from './block-lines.ts';
import { BlockQueue, classOf, type KeepBy } from './block-queue.ts';
import type { Raster } from './raster.ts';
import { saltsFor } from './salts.ts';
import { limitsOn, TallyShape } from './tally.ts';
import type { Item, Spot, View } from './view.ts';

/** No pattern with a block in it is worth more than the block's worth less rents, what can stand beside it, and the credit. */
export interface BlockProof {
  readonly rents: Float64Array;
  /** Most worth less rents beside a block, by the block's size: x by x over the raster. */
  readonly beside: Float64Array;
  /** Rents on all copies wanted. */
  readonly credit: number;
}

export interface BlockTask {
  readonly view: View;
  readonly xs: Raster;
  readonly ys: Raster;
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  /** Blocks rank by what their copies count, less this much for each unit of area of theirs. */
  readonly liking: Float64Array;
  readonly perArea: number;
  readonly proof: BlockProof | null;
  /** A pattern must be worth more than this. */
  readonly floor: number;
  /** Blocks kept in each class of areas, and of just one size. */
  readonly keep: KeepBy;
  readonly keepAlike: number;
  readonly workMost: number;
}

/** Blocks at most, whatever the classes would take. */
const COUNT_MOST = 40_000;
/** A blank this much smaller than the sheet is in the lowest class. */
const SMALLEST = 5000;

export class Blocks {
  readonly #task: BlockTask;
  /** A step more for so many kinds of blank to be compared. */
  readonly #kindsWork: number;
  readonly #rows: number;
  readonly #whole: number;
  readonly #sideX: Side;
  readonly #sideY: Side;
  readonly #queue: BlockQueue;
  readonly #usable: readonly Item[];
  /** By block: its size, as raster index and as length. */
  readonly #col: Int32Array;
  readonly #row: Int32Array;
  readonly along: Int32Array;
  readonly across: Int32Array;
  readonly worth: Float64Array;
  readonly liked: Float64Array;
  readonly #reduced: Float64Array;
  /** What it is made of: two blocks, the second as -2 - block where it stands across; or -1 - item. */
  readonly #first: Int32Array;
  readonly #second: Int32Array;
  /** Of the blanks held. */
  readonly #hash: Int32Array;
  readonly #hashToo: Int32Array;
  readonly #shape: TallyShape;
  readonly #tallies: Int32Array;
  readonly #bias: Int32Array;
  /** Tally and bias of the block that is being joined. */
  readonly #own: Int32Array;
  readonly #alike = new Map<number, number>();
  readonly #nextAlike: Int32Array;
  /** Blocks by their size across, and by their size along. */
  readonly #rowLines: Lines;
  readonly #columnLines: Lines;
  readonly #salts: Int32Array;
  /** Liking less worth on all copies: what ranks leave out. */
  readonly #likedBack: number;
  #best: { readonly first: number; readonly second: number } | null = null;
  #dropped = false;
  count = 0;
  work = 0;
  /** Worth of the best pattern, or the floor given. */
  value: number;

  constructor(task: BlockTask) {
    this.#task = task;
    const { view, xs, ys, prices, limits, liking } = task;
    const W = xs.at.at(-1)!;
    const H = ys.at.at(-1)!;
    this.#kindsWork = prices.length >> 2;
    this.#rows = ys.at.length;
    this.#whole = W * H;
    this.#sideX = sideOf(xs);
    this.#sideY = sideOf(ys);
    this.#queue = new BlockQueue(W * H, task.keep);
    this.#usable = view.items.filter((item) => prices[item.blank]! > 0 && limits[item.blank]! > 0);
    const { scale } = this.#queue;
    const lowest = classOf(Math.max(scale, Math.floor((W * H * scale) / SMALLEST)));
    const most = this.#usable.length + Math.min(COUNT_MOST, this.#queue.roomFrom(lowest)) + 1;
    const ints = (): Int32Array => new Int32Array(most);
    this.#col = ints();
    this.#row = ints();
    this.along = ints();
    this.across = ints();
    this.worth = new Float64Array(most);
    this.liked = new Float64Array(most);
    this.#reduced = new Float64Array(most);
    this.#first = ints();
    this.#second = ints();
    this.#hash = ints();
    this.#hashToo = ints();
    const limited = limitsOn(view, limits);
    this.#shape = new TallyShape(limited);
    this.#tallies = new Int32Array(most * this.#shape.words);
    this.#bias = this.#shape.biasOf(limited);
    this.#own = new Int32Array(this.#shape.words);
    this.#nextAlike = ints();
    this.#rowLines = new Lines(ys.at.length);
    this.#columnLines = new Lines(xs.at.length);
    this.#salts = saltsFor(2 * prices.length);
    this.#likedBack = prices.reduce((sum, price, k) => sum + Math.max(0, price - liking[k]!) * limits[k]!, 0);
    this.value = task.floor;
    this.#build(most);
  }

  /** Nothing that could have been better was left out. */
  get exact(): boolean {
    return !this.#dropped && !this.#queue.dropped;
  }

  /** The best pattern, null where none was worth more than the floor. */
  get spots(): Spot[] | null {
    return this.#best && this.#spotsOf([[this.#best.first, this.#best.second, 0, 0]]);
  }

  /** The dearest blocks: with their gaps filled one of them may be worth more than the best pattern. */
  dearest(most: number): number[] {
    return Array.from({ length: this.count }, (_, block) => block)
      .sort((a, b) => this.worth[b]! - this.worth[a]! || a - b)
      .slice(0, most);
  }

  spotsOf(block: number): Spot[] {
    return this.#spotsOf([[this.#first[block]!, this.#second[block]!, 0, 0]]);
  }

  /** What tells by `isWithin` whether a block holds no more copies than these. */
  biasOf(limits: Int32Array): Int32Array {
    return this.#shape.biasOf(limitsOn(this.#task.view, limits));
  }

  isWithin(block: number, bias: Int32Array): boolean {
    return this.#shape.isWithin(this.#tallies, block * this.#shape.words, bias);
  }

  #build(most: number): void {
    const { view, prices, floor, workMost, proof } = this.#task;
    const queue = this.#queue;
    const singles = this.#usable
      .map((item, index) => {
        const along = this.#sideX.ceil[item.along + view.kerfAlong]!;
        const across = this.#sideY.ceil[item.across + view.kerfAcross]!;
        const shape = this.#sideX.indexOf[along]! * this.#rows + this.#sideY.indexOf[across]!;
        return { index, shape, cls: classOf(along * across * queue.scale), area: along * across };
      })
      .sort((a, b) => a.area - b.area || a.index - b.index);
    let next = 0;
    for (let cls = 0; cls < queue.classes && this.work < workMost; cls++) {
      for (; next < singles.length && singles[next]!.cls <= cls; next++) {
        const { index, shape } = singles[next]!;
        const { blank } = this.#usable[index]!;
        if (proof && this.#mostWith(prices[blank]! - proof.rents[blank]!, shape) <= floor + 1e-9) continue;
        this.#addItem(index, shape);
        this.#grow(this.count - 1);
      }
      while (this.work < workMost && this.count < most) {
        const entry = queue.take(cls);
        if (entry < 0) break;
        const first = queue.first[entry]!;
        const second = queue.second[entry]!;
        const shape = queue.shape[entry]!;
        this.work += this.#kindsWork;
        if (
          proof &&
          this.#mostWith(this.#reduced[first]! + this.#reduced[asBlock(second)]!, shape) <= this.value + 1e-9
        )
          continue;
        if (!this.#addJoin(first, second, shape)) continue;
        queue.room[cls]!--;
        this.#grow(this.count - 1);
      }
    }
    if (this.work >= workMost || this.count >= most) this.#dropped = true;
  }

  #mostWith(reduced: number, shape: number): number {
    const { beside, credit } = this.#task.proof!;
    return reduced + beside[shape]! + credit;
  }

  /** Joins a block with all so far whose mismatch does not waste too much to beat the best known. */
  #grow(a: number): void {
    const { perArea } = this.#task;
    const waste = perArea * this.along[a]! * this.across[a]! - this.liked[a]!;
    const most = perArea * this.#whole + this.#likedBack - this.value - waste;
    const { words } = this.#shape;
    for (let w = 0, p = a * words; w < words; w++, p++) this.#own[w] = this.#tallies[p]! + this.#bias[w]!;
    this.#joinAll(a, true, most / perArea);
    this.#joinAll(a, false, most / perArea);
  }

  /** wasteMost: area that may be lost where two are not equally wide. */
  #joinAll(a: number, alongside: boolean, wasteMost: number): void {
    const { perArea } = this.#task;
    const { bar, scale } = this.#queue;
    const { numbers, lines } = alongside ? this.#rowLines : this.#columnLines;
    const side = alongside ? this.#sideX : this.#sideY;
    const { ceil, taken } = side;
    const cross = alongside ? this.#sideY : this.#sideX;
    const ownLine = alongside ? this.#row[a]! : this.#col[a]!;
    const length = alongside ? this.along[a]! : this.across[a]!;
    const width = cross.at[ownLine]!;
    const room = side.most - length;
    const best = this.liked[a]! + perArea * this.#whole;
    let looked = 0;
    let dropped = false;
    for (let at = 0; at < lines.length; at++) {
      const number = numbers[at]!;
      const narrower = width - cross.at[number]!;
      if (narrower < 0 && -narrower * length > wasteMost) break;
      const most = narrower > 0 ? Math.min(room, wasteMost / narrower) : room;
      const line = narrower > 0 ? ownLine : number;
      const over = cross.at[line]!;
      const overPrice = perArea * over;
      const lostPrice = perArea * (cross.taken[over]! - over);
      const { size: held, lengths, liked, blocks } = lines[at]!;
      looked++;
      for (let k = 0; k < held; k++) {
        const other = lengths[k]!;
        if (other > most) break;
        looked++;
        const joined = length + other;
        const size = ceil[joined]!;
        const rank = best + liked[k]! - overPrice * taken[joined]! - lostPrice * size;
        const cls = classOf(size * over * scale);
        if (rank <= bar[cls]!) dropped = true;
        else this.#consider(a, blocks[k]!, alongside, side.indexOf[size]!, line, cls, rank);
      }
    }
    if (dropped) this.#dropped = true;
    this.work += looked;
  }

  #consider(a: number, b: number, alongside: boolean, at: number, line: number, cls: number, rank: number): void {
    const shape = alongside ? at * this.#rows + line : line * this.#rows + at;
    if (rank + this.#likedBack <= this.value + 1e-9) return;
    if (this.#task.proof && this.#mostWith(this.#reduced[a]! + this.#reduced[b]!, shape) <= this.value + 1e-9) return;
    this.work += 2;
    if (!this.#shape.isWithin(this.#tallies, b * this.#shape.words, this.#own)) return;
    const second = alongside ? b : -2 - b;
    const value = this.worth[a]! + this.worth[b]!;
    if (value > this.value + 1e-9) {
      this.value = value;
      this.#best = { first: a, second };
    }
    this.work += 4;
    this.#queue.offer(cls, rank, shape, a, second, (this.#hash[a]! + this.#hash[b]!) | 0);
  }

  #addItem(index: number, shape: number): void {
    const { prices, liking, proof } = this.#task;
    const { blank } = this.#usable[index]!;
    const to = this.count;
    this.#shape.setOne(this.#tallies, to * this.#shape.words, blank);
    this.worth[to] = prices[blank]!;
    this.#reduced[to] = prices[blank]! - (proof ? proof.rents[blank]! : 0);
    this.liked[to] = liking[blank]!;
    this.#hash[to] = this.#salts[2 * blank]!;
    this.#hashToo[to] = this.#salts[2 * blank + 1]!;
    this.#place(-1 - index, -1, shape);
  }

  /** False where the same is there already, or enough of its size. */
  #addJoin(first: number, second: number, shape: number): boolean {
    const other = asBlock(second);
    const hash = (this.#hash[first]! + this.#hash[other]!) | 0;
    const hashToo = (this.#hashToo[first]! + this.#hashToo[other]!) | 0;
    let alike = 0;
    for (let block = this.#alike.get(shape) ?? -1; block >= 0; block = this.#nextAlike[block]!) {
      if (this.#hash[block] === hash && this.#hashToo[block] === hashToo) return false;
      alike++;
    }
    if (alike >= this.#task.keepAlike) {
      this.#dropped = true;
      return false;
    }
    const to = this.count;
    const { words } = this.#shape;
    const tallies = this.#tallies;
    for (let w = 0, p = first * words, q = other * words, at = to * words; w < words; w++, p++, q++, at++)
      tallies[at] = tallies[p]! + tallies[q]!;
    this.worth[to] = this.worth[first]! + this.worth[other]!;
    this.#reduced[to] = this.#reduced[first]! + this.#reduced[other]!;
    this.liked[to] = this.liked[first]! + this.liked[other]!;
    this.#hash[to] = hash;
    this.#hashToo[to] = hashToo;
    this.#place(first, second, shape);
    return true;
  }

  #place(first: number, second: number, shape: number): void {
    const to = this.count;
    const i = Math.floor(shape / this.#rows);
    const j = shape % this.#rows;
    this.#first[to] = first;
    this.#second[to] = second;
    this.#col[to] = i;
    this.#row[to] = j;
    this.along[to] = this.#task.xs.at[i]!;
    this.across[to] = this.#task.ys.at[j]!;
    this.#nextAlike[to] = this.#alike.get(shape) ?? -1;
    this.#alike.set(shape, to);
    this.#rowLines.add(j, to, this.along[to]!, this.liked[to]!);
    this.#columnLines.add(i, to, this.across[to]!, this.liked[to]!);
    this.count++;
  }

  #spotsOf(stack: [number, number, number, number][]): Spot[] {
    const spots: Spot[] = [];
    for (let top = stack.pop(); top; top = stack.pop()) {
      const [first, second, along, across] = top;
      if (first < 0) {
        spots.push({ item: this.#usable[-1 - first]!, along, across });
        continue;
      }
      const b = asBlock(second);
      stack.push([this.#first[first]!, this.#second[first]!, along, across]);
      if (second >= 0) stack.push([this.#first[b]!, this.#second[b]!, along + this.along[first]!, across]);
      else stack.push([this.#first[b]!, this.#second[b]!, along, across + this.across[first]!]);
    }
    return spots;
  }
}

function asBlock(second: number): number {
  return second < -1 ? -2 - second : second;
}

/** One side of the sheet, by length. */
interface Side {
  /** The positions of its raster. */
  readonly at: Int32Array;
  readonly most: number;
  /** First position not before a length. */
  readonly ceil: Int32Array;
  /** That, and what no blanks beside it can use. */
  readonly taken: Float64Array;
  /** Of a position, its place in the raster. */
  readonly indexOf: Int32Array;
}

function sideOf({ at, floor }: Raster): Side {
  const most = at.at(-1)!;
  const ceil = Int32Array.from(floor, (index, length) => (at[index] === length ? length : at[index + 1]!));
  const taken = Float64Array.from(ceil, (position) => most - at[floor[most - position]!]!);
  return { at, most, ceil, taken, indexOf: floor };
}
