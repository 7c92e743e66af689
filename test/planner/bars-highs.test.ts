/**
 * Bars against HiGHS (highs.dev, the WebAssembly build of the `highs` package): on small cases every pattern is written
 * down, and HiGHS finds the least bars in fractions (LP) and whole (MIP). Shares nothing with the planner.
 */
import * as fc from 'fast-check';
import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import { BarKnapsack } from '../../worker/planner/bar-knapsack.ts';
import { checkSolution } from '../../worker/planner/check.ts';
import { CoverLp } from '../../worker/planner/cover-lp.ts';
import { solve } from '../../worker/planner/solve.ts';
import { blankOf, boardOfSize, problemWith } from './solve-cases.ts';

const highs = await loadHighs();

interface Bars {
  readonly capacity: number;
  readonly sizes: readonly number[];
  readonly wanted: readonly number[];
}

const anyBars: fc.Arbitrary<Bars> = fc
  .record({
    capacity: fc.integer({ min: 20, max: 60 }),
    rows: fc.uniqueArray(fc.record({ size: fc.integer({ min: 5, max: 40 }), copies: fc.integer({ min: 1, max: 7 }) }), {
      minLength: 2,
      maxLength: 6,
      selector: (row) => row.size,
    }),
  })
  .map(({ capacity, rows }) => {
    const fit = rows.filter((row) => row.size <= capacity).sort((a, b) => a.size - b.size);
    return { capacity, sizes: fit.map((row) => row.size), wanted: fit.map((row) => row.copies) };
  })
  .filter((bars) => bars.sizes.length > 0);

/** Every set of lengths that one bar holds. */
function patternsOf({ capacity, sizes, wanted }: Bars): number[][] {
  const found: number[][] = [];
  const extend = (at: number, room: number, counts: number[]): void => {
    if (at === sizes.length) {
      if (counts.some((count) => count > 0)) found.push(counts);
      return;
    }
    for (let copies = 0; copies <= wanted[at]! && copies * sizes[at]! <= room; copies++)
      extend(at + 1, room - copies * sizes[at]!, [...counts, copies]);
  };
  extend(0, capacity, []);
  return found;
}

function leastByHighs(bars: Bars, isWhole: boolean): number {
  const patterns = patternsOf(bars);
  const rows = bars.wanted.map((copies, row) => {
    const terms = patterns.flatMap((pattern, x) => (pattern[row]! > 0 ? [`${pattern[row]} x${x}`] : []));
    return ` r${row}: ${terms.join(' + ')} >= ${copies}`;
  });
  const names = patterns.map((_, x) => `x${x}`);
  const text = [`Minimize`, ` bars: ${names.join(' + ')}`, 'Subject To', ...rows];
  if (isWhole) text.push('General', ` ${names.join(' ')}`);
  const result = highs.solve([...text, 'End'].join('\n'), { output_flag: false });
  expect(result.Status).toBe('Optimal');
  return result.ObjectiveValue;
}

describe('bars, every pattern given to HiGHS', () => {
  test('the mix with priced patterns reaches the LP over all patterns', () => {
    fc.assert(
      fc.property(anyBars, (bars) => {
        const sizes = Int32Array.from(bars.sizes);
        const wanted = Int32Array.from(bars.wanted);
        const alone = sizes.map((size, row) => Math.min(wanted[row]!, Math.floor(bars.capacity / size)));
        const lp = new CoverLp(wanted, alone);
        const knapsack = new BarKnapsack({ sizes, capacity: bars.capacity });
        for (;;) {
          lp.solve();
          const fresh = knapsack.best(lp.duals, wanted, 3, 1000).sets.filter((set) => set.value > 1 + 1e-7);
          if (fresh.length === 0) break;
          for (const { pattern } of fresh) lp.add(pattern);
        }
        const used = lp.used();
        const sum = used.reduce((total, share, k) => (k % 2 === 1 ? total + share : total), 0);
        expect(sum).toBeCloseTo(leastByHighs(bars, false), 5);
        const dual = lp.duals.reduce((total, price, row) => total + price * wanted[row]!, 0);
        expect(dual).toBeCloseTo(sum, 5);
      }),
      { numRuns: 60 },
    );
  });

  test('the plan opens as few as the MIP, and its bound is never above', () => {
    fc.assert(
      fc.property(anyBars, (bars) => {
        const problem = problemWith(
          [boardOfSize('bar', bars.capacity, 10, { count: null, cost: 1 })],
          bars.sizes.map((size, i) => blankOf(`stick ${i}`, size, 10, { quantity: bars.wanted[i]! })),
          { objective: 'boards', kerf: { rip: 0, crosscut: 0 } },
        );
        const solution = solve(problem, { effort: 'quick', seed: 1 });
        expect(checkSolution(problem, solution)).toEqual([]);
        const least = Math.round(leastByHighs(bars, true));
        expect(solution.achieved).toBe(least);
        expect(solution.bound).toBeLessThanOrEqual(least);
      }),
      { numRuns: 60 },
    );
  });

  test('sixty sticks made by sawing twenty bars in three come out of twenty bars', () => {
    const sticks: number[] = [];
    for (let bar = 0; bar < 20; bar++) {
      const a = 380 + ((bar * 37) % 110);
      const b = 255 + ((bar * 53) % 40);
      sticks.push(a, b, 1000 - 2 * 3 - a - b);
    }
    const problem = problemWith(
      [boardOfSize('bar', 1000, 50, { count: null, cost: 1 })],
      sticks.map((length, i) => blankOf(`stick ${i}`, length, 50)),
      { objective: 'boards' },
    );
    const solution = solve(problem, { effort: 'normal', seed: 1 });
    expect([solution.achieved, solution.bound]).toEqual([20, 20]);
    expect(checkSolution(problem, solution)).toEqual([]);
  });
});
