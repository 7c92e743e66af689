import fc from 'fast-check';
import { expect, test } from 'vitest';
import { freeRuns } from '../../worker/takeoff/free-run.ts';
import { inch } from './shop-cases.ts';

test('a 10 ft board with 3 to 5 ft held leaves 3 ft and 5 ft', () => {
  expect(freeRuns(inch(120), [{ fromNm: inch(36), toNm: inch(60) }])).toEqual([
    { fromNm: 0, toNm: inch(36) },
    { fromNm: inch(60), toNm: inch(120) },
  ]);
});

test('a board held whole leaves nothing', () => {
  expect(freeRuns(inch(96), [{ fromNm: 0, toNm: inch(96) }])).toEqual([]);
});

test('every place along a board is either held or in just one free run', () => {
  const run = fc.tuple(fc.nat(40), fc.nat(40)).map(([a, b]) => ({ fromNm: Math.min(a, b), toNm: Math.max(a, b) }));
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 40 }), fc.array(run, { maxLength: 6 }), (lengthNm, held) => {
      const free = freeRuns(lengthNm, held);
      for (let at = 0; at < lengthNm; at += 1) {
        const inFree = free.filter((r) => r.fromNm <= at && at < r.toNm).length;
        const isHeld = held.some((r) => r.fromNm <= at && at < r.toNm);
        if (inFree !== (isHeld ? 0 : 1)) return false;
      }
      return free.every((r) => r.fromNm < r.toNm);
    }),
  );
});
