/** A board that narrows towards its far end: where its wood ends, told in steps that no blank may pass. */
import { requireSize } from './result.ts';

export interface TaperStep {
  readonly fromNm: number;
  readonly toNm: number;
  readonly leftNm: number;
  readonly rightNm: number;
}

/** A step takes at most an eighth of an inch more than is missing, up to so many steps. */
const STEP_NM = 3_175_000;
const STEPS_MOST = 24;

/**
 * What is missing of a board of full width at the tagged end and widthFarNm at the far end, its left edge straight: rectangles
 * along the right edge, whole nanometres, each as wide as the wood is missing at its far side. Similar triangles: 96 in
 * long and 8 in to 6 in wide, 7 in are left at 48 in. None when it does not narrow. Throws a
 * RangeError for a size that no wood has.
 */
export function taperSteps(
  board: { readonly lengthNm: number; readonly widthNm: number },
  widthFarNm: number,
): readonly TaperStep[] {
  const { lengthNm, widthNm } = board;
  requireSize('length', lengthNm);
  requireSize('width', widthNm);
  requireSize('width at the far end', widthFarNm);
  const missingNm = widthNm - widthFarNm;
  if (missingNm <= 0) return [];
  const steps = Math.min(STEPS_MOST, Math.ceil(missingNm / STEP_NM));
  const placeNm = (step: number) => Math.floor((lengthNm * step) / steps);
  return Array.from({ length: steps }, (_, step) => {
    const [fromNm, toNm] = [placeNm(step), placeNm(step + 1)];
    const goneNm = Number((BigInt(missingNm) * BigInt(toNm) + BigInt(lengthNm) - 1n) / BigInt(lengthNm));
    return { fromNm, toNm, leftNm: widthNm - goneNm, rightNm: widthNm };
  });
}
