/**
 * The base unit of every length in Heartside: one nanometre, because both 1/64 in (396 875 nm) and 0.1 mm (100 000 nm)
 * are whole numbers of it. Lengths are exact integers; areas and volumes are derived and never stored.
 */

declare const unit: unique symbol;
/** A quantity that carries its unit in its type. Made only by the functions of this file. */
export type Branded<Name extends string> = number & { readonly [unit]: Name };

/** A length in whole nanometres. */
export type Nm = Branded<'nm'>;

export const NM_PER_MM = 1_000_000;
export const NM_PER_TENTH_MM = 100_000;
export const NM_PER_INCH = 25_400_000;
export const NM_PER_64TH_INCH = 396_875;
export const NM_PER_FOOT = 304_800_000;

/** A length from a whole number of nanometres. Throws RangeError for anything that is not a safe integer: a bug, not input. */
export function nm(value: number): Nm {
  if (!Number.isSafeInteger(value)) throw new RangeError(`a length is a whole number of nanometres, not ${value}`);
  return value as Nm;
}

/** Millimetres to nanometres, rounded to the nearest nanometre. */
export function nmFromMm(mm: number): Nm {
  return nm(Math.round(mm * NM_PER_MM));
}

/** Inches to nanometres, rounded to the nearest nanometre. Exact for every multiple of 1/64 in. */
export function nmFromInch(inch: number): Nm {
  return nm(Math.round(inch * NM_PER_INCH));
}

/** The three sizes of a piece of wood, each named so that no two can be swapped by position. */
export interface Size {
  /** Along the grain. */
  readonly lengthNm: number;
  /** Across the grain, in the plane of the face. */
  readonly widthNm: number;
  /** From face to face. */
  readonly thicknessNm: number;
}

/** Exact volume in cubic nanometres; the product of three lengths passes 2^53, so it is a bigint. */
export function volumeNm3(size: Size): bigint {
  return BigInt(size.lengthNm) * BigInt(size.widthNm) * BigInt(size.thicknessNm);
}
