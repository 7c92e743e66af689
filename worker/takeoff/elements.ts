/**
 * What a part is made of: the solid piece itself, its plies face to face, or its staves edge to edge. Sizes here are
 * those before the glue-up, still without rough allowances.
 */
import type { Part } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import type { Size } from '../wood/unit.ts';

export interface Element {
  /** null for a solid part; otherwise the place of the ply or stave, from 0. */
  readonly element: number | null;
  readonly what: 'solid' | 'ply' | 'stave';
  readonly finished: Size;
}

/** The sizes of a part, and how it is made up. */
export type PartShape = Pick<Part, 'lengthNm' | 'widthNm' | 'thicknessNm' | 'lamination'>;

/** Each piece of wood of one copy of the part, in the order in which it is glued up. */
export function elementsOf(part: PartShape, settings: Pick<Settings, 'allowances'>): readonly Element[] {
  const { lengthNm, widthNm, thicknessNm, lamination } = part;
  if (lamination === null) return [{ element: null, what: 'solid', finished: { lengthNm, widthNm, thicknessNm } }];
  if (lamination.kind === 'plies')
    return lamination.plies.map((ply, element) => ({
      element,
      what: 'ply',
      finished: { lengthNm, widthNm: ply.widthNm, thicknessNm: ply.thicknessNm },
    }));
  const staveWidthNm = staveWidth(widthNm, lamination.count, settings.allowances.glueJointWidthNm);
  return Array.from({ length: lamination.count }, (_, element) => ({
    element,
    what: 'stave',
    finished: { lengthNm, widthNm: staveWidthNm, thicknessNm },
  }));
}

/** A stave before its edges are jointed: every joint between two staves takes its allowance from the panel's width. */
function staveWidth(panelWidthNm: number, count: number, jointWidthNm: number): number {
  return Math.ceil((panelWidthNm + (count - 1) * jointWidthNm) / count);
}

/** Elements of one size cut alike: the plies or staves of a part that can stand in for one another. */
export interface ElementKind {
  readonly what: Element['what'];
  readonly finished: Size;
  /** Their places in the part. */
  readonly elements: readonly (number | null)[];
}

export function elementKinds(part: PartShape, settings: Pick<Settings, 'allowances'>): readonly ElementKind[] {
  const kinds = new Map<string, { what: Element['what']; finished: Size; elements: (number | null)[] }>();
  for (const { element, what, finished } of elementsOf(part, settings)) {
    const size = `${finished.widthNm} ${finished.thicknessNm}`;
    const kind = kinds.get(size);
    if (kind) kind.elements.push(element);
    else kinds.set(size, { what, finished, elements: [element] });
  }
  return [...kinds.values()];
}

/** The finished wood of all the elements of a kind in one copy of the part, cubic metres. What jointing planes off staves is not in it. */
export function netVolumeM3(part: PartShape, kind: ElementKind): number {
  const stavesAll = part.lamination?.kind === 'staves' ? part.lamination.count : 0;
  const widthNm = stavesAll > 0 ? part.widthNm / stavesAll : kind.finished.widthNm;
  return (kind.finished.lengthNm / 1e9) * (widthNm / 1e9) * (kind.finished.thicknessNm / 1e9) * kind.elements.length;
}

/** What does not add up in a laminated part, in words; the sizes of the plies rule. */
export function laminationFaults(part: PartShape, show: (lengthNm: number) => string): readonly string[] {
  const { lamination } = part;
  if (lamination?.kind !== 'plies') return [];
  const faults: string[] = [];
  const stackNm = lamination.plies.reduce((sum, ply) => sum + ply.thicknessNm, 0);
  if (stackNm !== part.thicknessNm)
    faults.push(`its plies stack to ${show(stackNm)}, the part is ${show(part.thicknessNm)} thick`);
  for (const [index, ply] of lamination.plies.entries())
    if (ply.offsetNm + ply.widthNm > part.widthNm)
      faults.push(
        `ply ${index + 1} reaches ${show(ply.offsetNm + ply.widthNm)} across a part ${show(part.widthNm)} wide`,
      );
  return faults;
}
