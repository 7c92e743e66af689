/**
 * A layout's cuts as a tree of stock. Cuts along one axis that follow on each other are one set of blades through one
 * piece of stock, so that the saw may take them in any order; what lies between the blades is the stock of the next stage.
 */
import type { Rect, SawCut } from './problem.ts';

export interface Stock {
  readonly rect: Rect;
  /** Null when it is not cut any further. */
  readonly axis: SawCut['axis'] | null;
  /** In order of place. */
  readonly blades: readonly { readonly at: number; readonly kerf: number }[];
  /** What lies between the blades, in order of place; nothing where a blade runs off the edge. */
  readonly between: readonly (Stock | null)[];
}

export const rectKey = (r: Rect): string => `${r.from},${r.to},${r.left},${r.right}`;

/** The part of `of` between two places along the cut's axis, or null when nothing is left there. */
export function rectBetween(of: Rect, axis: SawCut['axis'], start: number, end: number): Rect | null {
  if (start >= end) return null;
  return axis === 'crosscut'
    ? { from: start, to: end, left: of.left, right: of.right }
    : { from: of.from, to: of.to, left: start, right: end };
}

/** Where a piece of stock begins and ends along an axis: its ends for a crosscut, its edges for a rip. */
export const extent = (of: Rect, axis: SawCut['axis']): readonly [near: number, far: number] =>
  axis === 'crosscut' ? [of.from, of.to] : [of.left, of.right];

/** Null when two blades of one set overlap, so that they may not change their order. */
export function sawTree(whole: Rect, cuts: readonly SawCut[]): Stock | null {
  const cutOf = new Map(cuts.map((cut) => [rectKey(cut.of), cut]));
  return grow(whole, cutOf);
}

function grow(rect: Rect, cutOf: ReadonlyMap<string, SawCut>): Stock | null {
  const first = cutOf.get(rectKey(rect));
  if (!first) return { rect, axis: null, blades: [], between: [] };
  const axis = first.axis;
  const blades = bladesThrough(rect, axis, cutOf).sort((a, b) => a.at - b.at);
  const between: (Stock | null)[] = [];
  const [near, far] = extent(rect, axis);
  let start = near;
  for (const [index, blade] of [...blades, { at: far, kerf: 0 }].entries()) {
    if (index > 0 && index < blades.length && blade.at <= start) return null;
    const room = rectBetween(rect, axis, start, blade.at);
    const stock = room && grow(room, cutOf);
    if (room && !stock) return null;
    between.push(stock);
    start = blade.at + blade.kerf;
  }
  return { rect, axis, blades, between };
}

function bladesThrough(
  rect: Rect,
  axis: SawCut['axis'],
  cutOf: ReadonlyMap<string, SawCut>,
): { at: number; kerf: number }[] {
  const cut = cutOf.get(rectKey(rect));
  if (cut?.axis !== axis) return [];
  const [near, far] = extent(rect, axis);
  const sides = [rectBetween(rect, axis, near, cut.at), rectBetween(rect, axis, cut.at + cut.kerf, far)];
  return [{ at: cut.at, kerf: cut.kerf }, ...sides.flatMap((side) => (side ? bladesThrough(side, axis, cutOf) : []))];
}
