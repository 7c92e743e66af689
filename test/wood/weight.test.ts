import { describe, expect, test } from 'vitest';
import { speciesByKey } from '../../worker/wood/species.ts';
import { NM_PER_FOOT as FT, NM_PER_INCH as IN } from '../../worker/wood/unit.ts';
import { M3_PER_BOARD_FOOT } from '../../worker/wood/volume.ts';
import {
  densityKgPerM3,
  poundsFromKg,
  shrinkVolumetricFromGravity,
  specificGravityAt,
  weightKg,
} from '../../worker/wood/weight.ts';

const wood = (key: string) => speciesByKey(key)!;
const poundsPerBf = (density: number) => poundsFromKg(density * M3_PER_BOARD_FOOT);

describe('density with its water', () => {
  test('check value 97: white ash at 12 % is 678 kg/m³ by the handbook chart, 675 by formula (FPL-GTR-190, read)', () => {
    const density = densityKgPerM3({ specificGravityGreen: 0.55, shrinkVolumetricPercent: null }, 12);
    expect(Math.abs(density - 678)).toBeLessThan(6.78);
    expect(density).toBeCloseTo(675, 0);
  });

  test.each([
    ['98', 'northern-red-oak', 83, 0.56, 1024.8, 5.33],
    ['99', 'black-walnut', 8, 0.5628, 607.9, 3.16],
    ['101', 'eastern-white-pine', 10, 0.36, 395.6, 2.06],
    ['table', 'northern-red-oak', 12, 0.61, 683, 3.56],
    ['table', 'hard-maple', 12, 0.614, 688, 3.58],
    ['table', 'yellow-poplar', 12, 0.433, 485, 2.52],
    ['table', 'black-cherry', 8, 0.513, 554, 2.88],
    ['table', 'white-oak', 68, 0.6, 1008, 5.24],
  ])(
    'check value %s: %s at %d %% (gravity and shrinkage of the table, eq. 4-11 and 4-14; computed)',
    (_, key, moisture, gravity, kg, pounds) => {
      expect(specificGravityAt(wood(key), moisture)).toBeCloseTo(gravity, 3);
      expect(Math.abs(densityKgPerM3(wood(key), moisture) - kg)).toBeLessThan(0.5);
      expect(poundsPerBf(densityKgPerM3(wood(key), moisture))).toBeCloseTo(pounds, 2);
    },
  );

  test('check value 103: gravity 0.50 implies 13.25 % volumetric shrinkage (eq. 4-12, second hand)', () => {
    expect(shrinkVolumetricFromGravity(0.5)).toBeCloseTo(13.25, 10);
  });
});

describe('weight of a piece', () => {
  test('check value 102: 8/4 green white oak 12 in × 10 ft, 20 bf, is 104.9 lb (computed)', () => {
    const kg = weightKg({ lengthNm: 10 * FT, widthNm: 12 * IN, thicknessNm: 2 * IN }, wood('white-oak'), 68);
    expect(poundsFromKg(kg)).toBeCloseTo(104.9, 1);
  });
  test('moisture that no wood has is refused', () => {
    expect(() => densityKgPerM3(wood('white-oak'), -5)).toThrow(/moisture content is -5/);
    expect(() => specificGravityAt({ specificGravityGreen: 0, shrinkVolumetricPercent: 10 }, 8)).toThrow(
      /specific gravity/,
    );
  });
});
