import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';
import {
  arcSagittaNm,
  flatThicknessNm,
  kinkDepthNm,
  likelyCrookNm,
  stationDepthNm,
  straightWidthNm,
  warpOver,
} from '../../worker/wood/warp.ts';

const straight = { bowNm: 0, crookNm: 0, cupNm: 0, twistNm: 0 };
const size = (length: number, width: number) => ({ lengthNm: length * IN, widthNm: width * IN });
const board = size(96, 8);

describe('warp over a piece of the board (computed)', () => {
  test.each([
    ['104: crook ¾ on 96 in, piece 48 in', 'crookNm', 0.75, 48, 8, 0.1875],
    ['crook, piece 32 in', 'crookNm', 0.75, 32, 8, 0.0833],
    ['crook, piece 24 in', 'crookNm', 0.75, 24, 8, 0.0469],
    ['crook, piece 72 in', 'crookNm', 0.75, 72, 8, 0.4219],
    ['108: bow ½ on 96 in, piece 24 in', 'bowNm', 0.5, 24, 8, 0.03125],
    ['bow, piece 36 in', 'bowNm', 0.5, 36, 8, 0.0703],
    ['109: cup 3/16 on 8 in, piece 4 in', 'cupNm', 3 / 16, 96, 4, 0.0469],
    ['cup, piece 3 in', 'cupNm', 3 / 16, 96, 3, 0.0264],
    ['twist ⅜ on 96 × 8, piece 24 × 4', 'twistNm', 3 / 8, 24, 4, 0.0469],
    ['twist, piece 48 × 8', 'twistNm', 3 / 8, 48, 8, 0.1875],
  ] as const)('check value %s', (_, form, measured, length, width, expected) => {
    const over = warpOver({ ...straight, [form]: measured * IN }, board, size(length, width));
    expect(over[form] / IN).toBeCloseTo(expected, 4);
  });

  test('the square law is within 0.0001 in of a true arc', () => {
    expect(arcSagittaNm(0.75 * IN, 96 * IN, 48 * IN) / IN).toBeCloseTo(0.18747, 5);
    expect(arcSagittaNm(0.75 * IN, 96 * IN, 32 * IN) / IN).toBeCloseTo(0.08332, 5);
  });

  test('a smaller piece is never more warped', () => {
    const nm = fc.integer({ min: 0, max: 2 * IN });
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(nm, nm, nm, nm, part, part, part, (bowNm, crookNm, cupNm, twistNm, along, across, shrink) => {
        const warp = { bowNm, crookNm, cupNm, twistNm };
        const larger = warpOver(warp, board, size(96 * along, 8 * across));
        const smaller = warpOver(warp, board, size(96 * along * shrink, 8 * across * shrink));
        expect(flatThicknessNm(4 * IN, smaller)).toBeGreaterThanOrEqual(flatThicknessNm(4 * IN, larger));
        expect(straightWidthNm(8 * IN, smaller)).toBeGreaterThanOrEqual(straightWidthNm(8 * IN, larger));
      }),
    );
  });

  test('a board without a length is refused', () => {
    expect(() => warpOver(straight, { lengthNm: 0, widthNm: IN }, size(1, 1))).toThrow(/board is 0/);
  });
});

describe('what is left flat and straight (computed)', () => {
  const warped = { bowNm: 0.5 * IN, crookNm: 0, cupNm: (3 / 16) * IN, twistNm: (3 / 8) * IN };

  test.each([
    ['111: the full board', 96, 8, 0.125],
    ['112: a piece 24 × 4 in', 24, 4, 0.898],
  ])('check value %s of 1 in thickness', (_, length, width, expected) => {
    const over = warpOver(warped, board, size(length, width));
    expect(flatThicknessNm(IN, over, 0) / IN).toBeCloseTo(expected, 3);
  });

  test.each([
    ['106: 6 in board, full length', 96, 5.25],
    ['48 in', 48, 5.8125],
    ['106: 32 in', 32, 5.9167],
  ])('check value %s', (_, length, expected) => {
    const over = warpOver({ ...straight, crookNm: 0.75 * IN }, size(96, 6), size(length, 6));
    expect(straightWidthNm(6 * IN, over, 0) / IN).toBeCloseTo(expected, 4);
  });

  test('check value 107: crosscut into three before ripping recovers 12.7 %', () => {
    const width = (length: number) =>
      straightWidthNm(6 * IN, warpOver({ ...straight, crookNm: 0.75 * IN }, size(96, 6), size(length, 6)), 0);
    expect((width(32) / width(96) - 1) * 100).toBeCloseTo(12.7, 1);
  });

  test('clean-up is taken once for both faces and once for each edge, and nothing goes below zero', () => {
    expect(flatThicknessNm(IN, straight)).toBe((15 * IN) / 16);
    expect(straightWidthNm(6 * IN, straight)).toBe((47 * IN) / 8);
    expect(flatThicknessNm(IN / 8, warped)).toBe(0);
  });
});

describe('boards that are no even curve (computed)', () => {
  const kink = { gapNm: 0.5 * IN, atNm: 36 * IN };
  test('check value 113: kink ½ at 36 of 96 in, piece 24 in each side: 0.2667 in', () => {
    expect(kinkDepthNm(kink, 96 * IN, { fromNm: 12 * IN, toNm: 60 * IN }) / IN).toBeCloseTo(0.2667, 4);
  });
  test('check value 114: a piece wholly beyond the kink is straight', () => {
    expect(kinkDepthNm(kink, 96 * IN, { fromNm: 36 * IN, toNm: 96 * IN })).toBe(0);
  });
  test('over the whole board the kink is the gap that was measured', () => {
    expect(kinkDepthNm(kink, 96 * IN, { fromNm: 0, toNm: 96 * IN }) / IN).toBeCloseTo(0.5, 10);
  });

  const sShape = [0, 24, 48, 72, 96].map((at, i) => ({ atNm: at * IN, gapNm: [0, 0.25, 0, -0.25, 0][i]! * IN }));
  test('an S curve hides from a single figure but not from stations', () => {
    expect(stationDepthNm(sShape, { fromNm: 0, toNm: 96 * IN }) / IN).toBeCloseTo(0.5, 10);
    expect(stationDepthNm(sShape, { fromNm: 0, toNm: 48 * IN }) / IN).toBeCloseTo(0.25, 10);
    expect(stationDepthNm(sShape, { fromNm: 24 * IN, toNm: 72 * IN })).toBe(0);
    expect(() => stationDepthNm([], { fromNm: 0, toNm: IN })).toThrow(/two places/);
  });
});

describe('a board that is still drying', () => {
  test('check value 116: crook ¼ in at 30 % is likely 0.525 in at 8 % (our inference from the crook study)', () => {
    expect(likelyCrookNm(0.25 * IN, 30, 8)! / IN).toBeCloseTo(0.525, 6);
  });
  test('from a board at 50 % or wetter nothing can be inferred', () => {
    expect(likelyCrookNm(0.25 * IN, 50, 8)).toBeNull();
  });
});
