/** Opening a file as the bench's workbook, and saving the workbook as one. Loaded when one of the two is asked for. */
import { csvFromSheet, sheetFromCsv } from '../../files/csv.ts';
import { sheetsOfHost } from '../../files/whole-file.ts';
import { FileFault, sheetsFromXlsx, xlsxFromSheets } from '../../files/xlsx.ts';
import { forgetFileSettings } from '../../host/bench-settings.ts';
import type { Locale, SheetHost } from '../../host/host.ts';
import { fileBookData } from './file-book.ts';
import { FILE_BOOK, keepBook } from './keep.ts';

/** Keeps the file's sheets as the workbook "file"; the page then opens it. Throws FileFault with what to do. */
export async function keepFile(file: File, locale: Locale): Promise<void> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const name = file.name.replace(/\.\w+$/, '');
  const isCsv = /\.(csv|tsv|txt)$/i.test(file.name);
  const sheets = isCsv ? [sheetFromCsv(name.slice(0, 31) || 'Sheet 1', bytes, locale.decimal)] : sheetsFromXlsx(bytes);
  forgetFileSettings(FILE_BOOK);
  if (!keepBook(fileBookData(FILE_BOOK, file.name, sheets))) {
    throw new FileFault('This browser has no room to keep so large a file. Save the sheet you need by itself.');
  }
}

export async function saveFile(
  host: SheetHost,
  bookName: string,
  as: 'xlsx' | 'csv',
  sheetName: string,
): Promise<void> {
  const sheets = await sheetsOfHost(host);
  const sheet = sheets.find((one) => one.name === sheetName) ?? sheets[0];
  const { decimal } = await localeOf(host);
  const content = as === 'xlsx' ? xlsxFromSheets(sheets) : csvFromSheet(sheet ?? { name: '', rows: [] }, decimal);
  const type = as === 'xlsx' ? 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet' : 'text/csv';
  const part = typeof content === 'string' ? content : new Uint8Array(content);
  const url = URL.createObjectURL(new Blob([part], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${as === 'csv' ? sheetName : bookName.replace(/\.\w+$/, '')}.${as}`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

async function localeOf(host: SheetHost): Promise<Locale> {
  const first = (await host.listSheets()).find((sheet) => sheet.used !== null)?.used;
  const american: Locale = { tag: 'en-US', decimal: '.', dateOrder: 'mdy' };
  return first ? (await host.readArea({ ...first, rowCount: 1, columnCount: 1 })).locale : american;
}
