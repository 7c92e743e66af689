/**
 * How the trade's arithmetic answers: a value, or why there is none and what would be right. Input that a person can
 * type is refused as a value; input that only a mistake in code can make throws a RangeError.
 */

/** Why there is no answer: `why` for code, `help` for people. */
export interface Refused<Why extends string = string> {
  readonly ok: false;
  readonly why: Why;
  readonly help: string;
}

export type Result<Value, Why extends string = string> = { readonly ok: true; readonly value: Value } | Refused<Why>;

export const answer = <Value>(value: Value): { readonly ok: true; readonly value: Value } => ({ ok: true, value });

export const refuse = <Why extends string>(why: Why, help: string): Refused<Why> => ({ ok: false, why, help });

/** True for a finite number from min to max, both included. */
export const within = (value: number, min: number, max: number): boolean => value >= min && value <= max;

/** 1 km: no piece of wood is longer. */
export const LENGTH_NM_MAX = 1e12;

/** Throws a RangeError for a size that no wood has: below zero, over a kilometre, or no number. */
export function requireSize(name: string, sizeNm: number): void {
  requireWithin(name, sizeNm, 0, LENGTH_NM_MAX);
}

/** Throws a RangeError that names the quantity and its range, for functions that answer with a bare number. */
export function requireWithin(name: string, value: number, min: number, max: number): void {
  if (!within(value, min, max)) throw new RangeError(`${name} is ${value}; it must be from ${min} to ${max}`);
}
