/**
 * In which corner of the clear wood a blank leaves most, and by which cuts: corners of clear rectangles that hold it
 * are looked at, and what the rests round it could be worth by their largest clear rectangles.
 */
import type { Kerf } from './problem.ts';
import type { Random } from './random.ts';
import type { View } from './view.ts';

/** Numbers to a clear rectangle in a list: from, to, left, right and quality. */
export const RECT = 5;

/** Sizes are told apart in so many steps of a board's own. */
const LENGTHS = 64;
const WIDTHS = 32;
/** Share of the clear rectangles passed over once one that holds the blank was looked at. */
const SKIPPED_SHARE = 0.5;
/** How far chance may belittle what rests could be worth. */
const NOISE = 0.2;

export class CornerLook {
  /** Chosen last: where the blank begins along and across, and whether the first cuts beside it are crosscuts. */
  from = 0;
  left = 0;
  crosscutFirst = false;
  /** Steps done. */
  work = 0;
  readonly #kerf: Kerf;
  readonly #worths: Float64Array;
  /** Steps to a unit of length and of width. */
  readonly #perLength: number;
  readonly #perWidth: number;

  constructor(view: View, kerf: Kerf, prices: Float64Array, limits: Int32Array) {
    this.#kerf = kerf;
    this.#perLength = LENGTHS / (view.along + 1);
    this.#perWidth = WIDTHS / (view.across + 1);
    this.#worths = this.#sizeWorths(view, prices, limits);
  }

  /** Some size of clear wood, roughly: the best of one kind and of both ways to part it. */
  #sizeWorths({ items, kerfAlong, kerfAcross }: View, prices: Float64Array, limits: Int32Array): Float64Array {
    const columns = WIDTHS + 1;
    const worths = new Float64Array((LENGTHS + 1) * columns);
    for (let i = 1; i <= LENGTHS; i++) {
      const length = (i + 0.5) / this.#perLength + kerfAlong;
      for (let j = 1; j <= WIDTHS; j++) {
        const width = (j + 0.5) / this.#perWidth + kerfAcross;
        let most = Math.max(worths[(i - 1) * columns + j]!, worths[i * columns + j - 1]!);
        for (const { blank, along, across } of items) {
          const fitting = Math.floor(length / (along + kerfAlong)) * Math.floor(width / (across + kerfAcross));
          most = Math.max(most, Math.min(fitting, limits[blank]!) * prices[blank]!);
        }
        for (let a = 1; a <= i >> 1; a++)
          most = Math.max(most, worths[a * columns + j]! + worths[(i - a) * columns + j]!);
        for (let b = 1; b <= j >> 1; b++)
          most = Math.max(most, worths[i * columns + b]! + worths[i * columns + j - b]!);
        worths[i * columns + j] = most;
      }
    }
    this.work += LENGTHS * WIDTHS * (items.length + (LENGTHS + WIDTHS) / 4);
    return worths;
  }

  /** Looks at corners for a blank of this size; clear wood of the rest from `a` to `z`. At least one must hold it. */
  choose(
    clear: Int32Array,
    a: number,
    z: number,
    along: number,
    across: number,
    quality: number,
    random: Random,
  ): void {
    let most = -1;
    for (let at = a; at < z; at += RECT) {
      if (clear[at + 4] !== quality) continue;
      const corners =
        (clear[at + 1]! - clear[at]! > along ? 1 : 0) | (clear[at + 3]! - clear[at + 2]! > across ? 2 : 0);
      if (clear[at + 1]! - clear[at]! < along || clear[at + 3]! - clear[at + 2]! < across) continue;
      if (most >= 0 && random.next() < SKIPPED_SHARE) continue;
      // Where the blank is as long or as wide as the wood, two corners are one.
      for (let corner = 0; corner < 4; corner++) {
        if ((corner & ~corners) !== 0) continue;
        const from = (corner & 1) === 0 ? clear[at]! : clear[at + 1]! - along;
        const left = (corner & 2) === 0 ? clear[at + 2]! : clear[at + 3]! - across;
        this.#look(clear, a, z, from, from + along, left, left + across);
        const crosscut = this.#crosscutWorth * (1 - NOISE * random.next());
        const rip = this.#ripWorth * (1 - NOISE * random.next());
        if (crosscut <= most && rip <= most) continue;
        most = Math.max(crosscut, rip);
        this.crosscutFirst = crosscut >= rip;
        this.from = from;
        this.left = left;
      }
    }
  }

  #crosscutWorth = 0;
  #ripWorth = 0;

  /** What the rests round a blank could be worth, each by the best clear rectangle in it, by both ways to cut. */
  #look(clear: Int32Array, a: number, z: number, from: number, to: number, left: number, right: number): void {
    const worths = this.#worths;
    const perLength = this.#perLength;
    const perWidth = this.#perWidth;
    const columns = WIDTHS + 1;
    const before = from - this.#kerf.crosscut;
    const after = to + this.#kerf.crosscut;
    const below = left - this.#kerf.rip;
    const above = right + this.#kerf.rip;
    // Rests as long or as wide as the whole, and those beside the blank alone.
    let beforeWhole = 0;
    let beforeBeside = 0;
    let afterWhole = 0;
    let afterBeside = 0;
    let belowWhole = 0;
    let belowBeside = 0;
    let aboveWhole = 0;
    let aboveBeside = 0;
    for (let at = a; at < z; at += RECT) {
      const low = clear[at]!;
      const high = clear[at + 1]!;
      const near = clear[at + 2]!;
      const far = clear[at + 3]!;
      const long = ((high - low) * perLength) | 0;
      const wide = ((far - near) * perWidth) | 0;
      const besideLong = ((Math.min(high, to) - Math.max(low, from)) * perLength) | 0;
      const besideWide = ((Math.min(far, right) - Math.max(near, left)) * perWidth) | 0;
      const longBefore = ((Math.min(high, before) - low) * perLength) | 0;
      if (longBefore > 0) {
        beforeWhole = Math.max(beforeWhole, worths[longBefore * columns + wide]!);
        if (besideWide > 0) beforeBeside = Math.max(beforeBeside, worths[longBefore * columns + besideWide]!);
      }
      const longAfter = ((high - Math.max(low, after)) * perLength) | 0;
      if (longAfter > 0) {
        afterWhole = Math.max(afterWhole, worths[longAfter * columns + wide]!);
        if (besideWide > 0) afterBeside = Math.max(afterBeside, worths[longAfter * columns + besideWide]!);
      }
      const wideBelow = ((Math.min(far, below) - near) * perWidth) | 0;
      if (wideBelow > 0) {
        belowWhole = Math.max(belowWhole, worths[long * columns + wideBelow]!);
        if (besideLong > 0) belowBeside = Math.max(belowBeside, worths[besideLong * columns + wideBelow]!);
      }
      const wideAbove = ((far - Math.max(near, above)) * perWidth) | 0;
      if (wideAbove > 0) {
        aboveWhole = Math.max(aboveWhole, worths[long * columns + wideAbove]!);
        if (besideLong > 0) aboveBeside = Math.max(aboveBeside, worths[besideLong * columns + wideAbove]!);
      }
    }
    this.work += (z - a) >> 1;
    this.#crosscutWorth = beforeWhole + afterWhole + belowBeside + aboveBeside;
    this.#ripWorth = belowWhole + aboveWhole + beforeBeside + afterBeside;
  }
}
