/** The best pattern found for a region of a board within what is left of each blank. */
import { keepEvenly } from './block-queue.ts';
import { areaGuide, BLOCK_STEP, rastersOf } from './block-search.ts';
import { Blocks } from './blocks.ts';
import { OneBoard } from './one-board.ts';
import type { PlacedBlank, Problem, Rect } from './problem.ts';
import type { Random } from './random.ts';
import { Sheet } from './sheet.ts';
import { buildSheet } from './sheet-building.ts';
import { type Item, isClear, type View } from './view.ts';

export interface RegionCut {
  readonly pieces: readonly PlacedBlank[];
  readonly work: number;
}

export interface RegionAsks {
  readonly at: Rect;
  /** Blanks that may be cut from it, by index; no others are looked at. */
  readonly blanks: readonly number[];
  /** Price and copies of each of those, in turn. */
  readonly prices: Float64Array;
  readonly limits: Int32Array;
}

/** Steps of a clear region's search at most; finer ones are built from blocks. */
const REGION_WORK = 500_000;
/** What making one ready takes. */
const REGION_BASE = 4000;
/** Patterns kept for each size where that is affordable. */
const SEVERAL = 3;
/** Blocks kept in each class of areas: at least, and up to how many more. */
const BLOCKS_LEAST = 5;
const BLOCKS_MORE = 3;
const STARTS_MOST = 120;

/** The view must not be turned. */
export function cutRegion(problem: Problem, view: View, asks: RegionAsks, random: Random): RegionCut {
  const { at } = asks;
  const clear = view.blocked.every((blocked) => isClear(blocked, at.from, at.to, at.left, at.right));
  return clear && problem.maxStages === null ? clearCut(view, asks, random) : stagedCut(problem, view, asks, random);
}

function clearCut(view: View, asks: RegionAsks, random: Random): RegionCut {
  const { at, blanks, limits } = asks;
  const along = at.to - at.from;
  const across = at.right - at.left;
  const items = itemsOf(view, blanks);
  const part: View = { ...view, along, across, items, suited: items };
  const sheet = new Sheet(part);
  const fine = sheet.passWork > REGION_WORK;
  const several = sheet.passWork * SEVERAL ** 2 <= REGION_WORK && random.below(2) === 0;
  const found = fine ? byBlocks(part, asks, random) : several ? keepingSeveral(sheet, asks) : keepingOne(sheet, asks);
  const left = limits.slice();
  const pieces: PlacedBlank[] = [];
  for (const { item, along: from, across: near } of found.spots) {
    if (--left[item.blank]! < 0) continue;
    pieces.push({
      blank: blanks[item.blank]!,
      from: at.from + from,
      to: at.from + from + item.along,
      left: at.left + near,
      right: at.left + near + item.across,
    });
  }
  return { pieces, work: found.work };
}

function keepingOne(sheet: Sheet, { blanks, prices, limits }: RegionAsks) {
  const work = sheet.passWork * 2 + sheet.states * (4 + blanks.length / 4) + REGION_BASE;
  return { spots: sheet.limited(prices, limits), work };
}

/** Few copies, many conflicts: more than one pattern is kept for each size. */
function keepingSeveral(sheet: Sheet, { prices, limits }: RegionAsks) {
  const built = buildSheet(sheet, {
    prices,
    limits,
    keep: SEVERAL,
    workMost: REGION_WORK * 20,
  });
  return { spots: built.spots, work: built.work * 3 + sheet.passWork + REGION_BASE };
}

/** Too fine for a table of sizes. */
function byBlocks(part: View, { prices, limits }: RegionAsks, random: Random) {
  const built = new Blocks({
    view: part,
    ...rastersOf(part),
    prices,
    limits,
    ...areaGuide(part, prices, limits),
    proof: null,
    floor: 0,
    keep: keepEvenly(BLOCKS_LEAST + random.below(BLOCKS_MORE)),
    keepAlike: 2,
    workMost: REGION_WORK * 4,
  });
  return { spots: built.spots ?? [], work: built.work * BLOCK_STEP + 5 * REGION_BASE };
}

function stagedCut(problem: Problem, view: View, asks: RegionAsks, random: Random): RegionCut {
  const { at, blanks } = asks;
  const items = itemsOf(view, blanks);
  const part: Problem = {
    ...problem,
    rest: null,
    boards: [
      {
        tag: '',
        length: at.to - at.from,
        width: at.right - at.left,
        count: 1,
        cost: 0,
        blocked: view.blocked.map((blocked) => rectsIn(blocked, at)),
        fits: [...items].sort((a, b) => a.blank - b.blank).map((item) => ({ length: item.along, width: item.across })),
      },
    ],
    blanks: [...items]
      .sort((a, b) => a.blank - b.blank)
      .map((item) => ({ ...problem.blanks[blanks[item.blank]!]!, quality: item.quality })),
  };
  const search = new OneBoard(part, 0, STARTS_MOST);
  const found = search.limited(asks.prices, asks.limits, 1, 4, random);
  const pieces = found.pieces.map((piece) => ({
    blank: blanks[piece.blank]!,
    from: at.from + piece.from,
    to: at.from + piece.to,
    left: at.left + piece.left,
    right: at.left + piece.right,
  }));
  return { pieces, work: search.work + 20_000 };
}

/** Blanks renumbered in the order asked. */
function itemsOf(view: View, blanks: readonly number[]): Item[] {
  const index = new Map(blanks.map((blank, i) => [blank, i]));
  return view.items.flatMap((item) => {
    const blank = index.get(item.blank);
    return blank === undefined ? [] : [{ ...item, blank }];
  });
}

function rectsIn(blocked: Int32Array, at: Rect): Rect[] {
  const rects: Rect[] = [];
  for (let k = 0; k < blocked.length; k += 4) {
    if (blocked[k]! >= at.to || blocked[k + 1]! <= at.from) continue;
    if (blocked[k + 2]! >= at.right || blocked[k + 3]! <= at.left) continue;
    const from = Math.max(blocked[k]!, at.from) - at.from;
    const to = Math.min(blocked[k + 1]!, at.to) - at.from;
    const left = Math.max(blocked[k + 2]!, at.left) - at.left;
    const right = Math.min(blocked[k + 3]!, at.right) - at.left;
    rects.push({ from, to, left, right });
  }
  return rects;
}
