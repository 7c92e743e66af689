/**
 * CSV as spreadsheets import it (RFC 4180, comma, CRLF, UTF-8). A text that a spreadsheet would take for a formula is
 * guarded with an apostrophe: quoting alone does not help, since quotes are gone before the cell is read (OWASP ASVS 5.0,
 * 1.2.10, and OWASP's page on CSV injection for the full-width forms). Numbers stay numbers, so that minus signs live.
 */
export type CsvValue = string | number | null;

const startsFormula = /^[=+\-@|%＝＋－＠]/u;

/** Control characters and line ends become a blank; blanks in front of a formula do not hide it. */
export function csvText(text: string): string {
  const clean = text
    .replaceAll(/[\p{Cc}\p{Cf}\u2028\u2029]+/gu, ' ')
    .replaceAll(/\p{Cs}/gu, '')
    .trim();
  return startsFormula.test(clean) ? `'${clean}` : clean;
}

function csvField(value: CsvValue): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  const text = csvText(value);
  return /[",;]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

export function csvRow(values: readonly CsvValue[]): string {
  return `${values.map(csvField).join(',')}\r\n`;
}
