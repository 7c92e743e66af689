/** Defects against the size of a board, and on a smaller piece of it. */
import { expect, test } from 'vitest';
import type { Defect } from '../../worker/contract/board.ts';
import { settings } from '../../worker/contract/settings.ts';
import { defectFaults, defectsWithin } from '../../worker/yard/decide/defects.ts';

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

test('a knot that runs past the end or the edge is named with where the board ends', () => {
  const IN = 25_400_000;
  const face = { lengthNm: 100 * IN, widthNm: 8 * IN };
  const to = (toIn: number, rightIn: number): Defect => ({ ...knot, toNm: toIn * IN, rightNm: rightIn * IN });
  const faults = (...defects: readonly Defect[]) =>
    defectFaults(defects, face, settings.parse({}), { pointer: '/defects' });
  expect(faults(to(100, 8), to(20, 3))).toEqual([]);
  expect(faults(to(20, 3), to(101, 8))).toStrictEqual([
    {
      pointer: '/defects/1',
      field: 'defects',
      read: 'knot-sound to 8\' 5" along, 8" across',
      help: 'the board ends at 8\' 4" along and 8" across',
    },
  ]);
  expect(faults(to(100, 9)).map((fault) => fault.read)).toEqual(['knot-sound to 8\' 4" along, 9" across']);
  // Of a delivery, the row is told too.
  const row = defectFaults([to(101, 8)], face, settings.parse({}), { pointer: '/boards/3/defects', row: 3 });
  expect(row.map((fault) => [fault.pointer, fault.row])).toEqual([['/boards/3/defects/0', 3]]);
});
