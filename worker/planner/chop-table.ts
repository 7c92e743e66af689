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
  /** Only blanks exactly as wide as the strip: none is ripped again. */
  readonly exact: boolean;
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
  const empty =
    perUnitLeft === 0
      ? new Float64Array(capacity + 1)
      : Float64Array.from({ length: capacity + 1 }, (_, at) => at * perUnitLeft);
  return filled(items, priceOf, limitOf, { kerf, empty, exact: false });
}

/** The same for strips that only take blanks of just their own size across. */
export function exactChopTable(
  items: readonly Item[],
  priceOf: Float64Array,
  limitOf: Int32Array,
  kerf: number,
  capacity: number,
): ChopTable {
  return filled(items, priceOf, limitOf, { kerf, empty: new Float64Array(capacity + 1), exact: true });
}

function filled(
  items: readonly Item[],
  priceOf: Float64Array,
  limitOf: Int32Array,
  { kerf, empty, exact }: { readonly kerf: number; readonly empty: Float64Array; readonly exact: boolean },
): ChopTable {
  const capacity = empty.length - 1;
  const used = items.filter((item) => priceOf[item.blank]! > 0 && limitOf[item.blank]! > 0);
  const layers: Float64Array[] = [empty];
  const prices = new Float64Array(used.length);
  used.forEach((item, index) => {
    const price = priceOf[item.blank]!;
    const step = item.along + kerf;
    const most = Math.floor(capacity / step);
    const table = layers[begins(used, index, exact) ? 0 : index]!.slice();
    prices[index] = price;
    if (limitOf[item.blank]! >= most) {
      for (let at = step; at <= capacity; at++) {
        const value = table[at - step]! + price;
        if (value > table[at]!) table[at] = value;
      }
    } else {
      // One copy, then two at once, then four: together they make up any number.
      for (let left = limitOf[item.blank]!, copies = 1; left > 0; left -= copies, copies *= 2) {
        const now = Math.min(left, copies);
        const size = now * step;
        const worth = now * price;
        for (let at = capacity; at >= size; at--) {
          const value = table[at - size]! + worth;
          if (value > table[at]!) table[at] = value;
        }
      }
    }
    layers.push(table);
  });
  return { items: used, layers, prices, kerf, exact };
}

/** Whether a layer is built on the empty one, not on the one before. */
function begins(items: readonly Item[], index: number, exact: boolean): boolean {
  return index === 0 || (exact && items[index]!.across !== items[index - 1]!.across);
}

/** How many layers a strip of each of these sizes may use. Sizes ascending. */
export function layersWithin({ items, exact }: ChopTable, sizes: Int32Array): Int32Array {
  let count = 0;
  return sizes.map((across) => {
    while (count < items.length && items[count]!.across <= across) count++;
    return exact && count > 0 && items[count - 1]!.across !== across ? 0 : count;
  });
}

/** The chop behind a table's answer: items in turn from the start. */
export function chopOf(table: ChopTable, layer: number, capacity: number): Item[] {
  const chosen: Item[] = [];
  let left = capacity;
  for (let at = layer; at > 0; at--) {
    if (!table.exact) at = changedAt(table, at, left);
    if (at === 0) break;
    const now = table.layers[at]!;
    const first = begins(table.items, at - 1, table.exact);
    const before = table.layers[first ? 0 : at - 1]!;
    const item = table.items[at - 1]!;
    const step = item.along + table.kerf;
    const price = table.prices[at - 1]!;
    const target = now[left]!;
    let worth = 0;
    let size = 0;
    // Sums of copies may be rounded otherwise than when the table was filled.
    while (before[left - size]! + worth < target - 1e-9 * Math.max(1, Math.abs(target)) && size + step <= left) {
      size += step;
      worth += price;
      chosen.push(item);
    }
    left -= size;
    if (first) break;
  }
  return chosen;
}

/** The layer that what this one says was worked out in: values only rise from layer to layer. */
function changedAt({ layers }: ChopTable, layer: number, at: number): number {
  const target = layers[layer]![at]!;
  const floor = target - 1e-9 * Math.max(1, Math.abs(target));
  let low = 0;
  let high = layer;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (layers[middle]![at]! >= floor) high = middle;
    else low = middle + 1;
  }
  return low;
}
