/**
 * A region round defects filled in some microseconds: blanks in an order made by chance, each in a corner of the clear
 * wood left, then the rests round it. Seldom the best there is, but thousands are tried in the time in which the best of
 * staged patterns is found for some dozens of regions.
 */
import { clearRects } from './clear-rects.ts';
import type { Kerf, PlacedBlank, Rect } from './problem.ts';
import type { Random } from './random.ts';
import type { Item, View } from './view.ts';

export interface RegionFill {
  readonly at: Rect;
  readonly view: View;
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly kerf: Kerf;
}

export interface Filled {
  readonly pieces: readonly PlacedBlank[];
  /** Steps done. */
  readonly work: number;
}

/** How much chance says in the order, at most. */
const NOISE = 0.6;
/** Blanks are ranked by price for this power of their area, one of these. */
const POWERS = [0, 0.6, 1, 1] as const;

/** A rest of the region, the clear wood in it by quality, and where in the order the blanks begin that may still fit. */
interface Rest {
  readonly at: Rect;
  readonly clear: readonly (readonly number[])[];
  readonly begin: number;
}

/** The view must not be turned. */
export function filledRegion({ at, view, prices, limits, kerf }: RegionFill, random: Random): Filled {
  const left = limits.slice();
  const order = inOrder({ at, view, prices, limits, kerf }, random);
  let shortest = Number.POSITIVE_INFINITY;
  let narrowest = Number.POSITIVE_INFINITY;
  for (const item of order) {
    if (item.along < shortest) shortest = item.along;
    if (item.across < narrowest) narrowest = item.across;
  }
  const all = clearRects(view);
  const pieces: PlacedBlank[] = [];
  const rests: Rest[] = [{ at, clear: all.map((list) => clipped(list, at, shortest, narrowest)), begin: 0 }];
  let work = view.items.length + order.length * 4;
  for (const list of all) work += list.length >> 2;
  for (let rest = rests.pop(); rest; rest = rests.pop()) {
    const corner = random.below(4);
    for (let turn = rest.begin; turn < order.length; turn++) {
      const item = order[turn]!;
      if (left[item.blank]! <= 0) continue;
      const clear = rest.clear[item.quality]!;
      work += 1 + (clear.length >> 2);
      const put = placed(clear, item, corner);
      if (!put) continue;
      left[item.blank]!--;
      pieces.push(put);
      for (const side of restsRound(rest.at, put, kerf, random)) {
        if (side.to - side.from < shortest || side.right - side.left < narrowest) continue;
        for (const list of rest.clear) work += list.length >> 1;
        rests.push({
          at: side,
          clear: rest.clear.map((list) => clipped(list, side, shortest, narrowest)),
          begin: turn,
        });
      }
      break;
    }
  }
  return { pieces, work };
}

function inOrder({ at, view, prices, limits, kerf }: RegionFill, random: Random): readonly Item[] {
  const power = POWERS[random.below(POWERS.length)]!;
  const noise = NOISE * random.next();
  const long = at.to - at.from;
  const wide = at.right - at.left;
  const ranked: { readonly item: Item; readonly rank: number }[] = [];
  for (const item of view.items) {
    const { blank, along, across } = item;
    if (limits[blank]! <= 0 || along > long || across > wide || prices[blank]! <= 0) continue;
    const area = (along + kerf.crosscut) * (across + kerf.rip);
    const worth = power === 0 ? prices[blank]! : prices[blank]! / (power === 1 ? area : area ** power);
    ranked.push({ item, rank: worth * (1 - noise * random.next()) });
  }
  return ranked.sort((a, b) => b.rank - a.rank || a.item.blank - b.item.blank).map(({ item }) => item);
}

/** In a corner of the smallest clear rectangle that holds it. corner: 1 for the far end, 2 for the far side, 3 for both. */
function placed(clear: readonly number[], { along, across, blank }: Item, corner: number): PlacedBlank | null {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < clear.length; k += 4) {
    const long = clear[k + 1]! - clear[k]!;
    const wide = clear[k + 3]! - clear[k + 2]!;
    if (long < along || wide < across || long * wide >= least) continue;
    best = k;
    least = long * wide;
  }
  if (best < 0) return null;
  const from = (corner & 1) === 0 ? clear[best]! : clear[best + 1]! - along;
  const left = (corner & 2) === 0 ? clear[best + 2]! : clear[best + 3]! - across;
  return { blank, from, to: from + along, left, right: left + across };
}

/** The stock left round a piece: crosscut on both sides of it first, or ripped, as the larger rest or chance will have it. */
function restsRound(rest: Rect, put: Rect, kerf: Kerf, random: Random): readonly Rect[] {
  const before = { ...rest, to: put.from - kerf.crosscut };
  const after = { ...rest, from: put.to + kerf.crosscut };
  const below = { ...rest, right: put.left - kerf.rip };
  const above = { ...rest, left: put.right + kerf.rip };
  const crosscutFirst =
    random.below(2) === 0
      ? random.below(2) === 0
      : Math.max(area(before), area(after)) >= Math.max(area(below), area(above));
  return crosscutFirst
    ? [before, after, { ...below, from: put.from, to: put.to }, { ...above, from: put.from, to: put.to }]
    : [below, above, { ...before, left: put.left, right: put.right }, { ...after, left: put.left, right: put.right }];
}

function area({ from, to, left, right }: Rect): number {
  return from < to && left < right ? (to - from) * (right - left) : 0;
}

/** What lies of these rectangles in another, where a blank could. */
function clipped(
  rects: readonly number[],
  { from, to, left, right }: Rect,
  shortest: number,
  narrowest: number,
): readonly number[] {
  const kept: number[] = [];
  for (let k = 0; k < rects.length; k += 4) {
    const a = Math.max(rects[k]!, from);
    const b = Math.min(rects[k + 1]!, to);
    if (b - a < shortest) continue;
    const c = Math.max(rects[k + 2]!, left);
    const d = Math.min(rects[k + 3]!, right);
    if (d - c >= narrowest) kept.push(a, b, c, d);
  }
  return kept;
}
