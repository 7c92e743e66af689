/**
 * The strips of a board that are worth looking at: each starts at the edge, behind a defect or behind another strip,
 * and is as wide as some blank. For each the clear runs along it, quality by quality. Built on demand, thrown away.
 */
import type { View } from './view.ts';

export interface StripSet {
  /** Where strips may start, ascending; the last entry stands for the far edge. */
  readonly starts: Int32Array;
  /** Distinct strip sizes across, ascending. */
  readonly sizes: Int32Array;
  /** For start * sizes + size: the start index behind the strip and its blade, or -1 where it does not fit. */
  readonly behind: Int32Array;
  /** For each quality: where the runs of strip s begin in `runs`, in numbers (two a run: from, to). */
  readonly runsAt: readonly Int32Array[];
  readonly runs: readonly Int32Array[];
  /** 1 where all qualities see the same runs. */
  readonly plain: Uint8Array;
}

export function stripSet(view: View, sizesWanted: readonly number[], startsMost: number): StripSet {
  const sizes = Int32Array.from([...new Set(sizesWanted)].sort((a, b) => a - b));
  const starts = startsOf(view, sizes, startsMost);
  const end = starts.length - 1;
  const behind = new Int32Array(starts.length * sizes.length).fill(-1);
  const plain = new Uint8Array(behind.length).fill(1);
  const indexAt = new Int32Array(view.across + view.kerfAcross + 1);
  for (let at = 0, index = 0; at < indexAt.length; at++) {
    // Positions that were thinned out round up to the next start: wood is lost, the pattern stays right.
    while (index < end && starts[index]! < at) index++;
    indexAt[at] = index;
  }
  const runsAt: Int32Array[] = view.blocked.map(() => new Int32Array(behind.length + 1));
  const found: number[][] = view.blocked.map(() => []);
  for (let start = 0; start < end; start++) {
    for (let size = 0; size < sizes.length; size++) {
      const strip = start * sizes.length + size;
      const left = starts[start]!;
      const right = left + sizes[size]!;
      const fits = right <= view.across;
      if (fits) behind[strip] = indexAt[Math.min(right + view.kerfAcross, indexAt.length - 1)]!;
      view.blocked.forEach((blocked, quality) => {
        const list = found[quality]!;
        if (fits) clearRuns(blocked, left, right, view.along, view.kerfAlong, list);
        runsAt[quality]![strip + 1] = list.length;
        if (quality > 0 && fits && !sameRuns(found[0]!, runsAt[0]!, list, runsAt[quality]!, strip)) plain[strip] = 0;
      });
    }
  }
  for (const at of runsAt)
    for (let strip = end * sizes.length; strip < behind.length; strip++) at[strip + 1] = at[strip]!;
  return { starts, sizes, behind, runsAt, runs: found.map((list) => Int32Array.from(list)), plain };
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

function startsOf(view: View, sizes: Int32Array, most: number): Int32Array {
  const last = view.across - (sizes[0] ?? view.across);
  const reached = new Uint8Array(view.across + view.kerfAcross + 2);
  const anchors = new Set([0]);
  for (const blocked of view.blocked) for (let at = 0; at < blocked.length; at += 4) anchors.add(blocked[at + 3]!);
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

function sameRuns(
  a: readonly number[],
  aAt: Int32Array,
  b: readonly number[],
  bAt: Int32Array,
  strip: number,
): boolean {
  const count = aAt[strip + 1]! - aAt[strip]!;
  if (bAt[strip + 1]! - bAt[strip]! !== count) return false;
  for (let i = 0; i < count; i++) if (a[aAt[strip]! + i] !== b[bAt[strip]! + i]) return false;
  return true;
}
