/**
 * Best staged pattern of one board at given prices. The board is chopped into sections, each section ripped into
 * strips, each strip chopped into blanks; one section alone gives the two-stage pattern. With the view turned, the same
 * code crosscuts where this text says rip.
 */
import { chopOf, layersWithin } from './chop-table.ts';
import { ClearStrips } from './clear-strips.ts';
import type { Sections } from './sections.ts';
import type { Tables } from './staged-tables.ts';
import { type StripKind, StripSet } from './strip-set.ts';
import { hasNoDefects, type Spot, type View } from './view.ts';

export interface Priced {
  readonly value: number;
  readonly spots: readonly Spot[];
}

/** One set of prices over the strips of a board. */
interface Pass {
  readonly tables: Tables;
  /** For each table and size how many of its layers a strip of that size may use. */
  readonly layers: readonly Int32Array[];
  readonly clear: ClearStrips;
  /** Sizes for which some blank is wanted that a narrower strip could not take as well. */
  readonly useful: readonly number[];
}

/** What a search needs only while it looks at one section. All boards share it, since they are looked at in turn. */
const scratch = {
  best: new Float64Array(512),
  trail: new Int32Array(512),
  /** Starts at which a strip makes sense, one bit each: the edge, behind a defect, or behind a strip that pays. */
  reached: new Int32Array(16),
  near: new Int32Array(32),
  far: new Int32Array(32),
  /** By class of strips: where its list ends, or -1 where it was not made yet. */
  listEnds: new Int32Array(64),
  /** Sizes and worths of the strips that pay, one list a class, each in `useful` places. */
  listSizes: new Int32Array(1024),
  listWorths: new Float64Array(1024),
};

function grow(starts: number, defects: number, sizes: number): void {
  if (scratch.best.length < starts) {
    scratch.best = new Float64Array(2 * starts);
    scratch.trail = new Int32Array(2 * starts);
    scratch.reached = new Int32Array((2 * starts) / 32 + 1);
  }
  if (scratch.near.length < defects) {
    scratch.near = new Int32Array(2 * defects);
    scratch.far = new Int32Array(2 * defects);
  }
  const classes = (defects + 1) ** 2;
  if (scratch.listEnds.length < classes) scratch.listEnds = new Int32Array(2 * classes);
  if (scratch.listSizes.length < classes * sizes) {
    scratch.listSizes = new Int32Array(2 * classes * sizes);
    scratch.listWorths = new Float64Array(2 * classes * sizes);
  }
}

export class StagedSearch {
  readonly view: View;
  readonly strips: StripSet;
  /** The same for all boards whose blanks need the same sizes and tell the same qualities apart. */
  readonly kind: string;
  /** Work done so far, in strip values looked up. */
  work = 0;
  readonly #hasBlocked: boolean;
  readonly #parted = new Map<StripKind, Partings>();
  /** By edge of a mixed strip: the most up to there. */
  #total = new Float64Array(64);

  constructor(view: View, startsMost: number) {
    this.view = view;
    const sizes = view.suited.map((item) => `${item.blank}:${item.along}:${item.across}:${item.quality}`).join(' ');
    this.kind = `${view.turned} ${sizes} ${view.tolerates.join(';')}`;
    this.strips = new StripSet(
      view,
      view.items.map((item) => item.across),
      startsMost,
    );
    this.#hasBlocked = !hasNoDefects(view);
  }

  /** Rip first: one section, the whole board. */
  twoStage(tables: Tables): Priced {
    const pass = this.#pass(tables);
    const end = this.view.along + this.view.kerfAlong;
    const value = this.#section(pass, 0, end);
    return { value, spots: value > 0 ? this.#traced(pass, 0, end) : [] };
  }

  /** Sections first, each ripped on its own. */
  threeStage(tables: Tables, sections: Sections): Priced {
    const pass = this.#pass(tables);
    const { edges } = sections;
    if (!this.#hasBlocked) return this.#clearThreeStage(pass, edges);
    const count = edges.length;
    const total = new Float64Array(count);
    const from = new Int32Array(count).fill(-1);
    const shortest = Math.min(...tables.chops.at(-1)!.items.map((item) => item.along)) + this.view.kerfAlong;
    // Where no section ends that pays, one begins no better than further back.
    const begins: number[] = [0];
    for (let end = 1; end < count; end++) {
      total[end] = total[end - 1]!;
      let most = Number.POSITIVE_INFINITY;
      for (const start of begins) {
        const length = edges[end]! - edges[start]!;
        if (length < shortest) break;
        // No section holds more than a longer one with the same end.
        if (total[start]! + most <= total[end]! + 1e-9) continue;
        most = this.#section(pass, edges[start]!, edges[end]!);
        if (total[start]! + most > total[end]! + 1e-9) {
          total[end] = total[start]! + most;
          from[end] = start;
        }
      }
      if (from[end]! >= 0) begins.push(end);
    }
    const spots: Spot[] = [];
    for (let end = count - 1; end > 0; ) {
      const start = from[end]!;
      if (start < 0) {
        end--;
        continue;
      }
      this.#section(pass, edges[start]!, edges[end]!);
      spots.push(...this.#traced(pass, edges[start]!, edges[end]!));
      end = start;
    }
    return { value: total[count - 1]!, spots };
  }

  /** Without defects a section is worth what its length is: a knapsack of lengths, those alone that beat all shorter ones. */
  #clearThreeStage(pass: Pass, edges: Int32Array): Priced {
    const lengths: number[] = [];
    const worths: number[] = [];
    for (const length of edges) {
      const worth = length > 0 ? this.#section(pass, 0, length) : 0;
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
      this.#section(pass, from, from + lengths[k]!);
      spots.push(...this.#traced(pass, from, from + lengths[k]!));
      from += lengths[k]!;
      left -= lengths[k]!;
    }
    return { value: total[end]!, spots };
  }

  #pass(tables: Tables): Pass {
    const { strips } = this;
    const layers = tables.chops.map((table) => layersWithin(table, strips.sizes));
    const all = tables.chops.at(-1)!;
    this.work += strips.sizes.length * 2;
    return {
      tables,
      layers,
      clear: new ClearStrips(
        Array.from(layers.at(-1)!, (layer) => all.layers[layer]!),
        this.view.kerfAlong,
      ),
      useful: usefulSizes(layers),
    };
  }

  /**
   * Best stack of strips between two cuts; leaves its trail. Strips that meet the same of the section's defects are worth
   * the same, size by size, so each such class has one list of those that pay more than all narrower ones.
   */
  #section(pass: Pass, from: number, to: number): number {
    const { strips, view } = this;
    const { behind, sizes, starts, byNear, byFar } = strips;
    const end = starts.length - 1;
    const stop = Math.min(to - view.kerfAlong, view.along);
    grow(starts.length, byNear.length / 3, pass.useful.length);
    const { best, trail, reached, near, far, listEnds, listSizes, listWorths } = scratch;
    const words = (end >> 5) + 1;
    reached.fill(0, 0, words);
    reached[0] = 1;
    best[0] = 0;
    trail[0] = -1;
    let met = 0;
    for (let at = 0; at < byNear.length; at += 3)
      if (byNear[at]! < stop && byNear[at + 1]! > from) near[met++] = byNear[at + 2]!;
    met = 0;
    for (let at = 0; at < byFar.length; at += 4) {
      if (byFar[at]! >= stop || byFar[at + 1]! <= from) continue;
      far[met++] = byFar[at + 2]!;
      const start = byFar[at + 3]!;
      if (start <= 0) continue;
      reached[start >> 5]! |= 1 << (start & 31);
      best[start] = 0;
      trail[start] = -1;
    }
    listEnds.fill(-1, 0, (met + 1) * (met + 1));
    const places = pass.useful.length;
    let looked = words;
    let ended = 0;
    let begun = 0;
    let base = 0;
    for (let word = 0; word < words; word++) {
      for (let seen = 0; ; ) {
        const bits = reached[word]! & ~seen;
        if (bits === 0) break;
        const lowest = bits & -bits;
        seen |= lowest | (lowest - 1);
        const start = (word << 5) + 31 - Math.clz32(lowest);
        if (best[start]! > base) base = best[start]!;
        // Some stack that ends sooner is worth as much.
        else trail[start] = -1;
        if (start >= end) break;
        const left = starts[start]!;
        while (ended < met && far[ended]! <= left) ended++;
        while (begun < met && near[begun]! <= left) begun++;
        let most = 0;
        let rightLeast = left;
        for (let meets = begun; meets <= met; meets++) {
          const rightMost = meets < met ? near[meets]! : view.across;
          if (rightMost <= rightLeast) continue;
          const group = ended * (met + 1) + meets;
          const first = group * places;
          let last = listEnds[group]!;
          if (last < 0) {
            // Of this class no strip is narrower or wider than these.
            const least = (meets > 0 ? near[meets - 1]! : 0) - (ended < met ? far[ended]! : view.across) + 1;
            const widest = rightMost - (ended > 0 ? far[ended - 1]! : 0);
            last = this.#listed(pass, strips.kind(left, rightMost), first, from, stop, least, widest);
            listEnds[group] = last;
          }
          looked += 4;
          for (let at = first; at < last; at++) {
            const right = left + sizes[listSizes[at]!]!;
            if (right > rightMost) break;
            looked++;
            if (right <= rightLeast || listWorths[at]! <= most) continue;
            most = listWorths[at]!;
            const next = behind[right]!;
            const bit = 1 << (next & 31);
            const isNew = (reached[next >> 5]! & bit) === 0;
            if (!isNew && base + most <= best[next]! + 1e-9) continue;
            best[next] = base + most;
            trail[next] = start * sizes.length + listSizes[at]!;
            if (isNew) reached[next >> 5]! |= bit;
          }
          rightLeast = rightMost;
        }
      }
    }
    this.work += looked * 2;
    return base;
  }

  /** The strips of one class, from the narrowest to the widest, that pay more than all narrower ones; the end of their list. */
  #listed(
    pass: Pass,
    kind: StripKind,
    first: number,
    from: number,
    stop: number,
    least: number,
    widest: number,
  ): number {
    const { listSizes, listWorths } = scratch;
    const { sizes } = this.strips;
    const isMixed = from < kind.mixedTo && stop > kind.mixedFrom;
    if (!isMixed) pass.clear.between(kind, from, stop);
    let last = first;
    let most = 0;
    let looked = 2;
    for (const size of pass.useful) {
      if (sizes[size]! < least) continue;
      if (sizes[size]! > widest) break;
      looked++;
      const worth = isMixed ? this.#mixed(pass, kind, size, from, stop, null) : pass.clear.worth(size);
      if (worth <= most + 1e-12) continue;
      most = worth;
      listSizes[last] = size;
      listWorths[last++] = worth;
    }
    this.work += looked * 2;
    return last;
  }

  #traced(pass: Pass, from: number, to: number): Spot[] {
    const { strips, view } = this;
    const { tables, layers } = pass;
    const { trail, reached } = scratch;
    const stop = Math.min(to - view.kerfAlong, view.along);
    const all = tables.chops.length - 1;
    const spots: Spot[] = [];
    for (let at = strips.starts.length - 1; at > 0; ) {
      const strip = (reached[at >> 5]! & (1 << (at & 31))) === 0 ? -1 : trail[at]!;
      if (strip < 0) {
        at--;
        continue;
      }
      const start = Math.floor(strip / strips.sizes.length);
      const size = strip % strips.sizes.length;
      const left = strips.starts[start]!;
      const put = (table: number, a: number, b: number): void => {
        let along = a;
        for (const item of chopOf(tables.chops[table]!, layers[table]![size]!, b - a + view.kerfAlong)) {
          spots.push({ item, along, across: left });
          along += item.along + view.kerfAlong;
        }
      };
      const kind = strips.kind(left, left + strips.sizes[size]!);
      if (from < kind.mixedTo && stop > kind.mixedFrom) {
        this.#mixed(pass, kind, size, from, stop, put);
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
    { tables, layers }: Pass,
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

function usefulSizes(layers: readonly Int32Array[]): number[] {
  const useful: number[] = [];
  for (let size = 0; size < layers[0]!.length; size++) {
    if (layers.some((of) => of[size]! > 0 && (size === 0 || of[size] !== of[size - 1]))) useful.push(size);
  }
  return useful;
}
