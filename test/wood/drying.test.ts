import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dayAfter, dayNumber, dayOfNumber, daysBetween } from '../../worker/wood/day.ts';
import {
  type DryingQuestion,
  type DryingReading,
  daysToReach,
  dryingRate,
  moistureAfter,
  type ReadyDate,
  readyDate,
  restUntil,
} from '../../worker/wood/drying.ts';
import { daysToTwentyPercent } from '../../worker/wood/drying-days.ts';
import { speciesByKey } from '../../worker/wood/species.ts';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

const pin = (on: string, moisturePercent: number): DryingReading => ({ on, moisturePercent, meter: 'pin' });
const question: DryingQuestion = {
  readings: [],
  air: { relativeHumidityPercent: 35, temperatureC: 20 },
  targetPercent: 8,
  species: speciesByKey('white-oak')!,
  thicknessNm: IN,
  stackedOn: '2026-03-01',
};
function ready(asked: Partial<DryingQuestion>): ReadyDate {
  const result = readyDate({ ...question, ...asked });
  if (!result.ok) throw new Error(result.help);
  return result.value;
}

describe('the drying model (from memory)', () => {
  test('check value 72: 14 to 10.5 % in 21 days at EMC 7 is τ 30.30 days, and 37.95 days more to 8 % (computed)', () => {
    const rate = dryingRate([pin('2026-03-01', 14), pin('2026-03-22', 10.5)], 7);
    const tauDays = rate.ok ? rate.value.tauDays : 0;
    expect(tauDays).toBeCloseTo(30.3, 2);
    expect(daysToReach(8, 10.5, 7, tauDays)).toBeCloseTo(37.95, 2);
  });
  test('check value 73: 20 % with τ 25 days at EMC 12 is 14.41 % after 30 days (computed)', () => {
    expect(moistureAfter(30, 20, 12, 25)).toBeCloseTo(14.41, 2);
  });
  test('check value 74: 8 % is never reached at EMC 9 (computed)', () => {
    expect(daysToReach(8, 12, 9, 30)).toBeNull();
  });

  test('readings made by the model give its τ back, in any order', () => {
    const days = fc.uniqueArray(fc.integer({ min: 0, max: 90 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(days, fc.double({ min: 20, max: 200, noNaN: true }), (on, tauDays) => {
        const readings = on.map((t) => pin(dayAfter('2026-01-01', t), moistureAfter(t, 28, 6.5, tauDays)));
        const rate = dryingRate(readings, 6);
        const exact = dryingRate(readings, 6.5);
        expect(exact.ok ? exact.value.tauDays / tauDays : 0).toBeCloseTo(1, 6);
        expect(rate.ok && rate.value.spread >= 0.3).toBe(true);
      }),
    );
  });
});

describe('readings that cannot be used', () => {
  test('pins above 30 % are left out of the fit (FPL-GTR-190: only qualitative)', () => {
    const rate = dryingRate([pin('2026-01-01', 45), pin('2026-02-01', 22), pin('2026-03-01', 16)], 7);
    expect(rate).toMatchObject({ ok: true, value: { ignored: [{ moisturePercent: 45 }] } });
  });
  test.each([
    ['none', [], 'too-few-readings'],
    ['two on one day', [pin('2026-01-01', 20), pin('2026-01-01', 19)], 'too-few-readings'],
    ['only wet pins', [pin('2026-01-01', 60), pin('2026-02-01', 40)], 'too-few-readings'],
    ['rising', [pin('2026-01-01', 14), pin('2026-02-01', 18)], 'not-drying'],
  ])('%s', (_, readings, why) => {
    expect(dryingRate(readings, 7)).toMatchObject({ ok: false, why });
  });
});

describe('when stock will be ready', () => {
  test('from two readings: a range about the likely day, counted from the last', () => {
    const date = ready({ readings: [pin('2026-03-22', 10.5), pin('2026-03-01', 14)] });
    expect(date).toMatchObject({ kind: 'range', basis: 'readings' });
    if (date.kind !== 'range') return;
    const likely = daysBetween('2026-03-22', date.likelyOn);
    expect(daysBetween('2026-03-22', date.earliestOn)).toBe(Math.ceil(likely * 0.7));
    expect(daysBetween('2026-03-22', date.latestOn) / likely).toBeCloseTo(1.3, 1);
  });

  test('at the target already', () => {
    expect(ready({ readings: [pin('2026-03-01', 7.8)] })).toMatchObject({ kind: 'ready', on: '2026-03-01' });
  });

  test('never in a damp shed, with the humidity that would do', () => {
    const date = ready({ readings: [pin('2026-03-01', 14)], air: { relativeHumidityPercent: 65, temperatureC: 20 } });
    expect(date).toMatchObject({ kind: 'never' });
    if (date.kind !== 'never') return;
    expect(date.emcPercent).toBeCloseTo(12, 1);
    expect(date.relativeHumidityBelowPercent).toBeGreaterThan(40);
    expect(date.relativeHumidityBelowPercent).toBeLessThan(44);
    expect(date.note).toMatch(/kiln or a heated room/);
  });

  test('without readings: the wide table of its species, scaled by thickness, and it says so', () => {
    const one = ready({ targetPercent: 20, air: { relativeHumidityPercent: 65, temperatureC: 20 } });
    const two = ready({
      targetPercent: 20,
      air: { relativeHumidityPercent: 65, temperatureC: 20 },
      thicknessNm: 2 * IN,
    });
    expect(one).toMatchObject({ kind: 'range', basis: 'species-table' });
    if (one.kind !== 'range' || two.kind !== 'range') return;
    const days = (on: string) => daysBetween('2026-03-01', on);
    expect([days(one.earliestOn), days(one.latestOn)]).toEqual([80, 250]);
    expect(days(two.latestOn)).toBe(Math.ceil(250 * 2 ** 1.5));
    expect(one.note).toMatch(/no readings.*white oak/);
  });

  test('one reading starts the table’s rate where the board stands', () => {
    const stacked = ready({});
    const read = ready({ readings: [pin('2026-03-01', 15)] });
    if (stacked.kind !== 'range' || read.kind !== 'range') throw new Error('both have a range');
    expect(read.basis).toBe('species-table');
    expect(daysBetween(read.latestOn, stacked.latestOn)).toBeGreaterThan(0);
    // It counts the readings, and says why they give no rate.
    expect(read.note).toMatch(/^one reading does not tell how fast it dries: .*another some weeks later/);
    const ofOneDay = ready({ readings: [pin('2026-03-01', 15), pin('2026-03-01', 14)] });
    expect(ofOneDay.kind === 'range' && ofOneDay.note).toMatch(/^its 2 readings do not tell.*two of different days/);
  });

  test.each([
    ['a wood without drying times', { species: speciesByKey('teak')! }, 'not-in-drying-table'],
    ['no reading and no day', { stackedOn: null }, 'no-start'],
    ['a target of 60 %', { targetPercent: 60 }, 'target-out-of-range'],
    ['air of 120 %', { air: { relativeHumidityPercent: 120, temperatureC: 20 } }, 'humidity-out-of-range'],
    ['readings that rise', { readings: [pin('2026-01-01', 14), pin('2026-02-01', 18)] }, 'not-drying'],
  ])('%s is refused', (_, asked, why) => {
    const result = readyDate({ ...question, ...asked });
    expect(result).toMatchObject({ ok: false, why });
    expect(result.ok ? '' : result.help).not.toBe('');
  });

  test('every wood of the drying table is in the list of woods, with its green moisture', () => {
    for (const [key, [least, most]] of Object.entries(daysToTwentyPercent)) {
      expect(speciesByKey(key)?.greenMoisturePercent, key).toBeGreaterThan(20);
      expect(least).toBeLessThan(most);
    }
  });
});

describe('days', () => {
  test('rest ends so many days on', () => {
    expect(restUntil('2026-02-27', 2)).toBe('2026-03-01');
    expect(restUntil('2028-02-27', 2)).toBe('2028-02-29');
    expect(restUntil('2026-02-27', 0)).toBe('2026-02-27');
    expect(() => restUntil('2026-02-27', -1)).toThrow(/days of rest/);
  });
  test('a day that the calendar does not have is refused', () => {
    expect(() => dayNumber('2026-02-30')).toThrow(/2026-03-01/);
    expect(() => dayNumber('tomorrow')).toThrow(RangeError);
  });
  test('every day comes back', () => {
    fc.assert(
      fc.property(fc.integer({ min: -10_000, max: 60_000 }), (n) => {
        expect(dayNumber(dayOfNumber(n))).toBe(n);
      }),
    );
  });
});
