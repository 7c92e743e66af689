/**
 * Best staged pattern of one board at given prices. The board is chopped into sections, each section ripped into
 * strips, each strip chopped into blanks; one section alone gives the two-stage pattern. With the view turned, the same
 * code crosscuts where this text says rip.
 */
import { type ChopTable, chopOf, chopTable, exactChopTable, layersWithin } from './chop-table.ts';
import { type StripSet, stripSet } from './strip-set.ts';
import type { Item, Spot, View } from './view.ts';

export interface Priced {
  readonly value: number;
  readonly spots: readonly Spot[];
}

export interface Tables {
  /** For each quality the table of blanks that its clear wood suits; the last one holds all blanks. */
  readonly chops: readonly ChopTable[];
}

/** Places where sections may begin and end, in the view's axis along. */
export interface Sections {
  readonly edges: Int32Array;
}

type TableMaker = typeof exactChopTable;

/** For strips that take whatever is no wider than they are; a narrower blank is ripped once more. */
export function tablesFor(view: View, priceOf: Float64Array, limitOf: Int32Array): Tables {
  return tablesBy(chopTable, view, priceOf, limitOf);
}

/** For strips of just the blanks' size: one stage of cutting less. */
export function exactTablesFor(view: View, priceOf: Float64Array, limitOf: Int32Array): Tables {
  return tablesBy(exactChopTable, view, priceOf, limitOf);
}

function tablesBy(make: TableMaker, view: View, priceOf: Float64Array, limitOf: Int32Array): Tables {
  const capacity = view.along + view.kerfAlong;
  const table = (items: readonly Item[]) => make(items, priceOf, limitOf, view.kerfAlong, capacity);
  const all = table(view.items);
  if (view.blocked.length <= 1) return { chops: [all, all] };
  const chops = view.blocked.map((_, quality) =>
    table(view.items.filter((item) => view.tolerates[quality]![item.quality]!)),
  );
  return { chops: [...chops, all] };
}

export class StagedSearch {
  readonly view: View;
  readonly strips: StripSet;
  /** Work done so far, in strip values looked up. */
  work = 0;
  readonly #best: Float64Array;
  readonly #from: Int32Array;
  readonly #hasBlocked: boolean;

  constructor(view: View, startsMost: number) {
    this.view = view;
    this.strips = stripSet(
      view,
      view.items.map((item) => item.across),
      startsMost,
    );
    this.#best = new Float64Array(this.strips.starts.length);
    this.#from = new Int32Array(this.strips.starts.length);
    this.#hasBlocked = view.blocked.some((list) => list.length > 0);
  }

  /** Rip first: one section, the whole board. */
  twoStage(tables: Tables): Priced {
    const layers = this.#layers(tables);
    const end = this.view.along + this.view.kerfAlong;
    const value = this.#section(tables, layers, 0, end);
    return { value, spots: value > 0 ? this.#traced(tables, layers, 0, end) : [] };
  }

  /** Sections first, each ripped on its own. */
  threeStage(tables: Tables, sections: Sections): Priced {
    const layers = this.#layers(tables);
    const { edges } = sections;
    if (!this.#hasBlocked) return this.#clearThreeStage(tables, layers, edges);
    const count = edges.length;
    const total = new Float64Array(count);
    const from = new Int32Array(count).fill(-1);
    const shortest = Math.min(...tables.chops.at(-1)!.items.map((item) => item.along)) + this.view.kerfAlong;
    for (let end = 1; end < count; end++) {
      total[end] = total[end - 1]!;
      from[end] = -1;
      for (let start = 0; start < end; start++) {
        const length = edges[end]! - edges[start]!;
        if (length < shortest) break;
        const value = this.#section(tables, layers, edges[start]!, edges[end]!);
        if (total[start]! + value > total[end]! + 1e-9) {
          total[end] = total[start]! + value;
          from[end] = start;
        }
      }
    }
    const spots: Spot[] = [];
    for (let end = count - 1; end > 0; ) {
      const start = from[end]!;
      if (start < 0) {
        end--;
        continue;
      }
      this.#section(tables, layers, edges[start]!, edges[end]!);
      spots.push(...this.#traced(tables, layers, edges[start]!, edges[end]!));
      end = start;
    }
    return { value: total[count - 1]!, spots };
  }

  /** Without defects a section is worth what its length is: a knapsack of lengths, those alone that beat all shorter ones. */
  #clearThreeStage(tables: Tables, layers: readonly Int32Array[], edges: Int32Array): Priced {
    const all = tables.chops.length - 1;
    const layered = Array.from(layers[all]!, (layer) => tables.chops[all]!.layers[layer]!);
    const lengths: number[] = [];
    const worths: number[] = [];
    for (const length of edges) {
      const worth = length > 0 ? this.#clearSection(layered, length) : 0;
      if (worth <= (worths.at(-1) ?? 0) + 1e-9) continue;
      lengths.push(length);
      worths.push(worth);
    }
    const end = edges.at(-1)!;
    const total = new Float64Array(end + 1);
    const taken = new Int32Array(end + 1).fill(-1);
    for (let at = 1; at <= end; at++) {
      total[at] = total[at - 1]!;
      for (let k = 0; k < lengths.length && lengths[k]! <= at; k++) {
        const value = total[at - lengths[k]!]! + worths[k]!;
        if (value > total[at]! + 1e-9) {
          total[at] = value;
          taken[at] = k;
        }
      }
    }
    this.work += (end * lengths.length) >> 2;
    const spots: Spot[] = [];
    for (let left = end, from = 0; left > 0; ) {
      const k = taken[left]!;
      if (k < 0) {
        left--;
        continue;
      }
      this.#section(tables, layers, from, from + lengths[k]!);
      spots.push(...this.#traced(tables, layers, from, from + lengths[k]!));
      from += lengths[k]!;
      left -= lengths[k]!;
    }
    return { value: total[end]!, spots };
  }

  #layers(tables: Tables): Int32Array[] {
    return tables.chops.map((table) => Int32Array.from(this.strips.sizes, (size) => layersWithin(table, size)));
  }

  /** Best stack of strips between two cuts; leaves its trail in best and from. */
  #section(tables: Tables, layers: readonly Int32Array[], from: number, to: number): number {
    const { strips, view } = this;
    const { behind, sizes, starts } = strips;
    const best = this.#best;
    const trail = this.#from;
    const end = starts.length - 1;
    const all = tables.chops.length - 1;
    const chops = tables.chops[all]!;
    const layerOf = layers[all]!;
    const layered = Array.from(layerOf, (layer) => chops.layers[layer]!);
    if (!this.#hasBlocked) return this.#clearSection(layered, to - from);
    const stop = Math.min(to - view.kerfAlong, view.along);
    const kerf = view.kerfAlong;
    const runsAt = strips.runsAt[0];
    const runs = strips.runs[0];
    best.fill(0);
    trail.fill(-1);
    for (let start = 0; start < end; start++) {
      const base = best[start]!;
      if (base > best[start + 1]!) {
        best[start + 1] = base;
        trail[start + 1] = -1;
      }
      for (let size = 0; size < sizes.length; size++) {
        const strip = start * sizes.length + size;
        const next = behind[strip]!;
        if (next < 0) break;
        if (layerOf[size] === 0) continue;
        let value = base;
        if (strips.plain[strip] === 1 && runsAt && runs) {
          const table = layered[size]!;
          for (let at = runsAt[strip]!, last = runsAt[strip + 1]!; at < last; at += 2) {
            const a = Math.max(runs[at]!, from);
            const b = Math.min(runs[at + 1]!, stop);
            if (b > a) value += table[b - a + kerf]!;
          }
        } else {
          value += this.#mixed(tables, layers, strip, size, from, stop, null);
        }
        if (value > best[next]! + 1e-9) {
          best[next] = value;
          trail[next] = strip;
        }
      }
    }
    this.work += end * sizes.length;
    return best[end]!;
  }

  /** Without defects a strip is worth the same wherever it starts, and one no dearer than a narrower one is not needed. */
  #clearSection(layered: readonly Float64Array[], length: number): number {
    const { behind, sizes, starts } = this.strips;
    const best = this.#best;
    const trail = this.#from;
    const end = starts.length - 1;
    const useful: number[] = [];
    const worths: number[] = [];
    for (let size = 0, most = 0; size < sizes.length; size++) {
      const worth = layered[size]![length]!;
      if (worth <= most) continue;
      most = worth;
      useful.push(size);
      worths.push(worth);
    }
    best.fill(0);
    trail.fill(-1);
    for (let start = 0; start < end; start++) {
      const base = best[start]!;
      if (base > best[start + 1]!) {
        best[start + 1] = base;
        trail[start + 1] = -1;
      }
      for (let k = 0; k < useful.length; k++) {
        const strip = start * sizes.length + useful[k]!;
        const next = behind[strip]!;
        if (next < 0) break;
        const value = base + worths[k]!;
        if (value > best[next]! + 1e-9) {
          best[next] = value;
          trail[next] = strip;
        }
      }
    }
    this.work += end * useful.length + sizes.length;
    return best[end]!;
  }

  #traced(tables: Tables, layers: readonly Int32Array[], from: number, to: number): Spot[] {
    const { strips, view } = this;
    const trail = this.#from;
    const stop = Math.min(to - view.kerfAlong, view.along);
    const all = tables.chops.length - 1;
    const spots: Spot[] = [];
    for (let at = strips.starts.length - 1; at > 0; ) {
      const strip = trail[at]!;
      if (strip < 0) {
        at--;
        continue;
      }
      const start = Math.floor(strip / strips.sizes.length);
      const size = strip % strips.sizes.length;
      const put = (table: number, a: number, b: number): void => {
        let along = a;
        for (const item of chopOf(tables.chops[table]!, layers[table]![size]!, b - a + view.kerfAlong)) {
          spots.push({ item, along, across: strips.starts[start]! });
          along += item.along + view.kerfAlong;
        }
      };
      if (strips.plain[strip] === 1 && strips.runs[0]) {
        const runs = strips.runs[0];
        for (let run = strips.runsAt[0]![strip]!; run < strips.runsAt[0]![strip + 1]!; run += 2) {
          const a = Math.max(runs[run]!, from);
          const b = Math.min(runs[run + 1]!, stop);
          if (b > a) put(all, a, b);
        }
      } else {
        this.#mixed(tables, layers, strip, size, from, stop, put);
      }
      at = start;
    }
    return spots;
  }

  /** A strip whose qualities see different clear runs: it is parted at run ends, each part used for one quality. */
  #mixed(
    tables: Tables,
    layers: readonly Int32Array[],
    strip: number,
    size: number,
    from: number,
    stop: number,
    put: ((table: number, a: number, b: number) => void) | null,
  ): number {
    const { strips, view } = this;
    const kerf = view.kerfAlong;
    const begins: number[] = [];
    const ends: number[] = [];
    for (let quality = 0; quality < strips.runs.length; quality++) {
      const runs = strips.runs[quality]!;
      for (let run = strips.runsAt[quality]![strip]!; run < strips.runsAt[quality]![strip + 1]!; run += 2) {
        const a = Math.max(runs[run]!, from);
        const b = Math.min(runs[run + 1]!, stop);
        if (b <= a) continue;
        begins.push(a, b + kerf);
        ends.push(b, a - kerf);
      }
    }
    const edges = [...new Set([...begins, ...ends])].filter((at) => at >= from && at <= stop).sort((a, b) => a - b);
    const total = new Float64Array(edges.length);
    const step: ({ quality: number; start: number } | null)[] = edges.map(() => null);
    for (let end = 1; end < edges.length; end++) {
      total[end] = total[end - 1]!;
      for (let start = 0; start < end; start++) {
        for (let quality = 0; quality < strips.runs.length; quality++) {
          if (!this.#inRun(quality, strip, edges[start]!, edges[end]!)) continue;
          // The blade behind this part is counted at its end, so the next part begins a blade later.
          const value = tables.chops[quality]!.layers[layers[quality]![size]!]![edges[end]! - edges[start]! + kerf]!;
          const before = start === 0 ? 0 : this.#reach(edges, total, edges[start]!, kerf);
          if (before + value > total[end]! + 1e-9) {
            total[end] = before + value;
            step[end] = { quality, start };
          }
        }
      }
    }
    if (put) {
      for (let end = edges.length - 1; end > 0; ) {
        const taken = step[end];
        if (!taken) {
          end--;
          continue;
        }
        put(taken.quality, edges[taken.start]!, edges[end]!);
        end = this.#reachIndex(edges, edges[taken.start]!, kerf);
      }
    }
    return total[edges.length - 1] ?? 0;
  }

  #reachIndex(edges: readonly number[], at: number, kerf: number): number {
    let index = edges.length - 1;
    while (index >= 0 && edges[index]! > at - kerf) index--;
    return index;
  }

  #reach(edges: readonly number[], total: Float64Array, at: number, kerf: number): number {
    const index = this.#reachIndex(edges, at, kerf);
    return index < 0 ? 0 : total[index]!;
  }

  #inRun(quality: number, strip: number, a: number, b: number): boolean {
    const runs = this.strips.runs[quality]!;
    for (let run = this.strips.runsAt[quality]![strip]!; run < this.strips.runsAt[quality]![strip + 1]!; run += 2) {
      if (runs[run]! <= a && runs[run + 1]! >= b) return true;
    }
    return false;
  }
}

/** Section ends: board ends, defect edges, one or more blanks from those; every position where few enough. */
export function sectionsOf(view: View, most: number): Sections {
  const end = view.along + view.kerfAlong;
  const lengths = [...new Set(view.items.map((item) => item.along + view.kerfAlong))].sort((a, b) => a - b);
  const edges = new Set<number>([0, end]);
  const add = (at: number, into: number[]): void => {
    if (at <= 0 || at >= end || edges.has(at)) return;
    edges.add(at);
    into.push(at);
  };
  let front: number[] = [0];
  for (const blocked of view.blocked) {
    for (let at = 0; at < blocked.length && edges.size < most; at += 4) {
      add(blocked[at + 1]!, front);
      add(blocked[at]! + view.kerfAlong, []);
    }
  }
  while (front.length > 0 && edges.size < most) {
    const next: number[] = [];
    for (const length of lengths) {
      for (const at of front) if (edges.size < most) add(at + length, next);
    }
    if (edges.size < most && front.includes(0)) {
      for (const length of lengths) if (edges.size < most) add(end - length, next);
    }
    front = next;
  }
  return { edges: Int32Array.from([...edges].sort((a, b) => a - b)) };
}
