/**
 * Sheets cut without any waste, where the blanks' area is just that of the sheets. Whole sheets are built from
 * rectangles without waste, the hardest blanks first: how hard a blank is, the mix of the sheets found so far says. The
 * sheet that leaves the most room to the others is fixed, the rest mixed anew, and the last two have to fit together.
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

/** Rectangles kept of one number of blanks, at first. */
const LAYER = 600;
/** Times that a mix looks for more sheets. */
const ROUNDS = 7;
/** Work of one such look at most. */
const ROUND_WORK = 1_500_000;
/** Sheets taken from one look. */
const SHEETS_A_ROUND = 300;
/** Blanks on one sheet at most, over those on an even one. */
const BLANKS_MORE = 1.6;
/** A mix may need so many sheets more than there are: to stop looking, and to go on from it. */
const MORE_DONE = 0.05;
const MORE_MOST = 0.4;
/** After so many rounds one that needs this many times more is given up. */
const ROUNDS_HOPELESS = 3;
const HOPELESS = 1.5;
/** Sheets of a mix that are looked at closely, and tried. */
const LOOKED_AT = 6;
const CHOICES = 3;

/** Steps are yielded between looks. */
export function* perfectSheets(task: PerfectTask): Generator<undefined, PerfectSheets> {
  const search = new PerfectSearch(task);
  for (let turn = 0; !search.isDone; turn++) {
    const found = yield* search.dive(turn);
    if (found) return { sheets: found.map(({ spots }) => spots), work: search.work };
  }
  return { sheets: null, work: search.work };
}

class PerfectSearch {
  readonly #task: PerfectTask;
  /** Share of the sheet that each item takes. */
  readonly #shares: Float64Array;
  readonly #known: SheetFound[] = [];
  readonly #keys = new Set<string>();
  readonly #rectangles: WasteFree;
  #turn = 0;
  #detours = 0;
  #none = false;
  work = 0;

  constructor(task: PerfectTask) {
    this.#task = task;
    this.#rectangles = new WasteFree(task);
    this.#shares = Float64Array.from(task.items, (item) => (item.along * item.across) / (task.along * task.across));
  }

  /** Out of work, or nothing is left to look at. */
  get isDone(): boolean {
    return this.#none || this.work >= this.#task.workMost;
  }

  /** From no sheet to all; later turns look harder, and at more ways on the way. */
  dive(turn: number): Generator<undefined, SheetFound[] | null> {
    this.#turn = turn;
    this.#detours = turn;
    return this.#descend(this.#task.copies, this.#task.sheets);
  }

  *#descend(left: Int32Array, open: number): Generator<undefined, SheetFound[] | null> {
    if (open <= 2) return yield* this.#last(left, open);
    let tried = 0;
    for (const sheet of yield* this.#surest(left, open)) {
      if (this.isDone || (tried > 0 && (tried >= CHOICES || this.#detours-- <= 0))) return null;
      tried++;
      const found = yield* this.#descend(without(left, sheet), open - 1);
      if (found) return [sheet, ...found];
    }
    return null;
  }

  /** One or two sheets that hold all that is left. */
  *#last(left: Int32Array, open: number): Generator<undefined, SheetFound[] | null> {
    const mix = new SheetMix(left, this.#known);
    let layer = this.#layer;
    for (let round = 0; ; round++) {
      const found = exactly(mix.sheets, left, open);
      if (found || round > ROUNDS || this.isDone) return found;
      const value = this.#solved(mix);
      if (round >= ROUNDS_HOPELESS && value > open * HOPELESS) return null;
      const { better, complete } = this.#look(mix, left, open, layer);
      yield;
      if (complete) {
        const last = exactly(mix.sheets, left, open);
        if (!last && open === this.#task.sheets) this.#none = true;
        return last;
      }
      if (!better) layer *= 2;
    }
  }

  /** Sheets to fix, the most promising first; none where what is left will hardly go without waste. */
  *#surest(left: Int32Array, open: number): Generator<undefined, SheetFound[]> {
    const { random } = this.#task;
    const mix = new SheetMix(left, this.#known);
    let layer = this.#layer;
    let value = this.#solved(mix);
    for (let round = 0; round < ROUNDS && value > open + MORE_DONE && !this.isDone; round++) {
      if (round >= ROUNDS_HOPELESS && value > open * HOPELESS) return [];
      const { better, complete } = this.#look(mix, left, open, layer);
      yield;
      if (!better && complete) break;
      if (!better) layer *= 2;
      value = this.#solved(mix);
    }
    if (value > open + MORE_MOST) return [];
    const ranked = mix
      .used()
      .map(({ sheet, share }) => ({ sheet, share: share * (this.#turn === 0 ? 1 : 0.7 + 0.6 * random.next()) }))
      .sort((a, b) => b.share - a.share)
      .slice(0, LOOKED_AT)
      .map(({ sheet }) => ({ sheet, rest: this.#solved(new SheetMix(without(left, sheet), mix.sheets)) }));
    return ranked.sort((a, b) => a.rest - b.rest).map(({ sheet }) => sheet);
  }

  get #layer(): number {
    return LAYER << Math.min(3, this.#turn >> 1);
  }

  #solved(mix: SheetMix): number {
    const before = mix.work;
    const value = mix.solve();
    this.work += mix.work - before;
    return value;
  }

  /** Looks for sheets that make the mix better, at prices between the mix's and plain area. */
  #look(mix: SheetMix, left: Int32Array, open: number, layer: number) {
    const { random } = this.#task;
    const mixed = mix.prices();
    const weight = mix.sheets.length === 0 ? 0 : 0.4 + 0.5 * random.next();
    const prices = mixed.map(
      (price, item) => ((1 - weight) * this.#shares[item]! + weight * price) * (0.95 + 0.1 * random.next()),
    );
    const { sheets, complete } = this.#found(left, prices, layer, open);
    const ranked = sheets
      .map((at) => {
        const counts = this.#rectangles.counts(at);
        return { at, counts, worth: counts.reduce((sum, copies, item) => sum + copies * mixed[item]!, 0) };
      })
      .sort((a, b) => b.worth - a.worth || a.at - b.at);
    let added = 0;
    let better = false;
    for (const { at, counts, worth } of ranked) {
      const key = counts.join(' ');
      if (this.#keys.has(key)) continue;
      this.#keys.add(key);
      if (worth > 1 + 1e-6) better = true;
      const sheet = { counts, spots: this.#rectangles.spots(at) };
      this.#known.push(sheet);
      mix.add(sheet);
      if (++added >= SHEETS_A_ROUND && !complete) break;
    }
    return { better, complete };
  }

  #found(left: Int32Array, prices: Float64Array, layerMost: number, open: number): WasteFreeFound {
    const blanks = left.reduce((sum, copies) => sum + copies, 0);
    const found = this.#rectangles.find({
      copies: left,
      prices,
      layerMost,
      blanksMost: open <= 2 ? blanks : Math.ceil((BLANKS_MORE * blanks) / open),
      workMost: Math.min(ROUND_WORK, this.#task.workMost - this.work),
    });
    this.work += found.work;
    return found;
  }
}

function without(left: Int32Array, sheet: SheetFound): Int32Array {
  return left.map((copies, item) => copies - sheet.counts[item]!);
}

function exactly(sheets: readonly SheetFound[], left: Int32Array, count: number): SheetFound[] | null {
  if (count === 1) {
    const all = left.join(' ');
    const found = sheets.find((sheet) => sheet.counts.join(' ') === all);
    return found ? [found] : null;
  }
  const wanted = new Map<string, SheetFound>();
  for (const sheet of sheets) {
    wanted.set(without(left, sheet).join(' '), sheet);
    const other = wanted.get(sheet.counts.join(' '));
    if (other) return [sheet, other];
  }
  return null;
}
