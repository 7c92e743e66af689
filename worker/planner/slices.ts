/**
 * Many different blanks that would just fill a sheet: slices across or along the whole sheet are cut off one by one,
 * each the best block of blanks that are hard to place, and the last ones are searched closely. Blanks left over in the
 * end are harder next time.
 */

import { keepEvenly } from './block-queue.ts';
import { BLOCK_STEP, rastersOf } from './block-search.ts';
import { Blocks, type BlockTask } from './blocks.ts';
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
/** Blocks for slices lose no more than this share of what is left of the sheet. */
const LOSS_MOST = 0.02;
/** A slice takes no more than this of what is left. */
const SLICE_MOST = 0.5;
/** Waste within a slice counts so often again. */
const WASTE = 2;
/** How much harder a blank left over gets, how fast that is forgotten, and by how much hardness is shaken. */
const HARDER = 0.15;
const FORGET = 0.9;
const SHAKE = 0.1;
/** How often a sheet is begun anew and not with some first slices of the one in hand, whose place it takes if it falls short by no more than a share. */
const ANEW = 0.1;
const SHORT_MOST = 0.01;

/** A strip right across what was left of the sheet, at the low end. */
interface Slice {
  readonly spots: readonly Spot[];
  /** It takes `size` off the length, else off the width. */
  readonly alongside: boolean;
  readonly size: number;
}

interface SheetCut {
  readonly slices: readonly Slice[];
  readonly spots: readonly Spot[];
  readonly work: number;
}

export function searchSlices(task: SlicesTask, random: Random) {
  const { prices, limits, bound, workMost, repaired } = task;
  const hard = new Float64Array(prices.length).fill(1);
  let pattern = task.start;
  let kept: readonly Slice[] = [];
  let keptValue = 0;
  let work = 0;
  while (work < workMost && pattern.value < bound - 1e-9) {
    const left = limits.slice();
    const first = random.next() < ANEW ? [] : kept.slice(0, random.below(Math.max(1, kept.length)));
    const cut = cutOn(task, first, hard, left, random);
    work += cut.work * BLOCK_STEP + 5000;
    const right = repaired(cut.spots);
    if (right.value > pattern.value + 1e-9) pattern = right;
    if (right.value >= keptValue * (1 - SHORT_MOST * random.next())) {
      kept = cut.slices;
      keptValue = right.value;
    }
    for (let blank = 0; blank < hard.length; blank++) {
      hard[blank] = left[blank]! > 0 ? hard[blank]! + HARDER : 1 + (hard[blank]! - 1) * FORGET;
    }
  }
  return { pattern, work };
}

/** One sheet full, of which the first slices are given. Changes `left`, the copies still wanted. */
function cutOn(
  { view, prices }: SlicesTask,
  first: readonly Slice[],
  hard: Float64Array,
  left: Int32Array,
  random: Random,
): SheetCut {
  const slices: Slice[] = [];
  const spots: Spot[] = [];
  let fromAlong = 0;
  let fromAcross = 0;
  let work = 0;
  const take = (list: readonly Spot[]): void => {
    for (const spot of list) left[spot.item.blank]!--;
    spots.push(...list);
  };
  const moved = (list: readonly Spot[]): Spot[] =>
    list.map(({ item, along, across }) => ({ item, along: along + fromAlong, across: across + fromAcross }));
  const cutOff = (slice: Slice): void => {
    take(slice.spots);
    slices.push(slice);
    if (slice.alongside) fromAlong += slice.size;
    else fromAcross += slice.size;
  };
  first.forEach(cutOff);
  for (;;) {
    const rest = restOf(view, prices, left, fromAlong, fromAcross);
    if (rest.items.length === 0) return { slices, spots, work };
    const perArea = densest(rest, prices);
    if (copiesOf(rest, left) <= LAST_BLANKS) {
      const blocks = blocksOf({ rest, prices, limits: left, liking: prices, perArea, keep: LAST_KEEP, floor: 0 });
      take(moved(blocks.spots ?? []));
      return { slices, spots, work: work + blocks.work };
    }
    const liking = prices.map((price, k) => price * hard[k]! * (1 + SHAKE * (random.next() - 0.5)));
    const most = perArea * (rest.along + view.kerfAlong) * (rest.across + view.kerfAcross);
    const floor = most * (1 - LOSS_MOST);
    const blocks = blocksOf({ rest, prices, limits: left, liking, perArea, keep: KEEP, floor });
    work += blocks.work;
    // From the same blocks more slices without waste, as long as the blanks for them are there.
    for (let isFirst = true; isFirst || copiesOf(rest, left) > LAST_BLANKS; isFirst = false) {
      const along = view.along - fromAlong + view.kerfAlong;
      const across = view.across - fromAcross + view.kerfAcross;
      const best = bestSlice(blocks, along, across, perArea, left);
      if (!best && isFirst) {
        take(moved(blocks.spots ?? []));
        return { slices, spots, work };
      }
      if (!best || (!isFirst && best.waste > 1e-9)) break;
      const size = best.alongside ? blocks.along[best.block]! : blocks.across[best.block]!;
      cutOff({ spots: moved(blocks.spotsOf(best.block)), alongside: best.alongside, size });
    }
  }
}

/** What is left of the sheet, and the blanks for it. */
function restOf(view: View, prices: Float64Array, left: Int32Array, fromAlong: number, fromAcross: number): View {
  const along = view.along - fromAlong;
  const across = view.across - fromAcross;
  const items = view.items.filter(
    (item) => left[item.blank]! > 0 && prices[item.blank]! > 0 && item.along <= along && item.across <= across,
  );
  return { ...view, along, across, items, suited: items };
}

function copiesOf({ items }: View, left: Int32Array): number {
  return items.reduce((sum, item) => sum + left[item.blank]!, 0);
}

interface BlocksAsked extends Pick<BlockTask, 'prices' | 'limits' | 'liking' | 'perArea' | 'floor'> {
  readonly rest: View;
  readonly keep: number;
}

function blocksOf({ rest, keep, ...asked }: BlocksAsked): Blocks {
  return new Blocks({
    ...asked,
    view: rest,
    ...rastersOf(rest),
    proof: null,
    keep: keepEvenly(keep),
    keepAlike: ALIKE,
    workMost: Number.POSITIVE_INFINITY,
  });
}

/**
 * The block that is most worth a slice of its own, cut off along the sheet (alongside) or across it, of those whose
 * blanks are left; null where none is small enough.
 */
function bestSlice(blocks: Blocks, along: number, across: number, perArea: number, left: Int32Array) {
  let best: { readonly block: number; readonly alongside: boolean; readonly waste: number } | null = null;
  let top = Number.NEGATIVE_INFINITY;
  const bias = blocks.biasOf(left);
  for (let block = 0; block < blocks.count; block++) {
    if (blocks.along[block]! > along || blocks.across[block]! > across || !blocks.isWithin(block, bias)) continue;
    for (const alongside of [true, false]) {
      const area = alongside ? blocks.along[block]! * across : blocks.across[block]! * along;
      if (area > SLICE_MOST * along * across) continue;
      const waste = perArea * area - blocks.worth[block]!;
      const rank = (blocks.liked[block]! - perArea * area - WASTE * waste) / Math.sqrt(area);
      if (rank <= top) continue;
      top = rank;
      best = { block, alongside, waste };
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
