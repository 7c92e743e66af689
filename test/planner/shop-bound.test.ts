import fc from 'fast-check';
import { expect, test } from 'vitest';
import { figuresOfAll } from '../../worker/planner/present.ts';
import { stockFigures } from '../../worker/planner/present-bound.ts';
import { coverBoundM3 } from '../../worker/planner/present-cover.ts';
import { shareBoundM3 } from '../../worker/planner/present-shares.ts';
import type { Blank, Problem, Rect, StockBoard } from '../../worker/planner/problem.ts';

const KERF = 4;

const stock = (length: number, width: number, blocked: readonly Rect[] = []): StockBoard => ({
  tag: `${length} x ${width}`,
  length,
  width,
  count: 1,
  cost: length * width,
  blocked: [blocked],
  fits: null,
});
const blank = (length: number, width: number): Blank => ({
  part: `${length} x ${width}`,
  length,
  width,
  quantity: 1,
  value: length * width,
  tier: 1,
  quality: 0,
  matchGroup: null,
});
const problemOf = (boards: readonly StockBoard[], blanks: readonly Blank[]): Problem => ({
  kerf: { rip: KERF, crosscut: KERF },
  maxStages: null,
  boards,
  blanks,
  objective: 'net',
  rest: null,
});
/** As thick everywhere: volume as area. */
const volumes = (boards: readonly StockBoard[]) => boards.map((board) => (board.length * board.width) / 1e6);

test('three rails that each take more than half a board need three boards', () => {
  const boards = [stock(1000, 100), stock(1000, 100), stock(1000, 100), stock(1000, 100)];
  const rails = [blank(950, 60), blank(950, 60), blank(950, 60)];
  const figures = stockFigures(problemOf(boards, rails), volumes(boards), [1, 1, 1], 0.3, null, 'final');
  expect(figures.boundM3).toBeCloseTo(0.3, 6);
  expect(figures.boundIs).toContain('Proven best');
});

test('the one cheap board is not counted on twice', () => {
  const boards = [stock(1000, 100), stock(1000, 200)];
  const rails = [blank(996, 96), blank(996, 96)];
  // One rail fills the narrow board; the other takes half of the wide one's face.
  expect(shareBoundM3(problemOf(boards, rails), [1, 1], volumes(boards), 0.3)).toBeGreaterThan(0.19);
});

test('a board that only part of can be used gives only that part', () => {
  const spoiled = { from: 0, to: 500, left: 0, right: 100 };
  const boards = [stock(1000, 100, [spoiled]), stock(1000, 100, [spoiled])];
  const problem = problemOf(boards, [blank(240, 96), blank(240, 96)]);
  expect(shareBoundM3(problem, [1, 1], volumes(boards), 0.2)).toBeGreaterThan(0.09);
});

test('a blade may stand on the near sides of bad wood', () => {
  // Eight pieces of 20 around a bad middle that reaches under the blades' paths: this board and no less.
  const boards = [stock(68, 68, [{ from: 20, to: 48, left: 20, right: 48 }]), stock(200, 68)];
  const problem = problemOf(boards, [blank(20, 20)]);
  expect(shareBoundM3(problem, [8], [1, 50], 1)).toBeCloseTo(1, 9);
});

test('whole boards are opened, not shares of them', () => {
  // Five rails fill half of the wood; but a board holds two, so three boards are opened.
  const boards = Array.from({ length: 5 }, () => stock(1000, 100));
  const rails = [blank(450, 96)];
  const three = 0.3;
  expect(coverBoundM3(problemOf(boards, rails), [5], volumes(boards), three, 150)).toBeCloseTo(three, 6);
});

interface Sawn {
  readonly pieces: readonly Rect[];
  readonly scrap: readonly Rect[];
}

/** Saws a board apart at places that come from the case; every part is a piece or scrap. */
function sawn(rect: Rect, places: readonly number[], at = 0): Sawn {
  const place = places[at];
  const length = rect.to - rect.from;
  const width = rect.right - rect.left;
  if (place === undefined || place % 5 === 0)
    return place !== undefined && place % 10 === 0 ? { pieces: [], scrap: [rect] } : { pieces: [rect], scrap: [] };
  const isRip = place % 2 === 0;
  const cut = 1 + (place % Math.max(1, (isRip ? width : length) - KERF - 1));
  const sides = isRip
    ? [
        { ...rect, right: rect.left + cut },
        { ...rect, left: rect.left + cut + KERF },
      ]
    : [
        { ...rect, to: rect.from + cut },
        { ...rect, from: rect.from + cut + KERF },
      ];
  const parts = sides
    .filter((side) => side.from < side.to && side.left < side.right)
    .map((side, index) => sawn(side, places, 2 * at + 1 + index));
  return { pieces: parts.flatMap((p) => p.pieces), scrap: parts.flatMap((p) => p.scrap) };
}

test('pieces sawn from boards never need more stock than those boards', () => {
  const anyBoard = fc.record({
    length: fc.integer({ min: 60, max: 400 }),
    width: fc.integer({ min: 30, max: 150 }),
    places: fc.array(fc.nat(997), { minLength: 7, maxLength: 15 }),
  });
  fc.assert(
    fc.property(
      fc.array(anyBoard, { minLength: 1, maxLength: 5 }),
      fc.array(anyBoard, { maxLength: 2 }),
      (cut, spare) => {
        const sawnUp = cut.map((one) => sawn({ from: 0, to: one.length, left: 0, right: one.width }, one.places));
        const blanks = sawnUp.flatMap(({ pieces }) => pieces.map((p) => blank(p.to - p.from, p.right - p.left)));
        // What came out as scrap is bad wood, so that the bound may count on it.
        const boards = [
          ...cut.map((one, index) => stock(one.length, one.width, sawnUp[index]?.scrap ?? [])),
          ...spare.map((one) => stock(one.length, one.width)),
        ];
        const used = cut.reduce((sum, one, index) => {
          return (sawnUp[index]?.pieces.length ?? 0) > 0 ? sum + (one.length * one.width) / 1e6 : sum;
        }, 0);
        for (const boundM3 of [shareBoundM3, coverBoundM3]) {
          const bound = boundM3(
            problemOf(boards, blanks),
            blanks.map(() => 1),
            volumes(boards),
            used,
            150,
          );
          expect(bound).toBeLessThanOrEqual(used + 1e-9);
        }
      },
    ),
    { numRuns: 250 },
  );
}, 60_000);

test('of two woods the wider gap tells by which argument', () => {
  const oak = { usedM3: 0.3, boundM3: 0.25, boundIs: 'by oak' };
  const walnut = { usedM3: 0.2, boundM3: 0.11, boundIs: 'by walnut' };
  const both = figuresOfAll([oak, walnut]);
  expect(both.usedM3).toBeCloseTo(0.5, 9);
  expect(both.boundM3).toBeCloseTo(0.36, 9);
  expect(both.boundIs).toBe('by walnut');
  expect(figuresOfAll([walnut, oak]).boundIs).toBe('by walnut');
  expect(figuresOfAll([oak, { ...oak, boundIs: 'by elm' }]).boundIs).toBe('by oak');
  expect(figuresOfAll([])).toEqual({ usedM3: 0, boundM3: 0, boundIs: 'Nothing is cut.' });
});

test('what the search proved counts where it says most, and only where it proved anything', () => {
  const boards = Array.from({ length: 5 }, () => stock(1000, 100));
  const rails = [blank(450, 96)];
  const problem = problemOf(boards, rails);
  const worth = 2 * 450 * 96;
  // Whatever is worth no more than that leaves 190,000 to be paid for boards of 100,000 a tenth of a cubic metre.
  const figures = stockFigures(problem, volumes(boards), [2], 0.2, worth - 190_000, 'final');
  expect(figures.boundM3).toBeCloseTo(0.19, 9);
  expect(figures.boundIs).toContain('What the boards could be worth at most');
  const unproven = stockFigures(problem, volumes(boards), [2], 0.2, null, 'final');
  expect(unproven.boundM3).toBeLessThan(0.19);
  expect(unproven.boundM3).toBeGreaterThan(0);
  expect(stockFigures(problem, volumes(boards), [2], 0.2, Number.POSITIVE_INFINITY, 'final')).toEqual(unproven);
});
