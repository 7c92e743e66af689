import { expect, test } from 'vitest';
import { blankFor, planingAllowanceNm } from '../../worker/takeoff/blank.ts';
import { callFor } from '../../worker/takeoff/call.ts';
import { speciesByKey } from '../../worker/wood/species.ts';
import { inch, mm, shopSettings } from './shop-cases.ts';

const size = (thickness: number, width: number, length: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
const whiteOak = speciesByKey('white-oak') ?? null;
const redOak = speciesByKey('northern-red-oak') ?? null;

test('a 3/4 x 5 1/2 x 70 in shelf cut from stock at its target is roughed out at 15/16 x 5 3/4 x 71 in', () => {
  // Allowances 3/16, 1/4 and 1 in: common practice, no source.
  const rough = blankFor(size(0.75, 5.5, 70), shopSettings(), {
    species: whiteOak,
    moisturePercent: 8,
    grain: 'flat',
  });
  expect(rough).toEqual(size(15 / 16, 5.75, 71));
});

test('6 in of red oak at 8 % is cut 6.404 in from green wood, and a quarter more to work with', () => {
  // Wood Handbook FPL-GTR-282 eq. 4-9 turned round: 6.404 in. + 1/4 in = 6.654, up to the next 1/16 in on the shop's tape: 6 11/16.
  const rough = blankFor(size(1, 6, 20), shopSettings(), { species: redOak, moisturePercent: 60, grain: 'flat' });
  expect(rough.widthNm).toBe(inch(6 + 11 / 16));
});

test('a blank is as long and wide as the tape of the shop can show; no finer than 1/32 in', () => {
  const cut = (denominator: 8 | 16 | 32 | 64) =>
    blankFor(size(1, 6, 20), shopSettings({ denominator }), { species: redOak, moisturePercent: 60, grain: 'flat' })
      .widthNm;
  expect([8, 16, 32, 64].map((denominator) => cut(denominator as 8))).toEqual(
    [6 + 6 / 8, 6 + 11 / 16, 6 + 21 / 32, 6 + 21 / 32].map(inch),
  );
});

test('quarter-sawn stock is given less for its width and more for its thickness', () => {
  const cut = (grain: 'flat' | 'quarter') =>
    blankFor(size(2, 8, 40), shopSettings(), { species: redOak, moisturePercent: 20, grain });
  expect(cut('quarter').widthNm).toBeLessThan(cut('flat').widthNm);
  expect(cut('quarter').thicknessNm).toBeGreaterThan(cut('flat').thicknessNm);
});

test('stock drier than the target is not cut undersize', () => {
  const rough = blankFor(size(0.75, 5.5, 70), shopSettings(), { species: whiteOak, moisturePercent: 4, grain: 'flat' });
  expect(rough).toEqual(size(15 / 16, 5.75, 71));
});

test('a metric shop saws to whole millimetres', () => {
  const finished = { lengthNm: mm(600), widthNm: mm(80), thicknessNm: mm(20) };
  const rough = blankFor(finished, shopSettings({ shown: 'mm' }), {
    species: whiteOak,
    moisturePercent: 8,
    grain: 'flat',
  });
  // 600 + 25.4, 80 + 6.35, 20 + 4.7625
  expect(rough).toEqual({ lengthNm: mm(626), widthNm: mm(87), thicknessNm: mm(25) });
});

// Surfaced two sides of each call: hardwood grading table, from two copies that agree (3/16 in off up to 6/4, 1/4 above).
test.each([
  [0.75, '4/4'],
  [13 / 16, '4/4'],
  [1 + 1 / 16, '5/4'],
  [1 + 5 / 16, '6/4'],
  [1.375, '8/4'],
  [1.75, '8/4'],
  [2.75, '12/4'],
  [3.75, '16/4'],
])('a part %d in thick is looked for in %s', (finished, call) => {
  expect(callFor(inch(finished), shopSettings())).toMatchObject({ call, beyondCalls: false });
});

test('a part thicker than 16/4 gives is called by half inches and said to be beyond stock', () => {
  expect(callFor(inch(4.2), shopSettings())).toEqual({ call: '18/4', roughNm: inch(4.5), beyondCalls: true });
});

test('an inch and a quarter is planed as thin stock, an inch and three quarters as thick', () => {
  expect(planingAllowanceNm(inch(1.25), shopSettings())).toBe(inch(3 / 16));
  expect(planingAllowanceNm(inch(1.75), shopSettings())).toBe(inch(1 / 4));
});
