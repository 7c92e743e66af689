/** Price lists as shops keep them: by the board foot, by the thousand, by volume and by area. */
import { expect, test } from 'vitest';
import { priceColumns, readPriceRows } from '../../addon/sheet/read-prices.ts';
import { demoWorkbook } from '../../data-demo/workbook.ts';
import { type BlockMore, blockOf, type CellSpec, comma, us } from './block.ts';
import { demoBlock } from './demo-block.ts';

const shop = { system: 'in', ownWoods: [], currency: 'USD' } as const;

function read(rows: readonly (readonly CellSpec[])[], more: BlockMore = {}, as: Partial<{ currency: string }> = {}) {
  const block = blockOf(rows, more);
  const columns = priceColumns(block);
  if (columns === null) return null;
  const { rows: prices, faults } = readPriceRows(block, columns, columns.pricedBy ?? 'board-foot', { ...shop, ...as });
  const lines = prices.map((row) => `${row.species} ${row.thicknessCall} ${row.minorPerBoardFoot}`);
  return { columns, lines, faults: faults.map(({ address, help }) => `${address} ${help}`) };
}

test('the demo workbook has one, and only its sheet of prices is one', () => {
  const found = demoWorkbook.map((sheet) => [sheet.name, priceColumns(demoBlock(sheet, us))?.pricedBy ?? null]);
  expect(found.filter(([, by]) => by !== null)).toEqual([['Prices', 'board-foot']]);
  const block = demoBlock(demoWorkbook.find(({ name }) => name === 'Prices')!, us);
  const { rows, faults } = readPriceRows(block, priceColumns(block)!, 'board-foot', shop);
  expect(faults).toEqual([]);
  expect(rows).toHaveLength(10);
  expect(rows[0]).toEqual({ species: 'white-oak', thicknessCall: '4/4', minorPerBoardFoot: 980, sheetRow: 1 });
  expect(rows[3]).toMatchObject({ species: 'black-walnut', thicknessCall: '4/4', minorPerBoardFoot: 1340 });
});

test('by the cubic metre and by the square metre, in euros, a species written once for the rows under it', () => {
  // 144 cubic inches are 0.002359737216 m³ by definition: 3,600 EUR a m³ are 8.495 EUR a board foot.
  const list = read(
    [
      ['Holzart', 'Stärke mm', '€/m³'],
      ['white oak', 27, '3.600,00'],
      [null, 52, 4100],
      ['ash', null, '1900'],
    ],
    { locale: comma },
    { currency: 'EUR' },
  );
  expect(list?.columns).toMatchObject({ pricedBy: 'm3', currency: 'EUR' });
  expect(list?.lines).toEqual(['white-oak 4/4 850', 'white-oak 8/4 967', 'white-ash null 448']);
  // A board foot of stock 1 in thick is 1 sq ft, 0.09290304 m²: 100 EUR a m² are 9.29 EUR.
  expect(
    read([
      ['Species', 'Thickness', 'Price per m2'],
      ['white oak', '4/4', 100],
    ])?.lines,
  ).toEqual(['white-oak 4/4 929']);
  expect(
    read([
      ['Species', 'Thickness', 'Price per m2'],
      ['white oak', null, 100],
    ])?.faults,
  ).toEqual(['B2 a price by area needs its thickness']);
});

// 5/4 typed where the month comes first is 4 May; of 2026 it is day 46,146 of the sheet.
test('by the thousand, with 5/4 turned into a date, and what cannot be read', () => {
  const list = read([
    ['Yard list, $/MBF'],
    ['Wood', 'Call', 'Price'],
    ['Walnut', { date: 46_146, shown: '4-May' }, 6200],
    ['Oak', '4/4', 5000],
    ['Cherry', '4/4', 'ask'],
    ['Cherry', '8/4', 9900],
    ['Cherry', '8/4', 9500],
  ]);
  expect(list?.columns.pricedBy).toBe('thousand-board-feet');
  expect(list?.lines).toEqual(['black-walnut 5/4 620', 'black-cherry 8/4 990']);
  expect(list?.faults.map((line) => line.slice(0, 2))).toEqual(['A4', 'C5', 'A7']);
});

test('a board list and a cut list are no price lists', () => {
  expect(
    read([
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Price'],
      ['A', 'ash', 96, 6, '4/4', 20],
    ]),
  ).toBeNull();
  expect(
    read([
      ['Part', 'Qty', 'L', 'W', 'T', 'Species'],
      ['Leg', 4, 28, 2, 2, 'ash'],
    ]),
  ).toBeNull();
});
