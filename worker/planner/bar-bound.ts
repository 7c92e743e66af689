/**
 * What no cutting of a board can beat. Each unit row of a board is a bar; no row can hold more than the best chop of the
 * stretches that some blank can cover, each blank spreading its price over the rows that it crosses, and columns alike.
 * Holds for every way of cutting.
 */

import { type ChopTable, chopOf, chopTable } from './chop-table.ts';
import { endsAt } from './clear-rects.ts';
import { restMostOf } from './layout.ts';
import type { Problem, Rect } from './problem.ts';
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
    this.#restMost = restMostOf(problem);
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
  const usable = (shrunk.length === 0 ? [new Int32Array(0)] : shrunk).flatMap((list, quality) =>
    usableParts(
      list,
      along,
      across,
      view.items.filter((item) => item.quality === quality),
      view,
    ),
  );
  const sorted = [...new Set([0, across, ...usable.flatMap(({ left, right }) => [left, right])])].sort((a, b) => a - b);
  const bands: Band[] = [];
  for (let i = 1; i < sorted.length; i++) {
    const [left, right] = [sorted[i - 1]!, sorted[i]!];
    const here = usable.filter((part) => part.left <= left && part.right >= right);
    const runs = merged(here.map(({ from, to }) => [from, to]));
    const total = runs.reduce((sum, run) => sum + run, 0);
    bands.push({ rows: right - left, blocked: along - total, runs });
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

/**
 * All wood that some blank may lie on: clear rectangles as large as they get, in which one of the blanks fits. Whatever lies
 * between a defect and an edge too near to it is no blank's.
 */
function usableParts(
  blocked: Int32Array,
  along: number,
  across: number,
  items: readonly Item[],
  { kerfAlong, kerfAcross }: View,
): readonly Rect[] {
  const sizes = leastSizes(items.map((item) => ({ along: item.along + kerfAlong, across: item.across + kerfAcross })));
  const lefts = new Set([0]);
  const rights = new Set([across]);
  for (let at = 0; at < blocked.length; at += 4) {
    lefts.add(blocked[at + 3]!);
    rights.add(blocked[at + 2]!);
  }
  const parts: Rect[] = [];
  for (const left of lefts) {
    for (const right of rights) {
      const size = sizes.find((one) => one.across <= right - left);
      if (!size) continue;
      const runs: number[] = [];
      clearRuns(blocked, left, right, { along, kerfAlong: 0, shortest: size.along }, runs);
      for (let run = 0; run < runs.length; run += 2) {
        const [from, to] = [runs[run]!, runs[run + 1]!];
        // Where no defect holds a side, the same stretch of a wider part says it all.
        const isHeld =
          (left === 0 || endsAt(blocked, 3, left, from, to)) &&
          (right === across || endsAt(blocked, 2, right, from, to));
        if (isHeld) parts.push({ from, to, left, right });
      }
    }
  }
  return parts;
}

interface Size {
  readonly along: number;
  readonly across: number;
}

/** Widest first; each shorter than all narrower ones, so the first that is narrow enough is the shortest of those. */
function leastSizes(sizes: readonly Size[]): readonly Size[] {
  const kept: Size[] = [];
  for (const size of [...sizes].sort((a, b) => a.across - b.across || a.along - b.along)) {
    if (size.along < (kept.at(-1)?.along ?? Number.POSITIVE_INFINITY)) kept.push(size);
  }
  return kept.reverse();
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
