import { expect, test } from 'vitest';
import { airYearPercents, evenYearPercents, sizesThroughYear } from '../../worker/wood/movement-year.ts';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

test('an even year is driest in January, dampest in July, and half-way in April and October', () => {
  const year = evenYearPercents(6, 12);
  expect(year).toHaveLength(12);
  expect([year[0], year[3], year[6], year[9]].map((percent) => Number(percent?.toFixed(6)))).toEqual([6, 9, 12, 9]);
  // A cosine: February is 3 × (1 − cos 30°) above January.
  expect(year[1]).toBeCloseTo(6 + 3 * (1 - Math.sqrt(3) / 2), 9);
  expect(year[11]).toBeCloseTo(year[1] ?? 0, 9);
});

test('a year without a swing stays where it is; one upside down, below dry or beyond wet is refused', () => {
  expect(evenYearPercents(8, 8).every((percent) => percent === 8)).toBe(true);
  for (const [low, high] of [
    [9, 8],
    [-1, 8],
    [8, 301],
  ] as const)
    expect(() => evenYearPercents(low, high)).toThrow(RangeError);
});

test('the air of each month brings wood to its equilibrium: 70 °F and 30, 50, 65 % are 6.2, 9.2, 12.0 %', () => {
  // Wood Handbook FPL-GTR-282 table 4-2.
  const year = airYearPercents(
    [30, 50, 65].map((relativeHumidityPercent) => ({ temperatureF: 70, relativeHumidityPercent })),
  );
  expect(year.ok && year.value.map((percent) => Number(percent.toFixed(1)))).toEqual([6.2, 9.2, 12]);
});

test('one month of impossible air makes no year', () => {
  expect(airYearPercents([{ temperatureF: 70, relativeHumidityPercent: 140 }]).ok).toBe(false);
});

test('a 24 in top of 9.9 % shrinkage made at 8 % is 24 in at 8 % and wider or narrower beside it', () => {
  // Wood Handbook eq. 13-3 over 30 % of fibre saturation: 24 × 3 / (30 × 100 / 9.9 − 30 + 8).
  const [dry, same, damp] = sizesThroughYear(24 * IN, 9.9, { madePercent: 8, monthPercents: [5, 8, 11] });
  const perPercent = 24 / ((30 * 100) / 9.9 - 30 + 8);
  expect(same).toBe(24 * IN);
  expect((damp ?? 0) / IN).toBeCloseTo(24 + 3 * perPercent, 3);
  expect((dry ?? 0) / IN).toBeCloseTo(24 - 3 * perPercent, 3);
});
