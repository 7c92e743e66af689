/**
 * One sheet that its blanks just fill, too many of them to be put together at once: slices without waste are cut off
 * it, those with the hardest blanks first, until the rest is small enough. Blanks left over in the end are harder from
 * then on.
 */
import type { Random } from './random.ts';
import type { Spot } from './view.ts';
import { WasteFree, type WasteFreeSheet } from './waste-free.ts';

export interface PerfectSlicesTask extends WasteFreeSheet {
  readonly workMost: number;
  readonly random: Random;
}

export interface PerfectSlices {
  /** Where every blank lies, or null where that was not found. */
  readonly spots: readonly Spot[] | null;
  readonly work: number;
}

/** Rectangles kept of one number of blanks; and where the whole sheet has no more than a last rest. */
const LAYER = 120;
const LAYER_SMALL = 2000;
/** Beyond these the work allowed seldom finds a way. */
const BLANKS_MOST = 60;
/** So few blanks are put together with no slice cut off. */
const LAST_BLANKS = 20;
/** Share of the blanks that one slice holds at most. */
const SLICE_BLANKS = 0.5;
/** Slices tried of each rest. */
const CHOICES = 4;
/** Work of one look at most, and of setting one up. */
const LOOK_WORK = 600_000;
const START_WORK = 500;
/** How much harder a blank gets, and at most in all; how much prices are shaken from look to look. */
const HARDER = 1.1;
const HARD_MOST = 10;
const SHAKE = 0.4;

/** Steps are yielded between looks. */
export function* perfectSlices(task: PerfectSlicesTask): Generator<undefined, PerfectSlices> {
  const search = new SliceSearch(task);
  if (task.copies.reduce((total, copies) => total + copies, 0) > BLANKS_MOST) return { spots: null, work: 0 };
  while (search.work < task.workMost && !search.isDone) {
    const spots = yield* search.filled(task, task.copies);
    if (spots) return { spots, work: search.work };
  }
  return { spots: null, work: search.work };
}

class SliceSearch {
  readonly #task: PerfectSlicesTask;
  readonly #hard: Float64Array;
  /** A second look would find no more. */
  isDone = false;
  work = 0;

  constructor(task: PerfectSlicesTask) {
    this.#task = task;
    this.#hard = new Float64Array(task.items.length).fill(1);
  }

  /** All copies on a sheet of this size. */
  *filled(
    { along, across }: Pick<WasteFreeSheet, 'along' | 'across'>,
    copies: Int32Array,
  ): Generator<undefined, Spot[] | null> {
    const { items, random, workMost } = this.#task;
    if (this.work >= workMost) return null;
    const blanks = copies.reduce((total, count) => total + count, 0);
    const isLast = blanks <= LAST_BLANKS;
    const isWhole = copies === this.#task.copies;
    const rectangles = new WasteFree({ items, copies, along, across });
    const { sheets, work } = rectangles.find({
      copies,
      prices: Float64Array.from(items, (item, i) => {
        return item.along * item.across * this.#hard[i]! * (1 + SHAKE * (random.next() - 0.5));
      }),
      layerMost: isWhole && isLast ? LAYER_SMALL : LAYER,
      blanksMost: isLast ? blanks : Math.ceil(SLICE_BLANKS * blanks),
      workMost: Math.min(LOOK_WORK, workMost - this.work),
    });
    this.work += work + START_WORK;
    yield;
    if (isWhole && isLast) this.isDone = true;
    if (sheets.length > 0) return rectangles.spots(sheets[0]!);
    const ranked = (isLast ? [] : rectangles.slices())
      .map((slice) => {
        const counts = rectangles.counts(slice.at);
        const hard = counts.reduce(
          (total, count, i) => total + count * items[i]!.along * items[i]!.across * this.#hard[i]!,
          0,
        );
        const area = slice.size * (slice.isAlong ? across : along);
        return { slice, counts, rank: (hard / area) * (1 + random.next()) };
      })
      .sort((a, b) => b.rank - a.rank || a.slice.at - b.slice.at)
      .slice(0, CHOICES);
    for (const { slice, counts } of ranked) {
      const { at, isAlong, size } = slice;
      const rest = { along: along - (isAlong ? size : 0), across: across - (isAlong ? 0 : size) };
      const found = yield* this.filled(
        rest,
        copies.map((count, i) => count - counts[i]!),
      );
      if (!found) continue;
      const beside = found.map((spot) => ({
        ...spot,
        along: spot.along + (isAlong ? size : 0),
        across: spot.across + (isAlong ? 0 : size),
      }));
      return [...rectangles.spots(at), ...beside];
    }
    if (ranked.length === 0)
      copies.forEach((count, i) => {
        if (count > 0) this.#hard[i] = Math.min(HARD_MOST, this.#hard[i]! * HARDER);
      });
    return null;
  }
}
