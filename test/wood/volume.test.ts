import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { piecesFrom } from '../../worker/wood/kerf.ts';
import { softwoodDressed, softwoodShrinkPercent } from '../../worker/wood/softwood.ts';
import { NM_PER_FOOT as FT, NM_PER_INCH as IN } from '../../worker/wood/unit.ts';
import {
  boardFeet,
  boardFeetFromM3,
  bundleTally,
  cubicMetres,
  M3_PER_BOARD_FOOT,
  m3FromBoardFeet,
  surfaceMeasure,
  surfaceMeasures,
  surfaceMeasureUnrounded,
  tallyBoardFeet,
} from '../../worker/wood/volume.ts';

describe('board feet', () => {
  test.each([
    ['1: 1 × 8 in × 10 ft, definition', 1, 8, 10, 6.667],
    ['2: 2 × 6 in × 8 ft, definition', 2, 6, 8, 8],
    ['3: 5/4 × 7½ in × 9½ ft, definition', 1.25, 7.5, 9.5, 7.422],
    ['4: ¾ in counts as 1 in, extension terminology page', 0.75, 8, 10, 6.667],
  ])('check value %s', (_, callInch, widthInch, lengthFt, expected) => {
    const board = { callRoughNm: callInch * IN, widthNm: widthInch * IN, lengthNm: lengthFt * FT };
    expect(tallyBoardFeet(board)).toBeCloseTo(expected, 3);
  });

  test('check value 6: one board foot is 0.00235974 m³ (from 25.4 mm, computed)', () => {
    expect(cubicMetres({ lengthNm: FT, widthNm: FT, thicknessNm: IN })).toBeCloseTo(0.00235974, 8);
    expect(M3_PER_BOARD_FOOT).toBeCloseTo(0.0254 ** 3 * 144, 15);
    expect(boardFeetFromM3(1)).toBeCloseTo(423.776, 3);
  });

  test('a true volume is not raised to one inch', () => {
    expect(boardFeet({ lengthNm: 10 * FT, widthNm: 8 * IN, thicknessNm: (3 * IN) / 4 })).toBeCloseTo(5, 12);
  });

  test('cubic metres and board feet turn into each other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (bf) => {
        expect(boardFeetFromM3(m3FromBoardFeet(bf))).toBeCloseTo(bf, 6);
      }),
    );
  });

  test('cutting a board across conserves its board feet', () => {
    const side = fc.integer({ min: 1, max: 3_000_000_000 });
    fc.assert(
      fc.property(side, side, side, side, (a, b, widthNm, thicknessNm) => {
        const whole = boardFeet({ lengthNm: a + b, widthNm, thicknessNm });
        const parts =
          boardFeet({ lengthNm: a, widthNm, thicknessNm }) + boardFeet({ lengthNm: b, widthNm, thicknessNm });
        expect(Math.abs(whole - parts)).toBeLessThanOrEqual(whole * 1e-13);
      }),
    );
  });
});

describe('surface measure', () => {
  test.each([
    ['7: extension grading page', 6 + 7 / 16, 10.75, 5.36, 5],
    ['8: rule', 6.25, 8, 4.17, 4],
    ['9: rule', 9.5, 16, 12.67, 13],
    ['11: King, second hand', 8.75, 12, 8.75, 9],
    ['11: King, second hand', 9.25, 12, 9.25, 9],
  ])('check value %s', (_, widthInch, lengthFt, unrounded, expected) => {
    const face = { widthNm: widthInch * IN, lengthNm: lengthFt * FT };
    expect(surfaceMeasureUnrounded(face)).toBeCloseTo(unrounded, 2);
    expect(surfaceMeasure(face)).toBe(expected);
  });

  test('exact half feet go down and up in turn (King: 12 ft × 8½ in, second hand)', () => {
    const half = { widthNm: 8.5 * IN, lengthNm: 12 * FT };
    const whole = { widthNm: 8 * IN, lengthNm: 12 * FT };
    expect(surfaceMeasures([half, whole, half, half])).toEqual([8, 8, 9, 8]);
  });

  test('check value 12: an 8/4 bundle with surface measure 53 tallies 106 bf (terminology page)', () => {
    const faces = [...Array(10).fill({ widthNm: 6 * IN, lengthNm: 10 * FT }), { widthNm: 4 * IN, lengthNm: 9 * FT }];
    expect(bundleTally(faces, 2 * IN)).toMatchObject({ surfaceMeasureTotal: 53, boardFeet: 106 });
  });

  test('check value 13: twelve layers 48 in × 10 ft of 4/4 tally 480 bf (trade article, second hand)', () => {
    const layers = Array(12).fill({ widthNm: 48 * IN, lengthNm: 10 * FT });
    expect(bundleTally(layers, IN).boardFeet).toBe(480);
    expect((502 / bundleTally(layers, IN).boardFeet - 1) * 100).toBeCloseTo(4.58, 2);
  });

  test('stock under an inch tallies as one inch', () => {
    expect(bundleTally([{ widthNm: 6 * IN, lengthNm: 10 * FT }], IN / 2).boardFeet).toBe(5);
  });
});

describe('softwood', () => {
  test('check value 14: a 2×4×8 ft tallies 5.333 bf and holds 3.500 bf of wood (PS 20, second hand)', () => {
    const dressed = softwoodDressed(2, 4);
    expect(tallyBoardFeet({ callRoughNm: 2 * IN, widthNm: 4 * IN, lengthNm: 8 * FT })).toBeCloseTo(5.333, 3);
    expect(boardFeet({ lengthNm: 8 * FT, widthNm: 0, thicknessNm: 0, ...dressed })).toBeCloseTo(3.5, 12);
  });
  test('check value 16: a 2×10 dressed dry is 1½ × 9¼ in (PS 20, second hand)', () => {
    expect(softwoodDressed(2, 10)).toEqual({ thicknessNm: 1.5 * IN, widthNm: 9.25 * IN, source: 'second-hand' });
    expect(softwoodDressed(2, 10, 'green')?.source).toBe('from-memory');
    expect(softwoodDressed(2, 7)).toBeNull();
  });
  test('check value 96: lumber dried to 15 % shrinks 2.806 % in width and 2.347 % in thickness (FPL-RP-489)', () => {
    expect(softwoodShrinkPercent(15).widthPercent).toBeCloseTo(2.806, 3);
    expect(softwoodShrinkPercent(15).thicknessPercent).toBeCloseTo(2.347, 3);
  });
});

describe('pieces and the kerfs between them', () => {
  test.each([
    ['117: 8 in, pieces of 1¾ in, computed', 8, 1.75, 4, 7.375],
    ['118: 96 in, pieces of 23 in, computed', 96, 23, 4, 92.375],
    ['nothing fits', 1, 2, 0, 0],
    ['the last piece needs no kerf', 4.125, 2, 2, 4.125],
  ])('check value %s', (_, available, piece, count, used) => {
    expect(piecesFrom(available * IN, piece * IN, IN / 8)).toEqual({
      count,
      usedNm: used * IN,
      leftNm: (available - used) * IN,
    });
  });
  test('a piece of no width is refused', () => {
    expect(() => piecesFrom(IN, 0, 0)).toThrow(RangeError);
  });
});
