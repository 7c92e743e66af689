/**
 * What the shop adds to a finished size, operation by operation, and what saws take. All of it is common practice
 * without a source but where one is named; the shop puts its own figures in their place.
 */
import { requireSize } from './result.ts';
import type { SourceFlag } from './source.ts';
import { NM_PER_INCH } from './unit.ts';

export interface Allowance {
  readonly operation: string;
  readonly axis: 'length' | 'width' | 'thickness';
  readonly addNm: number;
  /** What shops are seen to use; null where only the figure itself is. */
  readonly rangeNm: readonly [least: number, most: number] | null;
  /** What it is counted for. */
  readonly per: 'part' | 'stick' | 'board end' | 'glue joint' | 'panel';
  readonly source: SourceFlag;
}

const inch = (inches: number) => Math.round(inches * NM_PER_INCH);

function allowance(
  operation: string,
  axis: Allowance['axis'],
  per: Allowance['per'],
  add: number,
  range: readonly [least: number, most: number] | null,
  source: SourceFlag = 'common-practice',
): Allowance {
  return { operation, axis, per, addNm: inch(add), rangeNm: range && [inch(range[0]), inch(range[1])], source };
}

export const allowances = {
  squareToLength: allowance('square to length later', 'length', 'part', 1, [0.5, 2]),
  planerSnipe: allowance('snipe at each end through the planer', 'length', 'stick', 2, [0, 4]),
  endTrim: allowance('trim a sound, dry end', 'length', 'board end', 1, [0.5, 3]),
  endTrimAirDried: allowance('trim an end of thick air-dried stock', 'length', 'board end', 3, [2, 6]),
  finalRip: allowance('joint one edge and rip to width', 'width', 'part', 1 / 4, [1 / 8, 1 / 2]),
  glueJoint: allowance('joint the edges of a glue joint', 'width', 'glue joint', 1 / 8, null),
  panelTrim: allowance('trim a glued panel', 'width', 'panel', 1 / 2, null),
  /** The difference between rough and S2S in the hardwood grading table, up to 6/4. */
  planeTwoFaces: allowance('plane two faces, up to 6/4', 'thickness', 'part', 3 / 16, [3 / 16, 1 / 4], 'second-hand'),
  /** As above from 8/4. */
  planeTwoFacesThick: allowance('plane two faces, 8/4 and thicker', 'thickness', 'part', 1 / 4, null, 'second-hand'),
  longOrResawn: allowance('flatten a part over 48 in, or resawn', 'thickness', 'part', 1 / 16, [1 / 16, 1 / 8]),
  afterRestThickness: allowance('flatten again after the rest', 'thickness', 'part', 1 / 16, [1 / 32, 1 / 8]),
  afterRestWidth: allowance('straighten again after the rest', 'width', 'part', 1 / 8, [1 / 32, 1 / 8]),
} as const satisfies Record<string, Allowance>;

export interface SawKerf {
  readonly saw: string;
  readonly kerfNm: number;
  readonly rangeNm: readonly [least: number, most: number] | null;
  readonly source: SourceFlag;
}

const kerf = (saw: string, middle: number, range: readonly [number, number] | null): SawKerf => ({
  saw,
  kerfNm: inch(middle),
  rangeNm: range && [inch(range[0]), inch(range[1])],
  source: 'common-practice',
});

/** Measure the blade: kerf is the plate and its set. */
export const sawKerfs: readonly SawKerf[] = [
  kerf('table saw, full kerf', 0.125, null),
  kerf('table saw, thin kerf', 0.094, null),
  kerf('circular saw', 0.067, [0.063, 0.071]),
  kerf('track saw', 0.08, [0.07, 0.09]),
  kerf('band saw', 0.045, [0.035, 0.055]),
  kerf('band saw, resaw', 0.058, [0.05, 0.065]),
  kerf('jigsaw', 0.05, null),
  kerf('band mill', 0.09, [0.08, 0.1]),
  kerf('chainsaw mill', 0.35, [0.3, 0.4]),
];

/** Thickest rough stock that the smaller planing allowance goes with: 6/4 (hardwood S2S table, second hand). */
const THIN_ROUGH_NM_MAX = inch(1.5);

/** Which of a shop's two planing allowances a finished thickness takes: the smaller up to 6/4 rough. */
export function planedOffNm(
  finishedThicknessNm: number,
  { thinNm, thickNm }: { readonly thinNm: number; readonly thickNm: number },
): number {
  requireSize('thickness', finishedThicknessNm);
  requireSize('planing allowance', thinNm);
  requireSize('planing allowance', thickNm);
  return finishedThicknessNm + thinNm <= THIN_ROUGH_NM_MAX ? thinNm : thickNm;
}

/** A part longer than this is flattened with more to spare. */
export const LONG_PART_NM = inch(48);

export type RoughSize = { readonly lengthNm: number; readonly widthNm: number; readonly thicknessNm: number };

/**
 * A part's rough size by the default allowances: 1 in of length, ¼ in of width, 3/16 in of thickness (¼ in where the
 * rough piece is over 1½ in), and 1/16 in more where the part is longer than 48 in. A leg 2¼ × 2¼ × 28 in: 2½ × 2½ × 29
 * in.
 */
export function roughSize(finished: RoughSize): RoughSize {
  requireSize('length', finished.lengthNm);
  requireSize('width', finished.widthNm);
  requireSize('thickness', finished.thicknessNm);
  const planing = { thinNm: allowances.planeTwoFaces.addNm, thickNm: allowances.planeTwoFacesThick.addNm };
  const long = finished.lengthNm > LONG_PART_NM ? allowances.longOrResawn.addNm : 0;
  return {
    lengthNm: finished.lengthNm + allowances.squareToLength.addNm,
    widthNm: finished.widthNm + allowances.finalRip.addNm,
    thicknessNm: finished.thicknessNm + planedOffNm(finished.thicknessNm, planing) + long,
  };
}
