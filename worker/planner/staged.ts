/**
 * Best staged pattern of one board at given prices. The board is chopped into sections, each section ripped into
 * strips, each strip chopped into blanks; one section alone gives the two-stage pattern. With the view turned, the same
 * code crosscuts where this text says rip.
 */
import { chopOf, layersWithin } from './chop-table.ts';
import type { Tables } from './staged-tables.ts';
import { type StripKind, type StripSet, stripSet } from './strip-set.ts';
import type { Spot, View } from './view.ts';

export interface Priced {
  readonly value: number;
  readonly spots: readonly Spot[];
}

/** Places where sections may begin and end, in the view's axis along. */
export interface Sections {
  readonly edges: Int32Array;
}

export class StagedSearch {
  readonly view: View;
  readonly strips: StripSet;
  /** The same for all boards whose blanks need the same sizes and tell the same qualities apart. */
  readonly kind: string;
  /** Work done so far, in strip values looked up. */
  work = 0;
  readonly #best: Float64Array;
  readonly #from: Int32Array;
  readonly #hasBlocked: boolean;
  /** By kind and size: what such a strip is worth in the section in hand, below zero where not known yet. */
  readonly #worths: Float64Array;
  /** Starts at which a strip makes sense: anchored, or behind a strip that pays. */
  readonly #reached: Uint8Array;
  readonly #parted = new Map<StripKind, Partings>();
  /** By edge of a mixed strip: the most up to there. */
  #total = new Float64Array(64);

  constructor(view: View, startsMost: number) {
    this.view = view;
    const sizes = view.suited.map((item) => `${item.blank}:${item.along}:${item.across}:${item.quality}`).join(' ');
    this.kind = `${view.turned} ${sizes} ${view.tolerates.join(';')}`;
    this.strips = stripSet(
      view,
      view.items.map((item) => item.across),
      startsMost,
    );
    this.#best = new Float64Array(this.strips.starts.length);
    this.#from = new Int32Array(this.strips.starts.length);
    this.#worths = new Float64Array(this.strips.kinds.length * this.strips.sizes.length);
    this.#reached = new Uint8Array(this.strips.starts.length);
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
    const { behind, sizes, starts, kindOf } = strips;
    const best = this.#best;
    const trail = this.#from;
    const end = starts.length - 1;
    const all = tables.chops.length - 1;
    const chops = tables.chops[all]!;
    const layerOf = layers[all]!;
    const layered = Array.from(layerOf, (layer) => chops.layers[layer]!);
    if (!this.#hasBlocked) return this.#clearSection(layered, to - from);
    const stop = Math.min(to - view.kerfAlong, view.along);
    const worths = this.#worths;
    const reached = this.#reached;
    const useful = usefulSizes(layers);
    worths.fill(-1);
    best.fill(0);
    trail.fill(-1);
    reached.set(strips.anchored);
    let looked = 0;
    for (let start = 0; start < end; start++) {
      const base = best[start]!;
      if (base > best[start + 1]!) {
        best[start + 1] = base;
        trail[start + 1] = -1;
      }
      // Elsewhere the same strips stand as well lower down.
      if (reached[start] === 0) continue;
      for (let k = 0; k < useful.length; k++) {
        const size = useful[k]!;
        const strip = start * sizes.length + size;
        const next = behind[strip]!;
        if (next < 0) break;
        const at = kindOf[strip]! * sizes.length + size;
        let worth = worths[at]!;
        if (worth < 0) {
          worth = this.#stripWorth(tables, layers, layered[size]!, strips.kinds[kindOf[strip]!]!, size, from, stop);
          worths[at] = worth;
          looked += 4;
        }
        if (base + worth > best[next]! + 1e-9) {
          best[next] = base + worth;
          trail[next] = strip;
          reached[next] = 1;
        }
      }
      looked += useful.length;
    }
    this.work += looked + ((end + worths.length) >> 3);
    return best[end]!;
  }

  #stripWorth(
    tables: Tables,
    layers: readonly Int32Array[],
    table: Float64Array,
    kind: StripKind,
    size: number,
    from: number,
    stop: number,
  ): number {
    if (from < kind.mixedTo && stop > kind.mixedFrom) return this.#mixed(tables, layers, kind, size, from, stop, null);
    const runs = kind.runs[0];
    if (!runs) return 0;
    let worth = 0;
    for (let at = 0; at < runs.length; at += 2) {
      const a = Math.max(runs[at]!, from);
      const b = Math.min(runs[at + 1]!, stop);
      if (b > a) worth += table[b - a + this.view.kerfAlong]!;
    }
    return worth;
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
      const kind = strips.kinds[strips.kindOf[strip]!]!;
      if (from < kind.mixedTo && stop > kind.mixedFrom) {
        this.#mixed(tables, layers, kind, size, from, stop, put);
      } else {
        const runs = kind.runs[0] ?? [];
        for (let run = 0; run < runs.length; run += 2) {
          const a = Math.max(runs[run]!, from);
          const b = Math.min(runs[run + 1]!, stop);
          if (b > a) put(all, a, b);
        }
      }
      at = start;
    }
    return spots;
  }

  /** A strip whose qualities see different clear runs: it is parted at run ends, each part used for one quality. */
  #mixed(
    tables: Tables,
    layers: readonly Int32Array[],
    kind: StripKind,
    size: number,
    from: number,
    stop: number,
    put: ((table: number, a: number, b: number) => void) | null,
  ): number {
    const kerf = this.view.kerfAlong;
    const { edges, parts, reach } = this.#partings(kind, from, stop);
    const last = edges.length - 1;
    if (last < 0) return 0;
    if (this.#total.length <= last) this.#total = new Float64Array(2 * last + 2);
    const total = this.#total;
    const step = put ? new Int32Array(edges.length).fill(-1) : null;
    total[0] = 0;
    let end = 0;
    for (let at = 0; at < parts.length; at += 3) {
      while (end < parts[at + 1]!) total[end + 1] = total[end++]!;
      const start = parts[at]!;
      const quality = parts[at + 2]!;
      const value = tables.chops[quality]!.layers[layers[quality]![size]!]![edges[end]! - edges[start]! + kerf]!;
      // The blade behind this part is counted at its end, so the next part begins a blade later.
      const before = start === 0 || reach[start]! < 0 ? 0 : total[reach[start]!]!;
      if (before + value > total[end]! + 1e-9) {
        total[end] = before + value;
        if (step) step[end] = at;
      }
    }
    while (end < last) total[end + 1] = total[end++]!;
    this.work += parts.length >> 1;
    if (put && step) {
      for (let index = last; index > 0; ) {
        const taken = step[index]!;
        if (taken < 0) {
          index--;
          continue;
        }
        const start = parts[taken]!;
        put(parts[taken + 2]!, edges[start]!, edges[index]!);
        index = reach[start]!;
      }
    }
    return total[last]!;
  }

  /** How a mixed strip may be parted within a section: the same for every width and price, so the last is kept for each kind. */
  #partings(kind: StripKind, from: number, stop: number): Partings {
    const known = this.#parted.get(kind);
    if (known && known.from === from && known.stop === stop) return known;
    const kerf = this.view.kerfAlong;
    const found = new Set<number>();
    for (const runs of kind.runs) {
      for (let run = 0; run < runs.length; run += 2) {
        const a = Math.max(runs[run]!, from);
        const b = Math.min(runs[run + 1]!, stop);
        if (b > a) for (const at of [a, b + kerf, b, a - kerf]) if (at >= from && at <= stop) found.add(at);
      }
    }
    const edges = Int32Array.from(found).sort();
    const parts: number[] = [];
    for (let end = 1; end < edges.length; end++)
      for (let start = 0; start < end; start++)
        for (let quality = 0; quality < kind.runs.length; quality++)
          if (isInRun(kind.runs[quality]!, edges[start]!, edges[end]!)) parts.push(start, end, quality);
    const reach = edges.map((at) => {
      let index = edges.length - 1;
      while (index >= 0 && edges[index]! > at - kerf) index--;
      return index;
    });
    this.work += edges.length * edges.length;
    const made = { from, stop, edges, parts: Int32Array.from(parts), reach };
    this.#parted.set(kind, made);
    return made;
  }
}

/** edges: where parts may begin and end. parts: start, end (by index) and quality of each clear part, by their ends. */
interface Partings {
  readonly from: number;
  readonly stop: number;
  readonly edges: Int32Array;
  readonly parts: Int32Array;
  /** For each edge the last that leaves room for a blade before it; -1 for none. */
  readonly reach: Int32Array;
}

function isInRun(runs: Int32Array, from: number, to: number): boolean {
  for (let run = 0; run < runs.length; run += 2) if (runs[run]! <= from && runs[run + 1]! >= to) return true;
  return false;
}

/** Sizes for which some blank is wanted that a narrower strip could not take as well. */
function usefulSizes(layers: readonly Int32Array[]): number[] {
  const useful: number[] = [];
  for (let size = 0; size < layers[0]!.length; size++) {
    if (layers.some((of) => of[size]! > 0 && (size === 0 || of[size] !== of[size - 1]))) useful.push(size);
  }
  return useful;
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
