/**
 * One board as a search sees it: strips run along its first axis. Turned, the same code that rips first crosscuts
 * first. Blank sizes are those needed on this very board.
 */
import type { PlacedBlank, Problem, Rect } from './problem.ts';

export interface Item {
  readonly blank: number;
  readonly along: number;
  readonly across: number;
  /** Index into the view's blocked lists. */
  readonly quality: number;
}

/** Whether nothing of a board is blocked, for any quality. */
export function hasNoDefects({ blocked }: { readonly blocked: readonly { readonly length: number }[] }): boolean {
  return blocked.every((list) => list.length === 0);
}

export interface View {
  readonly turned: boolean;
  readonly along: number;
  readonly across: number;
  /** What one blade takes along: the kerf of the cut that separates two blanks of one strip. */
  readonly kerfAlong: number;
  readonly kerfAcross: number;
  readonly items: readonly Item[];
  /** Also those longer or wider than the board: the same list for every board with these sizes. */
  readonly suited: readonly Item[];
  /** For each quality: from, to, left, right of every blocked rectangle in turn, sorted by from. */
  readonly blocked: readonly Int32Array[];
  /** tolerates[a][b]: wood clear for quality a is clear for quality b too. */
  readonly tolerates: readonly (readonly boolean[])[];
}

/** Where a blank stands, in the view's axes. */
export interface Spot {
  readonly item: Item;
  readonly along: number;
  readonly across: number;
}

export function viewOf(problem: Problem, board: number, turned: boolean): View {
  const stock = problem.boards[board]!;
  const lists: Int32Array[] = [];
  const listOfQuality = new Map<number, number>();
  const suited: Item[] = [];
  problem.blanks.forEach((blank, index) => {
    const size = stock.fits === null ? blank : stock.fits[index];
    if (!size) return;
    let list = listOfQuality.get(blank.quality);
    if (list === undefined) {
      const rects = flatten(stock.blocked[blank.quality] ?? [], stock.length, stock.width, turned);
      list = lists.findIndex((known) => same(known, rects));
      if (list < 0) list = lists.push(rects) - 1;
      listOfQuality.set(blank.quality, list);
    }
    suited.push({
      blank: index,
      along: turned ? size.width : size.length,
      across: turned ? size.length : size.width,
      quality: list,
    });
  });
  suited.sort((a, b) => a.across - b.across || a.along - b.along || a.blank - b.blank);
  return {
    turned,
    along: turned ? stock.width : stock.length,
    across: turned ? stock.length : stock.width,
    kerfAlong: turned ? problem.kerf.rip : problem.kerf.crosscut,
    kerfAcross: turned ? problem.kerf.crosscut : problem.kerf.rip,
    items: suited.filter(
      (item) =>
        item.along <= (turned ? stock.width : stock.length) && item.across <= (turned ? stock.length : stock.width),
    ),
    suited,
    blocked: lists,
    tolerates: lists.map((strict) => lists.map((loose) => covers(strict, loose))),
  };
}

export function placedOf(view: View, spot: Spot): PlacedBlank {
  const { item } = spot;
  return view.turned
    ? {
        blank: item.blank,
        from: spot.across,
        to: spot.across + item.across,
        left: spot.along,
        right: spot.along + item.along,
      }
    : {
        blank: item.blank,
        from: spot.along,
        to: spot.along + item.along,
        left: spot.across,
        right: spot.across + item.across,
      };
}

export function isClear(blocked: Int32Array, from: number, to: number, left: number, right: number): boolean {
  for (let at = 0; at < blocked.length; at += 4) {
    if (blocked[at]! < to && blocked[at + 1]! > from && blocked[at + 2]! < right && blocked[at + 3]! > left) {
      return false;
    }
  }
  return true;
}

function flatten(rects: readonly Rect[], length: number, width: number, turned: boolean): Int32Array {
  // A crack has no width, but no blank may lie across it.
  const kept = rects
    .filter((rect) => rect.from < length && rect.to > 0 && rect.left < width && rect.right > 0)
    .map((rect) => ({
      from: Math.max(0, rect.from),
      to: Math.min(length, rect.to),
      left: Math.max(0, rect.left),
      right: Math.min(width, rect.right),
    }))
    .filter((rect) => rect.from <= rect.to && rect.left <= rect.right)
    .map((rect) => (turned ? { from: rect.left, to: rect.right, left: rect.from, right: rect.to } : rect))
    .sort((a, b) => a.from - b.from || a.to - b.to || a.left - b.left || a.right - b.right);
  return Int32Array.from(kept.flatMap((rect) => [rect.from, rect.to, rect.left, rect.right]));
}

function same(a: Int32Array, b: Int32Array): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}

function covers(outer: Int32Array, inner: Int32Array): boolean {
  for (let i = 0; i < inner.length; i += 4) {
    let covered = false;
    for (let o = 0; o < outer.length && !covered; o += 4) {
      covered =
        outer[o]! <= inner[i]! &&
        outer[o + 1]! >= inner[i + 1]! &&
        outer[o + 2]! <= inner[i + 2]! &&
        outer[o + 3]! >= inner[i + 3]!;
    }
    if (!covered) return false;
  }
  return true;
}

/** Rectangles that only touch do not overlap. */
export const overlaps = (a: Rect, b: Rect): boolean =>
  a.from < b.to && b.from < a.to && a.left < b.right && b.left < a.right;
