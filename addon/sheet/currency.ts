/** Money of a currency: how many decimals its small unit has, and amounts as people type them. */

/** 2 for dollars, 0 for yen, 3 for dinars (ISO 4217, as the browser's own tables hold it); 2 for one that it does not know. */
export function minorDigits(currency: string): number {
  try {
    const format = new Intl.NumberFormat('en-US', { style: 'currency', currency });
    return format.resolvedOptions().maximumFractionDigits ?? 2;
  } catch {
    return 2;
  }
}

/** "12.50", "12,50", "1,250" or "1,250.00" in small units of the currency; null where it is no amount. */
export function readAmount(typed: string, currency: string): number | null {
  const digits = minorDigits(currency);
  const text = typed.trim().replaceAll(/[\s']/g, '');
  const amount = Number(plainAmount(text, digits));
  return text !== '' && Number.isFinite(amount) && amount >= 0 ? Math.round(amount * 10 ** digits) : null;
}

/** A mark before three last digits parts thousands where the currency has no three decimals; a point only where it has none. */
function plainAmount(text: string, digits: number): string {
  const point = text.lastIndexOf('.');
  const comma = text.lastIndexOf(',');
  if (point >= 0 && comma >= 0) {
    const group = point > comma ? ',' : '.';
    return text.replaceAll(group, '').replace(',', '.');
  }
  const grouped = digits === 0 ? /^\d{1,3}(?:[.,]\d{3})+$/ : digits === 3 ? /^$/ : /^\d{1,3}(?:,\d{3})+$/;
  return grouped.test(text) ? text.replaceAll(/[.,]/g, '') : text.replace(',', '.');
}

/** As `readAmount` reads it again. */
export function amountText(minor: number, currency: string): string {
  const digits = minorDigits(currency);
  return (minor / 10 ** digits).toFixed(digits);
}
