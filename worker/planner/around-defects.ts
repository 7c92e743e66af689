/**
 * The greatest worth of a board with defects when copies are unlimited, by cuts in any number of stages: exact. A region
 * clear of defects is worth what its size is. Any other is parted where a row of blanks can end that begins at the
 * region's edge or behind a defect in it (Scheithauer and Terno 1988, from memory); what a clear sheet of its size gives
 * is more than it can be worth, which leaves most of them unsearched.
 */
import { type Item, isClear, type Spot, type View } from './view.ts';

export interface AroundDefects {
  /** Proven: no pattern is worth more. */
  readonly bound: number;
  /** The best pattern; null where none is better than the floor given, or was found with the work and memory allowed. */
  readonly spots: readonly Spot[] | null;
  readonly work: number;
}

/** Regions kept take some 100 bytes each. */
const REGIONS_MOST = 500_000;
const SIZES_MOST = 3_000_000;

/** floor: worth of a pattern known already. null where the sizes alone would take too much. The view must not be turned. */
export function bestAroundDefects(
  view: View,
  prices: Float64Array,
  floor: number,
  workMost: number,
): AroundDefects | null {
  const sizes = sizesOf(view);
  if (sizes.xs.count * sizes.ys.count > SIZES_MOST) return null;
  if (sizes.work > workMost) return null;
  return new Search(view, prices, sizes, workMost).run(floor);
}

/** Lengths that rows of blanks can have, blades counted. */
interface Rows {
  readonly at: Int32Array;
  readonly count: number;
  /** Index of the longest row within a length. */
  readonly within: Int32Array;
}

interface Sizes {
  readonly xs: Rows;
  readonly ys: Rows;
  readonly work: number;
}

function sizesOf(view: View): Sizes {
  const xs = rowsOf(
    view.items.map((item) => item.along + view.kerfAlong),
    view.along + view.kerfAlong,
  );
  const ys = rowsOf(
    view.items.map((item) => item.across + view.kerfAcross),
    view.across + view.kerfAcross,
  );
  return { xs, ys, work: (xs.count * ys.count * (xs.count + ys.count)) / 4 };
}

function rowsOf(lengths: readonly number[], most: number): Rows {
  const reached = new Uint8Array(most + 1);
  reached[0] = 1;
  for (let at = 1; at <= most; at++)
    if (lengths.some((length) => length <= at && reached[at - length] === 1)) reached[at] = 1;
  const at: number[] = [];
  const within = new Int32Array(most + 1);
  for (let length = 0; length <= most; length++) {
    if (reached[length] === 1) at.push(length);
    within[length] = at.length - 1;
  }
  return { at: Int32Array.from(at), count: at.length, within };
}

/** Defects of all qualities, those that begin first along the board first. */
function byNearEnd(blocked: readonly Int32Array[]): Int32Array {
  const all = blocked.flatMap((list) =>
    Array.from({ length: list.length / 4 }, (_, k) => list.subarray(4 * k, 4 * k + 4)),
  );
  return Int32Array.from(all.sort((a, b) => a[0]! - b[0]!).flatMap((defect) => [...defect]));
}

/** A region with blades counted: the wood ends a blade before `to` and `right`. */
interface Region {
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
}

/** What is known of a region: its worth, or only what it cannot exceed; and how it is parted. */
interface Known {
  worth: number;
  exact: boolean;
  cut: Cut | null;
  item: Item | null;
}

interface Cut {
  readonly one: Region;
  readonly other: Region;
  readonly most: number;
}

class Search {
  readonly #view: View;
  readonly #prices: Float64Array;
  readonly #xs: Rows;
  readonly #ys: Rows;
  readonly #clear: Float64Array;
  readonly #known = new Map<number, Known>();
  readonly #defects: Int32Array;
  /** Ends looked at already in the list of cuts in hand. */
  readonly #stamps: Int32Array;
  #stamp = 0;
  /** All blanks shun the same defects, and none lies on another: then their areas add up. */
  readonly #apart: boolean;
  /** Most worth of a unit of area, blades counted. */
  readonly #densest: number;
  readonly #workMost: number;
  #work: number;

  constructor(view: View, prices: Float64Array, { xs, ys, work }: Sizes, workMost: number) {
    this.#view = view;
    this.#prices = prices;
    this.#xs = xs;
    this.#ys = ys;
    this.#work = work;
    this.#workMost = workMost;
    this.#stamps = new Int32Array(Math.max(view.along + view.kerfAlong, view.across + view.kerfAcross) + 1);
    this.#defects = byNearEnd(view.blocked);
    this.#apart = view.blocked.length === 1 && areApart(this.#defects);
    this.#densest = view.items.reduce(
      (most, item) =>
        Math.max(most, prices[item.blank]! / ((item.along + view.kerfAlong) * (item.across + view.kerfAcross))),
      0,
    );
    this.#clear = this.#clearWorths();
  }

  run(floor: number): AroundDefects {
    const { along, across, kerfAlong, kerfAcross } = this.#view;
    const whole = this.#trimmed({ from: 0, to: along + kerfAlong, left: 0, right: across + kerfAcross });
    const most = this.#mostOf(whole);
    const worth = this.#search(whole, floor);
    if (this.#isSpent()) return { bound: most, spots: null, work: this.#work };
    const better = worth > floor + 1e-9;
    return { bound: Math.max(worth, floor), spots: better ? this.#spots(whole) : null, work: this.#work };
  }

  #isSpent(): boolean {
    return this.#work > this.#workMost || this.#known.size > REGIONS_MOST;
  }

  /** The region's worth where that is above the floor; otherwise something it cannot exceed, not above the floor. */
  #search(region: Region, floor: number): number {
    if (this.#isClear(region)) return this.#clearOf(region);
    const key = this.#keyOf(region);
    const before = this.#known.get(key);
    if (before && (before.exact || before.worth <= floor)) return before.worth;
    if (this.#isSpent()) return floor;
    let best = floor;
    let most = 0;
    let cut: Cut | null = null;
    const item = this.#singleIn(region);
    if (item) {
      most = this.#prices[item.blank]!;
      best = Math.max(best, most);
    }
    const held = best > floor;
    const { cuts, others } = this.#cutsOf(region, best);
    most = Math.max(most, others);
    for (const tried of cuts) {
      if (tried.most <= best + 1e-9) {
        most = Math.max(most, tried.most);
        break;
      }
      const beside = this.#mostOf(tried.other);
      const one = this.#search(tried.one, best - beside);
      if (one + beside <= best + 1e-9) {
        most = Math.max(most, one + beside);
        continue;
      }
      const other = this.#search(tried.other, best - one);
      most = Math.max(most, one + other);
      if (one + other <= best + 1e-9) continue;
      best = one + other;
      cut = tried;
    }
    if (this.#isSpent()) return floor;
    const exact = cut !== null || held;
    const worth = exact ? best : Math.min(most, before?.worth ?? most);
    this.#known.set(key, { worth, exact, cut, item: cut ? null : item });
    return worth;
  }

  /** Where a region may be parted for more than the floor, the most promising first; and what other cuts cannot exceed. */
  #cutsOf(region: Region, floor: number): { cuts: Cut[]; others: number } {
    const cuts: Cut[] = [];
    const others = Math.max(this.#addCuts(region, 0, floor, cuts), this.#addCuts(region, 2, floor, cuts));
    return { cuts: cuts.sort((a, b) => b.most - a.most), others };
  }

  /** Cuts across the axis of a side, 0 along and 2 across: where a row of blanks can end, or the wood behind a defect begins. */
  #addCuts(region: Region, side: 0 | 2, floor: number, into: Cut[]): number {
    const isAlong = side === 0;
    const rows = isAlong ? this.#xs : this.#ys;
    const { at: lengths, count, within } = rows;
    const near = isAlong ? region.from : region.left;
    const far = isAlong ? region.to : region.right;
    const clear = this.#clear;
    // Where the worth of a size stands, for a length along this side and the region's own other side.
    const step = isAlong ? this.#ys.count : 1;
    const base = isAlong
      ? this.#ys.within[region.right - region.left]!
      : this.#xs.within[region.to - region.from]! * this.#ys.count;
    const stamp = ++this.#stamp;
    const stamps = this.#stamps;
    let others = 0;
    let looked = 0;
    for (const start of [near, ...this.#behindDefects(region, side)]) {
      for (let k = 0; k < count; k++) {
        const end = start + lengths[k]!;
        if (end >= far) break;
        if (end <= near || stamps[end] === stamp) continue;
        stamps[end] = stamp;
        looked++;
        const most = clear[base + within[end - near]! * step]! + clear[base + within[far - end]! * step]!;
        if (most <= floor + 1e-9) {
          if (most > others) others = most;
          continue;
        }
        const one = this.#trimmed(isAlong ? { ...region, to: end } : { ...region, right: end });
        const other = this.#trimmed(isAlong ? { ...region, from: end } : { ...region, left: end });
        looked += 8;
        const closer = this.#mostOf(one) + this.#mostOf(other);
        if (closer > floor + 1e-9) into.push({ one, other, most: closer });
        else if (closer > others) others = closer;
      }
    }
    this.#work += looked;
    return others;
  }

  /** Where wood begins behind the defects in a region. */
  #behindDefects(region: Region, side: 0 | 2): number[] {
    const far = side === 0 ? region.to : region.right;
    const starts: number[] = [];
    for (let at = 0; at < this.#defects.length && this.#defects[at]! < region.to; at += 4) {
      const behind = this.#defects[at + side + 1]!;
      if (behind < far && this.#meets(region, at)) starts.push(behind);
    }
    return starts;
  }

  /** Without what no row of blanks reaches at the far sides. */
  #trimmed(region: Region): Region {
    const to = this.#reach(region, 0);
    const right = this.#reach(region, 2);
    return to === region.to && right === region.right ? region : { ...region, to, right };
  }

  #reach(region: Region, side: 0 | 2): number {
    const rows = side === 0 ? this.#xs : this.#ys;
    const near = side === 0 ? region.from : region.left;
    const far = side === 0 ? region.to : region.right;
    let reach = near + rows.at[rows.within[far - near]!]!;
    for (let at = 0; at < this.#defects.length && this.#defects[at]! < region.to && reach < far; at += 4) {
      const behind = this.#defects[at + side + 1]!;
      if (behind >= far || !this.#meets(region, at)) continue;
      const end = behind + rows.at[rows.within[far - behind]!]!;
      if (end > reach) reach = end;
    }
    return reach;
  }

  /** A blank of just this size whose quality the region suits. */
  #singleIn({ from, to, left, right }: Region): Item | null {
    const { kerfAlong, kerfAcross, items, blocked } = this.#view;
    let best: Item | null = null;
    for (const item of items) {
      if (item.along + kerfAlong !== to - from || item.across + kerfAcross !== right - left) continue;
      if (!isClear(blocked[item.quality]!, from, to - kerfAlong, left, right - kerfAcross)) continue;
      if (this.#prices[item.blank]! > (best ? this.#prices[best.blank]! : 0)) best = item;
    }
    return best;
  }

  #mostOf(region: Region): number {
    const usable = this.#usableArea(region);
    const clear = this.#clearOf(region);
    if (usable < 0) return clear;
    const known = this.#known.get(this.#keyOf(region));
    return known ? known.worth : Math.min(clear, usable * this.#densest * (1 + 1e-9));
  }

  /** Area without its defects; below zero where it has none. */
  #usableArea({ from, to, left, right }: Region): number {
    const defects = this.#defects;
    const end = to - this.#view.kerfAlong;
    const side = right - this.#view.kerfAcross;
    let lost = -1;
    for (let at = 0; at < defects.length; at += 4) {
      if (defects[at]! >= end) break;
      if (defects[at + 1]! <= from || defects[at + 2]! >= side || defects[at + 3]! <= left) continue;
      const along = Math.min(defects[at + 1]!, end) - Math.max(defects[at]!, from);
      const across = Math.min(defects[at + 3]!, side) - Math.max(defects[at + 2]!, left);
      if (lost < 0) lost = 0;
      if (this.#apart) lost += along * across;
    }
    return lost < 0 ? -1 : (to - from) * (right - left) - lost;
  }

  #clearOf({ from, to, left, right }: Region): number {
    return this.#clear[this.#xs.within[to - from]! * this.#ys.count + this.#ys.within[right - left]!]!;
  }

  #isClear(region: Region): boolean {
    for (let at = 0; at < this.#defects.length && this.#defects[at]! < region.to; at += 4)
      if (this.#meets(region, at)) return false;
    return true;
  }

  /** Whether the region's wood, without the blade at its far sides, has part of a defect. */
  #meets({ from, to, left, right }: Region, defect: number): boolean {
    const { kerfAlong, kerfAcross } = this.#view;
    return (
      this.#defects[defect]! < to - kerfAlong &&
      this.#defects[defect + 1]! > from &&
      this.#defects[defect + 2]! < right - kerfAcross &&
      this.#defects[defect + 3]! > left
    );
  }

  #keyOf({ from, to, left, right }: Region): number {
    const along = this.#view.along + this.#view.kerfAlong + 1;
    const across = this.#view.across + this.#view.kerfAcross + 1;
    return ((from * along + to) * across + left) * across + right;
  }

  /** Worth of every size of clear wood. */
  #clearWorths(): Float64Array {
    const { items, kerfAlong, kerfAcross } = this.#view;
    const { at: xs, count: columns, within: inX } = this.#xs;
    const { at: ys, count: rows, within: inY } = this.#ys;
    const worth = new Float64Array(columns * rows);
    for (const item of items) {
      const size = inX[item.along + kerfAlong]! * rows + inY[item.across + kerfAcross]!;
      worth[size] = Math.max(worth[size]!, this.#prices[item.blank]!);
    }
    for (let i = 1; i < columns; i++) {
      for (let j = 1; j < rows; j++) {
        const size = i * rows + j;
        let best = Math.max(worth[size]!, worth[size - rows]!, worth[size - 1]!);
        for (let a = 1, half = inX[xs[i]! >> 1]!; a <= half; a++) {
          best = Math.max(best, worth[a * rows + j]! + worth[inX[xs[i]! - xs[a]!]! * rows + j]!);
        }
        for (let b = 1, half = inY[ys[j]! >> 1]!; b <= half; b++) {
          best = Math.max(best, worth[i * rows + b]! + worth[i * rows + inY[ys[j]! - ys[b]!]!]!);
        }
        worth[size] = best;
      }
    }
    return worth;
  }

  #spots(whole: Region): Spot[] {
    const spots: Spot[] = [];
    const stack = [whole];
    for (let region = stack.pop(); region; region = stack.pop()) {
      if (this.#isClear(region)) {
        this.#clearSpots(region, spots);
        continue;
      }
      const known = this.#known.get(this.#keyOf(region));
      if (known?.cut) stack.push(known.cut.one, known.cut.other);
      else if (known?.item) spots.push({ item: known.item, along: region.from, across: region.left });
    }
    return spots;
  }

  /** The blanks of a clear region: any parting that gives its worth will do. */
  #clearSpots(region: Region, spots: Spot[]): void {
    const { items, kerfAlong, kerfAcross } = this.#view;
    const worth = this.#clearOf(region);
    if (worth <= 0) return;
    const { from, to, left, right } = region;
    const single = items.find(
      (item) =>
        item.along + kerfAlong <= to - from &&
        item.across + kerfAcross <= right - left &&
        this.#prices[item.blank]! >= worth - 1e-9 * worth,
    );
    if (single) {
      spots.push({ item: single, along: from, across: left });
      return;
    }
    const part = (one: Region, other: Region): boolean => {
      if (this.#clearOf(one) + this.#clearOf(other) < worth - 1e-9 * worth) return false;
      this.#clearSpots(one, spots);
      this.#clearSpots(other, spots);
      return true;
    };
    for (let a = 1; from + this.#xs.at[a]! < to; a++) {
      const at = from + this.#xs.at[a]!;
      if (part({ ...region, to: at }, { ...region, from: at })) return;
    }
    for (let b = 1; left + this.#ys.at[b]! < right; b++) {
      const at = left + this.#ys.at[b]!;
      if (part({ ...region, right: at }, { ...region, left: at })) return;
    }
  }
}

function areApart(rects: Int32Array): boolean {
  for (let a = 0; a < rects.length; a += 4) {
    if (!isClear(rects.subarray(0, a), rects[a]!, rects[a + 1]!, rects[a + 2]!, rects[a + 3]!)) return false;
  }
  return true;
}
