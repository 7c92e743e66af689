/**
 * The only maker of what leaves for a cell. A text that a spreadsheet would take for a formula is guarded with an
 * apostrophe, control characters go, and numbers stay numbers.
 */

const TEXT_CHARS_MAX = 2_000;

/** Characters that make a spreadsheet read a formula, in their plain and their full-width forms. */
const startsFormula = /^[=+\-@＝＋－＠]/u;

/**
 * A text safe to stand in a cell or a CSV field. A leading tab or line end would hide a formula behind it, so blanks in
 * front do not count.
 */
export function cellText(text: string): string {
  const clean = text
    .slice(0, TEXT_CHARS_MAX)
    .replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ')
    .replaceAll(/\p{Cs}/gu, '')
    .trim();
  return startsFormula.test(clean) ? `'${clean}` : clean;
}

/** A number for a cell, or nothing where there is none: never NaN or infinity. */
export function cellNumber(value: number, decimals: number): number | null {
  if (!Number.isFinite(value)) return null;
  const scale = 10 ** decimals;
  const rounded = Math.round(value * scale) / scale;
  return rounded === 0 ? 0 : rounded;
}

export type CellValue = string | number | null;

export function cellValue(value: CellValue): CellValue {
  if (typeof value === 'string') return cellText(value) || null;
  return typeof value === 'number' && !Number.isFinite(value) ? null : value;
}

/** The number format to set before the value: a text with figures ("5/4", "K7Q2M4") must not become a date or a number. */
export function cellFormat(value: CellValue): string | null {
  return typeof value === 'string' && /\d/.test(value) ? '@' : null;
}

/** One line of a CSV file (RFC 4180), each field safe. */
export function csvLine(values: readonly CellValue[]): string {
  return values
    .map((value) => {
      const safe = cellValue(value);
      if (typeof safe !== 'string') return safe === null ? '' : String(safe);
      return /[",;\n\r]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
    })
    .join(',');
}
