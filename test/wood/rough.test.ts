import { describe, expect, test } from 'vitest';
import { allowances, roughSize, sawKerfs } from '../../worker/wood/rough.ts';
import { thicknessCalls } from '../../worker/wood/thickness.ts';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

const inches = (size: { lengthNm: number; widthNm: number; thicknessNm: number }) => [
  size.lengthNm / IN,
  size.widthNm / IN,
  size.thicknessNm / IN,
];

describe('rough sizes by common practice', () => {
  test.each([
    ['a drawer front', [24, 6, 13 / 16], [25, 6.25, 1]],
    ['a leg', [28, 2.25, 2.25], [29, 2.5, 2.5]],
    ['a long rail', [60, 4, 1], [61, 4.25, 1.25]],
  ] as const)('%s', (_, [lengthInch, widthInch, thicknessInch], rough) => {
    const finished = { lengthNm: lengthInch * IN, widthNm: widthInch * IN, thicknessNm: thicknessInch * IN };
    expect(inches(roughSize(finished))).toEqual([...rough]);
  });

  test('a part of standard S2S thickness is sawn from its own call', () => {
    for (const t of thicknessCalls.filter((call) => call.roughNm >= IN && call.roughNm <= 1.5 * IN)) {
      expect(roughSize({ lengthNm: IN, widthNm: IN, thicknessNm: t.dressedTwoSidesNm ?? 0 }).thicknessNm).toBe(
        t.roughNm,
      );
    }
  });

  test('every default lies in the range seen, and says what it rests on', () => {
    for (const { addNm, rangeNm, source } of Object.values(allowances)) {
      expect(rangeNm === null || (addNm >= rangeNm[0] && addNm <= rangeNm[1])).toBe(true);
      expect(['common-practice', 'second-hand']).toContain(source);
    }
    for (const { kerfNm, rangeNm } of sawKerfs) {
      expect(rangeNm === null || (kerfNm >= rangeNm[0] && kerfNm <= rangeNm[1])).toBe(true);
    }
  });
});
