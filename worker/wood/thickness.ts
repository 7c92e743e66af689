/**
 * Hardwood thickness in quarters of an inch: what a call ("5/4") means rough, what it grades to surfaced on two sides,
 * and which call a measured board counts as.
 */
import { requireSize } from './result.ts';
import type { SourceFlag } from './source.ts';
import { NM_PER_INCH } from './unit.ts';

export interface ThicknessCall {
  readonly call: string;
  readonly roughNm: number;
  /**
   * Standard thickness surfaced two sides (S2S) for grading; planed stock as sold varies (4/4 comes at 15/16 to 3/4).
   */
  readonly dressedTwoSidesNm: number | null;
  readonly source: SourceFlag;
}

const inch = (inches: number) => inches * NM_PER_INCH;

function row(call: string, rough: number, dressed: number, source: SourceFlag = 'second-hand'): ThicknessCall {
  return { call, roughNm: inch(rough), dressedTwoSidesNm: inch(dressed), source };
}

/**
 * Rough and S2S thickness; two copies of the hardwood grading table agree. 3/16 in comes off up to 6/4, 1/4 in above.
 */
export const thicknessCalls: readonly ThicknessCall[] = [
  row('3/8', 3 / 8, 3 / 16),
  row('1/2', 1 / 2, 5 / 16),
  row('5/8', 5 / 8, 7 / 16),
  row('3/4', 3 / 4, 9 / 16),
  row('4/4', 1, 13 / 16),
  row('5/4', 1.25, 1 + 1 / 16),
  row('6/4', 1.5, 1 + 5 / 16),
  row('8/4', 2, 1.75),
  row('10/4', 2.5, 2.25, 'from-memory'),
  row('12/4', 3, 2.75),
  row('14/4', 3.5, 3.25),
  row('16/4', 4, 3.75),
];

const standard = thicknessCalls.filter((t) => t.roughNm >= NM_PER_INCH);

/** Dry rough lumber may be this much scant of its call (trade specialist, second hand). */
export const SCANT_NM = NM_PER_INCH / 16;

/** Reads "5/4", `8/4"`, "10/4 rough", and the calls under an inch ("3/4"). Null for anything that is no call. */
export function readThicknessCall(text: string): { readonly call: string; readonly roughNm: number } | null {
  const match = /^\s*(\d{1,2})\s*[/⁄]\s*(\d)\s*(?:"|″|”|in\.?)?\s*(?:rough|rgh|r)?\s*$/i.exec(text);
  if (!match) return null;
  const call = `${Number(match[1])}/${match[2]}`;
  const known = thicknessCalls.find((t) => t.call === call);
  if (known) return { call, roughNm: known.roughNm };
  const quarters = Number(match[1]);
  return match[2] === '4' && quarters >= 4 ? { call, roughNm: inch(quarters / 4) } : null;
}

/**
 * The thinnest standard call, from 4/4 up, that is at least so thick rough; null beyond 16/4. Never assumes scant
 * stock.
 */
export function callCovering(roughNm: number): { readonly call: string; readonly roughNm: number } | null {
  requireSize('thickness', roughNm);
  const covering = standard.find((t) => t.roughNm >= roughNm);
  return covering ? { call: covering.call, roughNm: covering.roughNm } : null;
}

/**
 * The call a measured rough board counts as: the thickest that it reaches within 1/16 in. Beyond 16/4 calls go on by
 * half inches ("20/4"); a board that does not reach 3/8 in is "under 3/8".
 */
export function callOf(measuredThicknessNm: number): string {
  requireSize('thickness', measuredThicknessNm);
  const reachNm = measuredThicknessNm + SCANT_NM;
  if (reachNm >= inch(4.5)) return `${2 * Math.floor(reachNm / inch(0.5))}/4`;
  return thicknessCalls.findLast((t) => t.roughNm <= reachNm)?.call ?? 'under 3/8';
}
