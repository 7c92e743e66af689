/** Defects as a shop drawing shows them: a hatching for each family, told apart without colour, and what it stands for. */
import type { Defect, DefectKind } from '../contract/board.ts';
import type { Drawing, Role } from '../contract/drawing.ts';
import { type Pen, penLine, penRect } from './drawing-pen.ts';
import { acrossMm, alongMm, type View } from './drawing-view.ts';
import { listed } from './listed.ts';

const ROLE: Readonly<Record<DefectKind, Role>> = {
  'knot-sound': 'defect-knot',
  'knot-loose': 'defect-knot',
  split: 'defect-split',
  check: 'defect-split',
  wane: 'defect-wane',
  stain: 'defect-stain',
  rot: 'defect-rot',
  worm: 'defect-rot',
  shake: 'defect-split',
  'bark-pocket': 'defect-rot',
  gum: 'defect-stain',
  sapwood: 'defect-stain',
  pith: 'defect-other',
  'saw-mark': 'defect-other',
};
const WORDS: Readonly<Record<DefectKind, string>> = {
  'knot-sound': 'sound knot',
  'knot-loose': 'loose knot',
  split: 'split',
  check: 'check',
  wane: 'wane',
  stain: 'stain',
  rot: 'rot',
  worm: 'worm holes',
  shake: 'shake',
  'bark-pocket': 'bark pocket',
  gum: 'gum or pitch',
  sapwood: 'sapwood',
  pith: 'pith',
  'saw-mark': 'saw mark',
};
/** Counted one by one; of the others there is some. */
const COUNTED: readonly DefectKind[] = [
  'knot-sound',
  'knot-loose',
  'split',
  'check',
  'shake',
  'bark-pocket',
  'saw-mark',
];
const FACE = { a: 'face a', b: 'face b', through: 'through' } as const;
const ROLES: readonly Role[] = [
  'defect-knot',
  'defect-split',
  'defect-wane',
  'defect-stain',
  'defect-rot',
  'defect-other',
];

export const defectWords = (defect: Pick<Defect, 'kind' | 'face'>): string =>
  `${WORDS[defect.kind]}, ${FACE[defect.face]}`;

/** "the split", "the sound knots and the wane". */
export function defectsText(defects: readonly Pick<Defect, 'kind'>[]): string {
  const kinds = [...new Set(defects.map(({ kind }) => kind))];
  return listed(
    kinds.map((kind) => {
      const isMany = COUNTED.includes(kind) && defects.filter((defect) => defect.kind === kind).length > 1;
      return `the ${WORDS[kind]}${isMany ? 's' : ''}`;
    }),
  );
}

/** A hatched rectangle each; texts keep clear of the small ones. What will fall out is crossed through. */
export function penDefects(pen: Pen, view: View, defects: readonly Defect[]): void {
  // A pin knot must still be seen.
  const least = view.letterMm * 0.35;
  for (const defect of defects) {
    const [x, y] = [alongMm(view, defect.fromNm), acrossMm(view, defect.leftNm)];
    const w = Math.max(least, alongMm(view, defect.toNm) - x);
    const h = Math.max(least, acrossMm(view, defect.rightNm) - y);
    penRect(pen, ROLE[defect.kind], { x, y, w, h }, defectWords(defect));
    if (w < 3 * view.letterMm && h < 2 * view.letterMm) pen.taken.push({ x, y, w, h });
    if (defect.kind !== 'knot-loose') continue;
    penLine(pen, 'defect-knot', [x, y], [x + w, y + h]);
    penLine(pen, 'defect-knot', [x, y + h], [x + w, y]);
  }
}

/** The hatchings that occur, each with the kinds that it stands for on this board. */
export function defectLegend(defects: readonly Defect[]): Drawing['legend'] {
  return ROLES.flatMap((role) => {
    const kinds = [...new Set(defects.filter((d) => ROLE[d.kind] === role).map((d) => d.kind))];
    const words = kinds.map((kind) => WORDS[kind] + (kind === 'knot-loose' ? ' (crossed)' : ''));
    return words.length === 0 ? [] : [{ role, text: words.join(', ') }];
  });
}
