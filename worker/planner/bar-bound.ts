/**
 * What no cutting of a board can beat. Each unit row of a board is a bar; no row can hold more than the best chop of the
 * stretches that some blank can cover, each blank spreading its price over the rows that it crosses, and columns alike.
 * Holds for every way of cutting.
 */

import { type ChopTable, chopOf, chopTable } from './chop-table.ts';
import { restWorthOf } from './layout.ts';
import type { Problem } from './problem.ts';
import { clearRuns } from './strip-set.ts';
import { type Item, type View, viewOf } from './view.ts';

export interface Bars {
  readonly least: Float64Array;
  /** 0 where rows along the board give the least, 1 where columns do. */
  readonly chosen: Uint8Array;
  readonly tables: Map<string, ChopTable>;
}

interface Band {
  readonly rows: number;
  readonly blocked: number;
  readonly runs: readonly number[];
}

interface BarView {
  readonly items: readonly Item[];
  readonly bands: readonly Band[];
  readonly kerfAlong: number;
  readonly kerfAcross: number;
  readonly capacity: number;
  /** Views with one key have one table. */
  readonly key: string;
}

export class BarBound {
  readonly #views: readonly (readonly BarView[])[];
  readonly #capacity = new Map<string, number>();
  /** Most that one unit of area left over can be worth. */
  readonly #restMost: number;
  work = 0;

  constructor(problem: Problem) {
    const lengthMost = Math.max(0, ...problem.boards.map((board) => board.length));
    const widthMost = Math.max(0, ...problem.boards.map((board) => board.width));
    this.#restMost =
      problem.rest === null
        ? 0
        : restWorthOf(problem.rest, lengthMost, widthMost) / Math.max(1, lengthMost * widthMost);
    this.#views = problem.boards.map((_, board) =>
      [false, true].map((turned) => barView(viewOf(problem, board, turned))),
    );
    for (const view of this.#views.flat()) {
      this.#capacity.set(view.key, Math.max(this.#capacity.get(view.key) ?? 0, view.capacity));
    }
  }

  /** For each board the most that its blanks can be worth at these prices, and which bars say so. */
  boards(prices: Float64Array, limits: Int32Array): Bars {
    const tables = new Map<string, ChopTable>();
    const least = new Float64Array(this.#views.length);
    const chosen = new Uint8Array(this.#views.length);
    this.#views.forEach((views, board) => {
      views.forEach((view, turned) => {
        const table = this.#table(view, prices, limits, tables);
        const top = table.layers.at(-1)!;
        let sum = 0;
        for (const band of view.bands) {
          let row = this.#restMost * band.blocked;
          for (const run of band.runs) row += top[run]!;
          sum += row * band.rows;
        }
        this.work += view.bands.length * 4;
        if (turned === 0 || sum < least[board]!) {
          least[board] = sum;
          chosen[board] = turned;
        }
      });
    });
    return { least, chosen, tables };
  }

  /** Adds to `use` how much of each blank one such board would hold, as its bars would have it. */
  addUse(bars: Bars, board: number, times: number, use: Float64Array): void {
    const view = this.#views[board]![bars.chosen[board]!]!;
    const table = bars.tables.get(view.key)!;
    for (const band of view.bands) {
      for (const run of band.runs) {
        for (const item of chopOf(table, table.items.length, run)) {
          use[item.blank]! += (times * band.rows) / (item.across + view.kerfAcross);
        }
        this.work += table.items.length;
      }
    }
  }

  #table(view: BarView, prices: Float64Array, limits: Int32Array, tables: Map<string, ChopTable>): ChopTable {
    let table = tables.get(view.key);
    if (table) return table;
    const density = prices.slice();
    for (const item of view.items) density[item.blank]! /= item.across + view.kerfAcross;
    table = chopTable(view.items, density, limits, view.kerfAlong, this.#capacity.get(view.key)!, this.#restMost);
    this.work += table.items.length * this.#capacity.get(view.key)!;
    tables.set(view.key, table);
    return table;
  }
}

function barView(view: View): BarView {
  const along = view.along + view.kerfAlong;
  const across = view.across + view.kerfAcross;
  // A blank may stand a blade closer than its enlarged size says, so defects shrink by a blade on their near sides.
  const shrunk = view.blocked.map((list) => {
    const kept: number[] = [];
    for (let at = 0; at < list.length; at += 4) {
      const from = list[at] === 0 ? 0 : list[at]! + view.kerfAlong;
      const left = list[at + 2] === 0 ? 0 : list[at + 2]! + view.kerfAcross;
      // At the far edges the enlarged board holds only blade, which no blank can reach past the defect.
      const to = list[at + 1]! >= view.along ? along : list[at + 1]!;
      const right = list[at + 3]! >= view.across ? across : list[at + 3]!;
      if (from < to && left < right) kept.push(from, to, left, right);
    }
    return Int32Array.from(kept);
  });
  const classes = shrunk.map((blocked, quality): Asked => {
    const items = view.items.filter((item) => item.quality === quality);
    const least = (sizes: readonly number[]): number => Math.min(Number.MAX_SAFE_INTEGER, ...sizes);
    return {
      blocked,
      along: least(items.map((item) => item.along)) + view.kerfAlong,
      across: least(items.map((item) => item.across)) + view.kerfAcross,
    };
  });
  const edges = new Set<number>([0, across]);
  for (const { blocked, across: width } of classes) {
    for (let at = 0; at < blocked.length; at += 4) {
      const right = blocked[at + 3]!;
      for (const edge of [blocked[at + 2]!, right, right + width - 1, right + width]) edges.add(edge);
    }
  }
  const sorted = [...edges].filter((at) => at >= 0 && at <= across).sort((a, b) => a - b);
  const bands: Band[] = [];
  for (let i = 1; i < sorted.length; i++) {
    const left = sorted[i - 1]!;
    const runs = merged(classes.flatMap((asked) => coverable(asked, left, along, across)));
    const total = runs.reduce((sum, run) => sum + run, 0);
    bands.push({ rows: sorted[i]! - left, blocked: along - total, runs });
  }
  return {
    items: view.suited,
    bands,
    kerfAlong: view.kerfAlong,
    kerfAcross: view.kerfAcross,
    capacity: along,
    key: `${view.turned} ${view.suited.map((item) => `${item.blank}:${item.along}:${item.across}`).join(' ')}`,
  };
}

/** Wood that blanks of one quality may not use, and the least that any of them takes up with its blade. */
interface Asked {
  readonly blocked: Int32Array;
  readonly along: number;
  readonly across: number;
}

/**
 * Stretches of a row that some blank of this quality can cover: where a window as wide as the narrowest, with the row
 * inside it, is clear for the length of the shortest. Of all windows those that begin just behind a defect leave out
 * the fewest stretches. Alike for all rows from one edge of a band to the next.
 */
function coverable(
  { blocked, along: length, across: width }: Asked,
  row: number,
  along: number,
  across: number,
): [number, number][] {
  const first = Math.max(0, row + 1 - width);
  const last = Math.min(row, across - width);
  const stretches: [number, number][] = [];
  if (first > last) return stretches;
  const starts = new Set([first]);
  for (let at = 0; at < blocked.length; at += 4) {
    const behind = blocked[at + 3]!;
    if (behind > first && behind <= last) starts.add(behind);
  }
  for (const start of starts) {
    const runs: number[] = [];
    clearRuns(blocked, start, start + width, along, 0, runs);
    for (let at = 0; at < runs.length; at += 2)
      if (runs[at + 1]! - runs[at]! >= length) stretches.push([runs[at]!, runs[at + 1]!]);
  }
  return stretches;
}

/** Lengths of the stretches that any quality may use. */
function merged(runs: [number, number][]): number[] {
  runs.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const lengths: number[] = [];
  let from = 0;
  let to = -1;
  for (const [a, b] of runs) {
    if (a <= to) {
      to = Math.max(to, b);
      continue;
    }
    if (to > from) lengths.push(to - from);
    from = a;
    to = b;
  }
  if (to > from) lengths.push(to - from);
  return lengths;
}
