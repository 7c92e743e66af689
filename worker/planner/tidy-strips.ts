/** Given pieces ripped as a person would: each strip of one width, strips of one width beside each other. */
import type { PlacedBlank } from './problem.ts';
import { type Item, isClear, placedOf, type View } from './view.ts';

/** Orders of the widths that are tried: all of them up to so many widths. */
const WIDTHS_ALL = 4;

/** Layouts of just these pieces, in the board's own axes. counts: by blank. */
export function* sameWidthStrips(view: View, counts: Int32Array): Generator<readonly PlacedBlank[]> {
  const items = view.items.filter(({ blank }) => counts[blank]! > 0);
  const placeable = new Set(items.map(({ blank }) => blank));
  if (counts.some((count, blank) => count > 0 && !placeable.has(blank))) return;
  const widths = [...new Set(items.map(({ across }) => across))].sort((a, b) => b - a);
  for (const order of ordersOf(widths)) {
    const pieces = inStrips(view, items, order, counts.slice());
    if (pieces) yield pieces;
  }
}

function ordersOf(widths: readonly number[]): readonly (readonly number[])[] {
  if (widths.length > WIDTHS_ALL) return [widths, [...widths].reverse()];
  if (widths.length <= 1) return [widths];
  return widths.flatMap((first) => ordersOf(widths.filter((width) => width !== first)).map((rest) => [first, ...rest]));
}

/** Null where they do not all find room. left: what is still to be placed; used up. */
function inStrips(
  view: View,
  items: readonly Item[],
  order: readonly number[],
  left: Int32Array,
): readonly PlacedBlank[] | null {
  const pieces: PlacedBlank[] = [];
  let at = 0;
  for (const width of order) {
    const ofWidth = items
      .filter(({ across }) => across === width)
      .sort((a, b) => b.along - a.along || a.blank - b.blank);
    while (ofWidth.some(({ blank }) => left[blank]! > 0)) {
      if (at + width > view.across) return null;
      const strip = filledStrip(view, ofWidth, at, left);
      pieces.push(...strip);
      // Nothing finds room here: past the nearest bad wood there may be some.
      at = strip.length > 0 ? at + width + view.kerfAcross : nextStart(view, at);
    }
  }
  return pieces;
}

/** Longest first, each as near the end as it goes. */
function filledStrip(view: View, items: readonly Item[], at: number, left: Int32Array): readonly PlacedBlank[] {
  const taken: { readonly from: number; readonly to: number }[] = [];
  const pieces: PlacedBlank[] = [];
  for (const item of items)
    while (left[item.blank]! > 0) {
      const from = firstPlace(view, item, at, taken);
      if (from === null) break;
      left[item.blank]!--;
      taken.push({ from, to: from + item.along + view.kerfAlong });
      pieces.push(placedOf(view, { item, along: from, across: at }));
    }
  return pieces;
}

function firstPlace(
  view: View,
  item: Item,
  at: number,
  taken: readonly { readonly from: number; readonly to: number }[],
): number | null {
  const blocked = view.blocked[item.quality]!;
  const starts = [0, ...taken.map(({ to }) => to)];
  for (let k = 0; k < blocked.length; k += 4) starts.push(blocked[k + 1]!);
  starts.sort((a, b) => a - b);
  for (const from of starts) {
    const to = from + item.along;
    if (to > view.along) return null;
    if (taken.some((one) => one.from < to + view.kerfAlong && one.to > from)) continue;
    if (isClear(blocked, from, to, at, at + item.across)) return from;
  }
  return null;
}

function nextStart(view: View, at: number): number {
  let next = Number.POSITIVE_INFINITY;
  for (const blocked of view.blocked)
    for (let k = 3; k < blocked.length; k += 4) if (blocked[k]! > at) next = Math.min(next, blocked[k]!);
  return next;
}
