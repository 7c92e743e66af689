/**
 * What no cutting of a board can beat, closer than by bars where a board has defects. Each unit of a board's length is
 * a column; no column can hold more than the best stack of blanks that may each lie there, clear of defects over their
 * whole length and width, each blank spreading its worth over the columns that it crosses. Only lengths are taken in
 * fractions. Holds for every way of cutting.
 */
import { restMostOf } from './layout.ts';
import type { Problem } from './problem.ts';
import { type Item, type View, viewOf } from './view.ts';

/** Positions across a board are counted in steps, so many at most: a blank then counts as a little narrower. */
const STEPS_MOST = 600;

/** Columns of a board in which blanks may begin at the same places. */
interface Band {
  readonly columns: number;
  /** Item, first and last step where it may begin, in turn, by the first. */
  readonly starts: Int16Array;
}

interface Columns {
  readonly items: readonly Item[];
  readonly bands: readonly Band[];
  /** Across the board, and how many of them each item takes. */
  readonly steps: number;
  readonly takes: Int16Array;
  /** Columns that each item crosses, its blade counted. */
  readonly crosses: Float64Array;
  /** What one step left over, and what is less than a step, can be worth. */
  readonly stepWorth: number;
  readonly edgeWorth: number;
}

export class StackBound {
  readonly #problem: Problem;
  readonly #columns: (Columns | undefined)[];
  readonly #restMost: number;
  work = 0;

  constructor(problem: Problem) {
    this.#problem = problem;
    this.#columns = problem.boards.map(() => undefined);
    this.#restMost = restMostOf(problem);
  }

  /** The most that the board's blanks can be worth at these prices; adds to `use` how much of each blank it would hold. */
  most(board: number, prices: Float64Array, use: Float64Array): number {
    const columns = this.#columnsOf(board);
    const { items, bands, steps, takes, crosses, stepWorth, edgeWorth } = columns;
    if (takes.includes(0)) return Number.POSITIVE_INFINITY;
    const worths = Float64Array.from(items, ({ blank }, index) => prices[blank]! / crosses[index]!);
    const pays = payingItems(columns, worths);
    const reached = new Float64Array(steps + 1);
    const through = new Int16Array(steps + 1);
    const open = new Int16Array(items.length);
    const until = new Int16Array(items.length);
    let sum = 0;
    for (const { columns: count, starts } of bands) {
      reached.fill(0);
      through.fill(-1);
      let opened = 0;
      let next = 0;
      for (let at = 0; at <= steps; at++) {
        const kept = at === 0 ? 0 : reached[at - 1]! + stepWorth;
        if (kept >= reached[at]!) {
          reached[at] = kept;
          through[at] = -1;
        }
        const before = reached[at]!;
        for (; next < starts.length && starts[next + 1]! <= at; next += 3) {
          if (pays[starts[next]!] === 0) continue;
          open[opened] = starts[next]!;
          until[opened++] = starts[next + 2]!;
        }
        for (let k = 0; k < opened; k++) {
          if (until[k]! < at) {
            open[k] = open[--opened]!;
            until[k] = until[opened]!;
            k--;
            continue;
          }
          const item = open[k]!;
          const end = at + takes[item]!;
          const worth = before + worths[item]!;
          if (worth <= reached[end]!) continue;
          reached[end] = worth;
          through[end] = item;
        }
        this.work += opened + 2;
      }
      sum += count * (reached[steps]! + edgeWorth);
      for (let at = steps; at > 0; ) {
        const item = through[at]!;
        if (item < 0) at--;
        else {
          use[items[item]!.blank]! += count / crosses[item]!;
          at -= takes[item]!;
        }
      }
    }
    return sum;
  }

  #columnsOf(board: number): Columns {
    let columns = this.#columns[board];
    if (!columns) {
      columns = columnsOf(viewOf(this.#problem, board, true), this.#restMost);
      this.#columns[board] = columns;
      this.work += columns.bands.length * columns.items.length * 20;
    }
    return columns;
  }
}

/** Without those beaten by a shorter one of the same width, which may lie wherever they may. */
function payingItems({ items }: Columns, worths: Float64Array): Uint8Array {
  const pays = new Uint8Array(items.length);
  items.forEach((item, index) => {
    if (worths[index]! <= 0) return;
    for (let other = index - 1; other >= 0 && items[other]!.along === item.along; other--)
      if (items[other]!.quality === item.quality && worths[other]! >= worths[index]!) return;
    pays[index] = 1;
  });
  return pays;
}

/** view: turned, so that its first axis runs across the board. */
function columnsOf(view: View, restMost: number): Columns {
  const { along, across, kerfAlong, kerfAcross } = view;
  // Widths alike stand together, the shorter first.
  const items = [...view.items].sort((a, b) => a.along - b.along || a.across - b.across || a.blank - b.blank);
  const step = Math.ceil((along + kerfAlong) / STEPS_MOST);
  const steps = Math.floor((along + kerfAlong) / step);
  const edges = [...new Set([0, across + kerfAcross, ...view.blocked.flatMap((list) => runEnds(list, view))])];
  edges.sort((a, b) => a - b);
  const starts: number[][] = edges.slice(1).map(() => []);
  items.forEach((item, index) => {
    addStarts(view, item, (from, to, first, last) => {
      for (let band = edges.indexOf(from); band < starts.length && edges[band + 1]! <= to; band++) {
        const list = starts[band]!;
        const [low, high] = [Math.floor(first / step), Math.floor(last / step)];
        const isNext = list.length > 0 && list.at(-3) === index && list.at(-1)! + 1 >= low;
        if (isNext) list[list.length - 1] = Math.max(high, list.at(-1)!);
        else list.push(index, low, high);
      }
    });
  });
  return {
    items,
    bands: bandsOf(starts, edges),
    steps,
    takes: Int16Array.from(items, (item) => Math.floor((item.along + kerfAlong) / step)),
    crosses: Float64Array.from(items, (item) => item.across + kerfAcross),
    stepWorth: restMost * step,
    edgeWorth: restMost * (along + kerfAlong - steps * step),
  };
}

/** Where clear stretches along the board may begin, and end with a blade behind them. */
function runEnds(blocked: Int32Array, { across, kerfAcross }: View): number[] {
  const ends: number[] = [];
  for (let at = 0; at < blocked.length; at += 4)
    ends.push(blocked[at + 3]!, Math.min(across, blocked[at + 2]!) + kerfAcross);
  return ends;
}

/** Stretches of columns, a blade behind them counted, in which an item may begin from `first` to `last` across the board. */
function addStarts(
  { blocked: lists, along, across, kerfAcross }: View,
  item: Item,
  add: (from: number, to: number, first: number, last: number) => void,
): void {
  const blocked = lists[item.quality]!;
  const turns = new Set([0]);
  for (let at = 0; at < blocked.length; at += 4)
    for (const turn of [blocked[at]! - item.along + 1, blocked[at + 1]!])
      if (turn > 0 && turn <= along - item.along) turns.add(turn);
  const firsts = [...turns].sort((a, b) => a - b);
  firsts.forEach((first, turn) => {
    const last = (firsts[turn + 1] ?? along - item.along + 1) - 1;
    const inTheWay: [number, number][] = [];
    for (let at = 0; at < blocked.length; at += 4)
      if (blocked[at]! < first + item.along && blocked[at + 1]! > first)
        inTheWay.push([blocked[at + 2]!, blocked[at + 3]!]);
    inTheWay.sort((a, b) => a[0] - b[0]);
    let from = 0;
    for (const [low, high] of [...inTheWay, [across, across] as const]) {
      if (low - from >= item.across) add(from, low + kerfAcross, first, last);
      from = Math.max(from, high);
    }
  });
}

/** Bands with the same starts are one. */
function bandsOf(starts: readonly number[][], edges: readonly number[]): readonly Band[] {
  const bands = new Map<string, { columns: number; readonly starts: Int16Array }>();
  starts.forEach((list, index) => {
    const columns = edges[index + 1]! - edges[index]!;
    const key = list.join(' ');
    const known = bands.get(key);
    if (known) {
      known.columns += columns;
      return;
    }
    const inTurn = Array.from({ length: list.length / 3 }, (_, k) => list.slice(3 * k, 3 * k + 3));
    inTurn.sort((a, b) => a[1]! - b[1]! || a[0]! - b[0]!);
    bands.set(key, { columns, starts: Int16Array.from(inTurn.flat()) });
  });
  return [...bands.values()];
}
