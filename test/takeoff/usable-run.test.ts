import { expect, test } from 'vitest';
import { kerfNm, longestRun, trimsOf, withoutBlades, withoutTrims } from '../../worker/takeoff/usable-run.ts';
import { board, inch, shopSettings } from './shop-cases.ts';

// A 10 ft board, 1/8 in crosscut blade, 1 in of end trim: the shop's first figures, common practice, no source.
const tenFeet = board({ lengthNm: inch(120), widthNm: inch(8), thicknessNm: inch(1) });
const settings = shopSettings();
const run = (fromIn: number, toIn: number) => ({ fromNm: inch(fromIn), toNm: inch(toIn) });
const blade = inch(1 / 8);

test('a blade is taken from the free side of each hold, and none at the ends of the board', () => {
  expect(withoutBlades(tenFeet, run(0, 120), blade)).toEqual(run(0, 120));
  expect(withoutBlades(tenFeet, run(0, 48), blade)).toEqual(run(0, 47.875));
  expect(withoutBlades(tenFeet, run(48, 120), blade)).toEqual(run(48.125, 120));
  expect(withoutBlades(tenFeet, run(40, 80), blade)).toEqual(run(40.125, 79.875));
});

test('a sliver between two holds gives nothing rather than less than nothing', () => {
  expect(withoutBlades(tenFeet, run(40, 40.125), blade)).toEqual({ fromNm: inch(40.125), toNm: inch(40.125) });
});

test('both mill ends are trimmed, a fresh crosscut and an offcut are not', () => {
  const offcut = { ...tenFeet, origin: { kind: 'offcut' as const, parentId: 'bd_00000001', sessionId: null } };
  expect(trimsOf(tenFeet, run(0, 120), settings)).toEqual([run(0, 1), run(119, 120)]);
  expect(trimsOf(tenFeet, run(0, 60), settings)).toEqual([run(0, 1)]);
  expect(trimsOf(tenFeet, run(60, 120), settings)).toEqual([run(119, 120)]);
  expect(trimsOf(tenFeet, run(30, 60), settings)).toEqual([]);
  expect(trimsOf(offcut, run(0, 120), settings)).toEqual([]);
  const untrimmed = shopSettings({ allowances: { ...settings.allowances, endTrimNm: 0 } });
  expect(trimsOf(tenFeet, run(0, 120), untrimmed)).toEqual([]);
});

test('what the trim leaves is never less than nothing', () => {
  expect(withoutTrims(run(0, 120), [run(0, 1), run(119, 120)])).toEqual(run(1, 119));
  expect(withoutTrims(run(0, 0.5), [run(0, 1)])).toEqual({ fromNm: inch(1), toNm: inch(1) });
});

test('of a 10 ft board of which 48 in are held, the longer end is cut up, a blade away from the hold', () => {
  expect(longestRun(tenFeet, [run(0, 48)], settings)).toEqual(run(48.125, 120));
  expect(longestRun(tenFeet, [run(50, 98)], settings)).toEqual(run(0, 49.875));
  expect(longestRun(tenFeet, [run(0, 120)], settings)).toBeNull();
});

test('a blade is planned in whole steps of the grid, never thinner than it is', () => {
  // A 2.9 mm blade on a grid of 1/32 in (0.79375 mm): four steps, 1/8 in.
  const thin = shopSettings({ kerf: { ripNm: 2_900_000, crosscutNm: 3_175_000 }, shown: 'in' });
  expect(kerfNm(thin)).toEqual({ ripNm: inch(1 / 8), crosscutNm: inch(1 / 8) });
});
