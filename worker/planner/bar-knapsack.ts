/** Best sets of lengths for one bar at given prices: the exact best, and good ones beside it. */

export interface Bars {
  /** Lengths with the blade behind each, ascending, none longer than the bar. */
  readonly sizes: Int32Array;
  /** The bar with one blade more. */
  readonly capacity: number;
}

export interface BarSet {
  readonly value: number;
  /** Index of size and copies, in turn. */
  readonly pattern: readonly number[];
}

export interface BarSets {
  /** Most that any set within the limits is worth; never less. */
  readonly most: number;
  /** The best sets first. */
  readonly sets: readonly BarSet[];
  readonly work: number;
}

/** Longer bars are searched by branching instead of a table. */
const TABLE_MOST = 20_000;

export class BarKnapsack {
  readonly #bars: Bars;
  readonly #worth: Float64Array;
  readonly #copies: Int16Array | null;

  constructor(bars: Bars) {
    this.#bars = bars;
    const isShort = bars.capacity <= TABLE_MOST;
    this.#worth = new Float64Array(isShort ? bars.capacity + 1 : 0);
    this.#copies = isShort ? new Int16Array((bars.capacity + 1) * bars.sizes.length) : null;
  }

  /** nodesMost: where branching ends early, `most` is a weaker bound that still holds. */
  best(prices: Float64Array, limits: Int32Array, setsMost: number, nodesMost: number): BarSets {
    return this.#copies
      ? this.#byTable(prices, limits, setsMost, this.#copies)
      : this.#byBranching(prices, limits, setsMost, nodesMost);
  }

  #byTable(prices: Float64Array, limits: Int32Array, setsMost: number, copies: Int16Array): BarSets {
    const { sizes, capacity } = this.#bars;
    const worth = this.#worth;
    worth.fill(0);
    let work = 0;
    for (let i = 0; i < sizes.length; i++) {
      const taken = i * (capacity + 1);
      const price = prices[i]!;
      const size = sizes[i]!;
      if (price <= 1e-12 || limits[i]! === 0) continue;
      copies.fill(0, taken, taken + capacity + 1);
      const most = Math.min(limits[i]!, Math.floor(capacity / size));
      if (most >= Math.floor(capacity / size)) {
        for (let at = size; at <= capacity; at++) {
          const value = worth[at - size]! + price;
          if (value <= worth[at]! + 1e-12) continue;
          worth[at] = value;
          copies[taken + at] = copies[taken + at - size]! + 1;
        }
        work += capacity - size;
        continue;
      }
      for (let copy = 0; copy < most; copy++) {
        for (let at = capacity; at >= size; at--) {
          const value = worth[at - size]! + price;
          if (value <= worth[at]! + 1e-12) continue;
          worth[at] = value;
          copies[taken + at] = copies[taken + at - size]! + 1;
        }
        work += capacity - size;
      }
    }
    const sets: BarSet[] = [];
    const keys = new Set<string>();
    const take = (forced: number): void => {
      const pattern: number[] = [];
      let room = forced < 0 ? capacity : capacity - sizes[forced]!;
      let value = forced < 0 ? 0 : prices[forced]!;
      let put = forced;
      for (let i = sizes.length - 1; i >= 0; i--) {
        if (prices[i]! <= 1e-12 || limits[i]! === 0) continue;
        let count = copies[i * (capacity + 1) + room]!;
        room -= count * sizes[i]!;
        value += count * prices[i]!;
        if (i === put) {
          count++;
          put = -1;
        }
        if (count > limits[i]!) return;
        if (count > 0) pattern.push(i, count);
      }
      const key = pattern.join(' ');
      if (keys.has(key)) return;
      keys.add(key);
      sets.push({ value, pattern });
    };
    take(-1);
    const others = Array.from(sizes, (size, i) => ({ i, value: prices[i]! + worth[capacity - size]! }))
      .filter(({ i }) => limits[i]! > 0 && prices[i]! > 1e-12)
      .sort((a, b) => b.value - a.value || a.i - b.i);
    for (const { i } of others) {
      if (sets.length >= setsMost) break;
      take(i);
      work += sizes.length;
    }
    return { most: worth[capacity]!, sets, work };
  }

  /** Best price for length first; sets met on the way are kept while they are good. */
  #byBranching(prices: Float64Array, limits: Int32Array, setsMost: number, nodesMost: number): BarSets {
    const { sizes, capacity } = this.#bars;
    const used = Array.from(sizes, (_, i) => i)
      .filter((i) => prices[i]! > 1e-12 && limits[i]! > 0)
      .sort((a, b) => prices[b]! / sizes[b]! - prices[a]! / sizes[a]! || sizes[b]! - sizes[a]!);
    const count = used.length;
    const lengths = Int32Array.from(used, (i) => sizes[i]!);
    const copiesMost = Int32Array.from(used, (i) => limits[i]!);
    const worths = Float64Array.from(used, (i) => prices[i]!);
    const densities = Float64Array.from(used, (i) => prices[i]! / sizes[i]!);
    const smallest = new Int32Array(count + 1).fill(2 ** 31 - 1);
    for (let i = count - 1; i >= 0; i--) smallest[i] = Math.min(smallest[i + 1]!, lengths[i]!);
    const sets: BarSet[] = [];
    // What was taken, size by size: which, how often, and what there was before.
    const which = new Int32Array(count);
    const copies = new Int32Array(count);
    const roomBefore = new Int32Array(count);
    const valueBefore = new Float64Array(count);
    let depth = 0;
    let at = 0;
    let room = capacity;
    let value = 0;
    let best = 0;
    let nodes = 0;
    while (nodes <= nodesMost) {
      let taken = 0;
      // No later size pays more for its length than this one.
      if (at < count && room >= smallest[at]! && value + room * densities[at]! > best + 1e-9) {
        taken = Math.min(copiesMost[at]!, Math.floor(room / lengths[at]!));
        if (taken > 0) {
          which[depth] = at;
          roomBefore[depth] = room;
          valueBefore[depth] = value;
        }
      } else {
        if (depth === 0) break;
        depth--;
        at = which[depth]!;
        room = roomBefore[depth]!;
        value = valueBefore[depth]!;
        taken = copies[depth]! - 1;
      }
      if (taken > 0) {
        nodes++;
        copies[depth] = taken;
        depth++;
        room -= taken * lengths[at]!;
        value += taken * worths[at]!;
        if (value > best + 1e-9) {
          best = value;
          const pattern: number[] = [];
          for (let k = 0; k < depth; k++) pattern.push(used[which[k]!]!, copies[k]!);
          sets.push({ value, pattern });
        }
      }
      at++;
    }
    const first = used[0];
    const most = nodes <= nodesMost ? best : first === undefined ? 0 : (capacity * prices[first]!) / sizes[first]!;
    return { most: most + 1e-9, sets: sets.reverse().slice(0, setsMost), work: nodes * 45 + count * 10 };
  }
}
