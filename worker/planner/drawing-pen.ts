/** Puts shapes on the sheet and remembers where something legible stands, so that no number covers another. */
import type { Role, Shape } from '../contract/drawing.ts';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export interface Pen {
  readonly letterMm: number;
  readonly shapes: Shape[];
  readonly taken: Box[];
}

/** Middle width of a letter of a plain typeface in its own height. From memory; generous, so that texts keep apart. */
const LETTER_WIDTH = 0.6;

/** Smallest letters, as part of the sheet's own. */
const LEGIBLE = 0.75;
/** Left free round a text inside a piece, as part of its letters. */
const CLEAR = 0.2;
/** Texts up to so many letters are marks, which may be written smaller. */
const SHORT = 4;

/** From the middle of the letters' height to their foot, as part of their size. */
const FOOT = 0.35;

const round = (mm: number): number => Math.round(mm * 10) / 10;

export const textWidthMm = (text: string, sizeMm: number): number => text.length * LETTER_WIDTH * sizeMm;

/** A text cut short to what fits. */
export function textToFit(text: string, widthMm: number, sizeMm: number): string {
  // A text that just fits is not cut short for a rounding of its measure.
  const room = Math.floor(widthMm / (LETTER_WIDTH * sizeMm) + 1e-6);
  return text.length <= room ? text : `${text.slice(0, Math.max(0, room - 1)).trimEnd()}…`;
}

export function penRect(pen: Pen, role: Role, box: Box, title?: string): void {
  const at = { x: round(box.x), y: round(box.y), w: round(box.w), h: round(box.h) };
  pen.shapes.push({ shape: 'rect', role, ...at, ...(title === undefined ? {} : { title }) });
}

export function penLine(pen: Pen, role: Role, from: readonly [number, number], to: readonly [number, number]): void {
  const [x1, y1, x2, y2] = [from[0], from[1], to[0], to[1]].map(round) as [number, number, number, number];
  pen.shapes.push({ shape: 'line', role, x1, y1, x2, y2 });
}

/** y is the middle of the letters' height; turned text reads from below, about its own middle. */
export function penText(
  pen: Pen,
  role: Role,
  at: {
    readonly x: number;
    readonly y: number;
    readonly anchor?: 'start' | 'middle' | 'end';
    readonly turned?: boolean;
  },
  text: string,
  sizeMm: number = pen.letterMm,
): void {
  const anchor = at.anchor ?? 'middle';
  const foot = sizeMm * FOOT;
  const turned = at.turned ?? false;
  pen.shapes.push({
    shape: 'text',
    role,
    x: round(turned ? at.x + foot : at.x),
    y: round(turned ? at.y : at.y + foot),
    size: round(sizeMm),
    anchor,
    turned,
    text,
  });
  const width = textWidthMm(text, sizeMm);
  const x = anchor === 'middle' ? at.x - width / 2 : anchor === 'end' ? at.x - width : at.x;
  pen.taken.push(
    turned
      ? { x: at.x - sizeMm / 2, y: at.y - width / 2, w: sizeMm, h: width }
      : { x, y: at.y - sizeMm / 2, w: width, h: sizeMm },
  );
}

export function penMark(pen: Pen, role: Role, x: number, y: number, r: number, text: string): void {
  pen.shapes.push({ shape: 'mark', role, x: round(x), y: round(y), r: round(r), text });
  pen.taken.push({ x: x - r, y: y - r, w: 2 * r, h: 2 * r });
}

const shared = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y));

const covered = (pen: Pen, box: Box): number => pen.taken.reduce((sum, other) => sum + shared(box, other), 0);

/** The first place that covers nothing legible, or else the one that covers least. */
export function placeFor<T extends { readonly x: number; readonly y: number }>(
  pen: Pen,
  places: readonly T[],
  size: { readonly w: number; readonly h: number },
): { readonly place: T; readonly isFree: boolean } | null {
  let best: { place: T; covers: number } | null = null;
  for (const place of places) {
    const covers = covered(pen, { x: place.x - size.w / 2, y: place.y - size.h / 2, ...size });
    if (!best || covers < best.covers) best = { place, covers };
    if (covers === 0) break;
  }
  return best && { place: best.place, isFree: best.covers === 0 };
}

/** Writes the longest of the texts that has room inside the box clear of all else, a short one rather small than not at all. */
export function penWhereFree(pen: Pen, role: Role, box: Box, texts: readonly string[]): boolean {
  const size = Math.min(pen.letterMm, box.h * 0.9);
  const smallMm = pen.letterMm * LEGIBLE;
  for (const text of texts)
    for (const letterMm of text.length <= SHORT && size > smallMm ? [size, smallMm] : [Math.max(size, smallMm)]) {
      const width = textWidthMm(text, letterMm);
      if (width > box.w * 0.96) continue;
      const room = { w: width + CLEAR * letterMm, h: letterMm * (1 + CLEAR) };
      const found = placeFor(pen, placesInside(box, width, letterMm), room);
      if (!found?.isFree) continue;
      penText(pen, role, found.place, text, letterMm);
      return true;
    }
  return false;
}

/** As `penWhereFree`; the last of the texts is written in any case, small and where it covers least. */
export function penInside(pen: Pen, role: Role, box: Box, texts: readonly string[]): void {
  const last = texts.at(-1);
  if (penWhereFree(pen, role, box, texts) || last === undefined) return;
  const smallMm = pen.letterMm * LEGIBLE;
  const width = textWidthMm(last, smallMm);
  const found = placeFor(pen, placesInside(box, width, smallMm), { w: width, h: smallMm });
  penText(pen, role, found?.place ?? { x: box.x + box.w / 2, y: box.y + box.h / 2 }, last, smallMm);
}

/** From the middle outwards. */
function placesInside(box: Box, width: number, letterMm: number): { x: number; y: number }[] {
  const [first, last] = [box.x + width / 2, box.x + box.w - width / 2];
  const y =
    box.h < letterMm
      ? [0.5]
      : [0.5, 0.3, 0.7, 0.15, 0.85].filter((part) => box.h * Math.min(part, 1 - part) >= letterMm / 2);
  return [0.5, 0.35, 0.65, 0.2, 0.8, 0, 1]
    .map((part) => Math.max(first, Math.min(last, box.x + box.w * part)))
    .flatMap((x) => (y.length === 0 ? [0.5] : y).map((part) => ({ x, y: box.y + box.h * part })));
}
