/**
 * Where the words of a drawing go when it is shown small. Letters never shrink below what can be read: a word that does
 * not fit its place is shortened, turned along a narrow piece, or left to the list beneath the drawing.
 */
import type { Role, Shape } from '../../../worker/contract/drawing.ts';

export interface PlacedText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly role: Role;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly turned: boolean;
}

export interface TextSpace {
  /** Pixels a millimetre along the board. */
  readonly x: number;
  /** Pixels a millimetre across the board. */
  readonly y: number;
  readonly padPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

const LETTER_PX = 11;
/** Mean advance of a letter, of its height, in the fonts of common systems. */
const ADVANCE = 0.56;
const LETTERS_MIN = 3;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export function textWidthPx(text: string): number {
  return text.length * LETTER_PX * ADVANCE;
}

export function placeTexts(shapes: readonly Shape[], space: TextSpace): PlacedText[] {
  const rects = shapes.flatMap((shape) => (shape.shape === 'rect' ? [boxOf(shape, space)] : []));
  const taken: Box[] = shapes.flatMap((shape) => (shape.shape === 'mark' ? [markBox(shape, space)] : []));
  const placed: PlacedText[] = [];
  const texts = shapes.flatMap((shape) => (shape.shape === 'text' ? [shape] : []));
  // Parts first, then what is kept, then dimensions: where two words want one place, the part is named.
  const order = (role: Role) => (role === 'blank' ? 0 : role === 'offcut' ? 1 : role === 'dim' ? 3 : 2);
  for (const text of texts.toSorted((a, b) => order(a.role) - order(b.role))) {
    const at = { x: space.padPx + text.x * space.x, y: space.padPx + text.y * space.y };
    const around = smallestAround(rects, at);
    const room =
      around === null ? null : { along: around.right - around.left - 4, across: around.bottom - around.top - 2 };
    for (const candidate of candidates(text, at, room)) {
      const box = boxOfText(candidate);
      if (box.left < 0 || box.right > space.widthPx || box.top < 0 || box.bottom > space.heightPx) continue;
      if (taken.some((other) => overlaps(other, box))) continue;
      taken.push(box);
      placed.push(candidate);
      break;
    }
  }
  return placed;
}

type TextShape = Extract<Shape, { shape: 'text' }>;

function candidates(
  text: TextShape,
  at: { readonly x: number; readonly y: number },
  room: { readonly along: number; readonly across: number } | null,
): PlacedText[] {
  const plain: PlacedText = { ...at, text: text.text, role: text.role, anchor: text.anchor, turned: text.turned };
  if (text.turned || text.role === 'dim' || room === null) return [plain];
  const along: PlacedText[] = [];
  const full = textWidthPx(text.text);
  if (room.across >= LETTER_PX - 2) {
    const short = shortened(text.text, room.along);
    if (full <= room.along) return [plain, { ...plain, anchor: 'middle' }];
    if (room.along >= LETTER_PX && full <= room.across) along.push({ ...plain, anchor: 'middle', turned: true });
    if (short !== null) along.push({ ...plain, text: short, anchor: 'middle' });
    if (short === null && room.along >= LETTER_PX) {
      const turned = shortened(text.text, room.across);
      if (turned !== null) along.push({ ...plain, text: turned, anchor: 'middle', turned: true });
    }
  }
  return along;
}

function shortened(text: string, roomPx: number): string | null {
  const letters = Math.floor(roomPx / (LETTER_PX * ADVANCE));
  if (letters >= text.length) return text;
  return letters <= LETTERS_MIN ? null : `${text.slice(0, letters - 1).trimEnd()}…`;
}

function boxOf(
  shape: { readonly x: number; readonly y: number; readonly w: number; readonly h: number },
  s: TextSpace,
): Box {
  return {
    left: s.padPx + shape.x * s.x,
    right: s.padPx + (shape.x + shape.w) * s.x,
    top: s.padPx + shape.y * s.y,
    bottom: s.padPx + (shape.y + shape.h) * s.y,
  };
}

function markBox(shape: { readonly x: number; readonly y: number }, s: TextSpace): Box {
  const x = s.padPx + shape.x * s.x;
  const y = s.padPx + shape.y * s.y;
  return { left: x - 8, right: x + 8, top: y - 8, bottom: y + 8 };
}

function boxOfText(text: PlacedText): Box {
  const span = textWidthPx(text.text);
  const half = LETTER_PX / 2;
  if (text.turned)
    return { left: text.x - half, right: text.x + half, top: text.y - span / 2, bottom: text.y + span / 2 };
  const left = text.anchor === 'start' ? text.x : text.anchor === 'end' ? text.x - span : text.x - span / 2;
  return { left, right: left + span, top: text.y - half, bottom: text.y + half };
}

function smallestAround(rects: readonly Box[], at: { readonly x: number; readonly y: number }): Box | null {
  let best: Box | null = null;
  for (const rect of rects) {
    if (at.x < rect.left || at.x > rect.right || at.y < rect.top || at.y > rect.bottom) continue;
    const smaller = best === null || area(rect) < area(best);
    if (smaller) best = rect;
  }
  return best;
}

const area = (box: Box) => (box.right - box.left) * (box.bottom - box.top);
const overlaps = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
