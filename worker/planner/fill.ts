/**
 * Puts blanks that are still wanted into what a pattern leaves over: best price first, in the corner of a rest or
 * behind a defect, then into what remains of that rest.
 */

import type { Kerf, PlacedBlank, Rect } from './problem.ts';
import { cutUp } from './saw-cuts.ts';
import { isClear, type View } from './view.ts';

/** The view must not be turned. Changes `left`, the copies still wanted. */
export function fillRests(
  view: View,
  kerf: Kerf,
  placed: readonly PlacedBlank[],
  priceOf: Float64Array,
  left: Int32Array,
): readonly PlacedBlank[] {
  const wanted = view.items
    .filter((item) => left[item.blank]! > 0 && priceOf[item.blank]! > 0)
    .sort((a, b) => priceOf[b.blank]! - priceOf[a.blank]! || a.blank - b.blank);
  if (wanted.length === 0) return placed;
  const shortest = Math.min(...wanted.map((item) => item.along));
  const narrowest = Math.min(...wanted.map((item) => item.across));
  const board = { from: 0, to: view.along, left: 0, right: view.across };
  const parted = cutUp(board, placed, kerf, null);
  if (!parted) return placed;
  const added: PlacedBlank[] = [];
  const stack: Rect[] = [...parted.rests];
  while (stack.length > 0) {
    const rect = stack.pop()!;
    if (rect.to - rect.from < shortest || rect.right - rect.left < narrowest) continue;
    const put = firstFit(view, rect, wanted, left);
    if (!put) continue;
    left[put.blank]!--;
    added.push(put);
    stack.push(...around(rect, put, kerf));
  }
  return added.length === 0 ? placed : [...placed, ...added];
}

function firstFit(view: View, rect: Rect, wanted: View['items'], left: Int32Array): PlacedBlank | null {
  for (const item of wanted) {
    if (left[item.blank]! <= 0) continue;
    if (item.along > rect.to - rect.from || item.across > rect.right - rect.left) continue;
    const blocked = view.blocked[item.quality]!;
    const spot = clearCorner(blocked, rect, item.along, item.across);
    if (spot) {
      const { from, left: near } = spot;
      return { blank: item.blank, from, to: from + item.along, left: near, right: near + item.across };
    }
  }
  return null;
}

function clearCorner(blocked: Int32Array, rect: Rect, along: number, across: number) {
  const froms = [rect.from];
  const lefts = [rect.left];
  for (let at = 0; at < blocked.length; at += 4) {
    if (blocked[at]! >= rect.to || blocked[at + 1]! <= rect.from) continue;
    if (blocked[at + 2]! >= rect.right || blocked[at + 3]! <= rect.left) continue;
    froms.push(blocked[at + 1]!);
    lefts.push(blocked[at + 3]!);
  }
  for (const near of lefts) {
    if (near + across > rect.right) continue;
    for (const from of froms) {
      if (from + along > rect.to) continue;
      if (isClear(blocked, from, from + along, near, near + across)) return { from, left: near };
    }
  }
  return null;
}

/** The stock left round a piece; the larger side stays whole. */
function around(rect: Rect, put: Rect, kerf: Kerf): Rect[] {
  const before = { ...rect, to: put.from - kerf.crosscut };
  const after = { ...rect, from: put.to + kerf.crosscut };
  const below = { ...rect, right: put.left - kerf.rip };
  const above = { ...rect, left: put.right + kerf.rip };
  const longRest = Math.max(area(before), area(after));
  const wideRest = Math.max(area(below), area(above));
  const sides =
    longRest >= wideRest
      ? [before, after, { ...below, from: put.from, to: put.to }, { ...above, from: put.from, to: put.to }]
      : [below, above, { ...before, left: put.left, right: put.right }, { ...after, left: put.left, right: put.right }];
  return sides.filter((side) => area(side) > 0);
}

function area(rect: Rect): number {
  return rect.from < rect.to && rect.left < rect.right ? (rect.to - rect.from) * (rect.right - rect.left) : 0;
}
