/**
 * One clear sheet by blocks, for sheets too fine for a table of sizes: first with few of them, which tells how many the
 * work allows; then with so many; then with what ranks them shaken.
 */
import { keepMostlyLarge } from './block-queue.ts';
import { Blocks } from './blocks.ts';
import type { Pattern } from './one-board.ts';
import type { Random } from './random.ts';
import { type Raster, rasterOf } from './raster.ts';
import type { Item, Spot, View } from './view.ts';

export interface BlockSearchTask {
  readonly view: View;
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly start: Pattern;
  readonly workMost: number;
  readonly repaired: (spots: readonly Spot[]) => Pattern;
}

/** One step of building takes as long as so many of the search's own. */
export const BLOCK_STEP = 2.5;
/** Blocks of one size kept. */
const ALIKE = 4;
/** Blocks kept in each class of areas at first, and at most. */
const KEEP_FIRST = 10;
const KEEP_MOST = 80;
/** Twice as many blocks take 2 to this power as long. */
const GROWTH = 1.4;
/** How much the liking of blanks is shaken from one time to the next. */
const SHAKE = 0.05;
/** Share of the work left that the closest look takes. */
const CLOSE_SHARE = 0.85;
/** Blocks whose gaps are filled each time. */
const FILLED = 24;
/** A pattern may stay this much below the best known before its gaps are filled. */
const UNFILLED = 0.985;

/** The best pattern found, and the work it took. */
export function searchBlocks(task: BlockSearchTask, random: Random) {
  const { view, prices, limits, start, workMost, repaired } = task;
  const rasters = rastersOf(view);
  const guide = areaGuide(view, prices, limits);
  let pattern = start;
  let work = 0;
  const build = (keep: number, shake: number): number => {
    const found = new Blocks({
      view,
      ...rasters,
      prices,
      limits,
      liking: guide.liking.map((liking) => liking * (1 - shake * random.next())),
      perArea: guide.perArea,
      proof: null,
      floor: pattern.value * UNFILLED,
      keep: keepMostlyLarge(keep),
      keepAlike: ALIKE,
      workMost: (workMost - work) / BLOCK_STEP,
    });
    work += found.work * BLOCK_STEP;
    for (const spots of [found.spots, ...found.dearest(FILLED).map((block) => found.spotsOf(block))]) {
      const right = spots ? repaired(spots) : pattern;
      if (right.value > pattern.value + 1e-9) pattern = right;
    }
    return found.work * BLOCK_STEP;
  };
  const first = build(KEEP_FIRST, 0);
  const affordable = (share: number): number =>
    Math.min(KEEP_MOST, keepWithin((workMost - work) * share, KEEP_FIRST, first));
  const closest = affordable(CLOSE_SHARE);
  if (closest > KEEP_FIRST) build(closest, 0);
  for (let keep = affordable(1); keep >= KEEP_FIRST; keep = affordable(1)) build(Math.min(keep, closest), SHAKE);
  return { pattern, work };
}

/**
 * How many blocks a class may keep where so much work is left and so many took `took`: a look that is broken off halfway
 * has no large blocks yet.
 */
export function keepWithin(left: number, keep: number, took: number): number {
  return left <= 0 ? 0 : Math.floor(keep * (left / took) ** (1 / GROWTH));
}

/** Positions of cuts for a view's own blanks. */
export function rastersOf({ items, along, across, kerfAlong, kerfAcross }: View): { xs: Raster; ys: Raster } {
  return {
    xs: rasterOf(
      items.map((item) => item.along + kerfAlong),
      along + kerfAlong,
    ),
    ys: rasterOf(
      items.map((item) => item.across + kerfAcross),
      across + kerfAcross,
    ),
  };
}

/** What ranks blocks: worth of a unit of area where wood is short, and of each copy, which never counts more than its area. */
export function areaGuide(view: View, prices: Float64Array, limits: Int32Array) {
  const { items, along, across, kerfAlong, kerfAcross } = view;
  const areaOf = (item: Item): number => (item.along + kerfAlong) * (item.across + kerfAcross);
  const density = (item: Item): number => prices[item.blank]! / areaOf(item);
  const order = items
    .filter((item) => prices[item.blank]! > 0 && limits[item.blank]! > 0)
    .sort((a, b) => density(b) - density(a) || a.blank - b.blank);
  let left = (along + kerfAlong) * (across + kerfAcross);
  let perArea = 0;
  for (const item of order) {
    perArea = density(item);
    left -= areaOf(item) * limits[item.blank]!;
    if (left <= 0) break;
  }
  const liking = prices.slice();
  for (const item of items) liking[item.blank] = Math.min(prices[item.blank]!, perArea * areaOf(item));
  return { perArea, liking };
}
