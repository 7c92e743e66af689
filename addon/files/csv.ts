/** Comma-separated files as one sheet, and back. Loaded only when somebody opens or saves a file. */
import Papa from 'papaparse';
import type { FileCell, FileSheet } from '../host/file-host.ts';
import { FILE_BYTES_MAX, FileFault } from './xlsx.ts';

/** A number as every spreadsheet writes it without grouping. Leading noughts ("007") are a name, not a number. */
const NUMBER = /^-?(0|[1-9]\d*)(\.\d+)?$/;
const COMMA_NUMBER = /^-?(0|[1-9]\d*)(,\d+)?$/;
const NUMBER_DIGITS = 15;
/** What our own export puts before a text that a spreadsheet would take for a formula. */
const GUARDED = /^'(?=[=+\-@\t\r])/;

/** decimal: how the file writes numbers; with ',' its cells are parted by ';' or tab. */
export function sheetFromCsv(name: string, bytes: Uint8Array, decimal: '.' | ','): FileSheet {
  if (bytes.byteLength > FILE_BYTES_MAX) {
    throw new FileFault(`The file has more than ${FILE_BYTES_MAX / 1_000_000} MB. Save the sheet you need by itself.`);
  }
  const { data } = Papa.parse<string[]>(textOf(bytes).replace(/^\uFEFF/, ''), {
    delimitersToGuess: decimal === ',' ? [';', '\t'] : [',', ';', '\t'],
  });
  const rows = data.map((row) => row.map((text) => cellFrom(text, decimal)));
  // A line end after the last row is no row of its own.
  if (rows.at(-1)?.every((cell) => cell.value === null)) rows.pop();
  return { name, rows };
}

/** UTF-8; an older file that is not is read as Windows-1252, which office programs wrote. */
function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

function cellFrom(text: string, decimal: '.' | ','): FileCell {
  if (text === '') return { value: null };
  if (!(decimal === ',' ? COMMA_NUMBER : NUMBER).test(text)) {
    const words = text.replace(GUARDED, '');
    return { value: words, text: words };
  }
  // More digits than a number keeps are a name too.
  const value = text.replaceAll(/\D/g, '').length > NUMBER_DIGITS ? text : Number(text.replace(',', '.'));
  return { value, text };
}

/** What the sheet shows, one row a line; each text that would start a formula gets an apostrophe in front. */
export function csvFromSheet(sheet: FileSheet, decimal: '.' | ','): string {
  const rows = sheet.rows.map((row) =>
    row.map((given) => {
      const cell: FileCell = typeof given === 'object' && given !== null ? given : { value: given };
      if (typeof cell.value === 'number' && cell.format === undefined) {
        return decimal === ',' ? String(cell.value).replace('.', ',') : cell.value;
      }
      return guarded(cell.text ?? textOfValue(cell.value));
    }),
  );
  return `\uFEFF${Papa.unparse(rows, { delimiter: decimal === ',' ? ';' : ',', newline: '\r\n' })}\r\n`;
}

const guarded = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);
const textOfValue = (value: FileCell['value']): string =>
  value === null ? '' : typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
