/**
 * Many different blanks that would just fill a sheet: slices across or along the whole sheet are cut off one by one,
 * each the best block of blanks that are hard to place, and the last ones are searched closely. Blanks left over in the
 * end are harder next time.
 */
import { BLOCK_STEP, rastersOf } from './block-search.ts';
import { Blocks } from './blocks.ts';
import type { Pattern } from './one-board.ts';
import type { Random } from './random.ts';
import type { Spot, View } from './view.ts';

export interface SlicesTask {
  readonly view: View;
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly start: Pattern;
  /** No pattern is worth more. */
  readonly bound: number;
  readonly workMost: number;
  readonly repaired: (spots: readonly Spot[]) => Pattern;
}

/** Blocks kept in each class of areas while slices are looked for, and when so few blanks are left. */
const KEEP = 4;
const LAST_KEEP = 20;
const LAST_BLANKS = 14;
const ALIKE = 3;
/** A slice takes no more than this of what is left. */
const SLICE_MOST = 0.5;
/** Waste within a slice counts so often again. */
const WASTE = 2;
/** How much harder a blank left over gets, how fast that is forgotten, and by how much hardness is shaken. */
const HARDER = 0.15;
const FORGET = 0.9;
const SHAKE = 0.1;

export function searchSlices(task: SlicesTask, random: Random) {
  const { prices, limits, bound, workMost, repaired } = task;
  const hard = new Float64Array(prices.length).fill(1);
  let pattern = task.start;
  let work = 0;
  while (work < workMost && pattern.value < bound - 1e-9) {
    const left = limits.slice();
    const once = cutOnce(task, hard, left, random);
    work += once.work * BLOCK_STEP + 5000;
    const right = repaired(once.spots);
    if (right.value > pattern.value + 1e-9) pattern = right;
    for (let blank = 0; blank < hard.length; blank++) {
      hard[blank] = left[blank]! > 0 ? hard[blank]! + HARDER : 1 + (hard[blank]! - 1) * FORGET;
    }
  }
  return { pattern, work };
}

/** One sheet full. Changes `left`, the copies still wanted. */
function cutOnce({ view, prices }: SlicesTask, hard: Float64Array, left: Int32Array, random: Random) {
  const { kerfAlong, kerfAcross } = view;
  const spots: Spot[] = [];
  let work = 0;
  let fromAlong = 0;
  let fromAcross = 0;
  for (;;) {
    const along = view.along - fromAlong;
    const across = view.across - fromAcross;
    const items = view.items.filter(
      (item) => left[item.blank]! > 0 && prices[item.blank]! > 0 && item.along <= along && item.across <= across,
    );
    if (items.length === 0) return { spots, work };
    const last = items.reduce((sum, item) => sum + left[item.blank]!, 0) <= LAST_BLANKS;
    const rest: View = { ...view, along, across, items, suited: items };
    const perArea = densest(rest, prices);
    const blocks = new Blocks({
      view: rest,
      ...rastersOf(rest),
      prices,
      limits: left,
      liking: last ? prices : prices.map((price, k) => price * hard[k]! * (1 + SHAKE * (random.next() - 0.5))),
      perArea,
      proof: null,
      floor: 0,
      keep: last ? LAST_KEEP : KEEP,
      keepAlike: ALIKE,
      workMost: Number.POSITIVE_INFINITY,
    });
    work += blocks.work;
    const slice = last ? null : bestSlice(blocks, along + kerfAlong, across + kerfAcross, perArea);
    for (const spot of slice ? blocks.spotsOf(slice.block) : (blocks.spots ?? [])) {
      spots.push({ item: spot.item, along: spot.along + fromAlong, across: spot.across + fromAcross });
      left[spot.item.blank]!--;
    }
    if (!slice) return { spots, work };
    if (slice.alongside) fromAlong += blocks.along[slice.block]!;
    else fromAcross += blocks.across[slice.block]!;
  }
}

/** The block that is most worth a slice of its own, cut off along the sheet (alongside) or across it; null where none is small enough. */
function bestSlice(blocks: Blocks, along: number, across: number, perArea: number) {
  let best: { readonly block: number; readonly alongside: boolean } | null = null;
  let top = Number.NEGATIVE_INFINITY;
  for (let block = 0; block < blocks.count; block++) {
    for (const alongside of [true, false]) {
      const area = alongside ? blocks.along[block]! * across : blocks.across[block]! * along;
      if (area > SLICE_MOST * along * across) continue;
      const waste = perArea * area - blocks.worth[block]!;
      const rank = (blocks.liked[block]! - perArea * area - WASTE * waste) / Math.sqrt(area);
      if (rank <= top) continue;
      top = rank;
      best = { block, alongside };
    }
  }
  return best;
}

/** Most that a unit of area can be worth. */
function densest({ items, kerfAlong, kerfAcross }: View, prices: Float64Array): number {
  return items.reduce(
    (most, item) => Math.max(most, prices[item.blank]! / ((item.along + kerfAlong) * (item.across + kerfAcross))),
    0,
  );
}
