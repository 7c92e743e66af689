/**
 * The dearest set of blanks that one bar holds, by branching on the best price for length. Exact unless the nodes run
 * out; for long bars in fine units, where a table over every length would be too large.
 */
import type { Item } from './view.ts';

export interface BarFill {
  readonly items: readonly Item[];
  readonly value: number;
  readonly nodes: number;
  readonly exact: boolean;
}

export function fillBar(
  items: readonly Item[],
  priceOf: Float64Array,
  limitOf: Int32Array,
  kerf: number,
  capacity: number,
  nodesMost: number,
): BarFill {
  const used = items
    .filter((item) => priceOf[item.blank]! > 0 && limitOf[item.blank]! > 0)
    .sort(
      (a, b) =>
        priceOf[b.blank]! / (b.along + kerf) - priceOf[a.blank]! / (a.along + kerf) ||
        b.along - a.along ||
        a.blank - b.blank,
    );
  const count = used.length;
  const size = Int32Array.from(used, (item) => item.along + kerf);
  const price = Float64Array.from(used, (item) => priceOf[item.blank]!);
  const smallest = new Int32Array(count + 1).fill(1 << 30);
  for (let i = count - 1; i >= 0; i--) smallest[i] = Math.min(smallest[i + 1]!, size[i]!);
  const taken = new Int32Array(count);
  let best = 0;
  let chosen = new Int32Array(count);
  let nodes = 0;
  const descend = (at: number, room: number, value: number): void => {
    if (value > best + 1e-9) {
      best = value;
      chosen = taken.slice();
    }
    for (let i = at; i < count; i++) {
      if (room < smallest[i]! || nodes > nodesMost) return;
      // No later blank pays more for its length than this one.
      if (value + (room * price[i]!) / size[i]! <= best + 1e-9) return;
      const most = Math.min(limitOf[used[i]!.blank]!, Math.floor(room / size[i]!));
      if (most === 0) continue;
      for (let copies = most; copies > 0; copies--) {
        nodes++;
        taken[i] = copies;
        descend(i + 1, room - copies * size[i]!, value + copies * price[i]!);
        if (nodes > nodesMost) break;
      }
      taken[i] = 0;
    }
  };
  descend(0, capacity, 0);
  const filled: Item[] = [];
  used.forEach((item, i) => {
    for (let copy = 0; copy < chosen[i]!; copy++) filled.push(item);
  });
  return { items: filled, value: best, nodes, exact: nodes <= nodesMost };
}
