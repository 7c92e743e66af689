import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pinCorrectedPercent, pinFittedPercent, readingTrust } from '../../worker/wood/meter.ts';
import {
  dryBasisPercent,
  emcPercent,
  interiorTargets,
  moistureByWeight,
  moistureMaxPercent,
  ovenDryKg,
  relativeHumidityForEmc,
  sinkingMoisturePercent,
  wetBasisPercent,
} from '../../worker/wood/moisture.ts';
import type { Result } from '../../worker/wood/result.ts';

function given<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.help);
  return result.value;
}

/** Wood Handbook FPL-GTR-190 Table 4-2, p. 4-4, as read: °F by relative humidity; its 210 °F row could not be read. */
const TABLE_4_2 = `
T_F,5,10,15,20,25,30,35,40,45,50,55,60,65,70,75,80,85,90,95
30,1.4,2.6,3.7,4.6,5.5,6.3,7.1,7.9,8.7,9.5,10.4,11.3,12.4,13.5,14.9,16.5,18.5,21.0,24.3
40,1.4,2.6,3.7,4.6,5.5,6.3,7.1,7.9,8.7,9.5,10.4,11.3,12.3,13.5,14.9,16.5,18.5,21.0,24.3
50,1.4,2.6,3.6,4.6,5.5,6.3,7.1,7.9,8.7,9.5,10.3,11.2,12.3,13.4,14.8,16.4,18.4,20.9,24.3
70,1.3,2.5,3.5,4.5,5.4,6.2,6.9,7.7,8.5,9.2,10.1,11.0,12.0,13.1,14.4,16.0,17.9,20.5,23.9
80,1.3,2.4,3.5,4.4,5.3,6.1,6.8,7.6,8.3,9.1,9.9,10.8,11.7,12.9,14.2,15.7,17.7,20.2,23.6
90,1.2,2.3,3.4,4.3,5.1,5.9,6.7,7.4,8.1,8.9,9.7,10.5,11.5,12.6,13.9,15.4,17.3,19.8,23.3
100,1.2,2.3,3.3,4.2,5.0,5.8,6.5,7.2,7.9,8.7,9.5,10.3,11.2,12.3,13.6,15.1,17.0,19.5,22.9
120,1.1,2.1,3.0,3.9,4.7,5.4,6.1,6.8,7.5,8.2,8.9,9.7,10.6,11.7,12.9,14.4,16.2,18.6,22.0
130,1.0,2.0,2.9,3.7,4.5,5.2,5.9,6.6,7.2,7.9,8.7,9.4,10.3,11.3,12.5,14.0,15.8,18.2,21.5
140,0.9,1.9,2.8,3.6,4.3,5.0,5.7,6.3,7.0,7.7,8.4,9.1,10.0,11.0,12.1,13.6,15.3,17.7,21.0
160,0.8,1.6,2.4,3.2,3.9,4.6,5.2,5.8,6.4,7.1,7.8,8.5,9.3,10.3,11.4,12.7,14.4,16.7,19.9
170,0.7,1.5,2.3,3.0,3.7,4.3,4.9,5.6,6.2,6.8,7.4,8.2,9.0,9.9,11.0,12.3,14.0,16.2,19.3
180,0.7,1.4,2.1,2.8,3.5,4.1,4.7,5.3,5.9,6.5,7.1,7.8,8.6,9.5,10.5,11.8,13.5,15.7,18.7
190,0.6,1.3,1.9,2.6,3.2,3.8,4.4,5.0,5.5,6.1,6.8,7.5,8.2,9.1,10.1,11.4,13.0,15.1,18.1
200,0.5,1.1,1.7,2.4,3.0,3.5,4.1,4.6,5.2,5.8,6.4,7.1,7.8,8.7,9.7,10.9,12.5,14.6,17.5
`;

const [head, ...rows] = TABLE_4_2.trim()
  .split('\n')
  .map((row) => row.split(','));
const cells = rows.flatMap((row) =>
  row.slice(1).map((emc, i) => ({ temperatureF: Number(row[0]), humidity: Number(head?.[i + 1]), emc: Number(emc) })),
);

describe('what wood comes to in the air around it', () => {
  test('the whole printed table within 0.1 point, by the °F and the °C constants', () => {
    expect(cells.length).toBe(285);
    for (const { temperatureF, humidity, emc } of cells) {
      const air = { relativeHumidityPercent: humidity };
      const byF = given(emcPercent({ ...air, temperatureF }));
      const byC = given(emcPercent({ ...air, temperatureC: (temperatureF - 32) / 1.8 }));
      expect(Math.abs(byF - emc), `${temperatureF} °F ${humidity} %`).toBeLessThanOrEqual(0.1);
      expect(Math.abs(byC - emc), `${temperatureF} °F ${humidity} % by °C`).toBeLessThanOrEqual(0.1);
    }
  });

  test.each([
    [37, 30, 50, 9.5],
    [38, 40, 65, 12.3],
    [39, 50, 30, 6.3],
    [41, 70, 5, 1.3],
    [42, 70, 25, 5.4],
    [43, 70, 30, 6.2],
    [44, 70, 40, 7.7],
    [46, 70, 65, 12.0],
    [47, 70, 80, 16.0],
    [48, 70, 95, 23.9],
    [49, 80, 45, 8.3],
    [51, 100, 50, 8.7],
    [52, 120, 30, 5.4],
    [53, 140, 55, 8.4],
    [54, 160, 70, 10.3],
    [56, 200, 20, 2.4],
  ])('check value %i: %d °F and %d % give %d % (FPL-GTR-190 Table 4-2, read)', (_, temperatureF, humidity, emc) => {
    const found = given(emcPercent({ temperatureF, relativeHumidityPercent: humidity }));
    expect(Math.abs(found - emc)).toBeLessThanOrEqual(0.1);
  });

  test.each([
    [57, 20, 65, 12.0, 2],
    [58, 20, 50, 9.271141, 3],
  ])('check value %i: %d °C and %d % give %d % (eq. 4-5, second hand)', (_, temperatureC, humidity, emc, digits) => {
    expect(given(emcPercent({ temperatureC, relativeHumidityPercent: humidity }))).toBeCloseTo(emc, digits);
  });

  test('check value 59: at 180 °F and 90 % it is 15.66, not the 16.62 of a misprinted constant (computed)', () => {
    const temperatureC = (180 - 32) / 1.8;
    expect(given(emcPercent({ temperatureC, relativeHumidityPercent: 90 }))).toBeCloseTo(15.66, 1);
  });

  test('damper air never makes drier wood, and the air for a moisture content is found again', () => {
    const celsius = fc.double({ min: -20, max: 90, noNaN: true });
    fc.assert(
      fc.property(celsius, fc.double({ min: 1, max: 98, noNaN: true }), (temperatureC, humidity) => {
        const emc = given(emcPercent({ temperatureC, relativeHumidityPercent: humidity }));
        const damper = given(emcPercent({ temperatureC, relativeHumidityPercent: humidity + 1 }));
        expect(damper).toBeGreaterThan(emc);
        expect(given(relativeHumidityForEmc(emc, { temperatureC }))).toBeCloseTo(humidity, 6);
      }),
    );
  });

  test.each([
    [{ relativeHumidityPercent: 101, temperatureC: 20 }, 'humidity-out-of-range', /0 to 100/],
    [{ relativeHumidityPercent: -1, temperatureC: 20 }, 'humidity-out-of-range', /0 to 100/],
    [{ relativeHumidityPercent: Number.NaN, temperatureC: 20 }, 'humidity-out-of-range', /0 to 100/],
    [{ relativeHumidityPercent: 50, temperatureC: 200 }, 'temperature-out-of-range', /−30 to 100/],
    [{ relativeHumidityPercent: 50, temperatureF: Number.NaN }, 'temperature-out-of-range', /212 °F/],
  ])('impossible air is refused: %o', (air, why, help) => {
    const result = emcPercent(air);
    expect(result).toMatchObject({ ok: false, why });
    expect(result.ok ? '' : result.help).toMatch(help);
  });

  test('no air brings wood to 60 % or below nothing', () => {
    expect(relativeHumidityForEmc(60, { temperatureC: 20 })).toMatchObject({ ok: false, why: 'moisture-out-of-range' });
    expect(relativeHumidityForEmc(-1, { temperatureC: 20 })).toMatchObject({ ok: false, why: 'moisture-out-of-range' });
    expect(relativeHumidityForEmc(8, { temperatureC: 500 })).toMatchObject({
      ok: false,
      why: 'temperature-out-of-range',
    });
  });
});

describe('moisture by weight', () => {
  test('check value 61: a 30 lb board with 10 lb of water is at 50 % (extension service, read)', () => {
    expect(given(moistureByWeight({ wetKg: 30, ovenDryKg: 20 }))).toBeCloseTo(50, 12);
  });
  test('check value 62: 30 % of the wet weight is 42.86 % of the dry (definition)', () => {
    expect(given(dryBasisPercent(30))).toBeCloseTo(42.86, 2);
    expect(given(wetBasisPercent(given(dryBasisPercent(30))))).toBeCloseTo(30, 12);
  });
  test('check value 63: a sample of 1500 g at 25 % that weighs 1380 g is at 15 % (kiln-sample method, from memory)', () => {
    const dryKg = given(ovenDryKg(1.5, 25));
    expect(given(moistureByWeight({ wetKg: 1.38, ovenDryKg: dryKg }))).toBeCloseTo(15, 10);
  });
  test('check value 64: the most water at gravity 0.30 and 0.90 is 268 and 46 % (FPL-GTR-282 eq. 4-3, second hand)', () => {
    expect(moistureMaxPercent(0.3)).toBeCloseTo(268, 0);
    expect(moistureMaxPercent(0.9)).toBeCloseTo(46, 0);
    expect(sinkingMoisturePercent(0.5)).toBe(100);
  });
  test('a board lighter than its dry wood is refused', () => {
    expect(moistureByWeight({ wetKg: 10, ovenDryKg: 20 })).toMatchObject({ ok: false, why: 'weight' });
    expect(moistureByWeight({ wetKg: 10, ovenDryKg: 0 })).toMatchObject({ ok: false, why: 'weight' });
    expect(ovenDryKg(0, 12)).toMatchObject({ ok: false, why: 'weight' });
    expect(dryBasisPercent(100)).toMatchObject({ ok: false, why: 'moisture-out-of-range' });
    expect(wetBasisPercent(-1)).toMatchObject({ ok: false, why: 'moisture-out-of-range' });
  });
  test('check value 76: interior targets 8, 6 and 11 % (Wood Handbook Fig. 13-1 as quoted, second hand)', () => {
    expect(interiorTargets.map((t) => t.moisturePercent)).toEqual([8, 6, 11]);
  });
});

describe('a moisture meter', () => {
  const atF = (f: number) => (f - 32) / 1.8;
  test('check value 66: 12 % on wood at 90 °F is 11.0 % (FPL-GTR-190 rule of thumb, read)', () => {
    expect(given(pinCorrectedPercent(12, atF(90)))).toBeCloseTo(11, 10);
    expect(given(pinCorrectedPercent(12, atF(50)))).toBeCloseTo(13, 10);
  });
  test.each([
    [67, 0, 14.26],
    [68, 20, 12.25],
  ])('check value %i: 12 % at %d °C is %d % by the fit (second hand)', (_, temperatureC, expected) => {
    expect(given(pinFittedPercent(12, temperatureC))).toBeCloseTo(expected, 2);
  });
  test('check value 69: pins that show 34 % say only that it is wet (FPL-GTR-190, read)', () => {
    expect(readingTrust(34, 'pin')).toBe('qualitative-wet');
    expect(readingTrust(5, 'pin')).toBe('qualitative-dry');
    expect(readingTrust(5, 'pinless')).toBe('measured');
    expect(readingTrust(80, 'oven')).toBe('measured');
  });
  test('a reading or temperature that no meter gives is refused', () => {
    expect(pinCorrectedPercent(-1, 20)).toMatchObject({ ok: false, why: 'reading-out-of-range' });
    expect(pinFittedPercent(12, 300)).toMatchObject({ ok: false, why: 'temperature-out-of-range' });
  });
});
