import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSolution } from '../../worker/planner/check.ts';
import { perfectSlices } from '../../worker/planner/perfect-slices.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { type Random, seededRandom } from '../../worker/planner/random.ts';
import { solve } from '../../worker/planner/solve.ts';
import { WasteFree } from '../../worker/planner/waste-free.ts';

const LENGTH = 120;
const WIDTH = 24;
const LENGTH_LEAST = 15;
const WIDTH_LEAST = 4;

/** Sheets taken apart by cuts at random, so that their parts must fit back with no waste: the least is known by construction. */
function takenApart(sheets: number, kerf: number, random: Random): Problem {
  const parts = new Map<string, { length: number; width: number; quantity: number }>();
  for (let sheet = 0; sheet < sheets; sheet++) {
    const rects = [{ length: LENGTH, width: WIDTH }];
    for (let cut = 0; cut < 14; cut++) {
      const at = random.below(rects.length);
      const { length, width } = rects[at]!;
      const across = random.below(2) === 0;
      const room = across ? width - kerf - 2 * WIDTH_LEAST : length - kerf - 2 * LENGTH_LEAST;
      if (room < 0) continue;
      const first = (across ? WIDTH_LEAST : LENGTH_LEAST) + random.below(room + 1);
      if (across) rects.splice(at, 1, { length, width: first }, { length, width: width - kerf - first });
      else rects.splice(at, 1, { length: first, width }, { length: length - kerf - first, width });
    }
    for (const { length, width } of rects) {
      const key = `${length} ${width}`;
      parts.set(key, { length, width, quantity: (parts.get(key)?.quantity ?? 0) + 1 });
    }
  }
  return {
    kerf: { rip: kerf, crosscut: kerf },
    maxStages: null,
    objective: 'boards',
    rest: null,
    boards: [{ tag: 'S', length: LENGTH, width: WIDTH, count: null, cost: 1, blocked: [[]], fits: null }],
    blanks: [...parts].map(([part, size]) => ({ part, ...size, value: 1, tier: 1, quality: 0, matchGroup: null })),
  };
}

describe('sheets whose parts leave no waste', () => {
  it('are found again, with and without a kerf', () => {
    let found = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const sheets = 1 + (seed % 3);
      const problem = takenApart(sheets, seed % 2, seededRandom(seed));
      const solution = solve(problem, { effort: 'normal', seed: 1 });
      expect(checkSolution(problem, solution)).toEqual([]);
      expect(solution.bound).toBeLessThanOrEqual(sheets);
      if (solution.layouts.length === sheets) found++;
    }
    expect(found).toBeGreaterThanOrEqual(11);
  }, 60_000);

  it('are found where one sheet has too many parts to be put together at once', () => {
    let found = 0;
    for (let seed = 1; seed <= 4; seed++) {
      const problem = takenApart(3, seed % 2, seededRandom(seed));
      const { kerf, blanks } = problem;
      // Three sheets above one another, a blade between, as one.
      const boards = problem.boards.map((board) => ({ ...board, width: 3 * WIDTH + 2 * kerf.rip, count: 1 }));
      const whole = { ...problem, objective: 'value' as const, boards };
      const solution = solve(whole, { effort: 'normal', seed: 1 });
      expect(checkSolution(whole, solution)).toEqual([]);
      if (solution.achieved === blanks.reduce((sum, blank) => sum + blank.value * blank.quantity!, 0)) found++;
    }
    expect(found).toBe(4);
  }, 60_000);

  it('give the same plan again', () => {
    const problem = takenApart(2, 1, seededRandom(5));
    expect(solve(problem, { effort: 'normal', seed: 2 })).toEqual(solve(problem, { effort: 'normal', seed: 2 }));
  }, 60_000);
});

describe('rectangles without waste', () => {
  const sizes = fc.array(
    fc.record({
      along: fc.integer({ min: 1, max: 4 }),
      across: fc.integer({ min: 1, max: 3 }),
      copies: fc.integer({ min: 1, max: 3 }),
    }),
    { minLength: 1, maxLength: 4 },
  );

  it('hold no more copies than there are, and their blanks fill them', () => {
    fc.assert(
      fc.property(sizes, (list) => {
        const items = list.map(({ along, across }, blank) => ({ blank, along, across, quality: 0 }));
        const copies = Int32Array.from(list, (size) => size.copies);
        const rectangles = new WasteFree({ items, copies, along: 6, across: 4 });
        const { sheets } = rectangles.find({
          copies,
          prices: new Float64Array(list.length).fill(1),
          layerMost: 500,
          blanksMost: 24,
          workMost: 1e6,
        });
        for (const sheet of sheets) {
          const counts = new Int32Array(list.length);
          const cells = new Set<number>();
          for (const { item, along, across } of rectangles.spots(sheet)) {
            counts[item.blank]!++;
            for (let x = along; x < along + item.along; x++) {
              for (let y = across; y < across + item.across; y++) {
                expect(cells.has(x * 4 + y)).toBe(false);
                cells.add(x * 4 + y);
              }
            }
          }
          expect(cells.size).toBe(24);
          expect(counts).toEqual(rectangles.counts(sheet));
          for (const [i, count] of counts.entries()) expect(count).toBeLessThanOrEqual(copies[i]!);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('are all found where none is left out: every way to fill a board of 4 by 2', () => {
    const items = [
      [1, 1],
      [2, 1],
      [1, 2],
      [2, 2],
    ].map(([along, across], blank) => ({
      blank,
      along: along!,
      across: across!,
      quality: 0,
    }));
    const copies = Int32Array.from([8, 4, 4, 2]);
    const rectangles = new WasteFree({ items, copies, along: 4, across: 2 });
    const { sheets, complete } = rectangles.find({
      copies,
      prices: new Float64Array(4).fill(1),
      layerMost: 5000,
      blanksMost: 16,
      workMost: 1e7,
    });
    const found = new Set(sheets.map((sheet) => rectangles.counts(sheet).join(' ')));
    const wanted = new Set<string>();
    for (let two = 0; two <= 2; two++) {
      for (let long = 0; 4 * two + 2 * long <= 8; long++) {
        for (let wide = 0; 4 * two + 2 * long + 2 * wide <= 8; wide++) {
          const units = 8 - 4 * two - 2 * long - 2 * wide;
          // By counting a row of four: without units the wide ones must be even. All else is cut easily.
          if (units > 0 || wide % 2 === 0) wanted.add(`${units} ${long} ${wide} ${two}`);
        }
      }
    }
    expect(complete).toBe(true);
    expect(found).toEqual(wanted);
  });
});

it('four parts round a fifth, like a pinwheel, cannot be cut edge to edge: one look says so', () => {
  const items = [
    { along: 200, across: 100, copies: 2 },
    { along: 100, across: 200, copies: 2 },
    { along: 100, across: 100, copies: 1 },
  ].map(({ copies, ...size }, blank) => ({ copies, item: { ...size, blank, quality: 0 } }));
  const look = (along: number, across: number) => {
    const steps = perfectSlices({
      items: items.map(({ item }) => item),
      copies: Int32Array.from(items, ({ copies }) => copies),
      along,
      across,
      workMost: 1_000_000,
      random: seededRandom(1),
    });
    for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value;
  };
  const { spots, work } = look(300, 300);
  expect(spots).toBeNull();
  expect(work).toBeLessThan(5000);
  // In a row of 900 by 100 the tall ones do not fit either.
  expect(look(900, 100).spots).toBeNull();
});
