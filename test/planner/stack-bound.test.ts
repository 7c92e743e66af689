/** Bounds beside a yard's plan, against every cut tried and against plans found. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BarBound } from '../../worker/planner/bar-bound.ts';
import { startJob } from '../../worker/planner/job.ts';
import type { Problem, Rect, StockBoard } from '../../worker/planner/problem.ts';
import { seededRandom } from '../../worker/planner/random.ts';
import { solve } from '../../worker/planner/solve.ts';
import { StackBound } from '../../worker/planner/stack-bound.ts';
import { WorthBound } from '../../worker/planner/worth-bound.ts';
import { bestWorthUnlimited } from './exhaustive.ts';
import { blankOf, boardOfSize, problemWith, randomYard, smallBoard } from './solve-cases.ts';

const valuesOf = ({ blanks }: Problem) => Float64Array.from(blanks, ({ value }) => value);

function stacked(problem: Problem, prices = valuesOf(problem), board = 0) {
  const use = new Float64Array(prices.length);
  return { most: new StackBound(problem).most(board, prices, use), use };
}

/** The same in a finer unit. */
function enlarged(problem: Problem, times: number): Problem {
  const larger = (rect: Rect): Rect => ({
    from: rect.from * times,
    to: rect.to * times,
    left: rect.left * times,
    right: rect.right * times,
  });
  const { kerf, boards, blanks } = problem;
  const sized = <T extends { length: number; width: number }>(one: T): T => ({
    ...one,
    length: one.length * times,
    width: one.width * times,
  });
  return {
    ...problem,
    kerf: { rip: kerf.rip * times, crosscut: kerf.crosscut * times },
    boards: boards.map((board) => ({ ...sized(board), blocked: board.blocked.map((list) => list.map(larger)) })),
    blanks: blanks.map(sized),
  };
}

describe('stacks of blanks across a board', () => {
  it('never promise less than the best of all cuts, in coarse units and fine ones', () => {
    fc.assert(
      fc.property(smallBoard, fc.constantFrom(1, 2, 977), (problem, times) => {
        const exact = bestWorthUnlimited(problem);
        expect(stacked(enlarged(problem, times)).most).toBeGreaterThanOrEqual(exact - 1e-9);
      }),
      { numRuns: 600 },
    );
  }, 60_000);

  it('use what they promise, and nothing that is worth nothing', () => {
    fc.assert(
      fc.property(randomYard('net', 1), (problem) => {
        const prices = valuesOf(problem);
        prices[0] = 0;
        const { most, use } = stacked(problem, prices);
        expect(use.reduce((sum, amount, blank) => sum + amount * prices[blank]!, 0)).toBeCloseTo(most, 4);
        expect(use[0]).toBe(0);
      }),
      { numRuns: 60 },
    );
  });

  it('know where a blank cannot lie, by hand', () => {
    // A knot amid the board: 30 x 6 lies on neither side of it, left and right are 45 long, so no more than 3 fit in fractions.
    const knot = { from: 45, to: 55, left: 4, right: 6 };
    const board = boardOfSize('K', 100, 10, { blocked: [[knot]] });
    const shelf = blankOf('shelf', 30, 6, { quantity: 9, value: 1 });
    const { most, use } = stacked(problemWith([board], [shelf], { kerf: { rip: 0, crosscut: 0 } }));
    expect([most, use[0]]).toEqual([3, 3]);
  });

  it('count what is left over, by hand', () => {
    const rest = { perArea: 0.5, lengthMin: 0, widthMin: 0, lengthRef: 1, widthRef: 1, lengthPower: 0, widthPower: 0 };
    const board = boardOfSize('R', 100, 10, { blocked: [[]] });
    const shelf = blankOf('shelf', 50, 6, { value: 300 });
    const { most } = stacked(problemWith([board], [shelf], { kerf: { rip: 0, crosscut: 0 }, rest }));
    // Two shelves, and 100 x 4 left.
    expect(most).toBeCloseTo(600 + 200, 9);
  });

  it('are closer than bars where boards have defects', () => {
    const random = seededRandom(4);
    const knots = (): Rect[] =>
      Array.from({ length: 24 }, () => {
        const [from, left] = [random.below(2900), random.below(170)];
        return { from, to: from + 20 + random.below(80), left, right: left + 10 + random.below(20) };
      });
    const knotty = (at: number): StockBoard => boardOfSize(`B${at}`, 3000, 200, { blocked: [knots()] });
    const blanks = Array.from({ length: 12 }, (_, at) =>
      blankOf(`part ${at}`, 300 + random.below(900), 30 + random.below(60)),
    );
    const problem = problemWith([0, 1, 2, 3].map(knotty), blanks);
    const prices = valuesOf(problem);
    const bars = new BarBound(problem).boards(prices, new Int32Array(blanks.length).fill(99)).least;
    const stacks = problem.boards.map((_, board) => stacked(problem, prices, board).most);
    const sum = (list: Iterable<number>) => [...list].reduce((total, one) => total + one, 0);
    expect(sum(stacks) / sum(bars)).toBeLessThan(0.98);
  });
});

describe('what no plan of a yard is worth more than', () => {
  it('is never below a plan, however it is come by', () => {
    fc.assert(
      fc.property(randomYard('net', 4), (problem) => {
        const oneTier = { ...problem, blanks: problem.blanks.map((blank) => ({ ...blank, tier: 1 })) };
        const { achieved } = solve(oneTier, { effort: 'quick', seed: 1, workMost: 600_000 });
        const bound = new WorthBound(startJob(oneTier, 'normal', 1), 1e8);
        expect(bound.improve(0, 30)).toBeGreaterThanOrEqual(achieved - 1e-6);
        expect(bound.improveByMix(0, 30)).toBeGreaterThanOrEqual(achieved - 1e-6);
      }),
      { numRuns: 25 },
    );
  }, 60_000);

  it('is closer after a mix than after as many rounds without', () => {
    const [problem] = fc.sample(
      randomYard('net', 6).filter(({ boards }) => boards.length === 6),
      { numRuns: 1, seed: 5 },
    );
    const [plain, mixed] = [0, 1].map(() => new WorthBound(startJob(problem!, 'normal', 1), 1e8));
    plain!.improve(0, 60);
    mixed!.improve(0, 30);
    expect(mixed!.improveByMix(0, 30)).toBeLessThan(plain!.bound);
  });
});
