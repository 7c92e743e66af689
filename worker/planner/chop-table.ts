/**
 * Best chop of a clear strip into blanks of limited quantity. One layer a blank, narrowest first, so that the layer of
 * the widest blank that fits a strip answers for that strip.
 */
import type { Item } from './view.ts';

export interface ChopTable {
  readonly items: readonly Item[];
  readonly layers: readonly Float64Array[];
  readonly prices: Float64Array;
  readonly kerf: number;
}

/** Items must be sorted by their size across. Capacity counts the blade behind the last blank. */
export function chopTable(
  items: readonly Item[],
  priceOf: Float64Array,
  limitOf: Int32Array,
  kerf: number,
  capacity: number,
  perUnitLeft = 0,
): ChopTable {
  const used = items.filter((item) => priceOf[item.blank]! > 0 && limitOf[item.blank]! > 0);
  const layers: Float64Array[] = [
    perUnitLeft === 0
      ? new Float64Array(capacity + 1)
      : Float64Array.from({ length: capacity + 1 }, (_, at) => at * perUnitLeft),
  ];
  const prices = new Float64Array(used.length);
  used.forEach((item, index) => {
    const price = priceOf[item.blank]!;
    const step = item.along + kerf;
    const most = Math.floor(capacity / step);
    const table = layers[index]!.slice();
    prices[index] = price;
    if (limitOf[item.blank]! >= most) {
      for (let at = step; at <= capacity; at++) {
        const value = table[at - step]! + price;
        if (value > table[at]!) table[at] = value;
      }
    } else {
      for (let copy = limitOf[item.blank]!; copy > 0; copy--) {
        for (let at = capacity; at >= step; at--) {
          const value = table[at - step]! + price;
          if (value > table[at]!) table[at] = value;
        }
      }
    }
    layers.push(table);
  });
  return { items: used, layers, prices, kerf };
}

/** How many layers a strip of this size may use. */
export function layersWithin(table: ChopTable, across: number): number {
  let count = 0;
  while (count < table.items.length && table.items[count]!.across <= across) count++;
  return count;
}

/** The chop behind a table's answer: items in turn from the start. */
export function chopOf(table: ChopTable, layer: number, capacity: number): Item[] {
  const chosen: Item[] = [];
  let left = capacity;
  for (let at = layer; at > 0; at--) {
    const now = table.layers[at]!;
    const before = table.layers[at - 1]!;
    const item = table.items[at - 1]!;
    const step = item.along + table.kerf;
    const price = table.prices[at - 1]!;
    const target = now[left]!;
    let worth = 0;
    let size = 0;
    // The same additions in the same order as when the table was filled, so equality is exact up to rounding.
    while (before[left - size]! + worth < target - 1e-9 * Math.max(1, Math.abs(target)) && size + step <= left) {
      size += step;
      worth += price;
      chosen.push(item);
    }
    left -= size;
  }
  return chosen;
}
