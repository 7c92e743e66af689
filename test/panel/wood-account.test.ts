import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  kerfAreaNm2,
  NM3_PER_BOARD_FOOT,
  openNm3,
  plannedKerfNm3,
  shownHundredths,
} from '../../addon/panel/state/wood-account.ts';
import { boardFeet } from '../../worker/wood/volume.ts';
import { inch, sampleLayout } from './sample.ts';

const cut = (axis: 'rip' | 'crosscut', atIn: number) => ({
  no: 1,
  axis,
  of: { fromNm: 0, toNm: inch(60), leftNm: 0, rightNm: inch(8) },
  atNm: inch(atIn),
  kerfNm: inch(0.125),
  words: '',
});

describe('the wood that the blade takes', () => {
  test('a crosscut takes its kerf over the whole width', () => {
    expect(kerfAreaNm2(cut('crosscut', 20))).toBe(BigInt(inch(0.125)) * BigInt(inch(8)));
  });
  test('a rip takes its kerf over the whole length', () => {
    expect(kerfAreaNm2(cut('rip', 3))).toBe(BigInt(inch(0.125)) * BigInt(inch(60)));
  });
  test('what of the blade hangs over the edge cuts air', () => {
    expect(kerfAreaNm2(cut('rip', 7.9375))).toBe(BigInt(inch(0.0625)) * BigInt(inch(60)));
    expect(kerfAreaNm2(cut('rip', 8.5))).toBe(0n);
  });
  test('kerf of WO-14 as planned: two crosscuts and two rips, 1 in thick', () => {
    // By hand: 1/8 x (9 1/4 + 9 1/4 + 59 7/8 + 59 7/8) x thickness.
    const areaIn2 = 0.125 * (9.25 + 9.25 + 59.875 + 59.875);
    const expected =
      BigInt(Math.round(areaIn2 * 64)) * (BigInt(inch(1)) ** 2n / 64n) * BigInt(sampleLayout.thicknessNm);
    expect(plannedKerfNm3(sampleLayout)).toBe(expected);
  });
});

test('the lines as shown always add up to the total as shown', () => {
  const part = fc.bigInt({ min: 0n, max: 40n * NM3_PER_BOARD_FOOT });
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 6 }), (parts) => {
      const total = parts.reduce((sum, one) => sum + one, 0n);
      const shown = shownHundredths(total, parts);
      expect(shown.lines.reduce((sum, one) => sum + one, 0)).toBe(shown.total);
      for (const [index, line] of shown.lines.entries()) {
        const exact = (Number(parts[index]) / Number(NM3_PER_BOARD_FOOT)) * 100;
        expect(Math.abs(line - exact)).toBeLessThanOrEqual(1);
      }
    }),
  );
});

test('a board foot here is the board foot of the trade: 12 in by 12 in by 1 in', () => {
  expect(boardFeet({ lengthNm: inch(12), widthNm: inch(12), thicknessNm: inch(1) })).toBe(1);
  expect(BigInt(inch(12)) * BigInt(inch(12)) * BigInt(inch(1))).toBe(NM3_PER_BOARD_FOOT);
});

test('an account is open by exactly what was left out', () => {
  const account = {
    inNm3: 100n,
    partsNm3: 60n,
    failedNm3: 0n,
    offcutsNm3: 20n,
    kerfNm3: 5n,
    scrapNm3: 14n,
    writeOffNm3: 0n,
  };
  expect(openNm3(account)).toBe(1n);
  expect(openNm3({ ...account, scrapNm3: 15n })).toBe(0n);
});
