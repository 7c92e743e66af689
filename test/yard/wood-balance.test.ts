/** The saw's dust by hand: the part of each blade that lies inside the stock it cuts. Sizes are small whole numbers, worked out beside. */
import { expect, test } from 'vitest';
import type { Layout } from '../../worker/contract/plan.ts';
import { plannedKerfNm3 } from '../../worker/yard/decide/wood-balance.ts';

type Cut = Layout['cuts'][number];
const of = { fromNm: 10, toNm: 50, leftNm: 2, rightNm: 8 };
const cut = (axis: Cut['axis'], atNm: number, kerfNm: number): Cut => ({ no: 1, axis, of, atNm, kerfNm, words: '' });
const kerf = (...cuts: readonly Cut[]) => plannedKerfNm3({ cuts } as unknown as Layout, 3);

test('a crosscut takes kerf times width, a rip kerf times length, of the piece it cuts', () => {
  expect(kerf(cut('crosscut', 20, 1))).toBe(18n); // 1 x (8 - 2) x 3
  expect(kerf(cut('rip', 5, 1))).toBe(120n); // 1 x (50 - 10) x 3
  expect(kerf(cut('crosscut', 20, 1), cut('rip', 5, 1))).toBe(138n);
});

test('what lies outside the piece is air', () => {
  expect(kerf(cut('crosscut', 49, 2))).toBe(18n); // 1 of 2 inside
  expect(kerf(cut('crosscut', 9, 2))).toBe(18n);
  expect(kerf(cut('rip', 7, 3))).toBe(120n); // 1 of 3 inside
  expect(kerf(cut('crosscut', 50, 2))).toBe(0n);
  expect(kerf(cut('crosscut', 70, 2))).toBe(0n);
  expect(kerf(cut('rip', 0, 1))).toBe(0n);
});
