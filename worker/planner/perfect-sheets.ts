/**
 * Sheets cut without any waste, where the blanks' area is just that of the sheets. Whole sheets are built from
 * rectangles without waste, the hardest blanks first, and fixed until two are left, which have to fit together: of each
 * sheet for the first, what it leaves is tried as the second. Blanks that no sheet of those two holds are harder from
 * then on; then a sheet or two are taken back, and what is open is cut anew.
 */
import type { Random } from './random.ts';
import { type SheetFound, SheetMix } from './sheet-mix.ts';
import type { Spot } from './view.ts';
import { WasteFree, type WasteFreeFound, type WasteFreeSheet } from './waste-free.ts';

export interface PerfectTask extends WasteFreeSheet {
  readonly sheets: number;
  readonly workMost: number;
  readonly random: Random;
}

export interface PerfectSheets {
  /** Sheet by sheet where each blank lies, or null where no such sheets were found. */
  readonly sheets: readonly (readonly Spot[])[] | null;
  readonly work: number;
}

/** Rectangles kept of one number of blanks: for a sheet to fix, for the first of the last two, and for the very last. */
const LAYER = 600;
const LAYER_PAIR = 300;
const LAYER_LAST = 200;
/** Work of one look at most, and of one for the very last sheet. */
const LOOK_WORK = 1_500_000;
const LAST_WORK = 40_000;
/** Looks for the last two sheets, and sheets taken from each. */
const PAIR_LOOKS = 4;
const SHEETS_A_LOOK = 300;
/** After the second look, two sheets whose mix needs this many times more are given up. */
const HOPELESS = 1.3;
/** Sheets tried, one after another, where three are open. */
const CHOICES = 12;
/** How often two sheets are taken back, and not just one. */
const TWO_BACK = 0.25;
/** Sheets are kept where the mix of the last two needs no more than this many times what it needed before. */
const SLACK = 1.1;
/** Blanks on one sheet at most, over those on an even one. */
const BLANKS_MORE = 1.6;
/** How much harder a blank gets that is on no sheet, at most in all, and in the eyes of a mix. */
const HARDER = 1.3;
const HARD_MOST = 10;
const PRICE_MOST = 10;
/** How much prices are shaken from look to look. */
const SHAKE = 0.4;

/** Steps are yielded between looks. */
export function* perfectSheets(task: PerfectTask): Generator<undefined, PerfectSheets> {
  const search = new PerfectSearch(task);
  const found = yield* search.run();
  return { sheets: found?.map(({ spots }) => spots) ?? null, work: search.work };
}

/** The last two sheets, or how many more a mix would need. */
interface Pair {
  readonly found: readonly SheetFound[] | null;
  readonly value: number;
}

class PerfectSearch {
  readonly #task: PerfectTask;
  /** Share of the sheet that each item takes. */
  readonly #shares: Float64Array;
  readonly #hard: Float64Array;
  readonly #rectangles: WasteFree;
  /** For the very last sheet, while the sheets for the first of two are still in hand. */
  readonly #last: WasteFree;
  /** All but two, once there are so many; and what the mix of those two needs. */
  #fixed: readonly SheetFound[] = [];
  #value = Number.POSITIVE_INFINITY;
  #none = false;
  work = 0;

  constructor(task: PerfectTask) {
    this.#task = task;
    this.#rectangles = new WasteFree(task);
    this.#last = new WasteFree(task);
    this.#shares = Float64Array.from(task.items, (item) => (item.along * item.across) / (task.along * task.across));
    this.#hard = new Float64Array(task.items.length).fill(1);
  }

  /** All sheets; null where work ran out, or nothing is left to look at. */
  *run(): Generator<undefined, readonly SheetFound[] | null> {
    const { copies, sheets } = this.#task;
    while (!this.#isDone) {
      const found =
        sheets === 1 ? this.#single(copies) : sheets === 2 ? (yield* this.#pair(copies)).found : yield* this.#anew();
      if (found) return found;
      yield;
    }
    return null;
  }

  get #isDone(): boolean {
    return this.#none || this.work >= this.#task.workMost;
  }

  /** Takes back a sheet or two where all but two are fixed, fixes others until three are open, and tries some for the third. */
  *#anew(): Generator<undefined, readonly SheetFound[] | null> {
    const { random, sheets: all, copies } = this.#task;
    const isFull = this.#fixed.length === all - 2;
    let fixed = isFull ? fewer(this.#fixed, random.next() < TWO_BACK ? 2 : 1, random) : this.#fixed;
    let left = fixed.reduce(without, copies);
    while (all - fixed.length > 3) {
      const [sheet] = this.#hardest(left, all - fixed.length, 1);
      yield;
      if (!sheet) {
        if (!isFull) this.#fixed = fewer(fixed, 1, random);
        return null;
      }
      fixed = [...fixed, sheet];
      left = without(left, sheet);
    }
    let best: SheetFound | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const sheet of this.#hardest(left, 3, CHOICES)) {
      if (this.#isDone) return null;
      const { found, value } = yield* this.#pair(without(left, sheet));
      if (found) return [...fixed, sheet, ...found];
      if (value >= least) continue;
      best = sheet;
      least = value;
    }
    if (best && (!isFull || least <= this.#value * SLACK)) {
      this.#fixed = [...fixed, best];
      this.#value = least;
    } else if (!isFull) this.#fixed = fewer(fixed, 1, random);
    return null;
  }

  /** Sheets with the hardest blanks, more or less. */
  #hardest(left: Int32Array, open: number, most: number): SheetFound[] {
    const { random } = this.#task;
    const blanksMost = Math.ceil((BLANKS_MORE * sum(left)) / open);
    return this.#look(left, this.#prices(null), LAYER, blanksMost)
      .sheets.map((at) => {
        const counts = this.#rectangles.counts(at);
        const hard = counts.reduce(
          (total, copies, item) => total + copies * this.#shares[item]! * this.#hard[item]!,
          0,
        );
        return { at, rank: hard * (1 + random.next()) };
      })
      .sort((a, b) => b.rank - a.rank || a.at - b.at)
      .slice(0, most)
      .map(({ at }) => this.#sheet(at));
  }

  /** Two sheets that hold all that is left. Blanks that none was found for are harder from now on. */
  *#pair(left: Int32Array): Generator<undefined, Pair> {
    const mix = new SheetMix(left, []);
    const keys = new Set<string>();
    let value = Number.POSITIVE_INFINITY;
    for (let look = 0; look < PAIR_LOOKS && !this.#isDone; look++) {
      const prices = this.#prices(look === 0 ? null : mix.prices());
      const { sheets, complete } = this.#look(left, prices, LAYER_PAIR << (look >> 1), sum(left));
      yield;
      for (const at of sheets) {
        const key = this.#rectangles.counts(at).join(' ');
        if (keys.has(key)) continue;
        if (keys.add(key).size > SHEETS_A_LOOK * (look + 1)) break;
        const sheet = this.#sheet(at);
        mix.add(sheet);
        const rest = this.#rest(without(left, sheet));
        if (rest) return { found: [sheet, rest], value };
        if (this.#isDone) return { found: null, value };
      }
      if (complete) {
        if (this.#task.sheets === 2) this.#none = true;
        break;
      }
      const before = mix.work;
      value = mix.solve();
      this.work += mix.work - before;
      if (look > 0 && value > 2 * HOPELESS) break;
    }
    left.forEach((copies, item) => {
      if (copies > 0 && mix.sheets.every(({ counts }) => counts[item] === 0))
        this.#hard[item] = Math.min(HARD_MOST, this.#hard[item]! * HARDER);
    });
    return { found: null, value };
  }

  /** All blanks of a task of just one sheet. */
  #single(copies: Int32Array): SheetFound[] | null {
    const { sheets, complete } = this.#look(copies, this.#prices(null), LAYER, sum(copies));
    if (complete) this.#none = true;
    return sheets.length > 0 ? [this.#sheet(sheets[0]!)] : null;
  }

  /** All that is left on one sheet. */
  #rest(left: Int32Array): SheetFound | null {
    const { sheets, work } = this.#last.find({
      copies: left,
      prices: this.#shares,
      layerMost: LAYER_LAST,
      blanksMost: sum(left),
      workMost: LAST_WORK,
    });
    this.work += work;
    return sheets.length > 0 ? { counts: left, spots: this.#last.spots(sheets[0]!) } : null;
  }

  #sheet(at: number): SheetFound {
    return { counts: this.#rectangles.counts(at), spots: this.#rectangles.spots(at) };
  }

  /** By area and hardness, and in part by what each item costs in a mix. */
  #prices(mixed: Float64Array | null): Float64Array {
    const { random } = this.#task;
    const weight = mixed ? 0.4 + 0.5 * random.next() : 0;
    return this.#shares.map((share, item) => {
      const inMix = mixed ? Math.min(PRICE_MOST * share, mixed[item]!) : 0;
      return ((1 - weight) * share * this.#hard[item]! + weight * inMix) * (1 + SHAKE * (random.next() - 0.5));
    });
  }

  #look(left: Int32Array, prices: Float64Array, layerMost: number, blanksMost: number): WasteFreeFound {
    const workMost = Math.min(LOOK_WORK, this.#task.workMost - this.work);
    const found = this.#rectangles.find({ copies: left, prices, layerMost, blanksMost, workMost });
    this.work += found.work;
    return found;
  }
}

function without(left: Int32Array, sheet: SheetFound): Int32Array {
  return left.map((copies, item) => copies - sheet.counts[item]!);
}

/** Without some taken out by chance. */
function fewer(sheets: readonly SheetFound[], count: number, random: Random): SheetFound[] {
  const kept = [...sheets];
  for (let k = 0; k < count && kept.length > 0; k++) kept.splice(random.below(kept.length), 1);
  return kept;
}

function sum(counts: Int32Array): number {
  return counts.reduce((total, copies) => total + copies, 0);
}
