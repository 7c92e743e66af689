/** What the takeoff says beside its figures: each word where it helps, and none where it does not. */
import { expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import { takeoff } from '../../worker/takeoff/takeoff.ts';
import { board, drySettings, inch, part } from './shop-cases.ts';

const settings = drySettings({
  wasteFactor: 1,
  prices: [{ species: 'white oak', thicknessCall: null, minorPerBoardFoot: 900 }],
});
const of = (parts: readonly Part[], boards: readonly BoardView[], changes: Partial<typeof settings> = {}) =>
  takeoff({ parts, boards, settings: { ...settings, ...changes }, jobId: null });
const oak = (lengthIn: number, widthIn: number, thicknessIn: number, changes: Partial<BoardView> = {}) =>
  board({ lengthNm: inch(lengthIn), widthNm: inch(widthIn), thicknessNm: inch(thicknessIn), ...changes });
const shelf = part({ lengthNm: inch(40), widthNm: inch(5), thicknessNm: inch(0.75) });

test('a list that the stock covers says nothing at all', () => {
  const { rows, groups } = of([shelf], [oak(48, 6, 1)]);
  expect([rows[0]?.warnings, groups[0]?.warnings]).toEqual([[], []]);
});

test('without any stock, only a thick part is told of a way round', () => {
  const thin = of([shelf], []);
  expect([thin.rows[0]?.warnings, thin.groups[0]?.warnings]).toEqual([[], []]);
  const leg = part({ lengthNm: inch(30), widthNm: inch(3), thicknessNm: inch(2.25) });
  expect(of([leg], []).rows[0]?.warnings).toEqual([
    'no free white oak 10/4; a part this thick can be glued up from plies',
  ]);
  expect(of([leg], [oak(48, 6, 2.5)]).rows[0]?.warnings).toEqual([]);
  const eightQuarter = part({ lengthNm: inch(30), widthNm: inch(3), thicknessNm: inch(1.75) });
  expect(of([eightQuarter], []).rows[0]?.warnings).toEqual([]);
});

test('a blank just as long and wide as the stock is not called too long', () => {
  const { rows } = of([shelf], [oak(41, 5.25, 1)]);
  // 41 in with an inch of trim at both ends does not give it; the reason is another.
  expect(rows[0]?.warnings.join()).not.toContain('the longest free');
  expect(rows[0]?.warnings.join()).not.toContain('the widest free');
  expect(rows[0]?.warnings.join()).toContain('long, wide and flat enough for 41" × 5 1/4" rough');
});

test('grain that is asked for is named where no board has it', () => {
  const { rows } = of([{ ...shelf, grain: 'quarter' }], [oak(96, 8, 1)]);
  expect(rows[0]?.warnings).toEqual([
    'no free white oak 4/4 of quarter grain is long, wide and flat enough for 41" × 5 1/4" rough',
  ]);
});

test('one board counts in the singular, two in the plural', () => {
  const unread = (count: number) =>
    of(
      [{ ...shelf, quantity: 4 }],
      Array.from({ length: count }, () => oak(48, 6, 1, { readings: [] })),
    ).groups[0]?.warnings.join();
  expect(unread(1)).toContain('1 board counted without a moisture reading: read them');
  expect(unread(2)).toContain('2 boards counted without a moisture reading: read them');
});

test('wet stock is told in the unit of the shop, with the highest limit of the line', () => {
  const wet = [{ moisturePercent: 30, on: '2026-03-01', meter: 'pin' as const }];
  const told = (shown: 'in' | 'mm') =>
    of([shelf, { ...shelf, key: 'B', use: 'hidden' }], [oak(48, 6, 1, { readings: wet })], {
      shown,
      moistureMax: { critical: 10, visible: 12, hidden: 15, layer: 10 },
    }).groups[0]?.warnings;
  // 48 × 6 × 1 in are 2 board feet, 0.004719 m³.
  expect(told('in')).toEqual(["2.0 bf more is over 15 %, or not read, and can't be cut yet"]);
  expect(told('mm')).toEqual(["0.005 m³ more is over 15 %, or not read, and can't be cut yet"]);
});

test('the line to buy names the longest and widest blank of several', () => {
  const { groups } = of([shelf, { ...shelf, key: 'B', lengthNm: inch(60), widthNm: inch(3) }], [oak(48, 6, 1)]);
  expect(groups[0]).toMatchObject({
    longestBlankNm: inch(61),
    widestBlankNm: inch(5.25),
    longestBoardNm: inch(48),
    widestBoardNm: inch(6),
  });
});

test('a blank sized for the wettest allowed says what drier wood takes', () => {
  // White oak, tangential, from 12 to 8 %: 4 x 0.00365 of 5 1/2 in are 0.080 (Wood Handbook FPL-GTR-190 table 13-5); with
  // 1/4 in to joint and rounded up to 1/16 the blank is 5 7/8 in wide, in wood at 8 % already 5 3/4.
  const moistureMax = { critical: 8, visible: 12, hidden: 15, layer: 10 };
  const wide = { ...shelf, widthNm: inch(5.5), quantity: 2, grain: 'flat' } as const;
  const { rows, groups } = of([wide], [oak(48, 6, 1, { grain: 'flat' })], { moistureMax });
  expect(groups[0]).toMatchObject({
    widestBlankNm: inch(5.875),
    widestBlankAtPercent: 12,
    widestBlankDryNm: inch(5.75),
  });
  expect(rows[0]?.warnings.join()).toContain('for 41" × 5 7/8" rough (5 3/4" in drier wood)');
  expect(of([wide], []).groups[0]).toMatchObject({ widestBlankNm: inch(5.75), widestBlankDryNm: inch(5.75) });
});

test('boards sold or written off are no stock, and two woods do not mix', () => {
  const gone = oak(48, 6, 1, { state: 'written-off' });
  const walnut = oak(48, 6, 1, { species: 'black walnut' });
  const rail = { ...shelf, key: 'B', species: 'black-walnut' };
  const { groups } = of([shelf, rail], [gone, walnut]);
  expect(groups.map(({ speciesName, inStock }) => [speciesName, inStock.m3 > 0])).toEqual([
    ['black walnut', true],
    ['white oak', false],
  ]);
});

test('metric shops buy hundredths of a cubic metre', () => {
  // 41 × 5 1/4 × 1 in are 0.003527 m³.
  expect(of([shelf], [], { shown: 'mm' }).groups[0]?.toBuy.m3).toBeCloseTo(0.01, 12);
  expect(of([shelf], []).groups[0]?.toBuy.boardFeet).toBeCloseTo(2, 12);
});

test('a covered line costs nothing to buy, priced or not', () => {
  expect(of([shelf], [oak(48, 6, 1)]).groups[0]?.buyMinor).toBe(0);
  expect(of([shelf], [oak(48, 6, 1)], { prices: [] }).groups[0]).toMatchObject({ buyMinor: 0, costMinor: null });
});

test("each assumption names the shop's own figure as its tape shows it", () => {
  const said = of([shelf], []).assumptions.join('\n');
  expect(said).toContain('plus 1" in length and 1/4" in width (common practice, no source), rounded up to 1/16"');
  expect(said).toContain('times 1 for kerf (1/8" ripping, 1/8" crosscutting), end trim of 1"');
});
