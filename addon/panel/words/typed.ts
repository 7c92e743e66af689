/** Plain numbers as people type them, and temperatures in the shop's own scale. */

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
