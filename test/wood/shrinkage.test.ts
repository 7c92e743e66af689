import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  coefficientOf,
  type Direction,
  facesDirections,
  shrinkAtRingAngle,
  sizeAtMoisture,
  sizeBeforeDrying,
  sizeByCoefficient,
} from '../../worker/wood/shrinkage.ts';
import { allSpecies, speciesByKey } from '../../worker/wood/species.ts';
import { NM_PER_INCH as IN, NM_PER_MM as MM } from '../../worker/wood/unit.ts';

const wood = (key: string) => speciesByKey(key)!;
const inch = (nm: number) => nm / IN;

describe('the coefficient method, 6 to 14 %', () => {
  test.each([
    ['79: white oak flat', 'white-oak', 'tangential', 8, 12, 7, -0.146, 3],
    ['81: red oak quarter', 'northern-red-oak', 'radial', 6, 12, 6, -0.0569, 4],
    ['82: sugar maple', 'hard-maple', 'tangential', 24, 7, 10, 0.254, 3],
    ['83: walnut', 'black-walnut', 'tangential', 10, 9, 6, -0.0822, 4],
    ['84: cherry', 'black-cherry', 'tangential', 12, 8, 11, 0.0893, 4],
  ])('check value %s (FPL-GTR-190 Table 13-5, read)', (_, key, direction, width, from, to, change, digits) => {
    const coefficient = direction === 'radial' ? wood(key).coefficientRadial : wood(key).coefficientTangential;
    const sizeNm = sizeByCoefficient({ sizeNm: width * IN, coefficient, fromPercent: from, toPercent: to });
    expect(inch(sizeNm) - width).toBeCloseTo(change, digits);
  });

  test('check values 77 and 78: white fir 9.15 in and 232 mm, 8 to 11 % (FPL-GTR-190 Ch. 13 example, read)', () => {
    const move = { coefficient: wood('white-fir').coefficientTangential, fromPercent: 8, toPercent: 11 };
    expect(inch(sizeByCoefficient({ ...move, sizeNm: 9.15 * IN }))).toBeCloseTo(9.217, 3);
    expect(sizeByCoefficient({ ...move, sizeNm: 232 * MM }) / MM).toBeCloseTo(233.7, 1);
  });

  test('check value 86: mesquite 5 in, 6 to 9 %, C 0.00129: + 0.019 in (flooring chart, second hand)', () => {
    const sizeNm = sizeByCoefficient({ sizeNm: 5 * IN, coefficient: 0.00129, fromPercent: 6, toPercent: 9 });
    expect(inch(sizeNm) - 5).toBeCloseTo(0.019, 3);
  });

  test.each([
    [87, 7.8, 0.00274],
    [88, 11.9, 0.00431],
    [89, 12.4, 0.00451],
  ])('check value %i: %d %% shrinkage is C %d (FPL-GTR-190 Table 13-5, read)', (_, shrink, coefficient) => {
    expect(coefficientOf(shrink)).toBeCloseTo(coefficient, 5);
  });

  test('outside 6 to 14 % it does not hold, and says so', () => {
    const move = { sizeNm: IN, coefficient: 0.003, toPercent: 8 };
    expect(() => sizeByCoefficient({ ...move, fromPercent: 20 })).toThrow(
      /moisture content is 20; it must be from 6 to 14/,
    );
  });
});

describe('from any moisture to any other', () => {
  test.each([
    ['white oak flat 8 in, 12 to 7 %', 'white-oak', 'tangential', 8, 12, 7, -0.149],
    ['northern red oak quarter 6 in, 12 to 6 %', 'northern-red-oak', 'radial', 6, 12, 6, -0.0492],
    ['sugar maple 24 in, 7 to 10 %', 'hard-maple', 'tangential', 24, 7, 10, 0.257],
    ['walnut 10 in, 9 to 6 %', 'black-walnut', 'tangential', 10, 9, 6, -0.0825],
    ['cherry 12 in, 8 to 11 %', 'black-cherry', 'tangential', 12, 8, 11, 0.0899],
  ] as const)(
    '%s (Wood Handbook eq. 13-3, recalled and reproduces Table 13-5)',
    (_, key, direction, size, from, to, change) => {
      const move = { direction, species: wood(key), fromPercent: from, toPercent: to };
      expect(inch(sizeAtMoisture({ ...move, sizeNm: size * IN })) - size).toBeCloseTo(change, 3);
    },
  );

  test.each([
    ['91: beech 2.25 in thick, quarter-sawn, green to 7 %', 'american-beech', 'tangential', 2.25, 7, 2.045],
    ['beech 2.25 in thick, flat-sawn, green to 7 %', 'american-beech', 'radial', 2.25, 7, 2.155],
    ['white oak flat 10 in, green to 8 %', 'white-oak', 'tangential', 10, 8, 9.23],
  ] as const)('check value %s (FPL-GTR-282 eq. 4-9, second hand)', (_, key, direction, size, to, expected) => {
    const move = { direction, species: wood(key), fromPercent: 60, toPercent: to };
    expect(inch(sizeAtMoisture({ ...move, sizeNm: size * IN }))).toBeCloseTo(expected, 3);
  });

  test('fibre saturation at 28 % moves a little less from green: white oak 10 in to 8 % is 9.25 in (computed)', () => {
    const move = { direction: 'tangential', species: wood('white-oak'), fromPercent: 60, toPercent: 8 } as const;
    expect(inch(sizeAtMoisture({ ...move, sizeNm: 10 * IN, fspPercent: 28 }))).toBeCloseTo(9.25, 2);
  });

  test('check values 93 and 94: nothing moves above 30 %, and 40 % counts as 30 % (fibre saturation rule, read)', () => {
    const move = { direction: 'tangential', species: wood('white-oak'), sizeNm: 8 * IN } as const;
    expect(sizeAtMoisture({ ...move, fromPercent: 35, toPercent: 30 })).toBe(8 * IN);
    expect(sizeAtMoisture({ ...move, fromPercent: 40, toPercent: 8 })).toBe(
      sizeAtMoisture({ ...move, fromPercent: 30, toPercent: 8 }),
    );
  });

  test('along the grain it hardly moves: 8 ft from green to 8 % loses less than 1/8 in', () => {
    const move = { direction: 'longitudinal', species: wood('white-oak'), sizeNm: 96 * IN } as const;
    const lost = 96 - inch(sizeAtMoisture({ ...move, fromPercent: 60, toPercent: 8 }));
    expect(lost).toBeGreaterThan(0.05);
    expect(lost).toBeLessThan(0.125);
  });

  test.each([-1, 301, Number.NaN])('a moisture content of %d is refused with its range', (fromPercent) => {
    const move = { direction: 'radial', species: wood('white-oak'), sizeNm: IN, toPercent: 8 } as const;
    expect(() => sizeAtMoisture({ ...move, fromPercent })).toThrow(/moisture content is .*must be from 0 to 300/);
  });
});

describe('what to cut now for a finished size', () => {
  test('check value 92: northern red oak flat, 6 in at 8 %, cut green: 6.404 in (eq. 4-9 turned round, second hand)', () => {
    const shrinkPercent = wood('northern-red-oak').shrinkTangentialPercent;
    const now = sizeBeforeDrying({ finishedNm: 6 * IN, shrinkPercent, fromPercent: 80, toPercent: 8 });
    expect(inch(now)).toBeCloseTo(6.404, 3);
  });

  test('a piece cut to it dries to the finished size, never under and at most a nanometre over', () => {
    const percent = fc.double({ min: 0, max: 60, noNaN: true });
    const species = fc.constantFrom(...allSpecies);
    const directions: Direction[] = ['radial', 'tangential', 'longitudinal'];
    fc.assert(
      fc.property(
        fc.integer({ min: IN / 4, max: 60 * IN }),
        percent,
        percent,
        species,
        fc.constantFrom(...directions),
        (finishedNm, fromPercent, toPercent, wood, direction) => {
          const shrinkPercent = {
            radial: wood.shrinkRadialPercent,
            tangential: wood.shrinkTangentialPercent,
            longitudinal: 0.15,
          }[direction];
          const cutNm = sizeBeforeDrying({ finishedNm, shrinkPercent, fromPercent, toPercent });
          const driedNm = sizeAtMoisture({ sizeNm: cutNm, direction, species: wood, fromPercent, toPercent });
          expect(driedNm - finishedNm).toBeGreaterThanOrEqual(0);
          expect(driedNm - finishedNm).toBeLessThanOrEqual(2);
        },
      ),
    );
  });

  test('wood that will take up moisture is cut smaller than it ends', () => {
    expect(sizeBeforeDrying({ finishedNm: 6 * IN, shrinkPercent: 8, fromPercent: 6, toPercent: 10 })).toBeLessThan(
      6 * IN,
    );
  });
});

describe('how a board is sawn', () => {
  test.each([
    [0, 8.6, 4.0],
    [30, 7.45, 5.15],
    [45, 6.3, 6.3],
    [60, 5.15, 7.45],
    [90, 4.0, 8.6],
  ])('rings at %d°: northern red oak %d / %d %% in width / thickness (computed)', (degrees, width, thickness) => {
    const shrink = shrinkAtRingAngle(wood('northern-red-oak'), degrees);
    expect(shrink.widthPercent).toBeCloseTo(width, 10);
    expect(shrink.thicknessPercent).toBeCloseTo(thickness, 10);
  });

  test.each([
    ['flat', 10.5, 5.6],
    ['quarter', 5.6, 10.5],
    ['rift', 8.05, 8.05],
    ['unknown', 10.5, 10.5],
  ] as const)('%s white oak', (grain, width, thickness) => {
    const shrink = facesDirections(grain, wood('white-oak'));
    expect(shrink.widthPercent).toBeCloseTo(width, 10);
    expect(shrink.thicknessPercent).toBeCloseTo(thickness, 10);
  });

  test('rings cannot lean more than 90°', () => {
    expect(() => shrinkAtRingAngle(wood('white-oak'), 91)).toThrow(/ring angle is 91/);
  });
});
