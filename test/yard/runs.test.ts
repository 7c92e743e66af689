/** Runs along a board: which overlap, and which stretch nobody holds. */
import { expect, test } from 'vitest';
import { longestFreeRun, runsOverlap } from '../../worker/yard/decide/holds.ts';

const run = (fromNm: number, toNm: number) => ({ fromNm, toNm });

test('runs that only touch do not overlap, whichever comes first', () => {
  expect(runsOverlap(run(0, 10), run(10, 20))).toBe(false);
  expect(runsOverlap(run(10, 20), run(0, 10))).toBe(false);
  expect(runsOverlap(run(0, 11), run(10, 20))).toBe(true);
  expect(runsOverlap(run(10, 20), run(0, 11))).toBe(true);
});

test('the longest free run lies before, between or after what is held; none is left of a board held whole', () => {
  expect(longestFreeRun(100, [])).toEqual(run(0, 100));
  expect(longestFreeRun(100, [run(60, 100)])).toEqual(run(0, 60));
  expect(longestFreeRun(100, [run(70, 80), run(0, 10)])).toEqual(run(10, 70));
  expect(longestFreeRun(100, [run(0, 30), run(40, 45)])).toEqual(run(45, 100));
  // Of two alike the first; a run within another frees nothing.
  expect(longestFreeRun(100, [run(40, 60)])).toEqual(run(0, 40));
  expect(longestFreeRun(100, [run(0, 90), run(10, 20)])).toEqual(run(90, 100));
  expect(longestFreeRun(100, [run(0, 100)])).toBeNull();
  expect(longestFreeRun(100, [run(0, 50), run(50, 100)])).toBeNull();
});
