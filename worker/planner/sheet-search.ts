/**
 * One clear sheet, copies limited: rents on blanks drive the exact unlimited search down to a bound, and at the best
 * rents patterns within the limits are built from blocks, more of them kept each time. Stops when pattern and bound meet.
 */

import { keepEvenly } from './block-queue.ts';
import { areaGuide, BLOCK_STEP, keepWithin } from './block-search.ts';
import { type BlockProof, Blocks } from './blocks.ts';
import type { Pattern } from './one-board.ts';
import type { Random } from './random.ts';
import { firstAtLeast } from './raster.ts';
import type { Sheet } from './sheet.ts';
import type { Spot } from './view.ts';

export interface SheetAnswer {
  readonly pattern: Pattern;
  readonly bound: number;
  readonly work: number;
  /** A pass takes so long that too few were made to build on: blocks are better built without. */
  readonly coarse: boolean;
}

export interface SheetTask {
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly start: Pattern;
  readonly workMost: number;
  /** Values are whole numbers, so bounds may be rounded down. */
  readonly whole: boolean;
  readonly repaired: (spots: readonly Spot[]) => Pattern;
}

/** Patterns kept in memory take no more than this. */
const BYTES_MOST = 40_000_000;
/** One step of a pass over all sizes takes as long as so many of the search's own. */
export const PASS_STEP = 0.4;
/** One pass may take this share of the work where blocks are measured against it. */
const PASS_SHARE = 0.06;
/** One pattern for each size may take this share of the work: it is often the best pattern already. */
const LIMITED_SHARE = 1.1;
/** Shares of the work: for rents, and for patterns at shaken prices. */
const LEARNING = 0.4;
const VARYING = 0.1;
/** And so many of those at most: small sheets are soon proven by blocks. */
const VARIED_MOST = 150;
/** Blocks kept in each class of areas: at first, how many times more each time, and at last. */
const KEEP_FIRST = 8;
const KEEP_MORE = 2.5;
const KEEP_LAST = 1000;

export function searchSheet(sheet: Sheet, task: SheetTask, random: Random): SheetAnswer {
  const learnt = learnRents(sheet, task, task.workMost * LEARNING);
  let best = learnt.pattern;
  let { bound, work } = learnt;
  const { prices, limits } = task;
  const kinds = prices.length;
  const rounded = (): number => (task.whole ? Math.floor(bound + 1e-6) : bound);
  const isOpen = (): boolean => work < task.workMost && rounded() > best.value + 1e-9;
  const coarse = sheet.passWork * PASS_STEP > task.workMost * PASS_SHARE;
  if (isOpen() && !coarse && limitedPays(sheet, kinds, task.workMost)) {
    const varied = variations(sheet, task, best, learnt.rents, task.workMost * VARYING, random);
    best = varied.pattern;
    work += varied.work;
  }
  if (!isOpen() || coarse) return { pattern: best, bound: rounded(), work, coarse };
  const proof = proofAt(sheet, prices, limits, learnt.rents);
  work += sheet.passWork * 3 * PASS_STEP;
  for (let keep = KEEP_FIRST, next = keep; next >= keep && next <= KEEP_LAST && isOpen(); ) {
    keep = next;
    const floor = best.value;
    const found = new Blocks({
      view: sheet.view,
      xs: sheet.xs,
      ys: sheet.ys,
      prices,
      limits,
      ...areaGuide(sheet.view, prices, limits),
      proof,
      // A pattern no better than the best known is of no use; whole numbers are better by one at least.
      floor: task.whole ? floor + 1 - 1e-6 : floor,
      keep: keepEvenly(keep),
      keepAlike: Math.max(4, keep >> 2),
      workMost: (task.workMost - work) / BLOCK_STEP,
    });
    work += found.work * BLOCK_STEP + sheet.states;
    next = Math.min(Math.round(keep * KEEP_MORE), keepWithin(task.workMost - work, keep, found.work * BLOCK_STEP));
    const { spots, exact } = found;
    if (spots) {
      const pattern = task.repaired(spots);
      if (pattern.value > best.value + 1e-9) best = pattern;
    }

    if (exact) bound = Math.min(bound, Math.max(floor, best.value));
  }
  return { pattern: best, bound: rounded(), work, coarse };
}

/** What blocks are measured against: the sheet's exact worths at these rents. */
function proofAt(sheet: Sheet, prices: Float64Array, limits: Int32Array, rents: Float64Array): BlockProof {
  sheet.unlimited(prices.map((price, blank) => price - rents[blank]!));
  const credit = rents.reduce((sum, rent, blank) => sum + (rent > 0 ? rent * limits[blank]! : 0), 0);
  return { rents, beside: worthBeside(sheet, sheet.worths), credit };
}

/**
 * For each state the most that can stand beside it in the sheet, by the exact unlimited worth of every size. Whatever
 * surrounds a pattern is cut off it in strips, outermost last.
 */
function worthBeside(sheet: Sheet, unlimited: Float64Array): Float64Array {
  const { at: xs } = sheet.xs;
  const { at: ys } = sheet.ys;
  const rows = ys.length;
  const columns = xs.length;
  const beside = new Float64Array(columns * rows);
  for (let i = columns - 1; i >= 0; i--) {
    for (let j = rows - 1; j >= 0; j--) {
      let most = 0;
      for (let a = i + 1; a < columns; a++) {
        const strip = firstAtLeast(sheet.xs, xs[a]! - xs[i]!);
        const value = beside[a * rows + j]! + unlimited[strip * rows + j]!;
        if (value > most) most = value;
      }
      for (let b = j + 1; b < rows; b++) {
        const strip = firstAtLeast(sheet.ys, ys[b]! - ys[j]!);
        const value = beside[i * rows + b]! + unlimited[i * rows + strip]!;
        if (value > most) most = value;
      }
      beside[i * rows + j] = most;
    }
  }
  return beside;
}

/** Whether a pattern for each size fits the memory and a small part of the work. */
function limitedPays(sheet: Sheet, kinds: number, workMost: number): boolean {
  return sheet.states * kinds * 2 <= BYTES_MOST && limitedWork(sheet, kinds) <= workMost * LIMITED_SHARE;
}

function limitedWork(sheet: Sheet, kinds: number): number {
  return sheet.passWork * 2 * PASS_STEP + sheet.states * (20 + 3 * kinds) + 2000;
}

/** Patterns within the limits at many sets of rents near the best. */
function variations(
  sheet: Sheet,
  task: SheetTask,
  start: Pattern,
  rents: Float64Array,
  workMost: number,
  random: Random,
) {
  const { prices, limits } = task;
  let pattern = start;
  let work = 0;
  for (let turn = 0; turn < VARIED_MOST && work < workMost; turn++) {
    const spread = 0.02 + 0.3 * random.next() ** 2;
    const share = random.below(4) === 0 ? 0 : 0.3 + 0.9 * random.next();
    const varied = prices.map((price, blank) =>
      Math.max(price * 1e-3, price - rents[blank]! * share - price * spread * (random.next() - 0.5)),
    );
    const right = task.repaired(sheet.limited(varied, limits));
    if (right.value > pattern.value + 1e-9) pattern = right;
    work += limitedWork(sheet, prices.length);
  }
  return { pattern, work };
}

function learnRents(sheet: Sheet, task: SheetTask, workMost: number) {
  const { prices, limits } = task;
  const kinds = prices.length;
  const rents = new Float64Array(kinds);
  let best: Float64Array = rents.slice();
  let pattern = task.start;
  let bound = Number.POSITIVE_INFINITY;
  let stride = 1;
  let idle = 0;
  let work = 0;
  for (let round = 0; work < workMost && round < 150 && stride > 0.02; round++) {
    const found = sheet.unlimited(prices.map((price, blank) => Math.max(0, price - rents[blank]!)));
    work += sheet.passWork * PASS_STEP + 2000;
    const over = new Int32Array(kinds);
    for (const spot of found.spots) over[spot.item.blank]!++;
    let relaxed = found.value;
    let norm = 0;
    let excess = false;
    for (let blank = 0; blank < kinds; blank++) {
      over[blank]! -= limits[blank]!;
      relaxed += rents[blank]! * limits[blank]!;
      if (over[blank]! > 0) excess = true;
      if (over[blank]! > 0 || rents[blank]! > 0) norm += over[blank]! * over[blank]!;
    }
    if (relaxed < bound - 1e-9) {
      if (relaxed < bound * (1 - 2e-4)) idle = 0;
      bound = relaxed;
      best = rents.slice();
    } else if (++idle >= 5) {
      stride *= 0.6;
      idle = 0;
    }
    const take = (spots: readonly Spot[]): void => {
      const right = task.repaired(spots);
      if (right.value > pattern.value + 1e-9) pattern = right;
    };
    if (round < 4 || !excess || sheet.passWork > 1e7) take(found.spots);
    if (round % 3 === 0 && limitedPays(sheet, kinds, task.workMost)) {
      take(
        sheet.limited(
          prices.map((price, blank) => Math.max(price * 1e-3, price - rents[blank]!)),
          limits,
        ),
      );
      work += limitedWork(sheet, kinds);
    }
    if (norm === 0 || (task.whole ? Math.floor(bound + 1e-6) : bound) <= pattern.value + 1e-9) break;
    const step = (stride * (relaxed - pattern.value)) / norm;
    for (let blank = 0; blank < kinds; blank++) {
      rents[blank] = Math.min(prices[blank]!, Math.max(0, rents[blank]! + step * over[blank]!));
    }
  }
  return { pattern, bound, rents: best, work };
}
