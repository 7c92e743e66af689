/**
 * The strips of a board that are worth looking at: each starts at the edge, behind a defect or behind another strip,
 * and is as wide as some blank. Strips that meet the same defects have the same clear runs, so those are kept once: a
 * board has thousands of strips and some dozens of such kinds.
 */
import type { View } from './view.ts';

export interface StripKind {
  /** For each quality the clear runs: from, to, from, to ... */
  readonly runs: readonly Int32Array[];
  /** Between these the qualities see different runs; from >= to where they never do. */
  readonly mixedFrom: number;
  readonly mixedTo: number;
}

export class StripSet {
  /** Where strips may start, ascending; the last entry stands for the far edge. */
  readonly starts: Int32Array;
  /** Distinct strip sizes across, ascending. */
  readonly sizes: Int32Array;
  /** By the far side of a strip: the start index behind the strip and its blade. */
  readonly behind: Int16Array;
  /** Defects of any quality by their near side: from, to (a blade behind from at least), near side in turn. */
  readonly byNear: Int32Array;
  /** The same by their far side, with the start index there as a fourth, or -1. */
  readonly byFar: Int32Array;
  readonly #view: View;
  // Which defects a strip meets follows from how many end before it and how many begin before its far side.
  readonly #ended: Uint16Array;
  readonly #begun: Uint16Array;
  readonly #kinds: (StripKind | undefined)[] = [];
  readonly #known = new Map<string, StripKind>();

  constructor(view: View, sizesWanted: readonly number[], startsMost: number) {
    this.#view = view;
    this.sizes = Int32Array.from([...new Set(sizesWanted)].sort((a, b) => a - b));
    const anchors = anchorsOf(view);
    this.starts = startsOf(view, this.sizes, startsMost, anchors);
    this.behind = new Int16Array(view.across + 1);
    const end = this.starts.length - 1;
    for (let right = 0, index = 0; right <= view.across; right++) {
      // Positions that were thinned out round up to the next start: wood is lost, the pattern stays right.
      while (index < end && this.starts[index]! < right + view.kerfAcross) index++;
      this.behind[right] = index;
    }
    const defects = defectsOf(view);
    const reach = (defect: readonly number[]) => Math.max(defect[1]!, defect[0]! + view.kerfAlong);
    this.byNear = Int32Array.from(
      [...defects].sort((a, b) => a[2]! - b[2]!).flatMap((defect) => [defect[0]!, reach(defect), defect[2]!]),
    );
    this.byFar = Int32Array.from(
      [...defects]
        .sort((a, b) => a[3]! - b[3]!)
        .flatMap((defect) => [defect[0]!, reach(defect), defect[3]!, this.starts.subarray(0, -1).indexOf(defect[3]!)]),
    );
    this.#ended = countsUpTo(view, defects, 3);
    this.#begun = countsUpTo(view, defects, 2);
  }

  /** Strips there are, about. */
  get count(): number {
    return this.starts.length * this.sizes.length;
  }

  /** The kind of the strip between these. */
  kind(left: number, right: number): StripKind {
    const met = this.#ended[left]! * (this.byNear.length / 3 + 1) + this.#begun[right - 1]!;
    let kind = this.#kinds[met];
    if (kind) return kind;
    const key = defectsMet(this.#view, left, right);
    kind = this.#known.get(key) ?? kindBetween(this.#view, left, right);
    this.#known.set(key, kind);
    this.#kinds[met] = kind;
    return kind;
  }
}

/** Defects of all qualities, each once: from, to, near, far. */
function defectsOf(view: View): readonly (readonly number[])[] {
  const known = new Map<string, readonly number[]>();
  for (const blocked of view.blocked) {
    for (let at = 0; at < blocked.length; at += 4) {
      const defect = Array.from(blocked.subarray(at, at + 4));
      known.set(defect.join(' '), defect);
    }
  }
  return [...known.values()];
}

/** For each position across, how many defects have their side there or before: side 2 is the near one, 3 the far one. */
function countsUpTo(view: View, defects: readonly (readonly number[])[], side: 2 | 3): Uint16Array {
  const counts = new Uint16Array(view.across + 1);
  for (const defect of defects) counts[defect[side]!]!++;
  for (let at = 1; at < counts.length; at++) counts[at]! += counts[at - 1]!;
  return counts;
}

/** Which defects a strip meets, as a key. */
function defectsMet(view: View, left: number, right: number): string {
  let key = '';
  for (const blocked of view.blocked) {
    let bits = 0;
    let count = 0;
    for (let at = 0; at < blocked.length; at += 4) {
      bits = bits * 2 + (blocked[at + 2]! < right && blocked[at + 3]! > left ? 1 : 0);
      if (++count % 30 !== 0) continue;
      key += `${bits},`;
      bits = 0;
    }
    key += `${bits};`;
  }
  return key;
}

function kindBetween(view: View, left: number, right: number): StripKind {
  const shortest = view.items.reduce((least, item) => Math.min(least, item.along), Number.POSITIVE_INFINITY);
  const runs = view.blocked.map((blocked) => {
    const list: number[] = [];
    clearRuns(blocked, left, right, { ...view, shortest }, list);
    return Int32Array.from(list);
  });
  let mixedFrom = Number.POSITIVE_INFINITY;
  let mixedTo = 0;
  for (const one of runs) {
    for (const other of runs) {
      for (let at = 0; at < one.length; at += 2) {
        if (hasRun(other, one[at]!, one[at + 1]!)) continue;
        mixedFrom = Math.min(mixedFrom, one[at]!);
        mixedTo = Math.max(mixedTo, one[at + 1]!);
      }
    }
  }
  return { runs, mixedFrom, mixedTo };
}

function hasRun(runs: Int32Array, from: number, to: number): boolean {
  for (let at = 0; at < runs.length; at += 2) if (runs[at] === from && runs[at + 1] === to) return true;
  return false;
}

interface RunsAsked {
  readonly along: number;
  readonly kerfAlong: number;
  /** Length of the shortest blank. */
  readonly shortest: number;
}

/** Clear stretches of the band left..right that some blank may lie in, appended as from, to. */
export function clearRuns(
  blocked: Int32Array,
  left: number,
  right: number,
  { along, kerfAlong, shortest }: RunsAsked,
  into: number[],
): void {
  let clearFrom = 0;
  for (let at = 0; at < blocked.length; at += 4) {
    if (blocked[at + 2]! >= right || blocked[at + 3]! <= left) continue;
    const from = blocked[at]!;
    let to = blocked[at + 1]!;
    if (from - clearFrom >= shortest) {
      into.push(clearFrom, from);
      // A defect narrower than the blade still parts two runs by a full blade.
      to = Math.max(to, from + kerfAlong);
    }
    if (to > clearFrom) clearFrom = to;
  }
  if (along - clearFrom >= shortest) into.push(clearFrom, along);
}

function anchorsOf(view: View): ReadonlySet<number> {
  const anchors = new Set([0]);
  for (const blocked of view.blocked) for (let at = 0; at < blocked.length; at += 4) anchors.add(blocked[at + 3]!);
  return anchors;
}

function startsOf(view: View, sizes: Int32Array, most: number, anchors: ReadonlySet<number>): Int32Array {
  const last = view.across - (sizes[0] ?? view.across);
  const reached = new Uint8Array(view.across + view.kerfAcross + 2);
  for (const anchor of anchors) if (anchor <= last) reached[anchor] = 1;
  for (let at = 0; at <= last; at++) {
    for (let k = 0; reached[at] === 0 && k < sizes.length; k++) {
      const behind = at - sizes[k]! - view.kerfAcross;
      if (behind < 0) break;
      reached[at] = reached[behind]!;
    }
  }
  const all: number[] = [];
  for (let at = 0; at <= last; at++) if (reached[at] === 1) all.push(at);
  const kept = all.length <= most ? all : all.filter((at, i) => anchors.has(at) || (i * most) % all.length < most);
  return Int32Array.from([...kept, view.across + view.kerfAcross]);
}
