/**
 * Volume in the trade's four meanings, kept apart: the true volume of wood, the board feet of its call, a hardwood
 * bundle's tally by surface measure, and cubic metres.
 */
import { requireSize, requireWithin } from './result.ts';
import { NM_PER_FOOT, NM_PER_INCH, type Size, volumeNm3 } from './unit.ts';

/** 144 cubic inches, exactly 2 359 737 216 mm³ (from 25.4 mm an inch). */
const NM3_PER_BOARD_FOOT = 144n * BigInt(NM_PER_INCH) ** 3n;
const NM3_PER_M3 = 10n ** 27n;
/** Cubic metres in one board foot, exact. */
export const M3_PER_BOARD_FOOT = 0.002359737216;

function requireSizes(size: Size): void {
  requireSize('length', size.lengthNm);
  requireSize('width', size.widthNm);
  requireSize('thickness', size.thicknessNm);
}

/** Board feet of wood really there: length × width × thickness / 144 in³. */
export function boardFeet(size: Size): number {
  requireSizes(size);
  return ratio(volumeNm3(size), NM3_PER_BOARD_FOOT);
}

/** Cubic metres of wood really there. */
export function cubicMetres(size: Size): number {
  requireSizes(size);
  return ratio(volumeNm3(size), NM3_PER_M3);
}

/**
 * Board feet as bought and sold: the call's rough thickness × width × length / 144 in³, where a call under one inch
 * counts as one inch. Exact, not rounded to whole feet; for a bundle see `bundleTally`.
 */
export function tallyBoardFeet(board: {
  readonly callRoughNm: number;
  readonly widthNm: number;
  readonly lengthNm: number;
}): number {
  requireSize('thickness', board.callRoughNm);
  const thicknessNm = Math.max(board.callRoughNm, NM_PER_INCH);
  return boardFeet({ lengthNm: board.lengthNm, widthNm: board.widthNm, thicknessNm });
}

export function boardFeetFromM3(volumeM3: number): number {
  requireWithin('volume', volumeM3, 0, 1e9);
  return volumeM3 / M3_PER_BOARD_FOOT;
}

export function m3FromBoardFeet(volumeBf: number): number {
  requireWithin('volume', volumeBf, 0, 1e12);
  return volumeBf * M3_PER_BOARD_FOOT;
}

/** One face of a board. */
export interface Face {
  readonly lengthNm: number;
  readonly widthNm: number;
}

/** Square feet of a face before rounding: the width with its fractions × the whole feet of length, the rest dropped. */
export function surfaceMeasureUnrounded(face: Face): number {
  return (face.widthNm * wholeFeet(face)) / NM_PER_FOOT;
}

/**
 * Surface measure of boards read one after another, each to the nearest whole square foot (NHLA rules, paragraph 16, as
 * summed up in two grading pages). Exact half feet go down and up in turn, down first (King, Elements of Woodwork; the
 * grading rule's own sentence was not read).
 */
export function surfaceMeasures(faces: readonly Face[]): number[] {
  let halves = 0;
  return faces.map((face) => {
    const areaTwiceNm = 2 * face.widthNm * wholeFeet(face);
    if (areaTwiceNm % NM_PER_FOOT !== 0) return Math.round(areaTwiceNm / (2 * NM_PER_FOOT));
    const doubled = areaTwiceNm / NM_PER_FOOT;
    if (doubled % 2 === 0) return doubled / 2;
    halves += 1;
    return halves % 2 === 1 ? (doubled - 1) / 2 : (doubled + 1) / 2;
  });
}

/** Surface measure of one board on its own; an exact half foot goes down. */
export function surfaceMeasure(face: Face): number {
  return surfaceMeasures([face])[0] ?? 0;
}

export interface BundleTally {
  readonly surfaceMeasures: readonly number[];
  readonly surfaceMeasureTotal: number;
  /** Whole board feet: the total surface measure × the call (at least one inch). */
  readonly boardFeet: number;
}

/**
 * A bundle of one call: surface measures are added up, then multiplied by the thickness, then rounded to whole board
 * feet.
 */
export function bundleTally(faces: readonly Face[], callRoughNm: number): BundleTally {
  requireSize('thickness', callRoughNm);
  const measures = surfaceMeasures(faces);
  const surfaceMeasureTotal = measures.reduce((sum, measure) => sum + measure, 0);
  const thicknessNm = Math.max(callRoughNm, NM_PER_INCH);
  return {
    surfaceMeasures: measures,
    surfaceMeasureTotal,
    boardFeet: Math.round((surfaceMeasureTotal * thicknessNm) / NM_PER_INCH),
  };
}

function wholeFeet(face: Face): number {
  requireSize('length', face.lengthNm);
  requireSize('width', face.widthNm);
  return Math.floor(face.lengthNm / NM_PER_FOOT);
}

/** A quotient of two big whole numbers, right to about 15 digits whatever their size. */
function ratio(numerator: bigint, denominator: bigint): number {
  const whole = numerator / denominator;
  return Number(whole) + Number(numerator - whole * denominator) / Number(denominator);
}
