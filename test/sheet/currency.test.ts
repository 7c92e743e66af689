/** Amounts in the small unit of a currency: 0, 2 and 3 decimals as ISO 4217 lists them (yen, dollar, Kuwaiti dinar). */
import { expect, test } from 'vitest';
import { readMoney } from '../../addon/sheet/cell-values.ts';
import { amountText, minorDigits, readAmount } from '../../addon/sheet/currency.ts';
import { blockOf, type CellSpec } from './block.ts';

test('decimals by currency', () => {
  expect(['USD', 'JPY', 'KWD', 'XQQ', 'no currency'].map(minorDigits)).toEqual([2, 0, 3, 2, 2]);
});

test.each([
  ['USD', '12.50', 1250],
  ['USD', '12,5', 1250],
  ['USD', '1,250', 125_000],
  ['USD', "1'250.00", 125_000],
  ['JPY', '1,250', 1250],
  ['JPY', '1.250', 1250],
  ['KWD', '1.250', 1250],
  ['KWD', '1,250.5', 1_250_500],
])('%s %s', (currency, typed, minor) => {
  expect(readAmount(typed, currency)).toBe(minor);
  expect(readAmount(amountText(minor, currency), currency)).toBe(minor);
});

test('what is no amount', () => {
  for (const typed of ['', '-3', 'two', '1,2,3']) expect(readAmount(typed, 'USD')).toBeNull();
});

test('a cell of the sheet in the shop’s currency', () => {
  const cost = (spec: CellSpec, currency: string) => readMoney(blockOf([[spec]]).cells[0]![0]!, '.', currency);
  expect(cost(7850, 'JPY')).toMatchObject({ value: 7850 });
  expect(cost('¥7850', 'JPY')).toMatchObject({ value: 7850 });
  expect(cost('78.5 USD', 'USD')).toMatchObject({ value: 7850 });
  expect(cost(7.85, 'KWD')).toMatchObject({ value: 7850 });
});
