/** Strips that lie whole until the parts they stand for have passed: of a plan's layout, what is not yet cut within them. */
import { expect, test } from 'vitest';
import type { Layout } from '../../worker/contract/plan.ts';
import { withReservesWhole } from '../../worker/yard/decide/reserve-strips.ts';

/** A board of 100 by 8 in, in inches: legs along its left half, the right half ripped off as a reserve. */
const rect = (fromNm: number, toNm: number, leftNm: number, rightNm: number) => ({ fromNm, toNm, leftNm, rightNm });
const board = rect(0, 100, 0, 8);
const strip = rect(0, 100, 4, 8);
const layout = {
  pieces: [rect(0, 30, 0, 4), rect(0, 40, 4, 8)],
  cuts: [
    { no: 1, of: board },
    { no: 2, of: rect(0, 100, 0, 4) },
    { no: 3, of: strip },
  ],
  offcuts: [rect(50, 100, 0, 4), rect(60, 100, 4, 8)],
  scrap: [rect(30, 50, 0, 4), rect(40, 60, 4, 8)],
  reserves: [{ ...strip, standsFor: [{ label: 'Leg' }] }],
} as unknown as Layout;

test('cuts, pieces, offcuts and scrap within a reserve are not there yet: the strip itself is left, last of the offcuts', () => {
  const whole = withReservesWhole(layout);
  expect(whole.pieces).toEqual([rect(0, 30, 0, 4)]);
  expect(whole.cuts.map(({ no }) => no)).toEqual([1, 2]);
  expect(whole.offcuts).toEqual([rect(50, 100, 0, 4), strip]);
  expect(whole.scrap).toEqual([rect(30, 50, 0, 4)]);
});

test('a layout without reserves stays as it is', () => {
  expect(withReservesWhole({ ...layout, reserves: [] })).toEqual({ ...layout, reserves: [] });
});
