/**
 * A plot drawn like a shop drawing: thin axes, the likely range as a tint, the likely curve as the one strong line, levels
 * dashed and named where they stand, measured points as dots. Laid out for a panel of 300 px; it needs no colour.
 */
import type { Drawing } from '../../contract/drawing.ts';
import type { Settings } from '../../contract/settings.ts';
import type { Plot } from '../../contract/wood-figure.ts';
import { type Pen, penLine, penText, placeFor, textWidthMm } from '../../planner/drawing-pen.ts';
import { dayInYearText, dayNumber, dayOfNumber } from '../../wood/day.ts';
import { lengthText } from '../../wood/length.ts';
import { NM_PER_INCH, NM_PER_MM } from '../../wood/unit.ts';

const SHEET = { widthMm: 100, heightMm: 66 };
const LETTER_MM = 3.7;
const SMALL_MM = 3.4;
const DOT_MM = 1;
/** Room for the figures on the left, the texts of the levels above, the dates below. */
const FRAME = { top: 6, right: 97, bottom: 56 };

interface Scale {
  readonly left: number;
  x(value: number): number;
  y(value: number): number;
}

export function plotDrawing(plot: Plot, settings: Settings): Drawing {
  const pen: Pen = { letterMm: LETTER_MM, shapes: [], taken: [] };
  const yTicks = ticksOf(plot, settings);
  const left = 3 + Math.max(...yTicks.map((tick) => textWidthMm(tick.text, SMALL_MM)));
  const scale = scaleOf(plot, left);
  for (const band of plot.bands) penPath(pen, 'band', outlineOf(band.points, scale), band.text);
  axes(pen, plot, scale, yTicks);
  for (const curve of plot.curves) penPath(pen, 'curve', lineOf(curve.points, scale), curve.text);
  for (const line of plot.lines) penLine(pen, 'level', [scale.left, scale.y(line.y)], [FRAME.right, scale.y(line.y)]);
  for (const mark of plot.marks) {
    const [x, y] = [scale.x(mark.x), scale.y(mark.y)];
    penPath(pen, 'reading', dot(x, y), mark.text);
    pen.taken.push({ x: x - DOT_MM, y: y - DOT_MM, w: 2 * DOT_MM, h: 2 * DOT_MM });
  }
  for (const line of plot.lines) nameLevel(pen, line.text, scale.y(line.y), scale.left);
  return {
    title: plot.title,
    description: plot.description,
    ...SHEET,
    shapes: pen.shapes,
    legend: [
      ...(plot.marks.length > 0 ? [{ role: 'reading' as const, text: 'readings' }] : []),
      ...plot.curves.map((curve) => ({ role: 'curve' as const, text: curve.text })),
      ...plot.bands.map((band) => ({ role: 'band' as const, text: band.text })),
    ],
  };
}

function scaleOf(plot: Plot, left: number): Scale {
  const { x, y } = plot;
  const span = (from: number, to: number) => (to > from ? to - from : 1);
  return {
    left,
    x: (value) => left + ((value - x.from) / span(x.from, x.to)) * (FRAME.right - left),
    y: (value) => FRAME.bottom - ((value - y.from) / span(y.from, y.to)) * (FRAME.bottom - FRAME.top),
  };
}

const round = (mm: number) => Math.round(mm * 100) / 100;
const point = (x: number, y: number) => `${round(x)} ${round(y)}`;

function penPath(pen: Pen, role: Drawing['shapes'][number]['role'], d: string, title: string): void {
  pen.shapes.push({ shape: 'path', role, d, title });
}

const lineOf = (points: Plot['curves'][number]['points'], scale: Scale) =>
  `M${points.map((p) => point(scale.x(p.x), scale.y(p.y))).join('L')}`;

/** Along the low edge and back along the high one. */
function outlineOf(points: Plot['bands'][number]['points'], scale: Scale): string {
  const low = points.map((p) => point(scale.x(p.x), scale.y(p.low)));
  const high = points.map((p) => point(scale.x(p.x), scale.y(p.high))).reverse();
  return `M${[...low, ...high].join('L')}Z`;
}

const dot = (x: number, y: number) =>
  `M${point(x - DOT_MM, y)}a${DOT_MM} ${DOT_MM} 0 1 0 ${2 * DOT_MM} 0a${DOT_MM} ${DOT_MM} 0 1 0 ${-2 * DOT_MM} 0Z`;

function axes(pen: Pen, plot: Plot, scale: Scale, yTicks: readonly { readonly y: number; readonly text: string }[]) {
  penLine(pen, 'outline', [scale.left, FRAME.top], [scale.left, FRAME.bottom]);
  penLine(pen, 'outline', [scale.left, FRAME.bottom], [FRAME.right, FRAME.bottom]);
  for (const tick of yTicks) {
    const y = scale.y(tick.y);
    penLine(pen, 'dim', [scale.left - 1, y], [FRAME.right, y]);
    penText(pen, 'dim', { x: scale.left - 1.5, y, anchor: 'end' }, tick.text, SMALL_MM);
  }
  const texts = plot.x.ticks.map((tick) => ({
    x: scale.x(tick.x),
    text: tickText(tick.x, tick.text, plot.x.startsOn),
  }));
  for (const { x, text } of spaced(texts)) {
    penLine(pen, 'dim', [x, FRAME.bottom], [x, FRAME.bottom + 1.2]);
    const half = textWidthMm(text, SMALL_MM) / 2;
    const middle = Math.min(FRAME.right + 2 - half, Math.max(half, x));
    penText(pen, 'dim', { x: middle, y: FRAME.bottom + 4.5 }, text, SMALL_MM);
  }
}

/** "3 Dec": the year stands in the words. */
function tickText(x: number, text: string, startsOn: string | null): string {
  if (startsOn === null) return text;
  return dayInYearText(dayOfNumber(dayNumber(startsOn) + x));
}

/** Every text, or every second, third… of them, so that none touches the next. */
function spaced<T extends { readonly x: number; readonly text: string }>(texts: readonly T[]): readonly T[] {
  const widest = Math.max(0, ...texts.map(({ text }) => textWidthMm(text, SMALL_MM))) + 1.2;
  const gap = texts.length < 2 ? widest : ((texts.at(-1)?.x ?? 0) - (texts[0]?.x ?? 0)) / (texts.length - 1);
  const step = Math.max(1, Math.ceil(widest / Math.max(gap, 0.1)));
  return texts.filter((_, at) => at % step === 0);
}

/** Above its line or under it, on the right or the left: where least stands in the way. */
function nameLevel(pen: Pen, text: string, y: number, left: number): void {
  const w = textWidthMm(text, SMALL_MM);
  const [right, start] = [FRAME.right - w / 2, left + 1 + w / 2];
  const [above, under] = [y - SMALL_MM * 0.75, y + SMALL_MM * 0.75];
  const places = [
    { x: right, y: above },
    { x: right, y: under },
    { x: start, y: above },
    { x: start, y: under },
  ].filter((place) => place.y < FRAME.bottom - SMALL_MM / 2);
  const found = placeFor(pen, places, { w, h: SMALL_MM });
  if (found) penText(pen, 'level', found.place, text, SMALL_MM);
}

const PERCENT_STEPS = [0.5, 1, 2, 5, 10, 20, 50];
const INCH_STEPS = [1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 12].map((inch) => inch * NM_PER_INCH);
const MM_STEPS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100].map((mm) => mm * NM_PER_MM);
const TICKS_MAX = 8;

/** Round figures of the shop's unit, at most eight. */
function ticksOf(plot: Plot, settings: Settings): { y: number; text: string }[] {
  const { from, to, unit } = plot.y;
  const steps = unit === '%' ? PERCENT_STEPS : settings.shown === 'in' ? INCH_STEPS : MM_STEPS;
  const step = steps.find((size) => (to - from) / size <= TICKS_MAX - 1) ?? (to - from) / (TICKS_MAX - 1);
  const first = Math.ceil(from / step);
  const last = Math.floor(to / step);
  return Array.from({ length: Math.max(0, last - first) + 1 }, (_, at) => {
    const y = (first + at) * step;
    const text =
      unit === '%'
        ? `${Math.round(y * 10) / 10} %`
        : lengthText(Math.round(y), { system: settings.shown, denominator: 64 });
    return { y, text };
  });
}
