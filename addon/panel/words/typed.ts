/** Plain numbers as people type them, temperatures in the shop's own scale, and the thickness that a price is for. */
import { callOf, readThicknessCall } from '../../../worker/wood/thickness.ts';
import { NM_PER_INCH } from '../../../worker/wood/unit.ts';

/** "45", "45 %", "7,5"; null for anything else. */
export function readNumber(typed: string): number | null {
  const plain = typed.replace('%', '').replace('\u2212', '-').replace(',', '.').trim();
  const value = Number(plain);
  return plain === '' || !Number.isFinite(value) ? null : value;
}

export const celsiusOf = (degrees: number, inFahrenheit: boolean): number =>
  inFahrenheit ? (degrees - 32) / 1.8 : degrees;

export const temperatureText = (celsius: number, inFahrenheit: boolean): string =>
  inFahrenheit ? `${Math.round(celsius * 1.8 + 32)} °F` : `${Math.round(celsius)} °C`;

/** Thicker is no board's thickness but a slip. */
const THICKEST_NM = 12 * NM_PER_INCH;

/**
 * The call of a thickness as typed: "8/4", "2 in", "52 mm", or bare quarters ("8") where the shop measures in inches; null
 * for anything else.
 */
export function callTyped(
  typed: string,
  measure: { readonly system: 'in' | 'mm'; read(text: string): number | null },
): string | null {
  const isBare = measure.system === 'in' && /^\s*\d{1,2}\s*$/.test(typed);
  const call = readThicknessCall(isBare ? `${typed.trim()}/4` : typed);
  if (call !== null || isBare) return call?.call ?? null;
  const nm = measure.read(typed);
  return nm === null || nm > THICKEST_NM ? null : callOf(nm);
}
