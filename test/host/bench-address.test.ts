/** Cells are named as every spreadsheet names them: A1, Z1, AA1. */
import { expect, test } from 'vitest';
import { cellAddress, columnLetters } from '../../addon/host/bench-address.ts';

test('columns count A to Z, then AA', () => {
  expect([0, 25, 26, 51, 52, 701, 702].map(columnLetters)).toEqual(['A', 'Z', 'AA', 'AZ', 'BA', 'ZZ', 'AAA']);
});

test('rows count from one', () => {
  expect(cellAddress(6, 8)).toBe('I7');
});
