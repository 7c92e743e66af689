/** One cell in a shop's list grows to the whole list: over touching cells and over one blank line, never into another table. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { regionAround } from '../../addon/host/bench-region.ts';

const cell = (row: number, column: number) => ({ row, column, rowCount: 1, columnCount: 1 });

const boards = [
  ['Boards in the long shed', '', ''],
  ['', '', ''],
  ['Tag', 'Species', 'L'],
  ['T 1', 'Ash', '96'],
  ['T 2', 'Ash', '92'],
  ['', '', ''],
  ['T 3', 'Walnut', ''],
  ['T 4', 'Walnut', '72'],
];

describe('the list around a cell', () => {
  test('holds heading and rows, and the rows after one blank line', () => {
    expect(regionAround(boards, cell(4, 1))).toEqual({ row: 2, column: 0, rowCount: 6, columnCount: 3 });
  });

  test('is the same from below the blank line', () => {
    expect(regionAround(boards, cell(7, 2))).toEqual({ row: 2, column: 0, rowCount: 6, columnCount: 3 });
  });

  test('goes on under the name of a group that stands alone', () => {
    const grouped = [
      ['Tag', 'L'],
      ['T 1', '96'],
      ['', ''],
      ['WALNUT', ''],
      ['T 2', '72'],
    ];
    expect(regionAround(grouped, cell(1, 0))).toEqual({ row: 0, column: 0, rowCount: 5, columnCount: 2 });
  });

  test('stops at a blank line before another heading', () => {
    const stacked = [
      ['Tag', 'L'],
      ['T 1', '96'],
      ['', ''],
      ['Part', 'Qty'],
      ['Leg', '4'],
    ];
    expect(regionAround(stacked, cell(1, 0))).toEqual({ row: 0, column: 0, rowCount: 2, columnCount: 2 });
    expect(regionAround(stacked, cell(4, 0))).toEqual({ row: 3, column: 0, rowCount: 2, columnCount: 2 });
  });

  test('stops at two blank lines and at a blank column', () => {
    const apart = [
      ['T 1', '96', '', 'price', '3'],
      ['', '', '', '', ''],
      ['', '', '', '', ''],
      ['T 2', '92', '', '', ''],
    ];
    expect(regionAround(apart, cell(0, 0))).toEqual({ row: 0, column: 0, rowCount: 1, columnCount: 2 });
  });
});

test('the region always holds the cell it grew from, stays inside the sheet and has no empty border', () => {
  const text = fc.constantFrom('', '', 'Ash', '4/4', '96');
  const grid = fc.array(fc.array(text, { minLength: 6, maxLength: 6 }), { minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(grid, fc.nat(11), fc.nat(5), (texts, wantedRow, column) => {
      const row = Math.min(wantedRow, texts.length - 1);
      if (!texts[row]?.[column]) return;
      const region = regionAround(texts, cell(row, column));
      const bottom = region.row + region.rowCount - 1;
      const right = region.column + region.columnCount - 1;
      expect(region.row <= row && row <= bottom && region.column <= column && column <= right).toBe(true);
      expect(region.row >= 0 && region.column >= 0 && bottom < texts.length && right < 6).toBe(true);
      const filled = (r: number, c: number) => Boolean(texts[r]?.[c]);
      const columns = Array.from({ length: region.columnCount }, (_, i) => region.column + i);
      const rows = Array.from({ length: region.rowCount }, (_, i) => region.row + i);
      expect(columns.some((c) => filled(region.row, c)) && columns.some((c) => filled(bottom, c))).toBe(true);
      expect(rows.some((r) => filled(r, region.column)) && rows.some((r) => filled(r, right))).toBe(true);
    }),
  );
});
