/** Defects on a smaller piece of the board. */
import { expect, test } from 'vitest';
import type { Defect } from '../../worker/contract/board.ts';
import { defectsWithin } from '../../worker/yard/decide/defects.ts';

const knot: Defect = { kind: 'knot-sound', face: 'a', fromNm: 10, toNm: 30, leftNm: 4, rightNm: 9 };

test('what of a defect lies on the piece keeps its place there, measured from the piece’s own end and edge', () => {
  expect(defectsWithin([knot], { fromNm: 20, toNm: 50, leftNm: 6, rightNm: 20 })).toEqual([
    { ...knot, fromNm: 0, toNm: 10, leftNm: 0, rightNm: 3 },
  ]);
  expect(defectsWithin([knot], { fromNm: 5, toNm: 25, leftNm: 2, rightNm: 8 })).toEqual([
    { ...knot, fromNm: 5, toNm: 20, leftNm: 2, rightNm: 6 },
  ]);
});

test('a defect that only touches the piece is not on it', () => {
  expect(defectsWithin([knot], { fromNm: 30, toNm: 50, leftNm: 0, rightNm: 20 })).toEqual([]);
  expect(defectsWithin([knot], { fromNm: 0, toNm: 50, leftNm: 9, rightNm: 20 })).toEqual([]);
});
