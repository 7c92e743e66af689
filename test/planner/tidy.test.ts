/** The last look at a plan: the same pieces from less wood, with less work at the saw and more left over. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkLayout } from '../../worker/planner/check.ts';
import { startJob } from '../../worker/planner/job.ts';
import { layoutsOf, restsWorth } from '../../worker/planner/layout.ts';
import { placedCounts } from '../../worker/planner/plan.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { sawOrder } from '../../worker/planner/saw-order.ts';
import { solve } from '../../worker/planner/solve.ts';
import { tidied } from '../../worker/planner/tidy.ts';
import { onCheaperBoards } from '../../worker/planner/tidy-boards.ts';
import { boardOfSize, problemWith, randomYard } from './solve-cases.ts';

const COST = { setting: 100, walk: 60, cut: 20, shortRip: 0, ripLeast: 0 };
const REST = {
  lengthMin: 100,
  widthMin: 30,
  perArea: 0.5,
  lengthRef: 1000,
  lengthPower: 0.3,
  widthRef: 200,
  widthPower: 0.3,
};
const blank = (part: string, length: number, width: number, quantity: number) => ({
  part,
  length,
  width,
  quantity,
  value: 100 * length * width,
  tier: 1,
  quality: 0,
  matchGroup: null,
});
const jobFor = (problem: Problem) => startJob(problem, 'quick', 1, 300_000);

describe('one board', () => {
  // Slats of two widths scattered over three strips; two strips would do.
  const problem: Problem = {
    ...problemWith(
      [boardOfSize('W-1', 1000, 200, { blocked: [[]] })],
      [blank('a', 300, 60, 3), blank('b', 300, 50, 3)],
    ),
    kerf: { rip: 4, crosscut: 4 },
    rest: REST,
  };
  const at = (kind: number, from: number, left: number) => ({
    blank: kind,
    from,
    to: from + 300,
    left,
    right: left + (kind === 0 ? 60 : 50),
  });
  const scattered = layoutsOf(problem, [
    { board: 0, pieces: [at(0, 0, 0), at(1, 304, 0), at(1, 0, 64), at(0, 304, 64), at(0, 0, 128), at(1, 304, 128)] },
  ])[0]!;

  test('is cut in strips of one width each where that takes fewer settings', () => {
    const tidy = tidied(jobFor(problem), scattered, COST);
    const [before, after] = [sawOrder(problem, scattered), sawOrder(problem, tidy)];
    expect(after.settings).toBeLessThan(before.settings);
    expect(tidy.cuts.length).toBeLessThan(scattered.cuts.length);
    expect(restsWorth(REST, tidy.rests)).toBeGreaterThan(restsWorth(REST, scattered.rests));
  });

  test('is left as it is where work at the saw costs nothing and nothing better is left', () => {
    const once = tidied(jobFor(problem), scattered, COST);
    expect(tidied(jobFor(problem), once, COST)).toEqual(once);
  });
});

test('short blanks are crosscut from strips, where a rip of short stock counts', () => {
  // Two columns of three blanks 80 long: ripping first takes three rips, crosscutting first six of stock 80 long.
  const problem: Problem = {
    ...problemWith([boardOfSize('W-1', 400, 100, { blocked: [[]] })], [blank('a', 80, 30, 6)]),
    kerf: { rip: 4, crosscut: 4 },
    rest: { ...REST, widthMin: 100 },
  };
  const pieces = [0, 84].flatMap((from) =>
    [0, 34, 68].map((left) => ({ blank: 0, from, to: from + 80, left, right: left + 30 })),
  );
  const laid = layoutsOf(problem, [{ board: 0, pieces }])[0]!;
  const shortRips = ({ cuts }: typeof laid) => cuts.filter(({ axis, of }) => axis === 'rip' && of.to - of.from < 300);
  const idle = { setting: 0, walk: 0, cut: 0, shortRip: 0, ripLeast: 300 };
  expect(shortRips(tidied(jobFor(problem), laid, idle)).length).toBeGreaterThan(0);
  expect(shortRips(tidied(jobFor(problem), laid, { ...idle, shortRip: 50_000 }))).toEqual([]);
});

describe('two half-used boards', () => {
  const blocked = [[]];
  const boards = [
    boardOfSize('W-1', 600, 100, { cost: 60_000, blocked }),
    boardOfSize('W-2', 600, 100, { cost: 60_000, blocked }),
    boardOfSize('W-3', 620, 100, { cost: 62_000, blocked }),
  ];
  const problem: Problem = {
    ...problemWith(boards, [blank('a', 300, 90, 2)]),
    kerf: { rip: 4, crosscut: 4 },
    objective: 'net',
  };
  const piece = { blank: 0, from: 0, to: 300, left: 0, right: 90 };

  test('become one that gives all of it for less', () => {
    const two = layoutsOf(problem, [
      { board: 0, pieces: [piece] },
      { board: 1, pieces: [piece] },
    ]);
    expect(onCheaperBoards(jobFor(problem), two).map(({ board }) => board)).toEqual([2]);
  });
});

test('never loses a piece, spoils a cut, or costs more, whatever the yard', () => {
  fc.assert(
    fc.property(randomYard('net', 4), (yard) => {
      const problem = { ...yard, rest: REST };
      const found = solve(problem, { effort: 'quick', seed: 1, workMost: 50_000 });
      const cost = (boards: readonly { board: number }[]) =>
        boards.reduce((sum, { board }) => sum + problem.boards[board]!.cost, 0);
      const moved = layoutsOf(problem, onCheaperBoards(jobFor(problem), found.layouts));
      expect(placedCounts(problem, moved)).toEqual(placedCounts(problem, found.layouts));
      expect(
        cost(moved) -
          restsWorth(
            REST,
            moved.flatMap(({ rests }) => rests),
          ),
      ).toBeLessThanOrEqual(
        cost(found.layouts) -
          restsWorth(
            REST,
            found.layouts.flatMap(({ rests }) => rests),
          ) +
          1e-6,
      );
      for (const layout of moved) {
        const tidy = tidied(jobFor(problem), layout, COST);
        expect(checkLayout(problem, tidy)).toEqual([]);
        expect(placedCounts(problem, [tidy])).toEqual(placedCounts(problem, [layout]));
      }
    }),
    { numRuns: 10 },
  );
});
