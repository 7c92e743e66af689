/** Defects against the size of a board: which lie outside it, and what is left of them on a smaller piece. */
import type { Defect } from '../../contract/board.ts';
import type { RectNm } from '../../contract/plan.ts';
import type { Fault } from '../../contract/problem.ts';
import type { Settings } from '../../contract/settings.ts';
import { tape } from '../words.ts';

interface Face {
  readonly lengthNm: number;
  readonly widthNm: number;
}

export function defectFaults(
  defects: readonly Defect[],
  face: Face,
  settings: Settings,
  at: { readonly pointer: string; readonly row?: number },
): readonly Fault[] {
  return defects.flatMap((defect, index): Fault[] => {
    if (defect.toNm <= face.lengthNm && defect.rightNm <= face.widthNm) return [];
    return [
      {
        pointer: `${at.pointer}/${index}`,
        ...(at.row === undefined ? {} : { row: at.row }),
        field: 'defects',
        read: `${defect.kind} to ${tape(defect.toNm, settings)} along, ${tape(defect.rightNm, settings)} across`,
        help: `the board ends at ${tape(face.lengthNm, settings)} along and ${tape(face.widthNm, settings)} across`,
      },
    ];
  });
}

/** What of the defects lies within the rectangle, measured from its own end and edge. */
export function defectsWithin(defects: readonly Defect[], rect: RectNm): Defect[] {
  return defects.flatMap((defect): Defect[] => {
    const fromNm = Math.max(defect.fromNm, rect.fromNm) - rect.fromNm;
    const toNm = Math.min(defect.toNm, rect.toNm) - rect.fromNm;
    const leftNm = Math.max(defect.leftNm, rect.leftNm) - rect.leftNm;
    const rightNm = Math.min(defect.rightNm, rect.rightNm) - rect.leftNm;
    return fromNm < toNm && leftNm < rightNm ? [{ ...defect, fromNm, toNm, leftNm, rightNm }] : [];
  });
}
