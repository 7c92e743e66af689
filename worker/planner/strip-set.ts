/**
 * The strips of a board that are worth looking at: each starts at the edge, behind a defect or behind another strip,
 * and is as wide as some blank. Strips that meet the same defects have the same clear runs, so those are kept once: a
 * board has thousands of strips and some dozens of such kinds.
 */
import type { View } from './view.ts';

export interface StripSet {
  /** Where strips may start, ascending; the last entry stands for the far edge. */
  readonly starts: Int32Array;
  /** Distinct strip sizes across, ascending. */
  readonly sizes: Int32Array;
  /** For start * sizes + size: the start index behind the strip and its blade, or -1 where it does not fit. */
  readonly behind: Int16Array;
  /** For each strip which of the kinds it is. */
  readonly kindOf: Uint16Array;
  readonly kinds: readonly StripKind[];
  /** For each start 1 where it is the edge or the far side of a defect: elsewhere only a strip before it gives it sense. */
  readonly anchored: Uint8Array;
}

export interface StripKind {
  /** For each quality the clear runs: from, to, from, to ... */
  readonly runs: readonly Int32Array[];
  /** Between these the qualities see different runs; from >= to where they never do. */
  readonly mixedFrom: number;
  readonly mixedTo: number;
}

export function stripSet(view: View, sizesWanted: readonly number[], startsMost: number): StripSet {
  const sizes = Int32Array.from([...new Set(sizesWanted)].sort((a, b) => a - b));
  const anchors = anchorsOf(view);
  const starts = startsOf(view, sizes, startsMost, anchors);
  const end = starts.length - 1;
  const behind = new Int16Array(starts.length * sizes.length).fill(-1);
  const kindOf = new Uint16Array(behind.length);
  const indexAt = new Int16Array(view.across + view.kerfAcross + 1);
  for (let at = 0, index = 0; at < indexAt.length; at++) {
    // Positions that were thinned out round up to the next start: wood is lost, the pattern stays right.
    while (index < end && starts[index]! < at) index++;
    indexAt[at] = index;
  }
  const kinds: StripKind[] = [];
  const known = new Map<string, number>();
  // Which defects a strip meets follows from how many end before it and how many begin before its far side.
  const ended = countsUpTo(view, 3);
  const begun = countsUpTo(view, 2);
  const span = begun.at(-1)! + 1;
  const kindAt = new Int32Array((ended.at(-1)! + 1) * span).fill(-1);
  for (let start = 0; start < end; start++) {
    for (let size = 0; size < sizes.length; size++) {
      const strip = start * sizes.length + size;
      const left = starts[start]!;
      const right = left + sizes[size]!;
      if (right > view.across) break;
      behind[strip] = indexAt[Math.min(right + view.kerfAcross, indexAt.length - 1)]!;
      const met = ended[left]! * span + begun[right - 1]!;
      if (kindAt[met]! < 0) {
        const key = defectsMet(view, left, right);
        const same = known.get(key);
        kindAt[met] = same ?? kinds.push(kindBetween(view, left, right)) - 1;
        known.set(key, kindAt[met]!);
      }
      kindOf[strip] = kindAt[met]!;
    }
  }
  const anchored = Uint8Array.from(starts, (at) => (anchors.has(at) ? 1 : 0));
  return { starts, sizes, behind, kindOf, kinds, anchored };
}

/** For each position across, how many defects have their side there or before: side 2 is the near one, 3 the far one. */
function countsUpTo(view: View, side: 2 | 3): Int32Array {
  const counts = new Int32Array(view.across + 1);
  for (const blocked of view.blocked) for (let at = 0; at < blocked.length; at += 4) counts[blocked[at + side]!]!++;
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
  const runs = view.blocked.map((blocked) => {
    const list: number[] = [];
    clearRuns(blocked, left, right, view.along, view.kerfAlong, list);
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

/** Clear stretches of the band left..right, appended as from, to. */
export function clearRuns(
  blocked: Int32Array,
  left: number,
  right: number,
  along: number,
  kerfAlong: number,
  into: number[],
): void {
  let clearFrom = 0;
  for (let at = 0; at < blocked.length; at += 4) {
    if (blocked[at + 2]! >= right || blocked[at + 3]! <= left) continue;
    const from = blocked[at]!;
    if (from > clearFrom) into.push(clearFrom, from);
    // A defect narrower than the blade still parts two runs by a full blade.
    const to = from > clearFrom ? Math.max(blocked[at + 1]!, from + kerfAlong) : blocked[at + 1]!;
    if (to > clearFrom) clearFrom = to;
  }
  if (along > clearFrom) into.push(clearFrom, along);
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
    if (reached[at] === 0) continue;
    for (const size of sizes) {
      const next = at + size + view.kerfAcross;
      if (next <= last) reached[next] = 1;
    }
  }
  const all: number[] = [];
  for (let at = 0; at <= last; at++) if (reached[at] === 1) all.push(at);
  const kept = all.length <= most ? all : all.filter((at, i) => anchors.has(at) || (i * most) % all.length < most);
  return Int32Array.from([...kept, view.across + view.kerfAcross]);
}
