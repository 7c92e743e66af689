import fc from 'fast-check';
import { expect, test } from 'vitest';
import { taperSteps } from '../../worker/wood/taper.ts';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

const board = { lengthNm: 96 * IN, widthNm: 8 * IN };

test('8 in to 7 1/2 in over 8 ft: four steps of an eighth, 2 ft long each', () => {
  expect(taperSteps(board, 7.5 * IN)).toEqual(
    [1, 2, 3, 4].map((step) => ({
      fromNm: (step - 1) * 24 * IN,
      toNm: step * 24 * IN,
      leftNm: (8 - step / 8) * IN,
      rightNm: 8 * IN,
    })),
  );
});

test('a board that widens or stays as it is misses nothing', () => {
  expect([taperSteps(board, 8 * IN), taperSteps(board, 9 * IN)]).toEqual([[], []]);
});

test('a board that loses half its width does so in 24 steps at most', () => {
  expect(taperSteps(board, 4 * IN)).toHaveLength(24);
});

test('sizes that no wood has are refused', () => {
  for (const [length, width, far] of [
    [0, 8, 7],
    [96, Number.NaN, 7],
    [96, 8, -1],
  ] as const)
    expect(() => taperSteps({ lengthNm: length * IN, widthNm: width * IN }, far * IN)).toThrow(RangeError);
});

test('the steps follow one another from end to end, and no wood that is missing is left in', () => {
  const nm = fc.integer({ min: 1, max: 3_000_000_000 });
  fc.assert(
    fc.property(nm, nm, fc.double({ min: 0.01, max: 0.999, noNaN: true }), (lengthNm, widthNm, share) => {
      const widthFarNm = Math.max(1, Math.floor(widthNm * share));
      const steps = taperSteps({ lengthNm, widthNm }, widthFarNm);
      let atNm = 0;
      for (const step of steps) {
        expect(step.fromNm).toBe(atNm);
        atNm = step.toNm;
        // Similar triangles: what is left at the far side of the step is no less than the step leaves.
        const leftOver = widthNm - ((widthNm - widthFarNm) * step.toNm) / lengthNm;
        expect(step.leftNm).toBeLessThanOrEqual(leftOver + 1);
        expect(step.leftNm).toBeGreaterThan(leftOver - 2);
      }
      expect(atNm).toBe(widthNm > widthFarNm ? lengthNm : 0);
    }),
  );
});
