import { describe, expect, test } from 'vitest';
import { deliveryCheck } from '../../worker/wood/delivery.ts';
import { NM_PER_FOOT as FT, NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

describe('a delivery against the stated tally', () => {
  test('check value 13: 480 bf billed as 502 bf are 4.58 % over (trade article, second hand), with the money', () => {
    const layers = Array(12).fill({ callRoughNm: IN, widthNm: 48 * IN, lengthNm: 10 * FT });
    const check = deliveryCheck(layers, { boardFeet: 502, minorPerBoardFoot: 650 });
    expect(check).toMatchObject({ tallyBf: 480, exactBf: 480, overstatedBf: 22, overstatedMinor: 14_300 });
    expect(check.overstatedPercent).toBeCloseTo(4.58, 2);
  });
  test('each call is tallied on its own, and short billing shows below zero', () => {
    const boards = [
      { callRoughNm: IN, widthNm: 6 * IN, lengthNm: 10.75 * FT },
      { callRoughNm: 2 * IN, widthNm: 6 * IN, lengthNm: 10 * FT },
    ];
    expect(deliveryCheck(boards, { boardFeet: 14, minorPerBoardFoot: null })).toMatchObject({
      tallyBf: 15,
      exactBf: 15.375,
      overstatedBf: -1,
      overstatedMinor: null,
    });
  });
  test('nothing delivered', () => {
    expect(deliveryCheck([], { boardFeet: 10, minorPerBoardFoot: 100 })).toMatchObject({
      tallyBf: 0,
      overstatedPercent: 0,
      overstatedMinor: 1000,
    });
  });
});
