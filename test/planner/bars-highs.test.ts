/**
 * Bars against HiGHS (highs.dev, the WebAssembly build of the `highs` package): on small cases every pattern is written
 * down, and HiGHS finds the least bars in fractions (LP) and whole (MIP). Shares nothing with the planner.
 */
import * as fc from 'fast-check';
import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import { BarKnapsack } from '../../worker/planner/bar-knapsack.ts';
import { BarMix } from '../../worker/planner/bar-mix.ts';
import { packBars } from '../../worker/planner/bar-packing.ts';
import { checkSolution } from '../../worker/planner/check.ts';
import { CoverLp } from '../../worker/planner/cover-lp.ts';
import { seededRandom } from '../../worker/planner/random.ts';
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

describe('rails cut three to a bar, with nothing left', () => {
  /** Each bar of 1000 sawn into three, so that as many bars hold them again and no fewer. */
  const sawn = (bars: number, seed: number): Bars => {
    const random = seededRandom(seed);
    const copies = new Map<number, number>();
    for (let bar = 0; bar < bars; bar++) {
      const first = 380 + random.below(115);
      const second = 250 + random.below((1000 - first) / 2 - 250);
      for (const size of [first, second, 1000 - first - second]) copies.set(size, (copies.get(size) ?? 0) + 1);
    }
    const sizes = [...copies.keys()].sort((a, b) => a - b);
    return { capacity: 1000, sizes, wanted: sizes.map((size) => copies.get(size)!) };
  };
  const packed = ({ capacity, sizes, wanted }: Bars, workMost: number) => {
    const steps = packBars({
      capacity,
      sizes: Int32Array.from(sizes),
      wanted: Int32Array.from(wanted),
      start: sizes.flatMap((_, i) => new Array<readonly number[]>(wanted[i]!).fill([i, 1])),
      bound: 1,
      workMost,
      random: seededRandom(1),
    });
    for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value;
  };

  test.each([1, 2, 3, 4])('are packed on as many bars, or one more (%i)', (seed) => {
    const bars = sawn(20, seed);
    const answer = packed(bars, 40_000_000);
    const counts = bars.sizes.map(() => 0);
    for (const pattern of answer.bars) {
      let length = 0;
      for (let k = 0; k < pattern.length; k += 2) {
        counts[pattern[k]!]! += pattern[k + 1]!;
        length += bars.sizes[pattern[k]!]! * pattern[k + 1]!;
      }
      expect(length).toBeLessThanOrEqual(bars.capacity);
    }
    expect(counts).toEqual(bars.wanted);
    expect(answer.bound).toBe(20);
    expect(answer.bars.length).toBeLessThanOrEqual(21);
    expect(packed(bars, 40_000_000)).toEqual(answer);
  });
});

test('a mix narrowed to the sizes still wanted takes as many bars as one made anew', () => {
  fc.assert(
    fc.property(anyBars, fc.array(fc.nat(7), { minLength: 6, maxLength: 6 }), (bars, cut) => {
      const task = { capacity: bars.capacity, sizes: Int32Array.from(bars.sizes) };
      const wanted = Int32Array.from(bars.wanted);
      const mix = BarMix.of(task, wanted);
      for (const pattern of patternsOf(bars)) {
        const part = pattern.flatMap((copies, size) => (copies > 0 ? [size, copies] : []));
        if (part.length > 2) mix.add(part);
      }
      mix.solve();
      const left = wanted.map((copies, size) => Math.max(0, copies - (cut[size] ?? 0)));
      if (left.every((copies) => copies === 0)) return;
      const narrow = mix.narrowed(left);
      expect(narrow === mix).toBe(left.filter((copies) => copies > 0).length > 0.6 * left.length);
      narrow.want(left);
      narrow.solve();
      const asked = { ...bars, wanted: [...left] };
      const least = leastByHighs(asked, false);
      // The mix as it was may still use a bar that holds more of a size than is left.
      if (narrow === mix) expect(narrow.total).toBeLessThan(least + 1e-4);
      else expect(narrow.total).toBeCloseTo(least, 4);
      const given = bars.sizes.map(() => 0);
      for (const { pattern, share } of narrow.used(left)) {
        for (let k = 0; k < pattern.length; k += 2) given[pattern[k]!]! += pattern[k + 1]! * share;
      }
      given.forEach((sum, size) => {
        if (left[size]! === 0) expect(sum).toBe(0);
      });
      expect(
        narrow.prices().every((price, size) => price >= 0 && (left[size]! > 0 || narrow === mix || price === 0)),
      ).toBe(true);
    }),
    { numRuns: 40, endOnFailure: true },
  );
});
