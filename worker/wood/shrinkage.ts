/**
 * How wood changes size with its moisture. Below fibre saturation (30 %) it moves in proportion to its moisture
 * content, about twice as far along the growth rings as across them; above it does not move at all.
 */
import { requireSize, requireWithin } from './result.ts';
import type { Species } from './species.ts';

export type Direction = 'tangential' | 'radial' | 'longitudinal';
export type Grain = 'flat' | 'rift' | 'quarter' | 'unknown';

/** The part of a species that movement needs. */
export type Shrinks = Pick<Species, 'shrinkRadialPercent' | 'shrinkTangentialPercent'>;

/** Fibre saturation as the Wood Handbook's equations take it. */
export const FSP_PERCENT = 30;

/**
 * Along the grain normal wood shrinks 0.1 to 0.2 % from green to oven-dry (timber council's answers, read); the middle.
 */
export const SHRINK_LONGITUDINAL_PERCENT = 0.15;

export function shrinkPercentIn(direction: Direction, species: Shrinks): number {
  requireWithin('radial shrinkage', species.shrinkRadialPercent, 0, 40);
  requireWithin('tangential shrinkage', species.shrinkTangentialPercent, 0, 40);
  if (direction === 'tangential') return species.shrinkTangentialPercent;
  return direction === 'radial' ? species.shrinkRadialPercent : SHRINK_LONGITUDINAL_PERCENT;
}

/** Shrinkage from green to a moisture content, per cent of the green size: S (1 − M/FSP) (FPL-GTR-282 eq. 4-9). */
export function shrinkToPercent(shrinkPercent: number, moisturePercent: number, fspPercent = FSP_PERCENT): number {
  requireWithin('shrinkage', shrinkPercent, 0, 40);
  requireWithin('moisture content', moisturePercent, 0, 300);
  requireWithin('fibre saturation', fspPercent, 20, 40);
  return shrinkPercent * (1 - Math.min(moisturePercent, fspPercent) / fspPercent);
}

/**
 * The size that `sizeNm` at one moisture content has at another, whole nanometres: D + D (M2 − M1) / (FSP·100/S − FSP +
 * M1), Wood Handbook eq. 13-3; moisture above fibre saturation counts as fibre saturation.
 */
export function sizeAtShrink(move: {
  readonly sizeNm: number;
  readonly shrinkPercent: number;
  readonly fromPercent: number;
  readonly toPercent: number;
  readonly fspPercent?: number;
}): number {
  const { sizeNm, shrinkPercent, fromPercent, toPercent, fspPercent } = move;
  requireSize('size', sizeNm);
  const before = 1 - shrinkToPercent(shrinkPercent, fromPercent, fspPercent) / 100;
  const after = 1 - shrinkToPercent(shrinkPercent, toPercent, fspPercent) / 100;
  return Math.round((sizeNm * after) / before);
}

/**
 * As `sizeAtShrink`, by species and direction to the growth rings. Beech 2.25 in tangential, green to 7 %: 2.045 in.
 */
export function sizeAtMoisture(move: {
  readonly sizeNm: number;
  readonly direction: Direction;
  readonly species: Shrinks;
  readonly fromPercent: number;
  readonly toPercent: number;
  readonly fspPercent?: number;
}): number {
  return sizeAtShrink({ ...move, shrinkPercent: shrinkPercentIn(move.direction, move.species) });
}

/**
 * The coefficient that a shrinkage implies: S / (3000 − 20 S); reproduces Wood Handbook Table 13-5 (7.8 % gives
 * 0.00274).
 */
export function coefficientOf(shrinkPercent: number): number {
  requireWithin('shrinkage', shrinkPercent, 0, 40);
  return shrinkPercent / (3000 - 20 * shrinkPercent);
}

/**
 * Size by the coefficient method, D + D C (M2 − M1), whole nanometres. For 6 to 14 % only (FPL-GTR-190 eq. 13-2);
 * throws a RangeError outside, where `sizeAtMoisture` serves. White fir 9.15 in, 8 to 11 %, C 0.00245: 9.217 in.
 */
export function sizeByCoefficient(move: {
  readonly sizeNm: number;
  readonly coefficient: number;
  readonly fromPercent: number;
  readonly toPercent: number;
}): number {
  requireWithin('moisture content', move.fromPercent, 6, 14);
  requireWithin('moisture content', move.toPercent, 6, 14);
  requireSize('size', move.sizeNm);
  requireWithin('coefficient', move.coefficient, 0, 0.02);
  return Math.round(move.sizeNm * (1 + move.coefficient * (move.toPercent - move.fromPercent)));
}

/** Shrinkage of a board's width and thickness, per cent from green to oven-dry. */
export interface FaceShrink {
  readonly widthPercent: number;
  readonly thicknessPercent: number;
}

/**
 * Shrinkage across and through a board whose growth rings meet the wide face at an angle (0° flat-sawn, 90°
 * quarter-sawn): the two ring directions turned by it, S_T cos² + S_R sin² (small strains, shear left out; computed).
 */
export function shrinkAtRingAngle(species: Shrinks, ringDegrees: number): FaceShrink {
  requireWithin('ring angle', ringDegrees, 0, 90);
  const across = Math.cos((ringDegrees * Math.PI) / 180) ** 2;
  const { shrinkRadialPercent: radial, shrinkTangentialPercent: tangential } = species;
  requireWithin('radial shrinkage', radial, 0, 40);
  requireWithin('tangential shrinkage', tangential, 0, 40);
  return {
    widthPercent: tangential * across + radial * (1 - across),
    thicknessPercent: radial * across + tangential * (1 - across),
  };
}

/**
 * Shrinkage of width and thickness by how the board is sawn: flat 0°, rift 45°, quarter 90°. With unknown grain each
 * takes the less favourable direction, so nothing comes out small. Few boards are perfectly flat or quarter-sawn: the
 * true figures lie between (FPL-GTR-190 Ch. 13).
 */
export function facesDirections(grain: Grain, species: Shrinks): FaceShrink {
  switch (grain) {
    case 'flat':
      return shrinkAtRingAngle(species, 0);
    case 'rift':
      return shrinkAtRingAngle(species, 45);
    case 'quarter':
      return shrinkAtRingAngle(species, 90);
    case 'unknown': {
      const most = Math.max(species.shrinkTangentialPercent, species.shrinkRadialPercent);
      return { widthPercent: most, thicknessPercent: most };
    }
  }
}

/**
 * The size to cut now, at `fromPercent`, so that the piece has `finishedNm` at `toPercent`; rounded up to whole
 * nanometres so it never comes out small. Smaller than finished when the wood will take up moisture. Northern red oak 6
 * in wide at 8 %, cut green: 6.404 in (FPL-GTR-282 eq. 4-9 turned round).
 */
export function sizeBeforeDrying(cut: {
  readonly finishedNm: number;
  readonly shrinkPercent: number;
  readonly fromPercent: number;
  readonly toPercent: number;
  readonly fspPercent?: number;
}): number {
  requireSize('finished size', cut.finishedNm);
  const now = 1 - shrinkToPercent(cut.shrinkPercent, cut.fromPercent, cut.fspPercent) / 100;
  const then = 1 - shrinkToPercent(cut.shrinkPercent, cut.toPercent, cut.fspPercent) / 100;
  return Math.ceil((cut.finishedNm * now) / then);
}
