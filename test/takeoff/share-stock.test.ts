import fc from 'fast-check';
import { expect, test } from 'vitest';
import { shareOut } from '../../worker/takeoff/share-stock.ts';

const sum = (list: readonly number[]) => list.reduce((total, item) => total + item, 0);

/** Least shortage by the marriage condition (Hall 1935; Gale 1957): the worst set of needs less all that serves any of it. */
function leastShort(needs: readonly number[], stock: readonly number[], serves: (s: number, n: number) => boolean) {
  let worst = 0;
  for (let set = 1; set < 2 ** needs.length; set += 1) {
    const inSet = needs.map((_, n) => n).filter((n) => (set >> n) & 1);
    const wanted = sum(inSet.map((n) => needs[n] ?? 0));
    const had = sum(stock.filter((_, s) => inSet.some((n) => serves(s, n))));
    worst = Math.max(worst, wanted - had);
  }
  return worst;
}

test('no sharing leaves less short than the marriage condition says, and ours leaves that much', () => {
  const whole = fc.integer({ min: 0, max: 20 });
  fc.assert(
    fc.property(
      fc.array(whole, { minLength: 1, maxLength: 7 }),
      fc.array(whole, { maxLength: 7 }),
      fc.array(fc.boolean(), { minLength: 49, maxLength: 49 }),
      (needs, stock, edges) => {
        const serves = (s: number, n: number) => edges[s * 7 + n] ?? false;
        const { shortM2 } = shareOut(needs, stock, serves);
        expect(sum(shortM2)).toBeCloseTo(leastShort(needs, stock, serves), 9);
      },
    ),
    { numRuns: 500 },
  );
});

test('stock that nobody can use is no help', () => {
  expect(shareOut([2], [5, 5], (stock) => stock === 1)).toEqual({ shortM2: [0] });
});
