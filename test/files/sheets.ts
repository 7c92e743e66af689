/** Sheets with everything that a file must not lose or change; the dates and sums were worked out by hand. */
import type { FileCell, FileSheet } from '../../addon/host/file-host.ts';

/** Texts that a spreadsheet would take for something else: formulas, dates, numbers, switches. */
export const temptingTexts = [
  '=1+1',
  '+31 6 1234',
  '-see note',
  '@home',
  '5/4',
  '23 5/8',
  '007',
  'TRUE',
  '1E5',
  '=HYPERLINK("http://evil.example","x")',
  '¾" ply, 7′ 6½″',
  'two\nlines',
  'a "quoted", one',
] as const;

/** 46146 is 4 May 2026: 46023 is 1 January 2026 by the serial numbers of spreadsheets (ECMA-376 part 1, 18.17.4.1). */
export const boardsFile: FileSheet = {
  name: 'Boards',
  rows: [
    ['Shed, north rack', null, null, null, null, null],
    ['Tag', 'Species', 'Length', 'Width', 'Thickness', 'Read on'],
    ['JB-101', 'White oak', 96, 7.5, '8/4', { value: 46_146, text: '5/4/2026', format: 'm/d/yyyy' }],
    ['JB-102', 'Walnut', 120.25, 6, '4/4', { value: 0.5, text: '50%', format: '0%' }],
    ['JB-103', 'Ash', 84, '8 1/2', '5/4', null],
    ['Total', null, { value: 300.25, text: '300.25', formula: '=SUM(C3:C5)' }, null, null, null],
  ],
  hiddenRows: [4],
  merged: [{ row: 0, column: 0, rowCount: 1, columnCount: 6 }],
};

export const textsFile: FileSheet = { name: 'Texts', rows: temptingTexts.map((text) => [text, 1]) };

export function cellAt(sheet: FileSheet | undefined, row: number, column: number): FileCell {
  const cell = sheet?.rows[row]?.[column] ?? null;
  return typeof cell === 'object' && cell !== null ? cell : { value: cell };
}
