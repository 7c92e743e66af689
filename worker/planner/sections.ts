/** Where a board may be chopped into sections before these are ripped. */
import type { View } from './view.ts';

/** Places where sections may begin and end, in the view's axis along. */
export interface Sections {
  readonly edges: Int32Array;
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
