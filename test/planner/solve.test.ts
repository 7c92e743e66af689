import { describe, expect, it } from 'vitest';
import { checkSolution } from '../../worker/planner/check.ts';
import type { Problem, Progress } from '../../worker/planner/problem.ts';
import { solve, solveSteps } from '../../worker/planner/solve.ts';
import { blankOf, boardOfSize, problemWith } from './solve-cases.ts';

const quickly = (problem: Problem) => solve(problem, { effort: 'quick', seed: 1 });

const pairs = <T>(list: readonly T[]) => list.slice(1).map((after, i) => [list[i]!, after] as const);

describe('one board', () => {
  it('gets four rails out of a board that is just long and wide enough with the blades between', () => {
    // 2 x 1000 + one 3 mm crosscut; 2 x 100 + one 3 mm rip.
    const problem = problemWith([boardOfSize('W-01', 2003, 203)], [blankOf('rail', 1000, 100, { quantity: 4 })]);
    expect(quickly(problem).placed).toEqual([4]);
    const short = problemWith([boardOfSize('W-01', 2002, 203)], [blankOf('rail', 1000, 100, { quantity: 4 })]);
    expect(quickly(short).placed).toEqual([2]);
  });

  it('keeps blanks clear of a knot, and lets a hidden blank lie on it', () => {
    const knot = { from: 480, to: 520, left: 40, right: 60 };
    const board = boardOfSize('W-01', 1000, 100, { blocked: [[knot], []] });
    const faced = problemWith([board], [blankOf('door stile', 900, 90, { quality: 0 })]);
    expect(quickly(faced).placed).toEqual([0]);
    const hidden = problemWith([board], [blankOf('drawer runner', 900, 90, { quality: 1 })]);
    expect(quickly(hidden).placed).toEqual([1]);
  });

  it('never turns a blank across the grain', () => {
    const problem = problemWith([boardOfSize('W-01', 200, 1000)], [blankOf('shelf', 900, 150)]);
    expect(quickly(problem).placed).toEqual([0]);
  });

  it('uses the size that a blank needs on this very board', () => {
    const fits = [{ length: 1010, width: 106 }];
    const problem = problemWith(
      [boardOfSize('W-01', 2100, 212, { fits })],
      [blankOf('rail', 1000, 100, { quantity: 4 })],
    );
    // Two rows of 106 and a 3 mm rip need 215.
    const { placed, layouts } = quickly(problem);
    expect(placed).toEqual([2]);
    for (const piece of layouts[0]!.pieces)
      expect([piece.to - piece.from, piece.right - piece.left]).toEqual([1010, 106]);
  });

  it('leaves a board alone that cannot give a blank at all', () => {
    const problem = problemWith([boardOfSize('W-01', 2100, 212, { fits: [null] })], [blankOf('rail', 1000, 100)]);
    expect(quickly(problem).placed).toEqual([0]);
  });

  it('finds the pattern that needs more than three stages and proves it', () => {
    // A pinwheel cut into strips: each side piece is cut off the whole in turn, so the perfect plan needs five stages.
    const problem = problemWith(
      [boardOfSize('W-01', 60, 60)],
      [
        blankOf('a', 60, 10),
        blankOf('b', 10, 50),
        blankOf('c', 50, 10),
        blankOf('d', 10, 40),
        blankOf('e', 40, 10),
        blankOf('f', 40, 30),
      ],
      { kerf: { rip: 0, crosscut: 0 } },
    );
    const solution = quickly(problem);
    expect(solution.achieved).toBe(3600);
    expect(solution.bound).toBe(3600);
    expect(checkSolution(problem, solution)).toEqual([]);
  });
});

describe('a yard', () => {
  const leg = blankOf('leg', 750, 70, { quantity: 8, value: 100 });

  it('opens only boards that pay, the cheap offcuts first', () => {
    const problem = problemWith(
      [
        boardOfSize('long', 2400, 250, { cost: 400 }),
        boardOfSize('offcut A', 1600, 160, { cost: 60 }),
        boardOfSize('offcut B', 1600, 160, { cost: 60 }),
        boardOfSize('too dear', 800, 80, { cost: 500 }),
      ],
      [leg],
      { objective: 'net' },
    );
    const solution = quickly(problem);
    // Four legs an offcut: 8 x 100 - 2 x 60.
    expect(solution.achieved).toBe(680);
    expect(solution.layouts.map((layout) => layout.board)).toEqual([1, 2]);
    expect(checkSolution(problem, solution)).toEqual([]);
  });

  it('cuts the urgent tier first, whatever a later tier would bring', () => {
    const problem = problemWith(
      [boardOfSize('W-01', 2000, 100)],
      [
        blankOf('table rail', 1500, 90, { value: 10, tier: 1 }),
        blankOf('carving blank', 1900, 90, { value: 5000, tier: 2 }),
      ],
      { objective: 'net' },
    );
    expect(quickly(problem).placed).toEqual([1, 0]);
  });

  it('tells how far it has come, never worse than before, and ends with its last word', () => {
    const problem = problemWith(
      [boardOfSize('A', 2000, 200, { cost: 10 }), boardOfSize('B', 2400, 180, { cost: 10 })],
      [leg, blankOf('stretcher', 1100, 60, { quantity: 4, value: 90 })],
      { objective: 'net' },
    );
    const heard: Progress[] = [];
    const steps = solveSteps(problem, { effort: 'quick', seed: 1 });
    let step = steps.next();
    while (!step.done) {
      heard.push(step.value);
      const best = step.value.best();
      expect(checkSolution(problem, best)).toEqual([]);
      expect(best.achieved).toBe(step.value.achieved);
      step = steps.next();
    }
    expect(heard.length).toBeGreaterThan(1);
    const last = { ...step.value, stepsDone: step.value.steps };
    for (const [before, after] of pairs([...heard, last])) {
      expect(after.achieved).toBeGreaterThanOrEqual(before.achieved);
      expect(after.bound).toBeLessThanOrEqual(before.bound);
      expect(after.stepsDone).toBeGreaterThanOrEqual(before.stepsDone);
    }
    expect(heard.at(-1)!.bound).toBeLessThan(Number.POSITIVE_INFINITY);
    expect(step.value).toEqual(solve(problem, { effort: 'quick', seed: 1 }));
  });
});

describe('the fewest boards', () => {
  const sticks = (lengths: readonly number[]) => lengths.map((length, i) => blankOf(`stick ${i}`, length, 50));
  const fewest = (blanks: Problem['blanks'], kerf = 0) =>
    quickly(
      problemWith([boardOfSize('stock', 1000, 50, { count: null, cost: 1 })], blanks, {
        objective: 'boards',
        kerf: { rip: kerf, crosscut: kerf },
      }),
    );

  it('fills three sticks a board where longest-first would waste one', () => {
    // Worked by hand: 500+300+200, 400+350+250, 600+220+180 fill three boards; total is 3000, so fewer cannot be.
    const solution = fewest(sticks([500, 400, 600, 300, 350, 220, 200, 250, 180]));
    expect(solution.achieved).toBe(3);
    expect(solution.bound).toBe(3);
  });

  it('counts the blade between sticks', () => {
    expect(fewest(sticks([500, 500])).achieved).toBe(1);
    expect(fewest(sticks([500, 500]), 3).achieved).toBe(2);
    expect(fewest(sticks([500, 500]), 3).bound).toBe(2);
  });

  it('proves that sticks over half a board need a board each', () => {
    const solution = fewest(sticks([510, 520, 530, 540]));
    expect([solution.achieved, solution.bound]).toEqual([4, 4]);
  });
});
