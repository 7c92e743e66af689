/** Where a board's wood went, by hand: the saw's dust in small whole numbers, and accounts that close or do not. */
import { expect, test } from 'vitest';
import type { Board } from '../../worker/contract/board.ts';
import type { Layout } from '../../worker/contract/plan.ts';
import type { WoodBalance } from '../../worker/contract/session.ts';
import { closeBalance, plannedKerfNm3, type WoodOut } from '../../worker/yard/decide/wood-balance.ts';
import { boardOf, INCH } from './shop.ts';

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

const IN3 = 25_400_000n ** 3n;
/** 100 x 8 x 2 in: 1,600 cubic inches; a board foot is 144 of them (American Softwood Lumber Standard PS 20, from memory). */
const board = { ...boardOf('Q-1'), id: 'bd_q1', state: 'in-stock', version: 1 } as unknown as Board;
const sawn = (over: Partial<WoodOut>): WoodOut => ({
  partsNm3: 0n,
  failedNm3: 0n,
  offcuts: [],
  kerfNm3: null,
  scrapNm3: null,
  ...over,
});
const inches = ({ balance }: { readonly balance: WoodBalance }) =>
  [balance.partsNm3, balance.failedNm3, balance.offcutsNm3, balance.kerfNm3, balance.scrapNm3].map(
    (nm3) => BigInt(nm3) / IN3,
  );
function closed(out: WoodOut, planned = 12n * IN3) {
  const answer = closeBalance(board, out, planned);
  if (!('balance' in answer)) throw new Error(answer.refusal.detail);
  expect(answer.balance.inNm3).toBe(String(1_600n * IN3));
  return inches(answer);
}
function open(out: WoodOut, planned = 12n * IN3): string {
  const answer = closeBalance(board, out, planned);
  if ('balance' in answer) throw new Error('it balances');
  expect(answer.refusal.why).toBe('wood-does-not-balance');
  return answer.refusal.detail;
}

test('what is neither part, offcut nor planned kerf is scrap', () => {
  const offcut = { lengthNm: 20 * INCH, widthNm: 8 * INCH, thicknessNm: 2 * INCH };
  expect(closed(sawn({ partsNm3: 900n * IN3, failedNm3: 200n * IN3, offcuts: [offcut] }))).toEqual([
    900n,
    200n,
    320n,
    12n,
    168n,
  ]);
  // Whoever made fewer cuts than planned has less dust, down to none.
  expect(closed(sawn({ partsNm3: 1_595n * IN3 }))).toEqual([1_595n, 0n, 0n, 5n, 0n]);
  expect(closed(sawn({ partsNm3: 1_600n * IN3 }))).toEqual([1_600n, 0n, 0n, 0n, 0n]);
  expect(closed(sawn({ partsNm3: 1_500n * IN3, kerfNm3: 40n * IN3, scrapNm3: 60n * IN3 }))).toEqual([
    1_500n,
    0n,
    0n,
    40n,
    60n,
  ]);
});

test('more out of a board than it holds is refused, with how many board feet too much', () => {
  const tooMuch = /^More comes out of Q-1 than it holds: 1\.000 board feet \(\d+ cubic nanometres\) too much\./;
  expect(open(sawn({ partsNm3: 1_744n * IN3 }))).toMatch(tooMuch);
  expect(open(sawn({ partsNm3: 1_456n * IN3, kerfNm3: 288n * IN3 }))).toMatch(tooMuch);
  expect(open(sawn({ partsNm3: 1_456n * IN3, kerfNm3: 0n, scrapNm3: 288n * IN3 }))).toMatch(tooMuch);
  expect(open(sawn({ partsNm3: 1_456n * IN3, scrapNm3: -144n * IN3, kerfNm3: 0n }))).toMatch(tooMuch);
});

test('scrap that was weighed and does not fill the board leaves wood to look for', () => {
  expect(open(sawn({ partsNm3: 1_300n * IN3, kerfNm3: 12n * IN3, scrapNm3: 144n * IN3 }))).toMatch(
    /^1\.000 board feet \(\d+ cubic nanometres\) of Q-1 are not accounted for\./,
  );
});
