import { describe, expect, test } from 'vitest';
import { callCovering, callOf, readThicknessCall, thicknessCalls } from '../../worker/wood/thickness.ts';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

describe('thickness surfaced two sides, for grading', () => {
  test.each([
    ['4/4', 13 / 16, 'rows 17: two copies of the grading table, second hand'],
    ['6/4', 1 + 5 / 16, 'row 18: two copies of the grading table, second hand'],
    ['8/4', 1.75, 'row 19: two copies of the grading table, second hand'],
  ])('%s dresses to %d in', (call, inch) => {
    expect(thicknessCalls.find((t) => t.call === call)?.dressedTwoSidesNm).toBe(inch * IN);
  });

  test('3/16 in comes off up to 6/4 and 1/4 in above', () => {
    for (const t of thicknessCalls) {
      expect(t.roughNm - (t.dressedTwoSidesNm ?? 0)).toBe((t.roughNm <= 1.5 * IN ? 3 / 16 : 1 / 4) * IN);
    }
  });
});

describe('reading a call', () => {
  test.each([
    ['5/4', '5/4', 1.25],
    [' 8/4" ', '8/4', 2],
    ['10/4 rough', '10/4', 2.5],
    ['3/4', '3/4', 0.75],
    ['7/4', '7/4', 1.75],
  ])('%s', (text, call, inch) => {
    expect(readThicknessCall(text)).toEqual({ call, roughNm: inch * IN });
  });
  test.each(['', '5', '1/4', '2/3', '5/8 oak', '-5/4'])('%s is no call', (text) => {
    expect(readThicknessCall(text)).toBeNull();
  });
});

describe('which call to buy for a rough thickness', () => {
  test.each([
    [0.5, '4/4'],
    [1, '4/4'],
    [1.0625, '5/4'],
    [1.51, '8/4'],
    [4, '16/4'],
  ])('%d in rough needs %s', (inch, call) => {
    expect(callCovering(Math.round(inch * IN))?.call).toBe(call);
  });
  test('nothing standard is thicker than 16/4', () => {
    expect(callCovering(4 * IN + 1)).toBeNull();
  });
});

describe('which call a measured board counts as', () => {
  test.each([
    [1 + 3 / 16, '5/4', 'dry 5/4 may be 1/16 in scant (trade specialist, second hand)'],
    [1 + 11 / 64, '4/4', 'just too thin for 5/4'],
    [15 / 16, '4/4', 'scant 4/4'],
    [13 / 16, '3/4', 'planed 4/4 no longer counts as 4/4'],
    [2.125, '8/4', 'mills saw over'],
    [1 / 4, 'under 3/8', ''],
    [5, '20/4', ''],
  ])('%d in is %s', (inch, call) => {
    expect(callOf(inch * IN)).toBe(call);
  });
});
