/**
 * A drawing as an SVG of its own, black on white: line weights and hatchings that survive a bad printer. The legend is
 * drawn under it.
 */
import type { Drawing, Role, Shape } from '../contract/drawing.ts';
import { textWidthMm } from './drawing-pen.ts';

interface Ink {
  readonly fill: 'none' | 'paper' | 'hatch' | 'grey' | 'ink';
  /** Line weight on the page or screen, whatever the scale; 0 for no line. */
  readonly weight: number;
  readonly dashes?: string;
}
const INK: Readonly<Record<Role, Ink>> = {
  outline: { fill: 'none', weight: 1.6 },
  blank: { fill: 'paper', weight: 0.9 },
  offcut: { fill: 'paper', weight: 0.9, dashes: '5 2.5' },
  scrap: { fill: 'hatch', weight: 0.4 },
  cut: { fill: 'paper', weight: 0.9 },
  dim: { fill: 'none', weight: 0.5 },
  ghost: { fill: 'hatch', weight: 0.9, dashes: '1.5 2.5' },
  grain: { fill: 'none', weight: 0.5 },
  band: { fill: 'grey', weight: 0 },
  curve: { fill: 'none', weight: 1.8 },
  level: { fill: 'none', weight: 0.9, dashes: '5 2.5' },
  reading: { fill: 'ink', weight: 0 },
  'defect-knot': { fill: 'hatch', weight: 0.9 },
  'defect-split': { fill: 'hatch', weight: 0.6 },
  'defect-wane': { fill: 'hatch', weight: 0.6 },
  'defect-stain': { fill: 'hatch', weight: 0.6 },
  'defect-rot': { fill: 'hatch', weight: 0.9 },
  'defect-other': { fill: 'hatch', weight: 0.6 },
};

/** Each hatching on a tile of 10 x 10: lines unless told otherwise. Tile is its size in letter heights. */
const HATCH: Readonly<
  Partial<Record<Role, { readonly tile: number; readonly path: string; readonly weight: number }>>
> = {
  scrap: { tile: 1.1, path: 'M0 10 10 0', weight: 0.5 },
  ghost: { tile: 0.8, path: 'M5 0V10', weight: 0.6 },
  'defect-knot': { tile: 0.55, path: 'M5 1.5A3.5 3.5 0 1 1 4.99 1.5Z', weight: 1.4 },
  'defect-split': { tile: 0.32, path: 'M0 5H10', weight: 2.6 },
  'defect-wane': { tile: 0.45, path: 'M0 0 10 10M-2 8 2 12M8 -2 12 2', weight: 1.8 },
  'defect-stain': { tile: 0.42, path: 'M4 5H6', weight: 2.6 },
  'defect-rot': { tile: 0.45, path: 'M0 0 10 10M0 10 10 0', weight: 1.7 },
  'defect-other': { tile: 0.5, path: 'M5 2V8M2 5H8', weight: 1.4 },
};

/** idPrefix keeps the hatchings of several drawings on one page apart. */
export function drawingSvg(drawing: Drawing, { idPrefix }: { readonly idPrefix: string }): string {
  const letterMm = sheetLetterMm(drawing);
  const prefix = escapeXml(idPrefix.replaceAll(/[^\w-]/g, '-'));
  const legend = legendRows(drawing, letterMm, prefix);
  const used = new Set<Role>([...drawing.shapes, ...drawing.legend].map((one) => one.role));
  const patterns = [...used].flatMap((role) => patternOf(role, letterMm, prefix)).join('');
  const height = drawing.heightMm + legend.heightMm;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${drawing.widthMm} ${n(height)}" role="img" ` +
    `aria-labelledby="${prefix}-t ${prefix}-d" font-family="Helvetica, Arial, 'Liberation Sans', sans-serif" ` +
    `fill="#000" stroke-linecap="butt">` +
    `<title id="${prefix}-t">${escapeXml(drawing.title)}</title>` +
    `<desc id="${prefix}-d">${escapeXml(drawing.description)}</desc>` +
    `<defs>${patterns}</defs>` +
    `${drawing.shapes.map((shape) => shapeSvg(shape, prefix)).join('')}${legend.svg}</svg>`
  );
}

function shapeSvg(shape: Shape, prefix: string): string {
  const ink = INK[shape.role];
  const stroke =
    ink.weight === 0
      ? ''
      : ` stroke="#000" stroke-width="${ink.weight}" vector-effect="non-scaling-stroke"` +
        (ink.dashes ? ` stroke-dasharray="${ink.dashes}"` : '');
  switch (shape.shape) {
    case 'rect': {
      const box = `x="${shape.x}" y="${shape.y}" width="${shape.w}" height="${shape.h}"`;
      const title = shape.title === undefined ? '' : `<title>${escapeXml(shape.title)}</title>`;
      // White under a hatching, so that hatchings on top of each other stay apart.
      const fill = ink.fill === 'none' ? 'none' : '#fff';
      const hatch = ink.fill === 'hatch' ? `<rect ${box} fill="url(#${prefix}-${shape.role})"/>` : '';
      return `<g>${title}<rect ${box} fill="${fill}"/>${hatch}<rect ${box} fill="none"${stroke}/></g>`;
    }
    case 'path': {
      const fill = { none: 'none', paper: '#fff', hatch: '#fff', grey: '#ddd', ink: '#000' }[ink.fill];
      const title = shape.title === undefined ? '' : `<title>${escapeXml(shape.title)}</title>`;
      return `<path d="${escapeXml(shape.d)}" fill="${fill}"${stroke}>${title}</path>`;
    }
    case 'line':
      return `<line x1="${shape.x1}" y1="${shape.y1}" x2="${shape.x2}" y2="${shape.y2}"${stroke}/>`;
    case 'text': {
      const turn = shape.turned ? ` transform="rotate(-90 ${shape.x} ${shape.y})"` : '';
      const weight = shape.role === 'blank' || shape.role === 'outline' ? ' font-weight="600"' : '';
      return (
        `<text x="${shape.x}" y="${shape.y}" font-size="${shape.size}" text-anchor="${shape.anchor}"${turn}${weight} ` +
        `stroke="#fff" stroke-width="${n(shape.size * 0.28)}" stroke-linejoin="round" paint-order="stroke">` +
        `${escapeXml(shape.text)}</text>`
      );
    }
    case 'mark':
      return (
        `<circle cx="${shape.x}" cy="${shape.y}" r="${shape.r}" fill="#fff"${stroke}/>` +
        `<text x="${shape.x}" y="${n(shape.y + shape.r * 0.5)}" font-size="${n(shape.r * (shape.text.length > 1 ? 1.2 : 1.4))}" ` +
        `font-weight="600" text-anchor="middle">${escapeXml(shape.text)}</text>`
      );
  }
}

/** Swatches in as many rows as they need. */
function legendRows(drawing: Drawing, letterMm: number, prefix: string): { svg: string; heightMm: number } {
  const swatch = { w: 1.8 * letterMm, h: 1.05 * letterMm };
  let [x, row, svg] = [0.3 * letterMm, 0, ''];
  for (const entry of drawing.legend) {
    const width = swatch.w + 0.5 * letterMm + textWidthMm(entry.text, letterMm) + letterMm;
    if (x > letterMm && x + width > drawing.widthMm) [x, row] = [0.3 * letterMm, row + 1];
    const y = drawing.heightMm + letterMm * (0.25 + 1.5 * row);
    svg += shapeSvg({ shape: 'rect', role: entry.role, x: n(x), y: n(y), w: n(swatch.w), h: n(swatch.h) }, prefix);
    const foot = n(y + swatch.h * 0.5 + letterMm * 0.35);
    svg += `<text x="${n(x + swatch.w + 0.5 * letterMm)}" y="${foot}" font-size="${n(letterMm)}">${escapeXml(entry.text)}</text>`;
    x += width;
  }
  return { svg, heightMm: drawing.legend.length === 0 ? 0 : letterMm * (0.5 + 1.5 * (row + 1)) };
}

function patternOf(role: Role, letterMm: number, prefix: string): string[] {
  const hatch = HATCH[role];
  if (!hatch) return [];
  const tile = n(hatch.tile * letterMm);
  return [
    `<pattern id="${prefix}-${role}" width="${tile}" height="${tile}" patternUnits="userSpaceOnUse" viewBox="0 0 10 10">` +
      `<path d="${hatch.path}" fill="none" stroke="#000" stroke-width="${hatch.weight}"/></pattern>`,
  ];
}

/** The letters that most of the drawing is written in. */
function sheetLetterMm(drawing: Drawing): number {
  const sizes = drawing.shapes.flatMap((shape) => (shape.shape === 'text' ? [shape.size] : []));
  return sizes.length === 0 ? drawing.widthMm / 40 : Math.max(...sizes);
}

const n = (mm: number): number => Math.round(mm * 100) / 100;

const ENTITY: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
/** Text that may stand anywhere in XML; control characters, which XML does not allow, are left out. */
export const escapeXml = (text: string): string =>
  text.replaceAll(/[^\P{Cc}\t\n]/gu, '').replaceAll(/[&<>"']/g, (c) => ENTITY[c] ?? c);
