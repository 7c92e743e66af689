/** Boards whose long edges are not straight: straightened by a rip of its own, whole or length by length. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import { checkLayout } from '../../worker/planner/check.ts';
import type { BoardLayout, Problem } from '../../worker/planner/problem.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';
import { planFaults } from './shop-plan-check.ts';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
const crook = (inches: number) => ({ bowNm: 0, crookNm: inch(inches), cupNm: 0, twistNm: 0 });

function planOf(rows: readonly Part[], boards: readonly BoardView[]) {
  const asked = { settings: shopSettings(), effort: 'quick', seed: 1, aim: 'least-cost', worth: COMMON_WORTH } as const;
  const answer = planCutting({ job: job(rows), boards, ...asked });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}

describe('a board of 6 x 96 in with 3/4 in crook', () => {
  const crooked = board({ ...sizes(96, 6, 1), tag: 'JB-9', warp: crook(0.75) });

  // Geometry of the handbook of wood figures: 5.25 in are straight over 96 in. Blanks are 1/4 in wider than finished.
  test('gives 5 1/4 in over its whole length, behind a straight-line rip that comes first', () => {
    const plan = planOf([part({ ...sizes(91, 5, 0.75), quantity: 1 })], [crooked]);
    expect(plan.placedCount).toBe(1);
    expect(plan.layouts[0]?.pieces[0]?.leftNm).toBe(inch(0.75));
    expect(plan.layouts[0]?.cuts[0]).toMatchObject({ axis: 'rip', atNm: inch(0.75) - plan.kerf.ripNm });
    expect(plan.layouts[0]?.cuts[0]?.words).toMatch(
      /^Straight-line rip the board: to a line 3\/4" in from the left edge;/,
    );
    // The strip that comes off is waste of the board, and the wood adds up.
    expect(plan.layouts[0]?.scrap).toContainEqual({ fromNm: 0, toNm: inch(96), leftNm: 0, rightNm: inch(0.625) });
    expect(planFaults(plan, [crooked], () => [])).toEqual([]);
    expect(planOf([part({ ...sizes(91, 5.0625, 0.75), quantity: 1 })], [crooked]).placedCount).toBe(0);
  });

  // The same geometry: 5.8125 in are straight over 48 in, so blanks of 5 3/4 in come out of both halves.
  test('is crosscut first for two wide shelves half as long, each length straightened on its own', () => {
    const plan = planOf([part({ ...sizes(45.5, 5.5, 0.75), quantity: 2 })], [crooked]);
    expect(plan.placedCount).toBe(2);
    const [layout] = plan.layouts;
    expect(layout?.cuts[0]?.axis).toBe('crosscut');
    expect(layout?.cuts.filter(({ words }) => words.startsWith('Straight-line rip'))).toHaveLength(2);
    expect(layout?.pieces.every(({ leftNm }) => leftNm <= inch(0.25))).toBe(true);
    expect(planFaults(plan, [crooked], () => [])).toEqual([]);
  });

  test('is straightened once for all strips beside each other', () => {
    const plan = planOf([part({ ...sizes(91, 1.4375, 0.75), quantity: 3 })], [crooked]);
    // 3/4 in off, then three strips of 1 11/16 in with a blade between them: 3/4 + 3 x 1 11/16 + 2 x 1/8 = 6 1/16 in.
    expect(plan.placedCount).toBe(2);
    const narrower = planOf([part({ ...sizes(91, 1.375, 0.75), quantity: 3 })], [crooked]);
    expect(narrower.placedCount).toBe(3);
    expect(narrower.layouts[0]?.cuts.filter(({ words }) => words.startsWith('Straight-line'))).toHaveLength(1);
  });
});

test('a crook that jointing takes anyway is no cut of its own', () => {
  const plan = planOf([part({ ...sizes(40, 5, 0.75) })], [board({ ...sizes(96, 8, 1), warp: crook(1 / 16) })]);
  expect(plan.layouts[0]?.unevenEdges).toEqual([]);
});

describe('a waney edge', () => {
  const wane = (leftNm: number, rightNm: number) => ({
    kind: 'wane' as const,
    face: 'a' as const,
    fromNm: inch(20),
    toNm: inch(70),
    leftNm,
    rightNm,
  });
  const long = part({ ...sizes(90, 3, 0.75), quantity: 1 });

  test('never lies against the fence: the straight edge does', () => {
    const plan = planOf([long], [board({ ...sizes(96, 8, 1), defects: [wane(0, inch(1))] })]);
    const [first] = plan.layouts[0]?.cuts.filter(({ axis }) => axis === 'rip') ?? [];
    expect(first?.words).toContain('right edge against it');
  });

  test('on both sides makes the first rip one to a line', () => {
    const both = board({ ...sizes(96, 8, 1), defects: [wane(0, inch(1)), wane(inch(7), inch(8))] });
    const rips = planOf([long], [both]).layouts[0]?.cuts.filter(({ axis }) => axis === 'rip') ?? [];
    expect(rips.map(({ words }) => words.startsWith('Straight-line rip'))).toEqual([
      true,
      ...rips.slice(1).map(() => false),
    ]);
  });
});

test('the check refuses a piece that reaches over a hollow edge', () => {
  const problem: Problem = {
    kerf: { rip: 4, crosscut: 4 },
    maxStages: null,
    boards: [
      {
        tag: 'JB-9',
        length: 1000,
        width: 100,
        count: 1,
        cost: 0,
        blocked: [[]],
        fits: null,
        edges: { crook: 16, uneven: [], partedAt: [] },
      },
    ],
    blanks: [{ part: 'Rail', length: 500, width: 60, quantity: 1, value: 1, tier: 1, quality: 0, matchGroup: null }],
    objective: 'value',
    rest: null,
  };
  const at = (left: number): BoardLayout => {
    const half = { from: 0, to: 500, left: 0, right: 100 };
    return {
      board: 0,
      pieces: [{ blank: 0, from: 0, to: 500, left, right: left + 60 }],
      cuts: [
        { axis: 'crosscut', of: { from: 0, to: 1000, left: 0, right: 100 }, at: 500, kerf: 4 },
        ...(left > 0 ? [{ axis: 'rip' as const, of: half, at: left - 4, kerf: 4 }] : []),
        { axis: 'rip', of: { ...half, left }, at: left + 60, kerf: 4 },
      ],
      rests: [
        ...(left > 4 ? [{ ...half, right: left - 4 }] : []),
        { from: 504, to: 1000, left: 0, right: 100 },
        { ...half, left: left + 64 },
      ],
    };
  };
  // Over half the length a quarter of 16 is left.
  expect(checkLayout(problem, at(4))).toEqual([]);
  expect(checkLayout(problem, at(3)).join()).toMatch(/reaches over an edge that is hollow by 4\.00 over 500/);
});

test('any plan on crooked boards is straightened enough for every piece', () => {
  const someBoard = fc.record({
    length: fc.integer({ min: 30, max: 120 }),
    width: fc.integer({ min: 12, max: 40 }).map((quarters) => quarters / 4),
    crook: fc.integer({ min: 0, max: 32 }).map((parts) => parts / 32),
  });
  const somePart = fc.record({
    length: fc.integer({ min: 8, max: 60 }),
    width: fc.integer({ min: 8, max: 40 }).map((parts) => parts / 8),
    quantity: fc.integer({ min: 1, max: 5 }),
  });
  fc.assert(
    fc.property(
      fc.array(someBoard, { minLength: 1, maxLength: 3 }),
      fc.array(somePart, { minLength: 1, maxLength: 4 }),
      (yard, list) => {
        const boards = yard.map(({ length, width, crook: hollow }, at) =>
          board({ ...sizes(length, width, 1), id: `bd_${at}`, tag: `JB-${at}`, warp: crook(hollow) }),
        );
        const rows = list.map(({ length, width, quantity }, at) =>
          part({ ...sizes(length, width, 0.75), key: `p${at}`, label: `Part ${at}`, quantity }),
        );
        expect(planFaults(planOf(rows, boards), boards, () => [])).toEqual([]);
      },
    ),
    { numRuns: 15 },
  );
}, 90_000);
