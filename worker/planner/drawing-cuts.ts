/** Saw lines with their numbers, and the lengths and widths between the cuts that go through the whole board. */
import type { Cut } from '../contract/plan.ts';
import { type Shown, tape } from './cut-words.ts';
import { type Pen, penLine, penMark, penText, placeFor, textWidthMm } from './drawing-pen.ts';
import { acrossMm, alongMm, type View } from './drawing-view.ts';

type CutLine = Omit<Cut, 'no' | 'words'>;
interface Face {
  readonly lengthNm: number;
  readonly widthNm: number;
}

/** Radius of a cut's number, in letter heights. */
const MARK = 0.68;
const ROW = 2 * MARK + 0.15;
const ROWS_MAX = 4;
/** A number that has no room at its size, as part of it. */
const SMALL = 0.82;

const isThroughWidth = (cut: CutLine, face: Face): boolean =>
  cut.axis === 'crosscut' && cut.of.leftNm === 0 && cut.of.rightNm === face.widthNm;
const isThroughLength = (cut: CutLine, face: Face): boolean =>
  cut.axis === 'rip' && cut.of.fromNm === 0 && cut.of.toNm === face.lengthNm;

/** Middle of the blade's path, kept on the stock where the blade hangs over its edge. */
function bladeNm(cut: CutLine): number {
  const [near, far] = cut.axis === 'crosscut' ? [cut.of.fromNm, cut.of.toNm] : [cut.of.leftNm, cut.of.rightNm];
  return Math.min(far, Math.max(near, cut.atNm + cut.kerfNm / 2));
}

export interface MarkRows {
  /** Row above the board, 0 next to it, by the cut's place in the list. */
  readonly rowOf: ReadonlyMap<number, number>;
  readonly letters: number;
}

/** Numbers of crosscuts through the whole width stand above the board, in as many rows as keep them apart. */
export function markRows(cuts: readonly CutLine[], face: Face, letterNm: number): MarkRows {
  const through = cuts
    .map((cut, index) => ({ index, at: bladeNm(cut), is: isThroughWidth(cut, face) }))
    .filter((cut) => cut.is)
    .sort((a, b) => a.at - b.at);
  const endOf: number[] = [];
  const rowOf = new Map<number, number>();
  for (const { index, at } of through) {
    let row = 0;
    while (row < ROWS_MAX - 1 && (endOf[row] ?? -Infinity) > at) row++;
    endOf[row] = at + letterNm * ROW;
    rowOf.set(index, row);
  }
  return { rowOf, letters: rowOf.size === 0 ? MARK + 0.15 : 0.3 + ROW * Math.max(1, endOf.length) };
}

export function penCuts(pen: Pen, view: View, cuts: readonly CutLine[], rows: MarkRows): void {
  const r = pen.letterMm * MARK;
  const marks: (() => void)[] = [];
  for (const [index, cut] of cuts.entries()) {
    const no = String(index + 1);
    const row = rows.rowOf.get(index);
    const middle = bladeNm(cut);
    if (cut.axis === 'crosscut') {
      const x = alongMm(view, middle);
      const [top, bottom] = [acrossMm(view, cut.of.leftNm), acrossMm(view, cut.of.rightNm)];
      const above = row === undefined ? null : view.topMm - pen.letterMm * (0.2 + ROW * row) - r;
      penLine(pen, 'cut', [x, above === null ? top : above + r], [x, bottom]);
      if (above === null)
        marks.push(() => {
          // Clear of the lengths under the board.
          const lowest = view.topMm + view.boardHeightMm - r + 0.3 * pen.letterMm;
          const places = [0.5, 0.25, 0.75, 0, 1, 0.375, 0.625].map((part) => {
            return { x, y: Math.min(lowest, top + (bottom - top) * part) };
          });
          penMarkAt(pen, places, r, no);
        });
      else marks.unshift(() => penMark(pen, 'cut', x, above, r, no));
      continue;
    }
    const y = acrossMm(view, middle);
    const [start, end] = [alongMm(view, cut.of.fromNm), alongMm(view, cut.of.toNm)];
    penLine(pen, 'cut', [start, y], [end, y]);
    marks.push(() => {
      const first = Math.min(start + 1.6 * r, (start + end) / 2);
      const steps = Array.from({ length: 12 }, (_, step) => ({ x: first + step * 1.15 * r, y }));
      const places = steps.filter((place) => place.x + r <= end || place.x === first);
      penMarkAt(pen, places, r, no);
    });
  }
  for (const mark of marks) mark();
}

/** At the first free place; smaller where there is none at its size, and last where it covers least. */
function penMarkAt(pen: Pen, places: readonly { readonly x: number; readonly y: number }[], r: number, no: string) {
  const at = (radius: number) => placeFor(pen, places, { w: 2 * radius, h: 2 * radius });
  const found = at(r);
  if (found?.isFree) return penMark(pen, 'cut', found.place.x, found.place.y, r, no);
  const small = at(r * SMALL);
  if (small) penMark(pen, 'cut', small.place.x, small.place.y, r * SMALL, no);
}

/** The stretches between the cuts through the whole board, as [from, to] along or across. */
function stretches(cuts: readonly CutLine[], endNm: number): (readonly [number, number])[] {
  const blades = cuts.map((cut) => [cut.atNm, cut.atNm + cut.kerfNm] as const).sort((a, b) => a[0] - b[0]);
  const out: (readonly [number, number])[] = [];
  let start = 0;
  for (const [from, to] of [...blades, [endNm, endNm] as const]) {
    if (from > start) out.push([start, from]);
    start = Math.max(start, to);
  }
  return out;
}

/** Widths that stand beside the board, as [left, right]. */
const widthsBeside = (cuts: readonly CutLine[], face: Face): (readonly [number, number])[] =>
  stretches(
    cuts.filter((cut) => isThroughLength(cut, face)),
    face.widthNm,
  );

/** Letter heights that the longest width beside the board needs. */
export function acrossLetters(face: Face, cuts: readonly CutLine[], shown: Shown): number {
  const texts = widthsBeside(cuts, face).map(([left, right]) => tape(right - left, shown));
  return 1.4 + Math.max(...texts.map((text) => textWidthMm(text, 1)));
}

/** Dimension lines under the board and at its far end. Returns how many letter heights they take below. */
export function penDimensions(pen: Pen, view: View, face: Face, cuts: readonly CutLine[], shown: Shown): number {
  const along = stretches(
    cuts.filter((cut) => isThroughWidth(cut, face)),
    face.lengthNm,
  );
  const across = widthsBeside(cuts, face);
  const L = pen.letterMm;
  const bottom = view.topMm + view.boardHeightMm;
  const rows = along.length > 1 ? [along, [[0, face.lengthNm] as const]] : [along];
  // Under the numbers of rips along the board's far edge.
  const lowestMm = Math.max(bottom, ...pen.shapes.map((one) => (one.shape === 'mark' ? one.y + one.r : bottom)));
  const under = Math.max(0.9, (lowestMm - bottom) / L + 0.55);
  for (const [row, list] of rows.entries()) {
    const y = bottom + L * (under + 1.45 * row);
    for (const [from, to] of list) penDimensionAlong(pen, view, y, [from, to], shown);
  }
  const x = view.leftMm + view.boardLengthMm + 0.7 * L;
  for (const [left, right] of across) {
    const [top, end] = [acrossMm(view, left), acrossMm(view, right)];
    if (end - top < L * 0.9) continue;
    penLine(pen, 'dim', [x, top], [x, end]);
    for (const y of [top, end]) penLine(pen, 'dim', [x - 0.35 * L, y], [x + 0.35 * L, y]);
    penText(pen, 'dim', { x: x + 0.5 * L, y: (top + end) / 2, anchor: 'start' }, tape(right - left, shown), L * 0.95);
  }
  return under + 0.6 + 1.45 * (rows.length - 1);
}

/** A line with an end tick each side and its figure in the middle, left out where the figure has no room. */
function penDimensionAlong(pen: Pen, view: View, y: number, [from, to]: readonly [number, number], shown: Shown): void {
  const L = pen.letterMm;
  const [x1, x2] = [alongMm(view, from), alongMm(view, to)];
  const text = tape(to - from, shown);
  const gap = textWidthMm(text, L) + 0.5 * L;
  for (const x of [x1, x2]) penLine(pen, 'dim', [x, y - 0.4 * L], [x, y + 0.4 * L]);
  if (x2 - x1 < gap - 0.5 * L) {
    penLine(pen, 'dim', [x1, y], [x2, y]);
    return;
  }
  const middle = (x1 + x2) / 2;
  if (x2 - x1 > gap + 0.6 * L) {
    penLine(pen, 'dim', [x1, y], [middle - gap / 2, y]);
    penLine(pen, 'dim', [middle + gap / 2, y], [x2, y]);
  }
  penText(pen, 'dim', { x: middle, y }, text);
}
