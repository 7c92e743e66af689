/** Clear wood of a board as rectangles that cannot be made larger, by quality: a blank lies clear when it lies in one. */
import { clearRuns } from './strip-set.ts';
import type { View } from './view.ts';

/** Looked at once for a board: regions of it are filled thousands of times. */
const known = new WeakMap<View, readonly (readonly number[])[]>();

/** For each quality: from, to, left and right of every rectangle in turn, those alone that could hold some blank. */
export function clearRects(view: View): readonly (readonly number[])[] {
  const before = known.get(view);
  if (before) return before;
  const rects = view.blocked.map((blocked, quality) => largestIn(view, blocked, quality));
  known.set(view, rects);
  return rects;
}

function largestIn({ along, across, items }: View, blocked: Int32Array, quality: number): readonly number[] {
  const own = items.filter((item) => item.quality === quality);
  const shortest = own.reduce((least, item) => Math.min(least, item.along), Number.POSITIVE_INFINITY);
  const narrowest = own.reduce((least, item) => Math.min(least, item.across), Number.POSITIVE_INFINITY);
  const lefts = new Set([0]);
  const rights = new Set([across]);
  for (let at = 0; at < blocked.length; at += 4) {
    lefts.add(blocked[at + 3]!);
    rights.add(blocked[at + 2]!);
  }
  const found: number[] = [];
  for (const left of lefts) {
    for (const right of rights) {
      if (right - left < narrowest) continue;
      const runs: number[] = [];
      clearRuns(blocked, left, right, { along, kerfAlong: 0, shortest }, runs);
      for (let run = 0; run < runs.length; run += 2) {
        const [from, to] = [runs[run]!, runs[run + 1]!];
        const isHeld =
          (left === 0 || endsAt(blocked, 3, left, from, to)) &&
          (right === across || endsAt(blocked, 2, right, from, to));
        if (isHeld) found.push(from, to, left, right);
      }
    }
  }
  return found;
}

/** Whether some defect between from and to has its near (2) or far side (3) there. */
export function endsAt(blocked: Int32Array, side: 2 | 3, at: number, from: number, to: number): boolean {
  for (let k = 0; k < blocked.length; k += 4) {
    if (blocked[k + side] === at && blocked[k]! < to && blocked[k + 1]! > from) return true;
  }
  return false;
}
