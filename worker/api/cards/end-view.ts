/**
 * The end of a glued-up part as a shop drawing: its plies or staves as they stand, each with the way its growth rings may
 * run, so that they can be matched or turned before the glue is opened.
 */
import type { Grain } from '../../contract/board.ts';
import type { Drawing } from '../../contract/drawing.ts';
import type { Lamination } from '../../contract/job.ts';
import type { Settings } from '../../contract/settings.ts';
import { tape } from '../../planner/cut-words.ts';
import { type Box, type Pen, penLine, penMark, penRect, penText } from '../../planner/drawing-pen.ts';

const WIDTH_MM = 100;
const HEIGHT_MM_MAX = 60;
const LETTER_MM = 3.7;
const MARGIN_MM = 5;
/** How far one ring stands from the next, and how many are drawn at most. */
const RING_MM = 3;
const RINGS_MAX = 30;

export interface EndOf {
  readonly label: string;
  readonly thicknessNm: number;
  readonly widthNm: number;
  readonly lamination: Lamination;
  readonly elements: readonly { readonly thicknessNm: number; readonly widthNm: number }[];
  readonly grain: Grain;
}

/** Neighbours with their rings turned about, or all standing where the stock is quarter-sawn. Numbered from the first row of the cut list. */
export function endView(end: EndOf, settings: Settings): Drawing {
  const pen: Pen = { letterMm: LETTER_MM, shapes: [], taken: [] };
  const acrossMm = WIDTH_MM - 2 * MARGIN_MM - 16;
  const scale = Math.min(acrossMm / end.widthNm, (HEIGHT_MM_MAX - 2 * MARGIN_MM) / end.thicknessNm);
  const boxes = boxesOf(end, scale);
  boxes.forEach((box, at) => {
    penRect(pen, 'blank', box, `${noun(end)} ${at + 1}`);
    rings(pen, box, end.grain, at % 2 === 1);
    penMark(pen, 'cut', box.x + box.w / 2, box.y + box.h / 2, Math.min(2.6, box.h / 2 - 0.3), String(at + 1));
  });
  const heightMm = end.thicknessNm * scale + 2 * MARGIN_MM + 6;
  const right = MARGIN_MM + end.widthNm * scale;
  const foot = MARGIN_MM + end.thicknessNm * scale;
  penText(pen, 'dim', { x: (MARGIN_MM + right) / 2, y: foot + 4 }, tape(end.widthNm, settings));
  penText(pen, 'dim', { x: right + 3, y: (MARGIN_MM + foot) / 2, anchor: 'start' }, tape(end.thicknessNm, settings));
  return {
    title: `End of ${end.label}`,
    description: words(end, settings),
    widthMm: WIDTH_MM,
    heightMm: Math.ceil(heightMm),
    shapes: pen.shapes,
    legend: [],
  };
}

const noun = ({ lamination }: EndOf) => (lamination.kind === 'plies' ? 'ply' : 'stave');

function words(end: EndOf, settings: Settings): string {
  const sizes = end.elements.map(
    ({ thicknessNm, widthNm }, at) => `${at + 1}: ${tape(thicknessNm, settings)} × ${tape(widthNm, settings)}`,
  );
  const turned =
    end.grain === 'quarter'
      ? 'The growth rings stand upright in each.'
      : 'The growth rings are turned about from one to the next.';
  return `${end.elements.length} ${noun(end) === 'ply' ? 'plies' : 'staves'}, ${sizes.join('; ')}. ${turned}`;
}

/** Plies lie on each other from the first face down; staves stand beside each other from the left. */
function boxesOf(end: EndOf, scale: number): Box[] {
  const { lamination, elements } = end;
  let at = MARGIN_MM;
  return elements.map(({ thicknessNm, widthNm }, no): Box => {
    const [w, h] = [widthNm * scale, thicknessNm * scale];
    if (lamination.kind === 'plies') {
      const box = { x: MARGIN_MM + (lamination.plies[no]?.offsetNm ?? 0) * scale, y: at, w, h };
      at += h;
      return box;
    }
    const box = { x: at, y: MARGIN_MM, w, h };
    at += w;
    return box;
  });
}

/** Arcs as the end of a flat-sawn board shows them, bark side up or down; upright or slanting lines for the others. */
function rings(pen: Pen, box: Box, grain: Grain, turned: boolean): void {
  if (grain === 'quarter' || grain === 'rift') {
    const slant = grain === 'rift' ? box.h * (turned ? -1 : 1) : 0;
    const count = Math.min(RINGS_MAX, Math.max(1, Math.floor(box.w / RING_MM)));
    for (let at = 1; at < count; at += 1) {
      const x = box.x + (box.w * at) / count;
      const end = Math.min(box.x + box.w, Math.max(box.x, x + slant));
      penLine(pen, 'grain', [x, box.y], [end, box.y + box.h * (slant === 0 ? 1 : Math.abs((end - x) / slant))]);
    }
    return;
  }
  const count = Math.min(RINGS_MAX, Math.max(2, Math.floor(box.h / (RING_MM / 2))));
  for (let at = 1; at < count; at += 1) {
    const y = box.y + (box.h * at) / count;
    const rise = Math.min(box.h / count, box.w / 6) * 1.6 * (turned ? 1 : -1);
    const [top, low] = [Math.min(y, y + rise), Math.max(y, y + rise)];
    if (top < box.y || low > box.y + box.h) continue;
    const r = (n: number) => Math.round(n * 100) / 100;
    const middle = `${r(box.x + box.w / 2)} ${r(y + 2 * rise)}`;
    pen.shapes.push({
      shape: 'path',
      role: 'grain',
      d: `M${r(box.x)} ${r(y)}Q${middle} ${r(box.x + box.w)} ${r(y)}`,
    });
  }
}
