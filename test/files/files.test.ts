/** .xlsx and .csv files: what is saved is read back as it was, and no text of a cell ever becomes a formula. */
import { describe, expect, test } from 'vitest';
import { csvFromSheet, sheetFromCsv } from '../../addon/files/csv.ts';
import { sheetsOfHost } from '../../addon/files/whole-file.ts';
import { sheetsFromXlsx, xlsxFromSheets } from '../../addon/files/xlsx.ts';
import { openFileBook } from '../../addon/host/file-host.ts';
import { findTable } from '../../addon/sheet/find-table.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { boardsFile, cellAt, temptingTexts, textsFile } from './sheets.ts';

const us = { tag: 'en-US', decimal: '.', dateOrder: 'mdy' } as const;
const bytes = (text: string) => new TextEncoder().encode(text);

describe('.xlsx', () => {
  test('numbers, texts, dates, formats, formulas, merges and hidden rows come back', () => {
    const [sheet] = sheetsFromXlsx(xlsxFromSheets([boardsFile]));
    expect(sheet).toMatchObject({ name: 'Boards', hiddenRows: [4], merged: boardsFile.merged });
    expect(cellAt(sheet, 2, 2).value).toBe(96);
    expect(cellAt(sheet, 2, 5)).toEqual({ value: 46_146, text: '5/4/2026', format: 'm/d/yyyy' });
    expect(cellAt(sheet, 3, 5)).toEqual({ value: 0.5, text: '50%', format: '0%' });
    expect(cellAt(sheet, 4, 4)).toEqual({ value: '5/4', text: '5/4', format: '@' });
    expect(cellAt(sheet, 5, 2).formula).toBe('=SUM(C3:C5)');
  });

  test('a text stays a text, whatever it begins with', () => {
    const [sheet] = sheetsFromXlsx(xlsxFromSheets([textsFile]));
    temptingTexts.forEach((text, row) => {
      expect(cellAt(sheet, row, 0)).toEqual({ value: text, text, format: '@' });
    });
  });

  test('what is no workbook is refused with what to do', () => {
    expect(() => sheetsFromXlsx(new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 0]))).toThrow(/Save it as \.xlsx or \.csv/);
    expect(() => sheetsFromXlsx(new Uint8Array(20_000_001))).toThrow(/20 MB/);
  });
});

describe('.csv', () => {
  test.each(['.', ','] as const)('texts and numbers come back with decimal “%s”', (decimal) => {
    const back = sheetFromCsv('Boards', bytes(csvFromSheet(boardsFile, decimal)), decimal);
    expect(back.rows.map((row) => row.map((cell) => (cell as { value: unknown }).value))).toEqual([
      ['Shed, north rack', null, null, null, null, null],
      ['Tag', 'Species', 'Length', 'Width', 'Thickness', 'Read on'],
      ['JB-101', 'White oak', 96, 7.5, '8/4', '5/4/2026'],
      ['JB-102', 'Walnut', 120.25, 6, '4/4', '50%'],
      ['JB-103', 'Ash', 84, '8 1/2', '5/4', null],
      ['Total', null, 300.25, null, null, null],
    ]);
  });

  /** The characters are those of the OWASP page on CSV injection: = + - @, tab and carriage return. */
  test('no cell begins as a formula would, and the apostrophe goes when the file is read again', () => {
    const wild = { name: 'Wild', rows: [...temptingTexts, '\t=1', '\r=1'].map((text) => [text, -5]) };
    const csv = csvFromSheet(wild, '.');
    const cells = csv.replace(/^\uFEFF/, '').match(/(?:"(?:[^"]|"")*"|[^,\r\n]*)(?=,|\r\n)/g) ?? [];
    const texts = cells.filter((cell) => cell !== '-5' && cell !== '');
    expect(texts.length).toBeGreaterThan(temptingTexts.length);
    expect(texts.filter((cell) => /^"?[=+\-@\t\r]/.test(cell))).toEqual([]);
    const back = sheetFromCsv('Wild', bytes(csv), '.');
    expect(back.rows.slice(0, temptingTexts.length).map((_, row) => cellAt(back, row, 0).value)).toEqual(
      temptingTexts.map((text) => text),
    );
    expect(cellAt(back, 0, 1).value).toBe(-5);
  });

  test('semicolons, old letters, quoted line ends and a missing last line end are read', () => {
    const old = Uint8Array.from([...'Nu'].map((letter) => letter.charCodeAt(0)).concat([0xdf, 0x3b, 0x31, 0x2c, 0x35]));
    expect(sheetFromCsv('x', old, ',').rows).toEqual([
      [
        { value: 'Nuß', text: 'Nuß' },
        { value: 1.5, text: '1,5' },
      ],
    ]);
    expect(cellAt(sheetFromCsv('x', bytes('a,"b\nc"\n'), '.'), 0, 1).value).toBe('b\nc');
  });

  test('names with leading noughts and long figures stay as written', () => {
    const back = sheetFromCsv('x', bytes('007,12345678901234567\n'), '.');
    expect([cellAt(back, 0, 0).value, cellAt(back, 0, 1).value]).toEqual(['007', '12345678901234567']);
  });
});

test('a file that was opened is read for boards like any sheet, and saved whole through the host', async () => {
  const book = openFileBook(sheetsFromXlsx(xlsxFromSheets([boardsFile, textsFile])), us);
  const [boards] = await book.host.listSheets();
  if (!boards?.used) throw new Error('The sheet is empty.');
  const block = await book.host.readArea(boards.used);
  const found = findTable(block, 'boards', { system: 'in' });
  if (!found.ok) throw new Error(found.help);
  const read = readBoardRows(block, found.mapping, { system: 'in' });
  expect(read.rows.map((row) => row.draft.tag)).toContain('JB-101');
  const again = sheetsFromXlsx(xlsxFromSheets(await sheetsOfHost(book.host)));
  expect(again.map(({ name }) => name)).toEqual(['Boards', 'Texts']);
  expect(cellAt(again[0], 4, 4).value).toBe('5/4');
});
