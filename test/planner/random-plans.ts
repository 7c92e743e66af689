/** Many small problems at random, planned in little work: what the checker says of each plan. */
import { checkSolution } from '../../worker/planner/check.ts';
import type { Problem, Rect, StockBoard } from '../../worker/planner/problem.ts';
import { type Random, seededRandom } from '../../worker/planner/random.ts';
import { solve } from '../../worker/planner/solve.ts';
import { blankOf, boardOfSize, problemWith } from './solve-cases.ts';

const OBJECTIVES = ['value', 'net', 'boards'] as const;

/** Board, kerf, defects, stages and parts all follow from the seed. */
export function randomProblem(seed: number): Problem {
  const random = seededRandom(seed);
  const whole = (least: number, most: number) => least + random.below(most - least + 1);
  const objective = OBJECTIVES[random.below(3)]!;
  const boards = Array.from({ length: objective === 'net' ? whole(1, 3) : 1 }, (_, i) =>
    randomBoard(`W-${i + 1}`, objective === 'boards', random),
  );
  const lengthMost = Math.max(...boards.map((board) => board.length));
  const widthMost = Math.max(...boards.map((board) => board.width));
  const blanks = Array.from({ length: whole(1, 5) }, (_, i) => {
    const length = whole(3, Math.ceil(lengthMost / whole(1, 4)));
    const width = whole(2, Math.ceil(widthMost / whole(1, 3)));
    const quantity = objective === 'value' && random.below(4) === 0 ? null : whole(1, 5);
    const more = { quantity, quality: random.below(2), tier: objective === 'net' ? whole(1, 2) : 1 };
    return blankOf(`part ${i + 1}`, length, width, more);
  });
  // A saw of one stage cannot cover every part, so the fewest boards are asked for with any number of stages.
  const maxStages = objective === 'boards' ? null : [null, null, 1, 2, 3, 4][random.below(6)]!;
  return problemWith(boards, blanks, { objective, kerf: { rip: whole(0, 3), crosscut: whole(0, 3) }, maxStages });
}

/** Faults of the plan for a problem, and whether the plan holds anything at all. */
export function faultsFor(problem: Problem, seed: number): { readonly faults: string[]; readonly pieces: number } {
  const solution = solve(problem, { effort: 'quick', seed, workMost: 20_000 });
  const pieces = solution.layouts.reduce((sum, layout) => sum + layout.pieces.length, 0);
  return { faults: checkSolution(problem, solution), pieces };
}

function randomBoard(tag: string, clear: boolean, random: Random): StockBoard {
  const length = 20 + random.below(60);
  const width = 6 + random.below(20);
  // Some reach over the board's edge, and some have no width.
  const rect = (): Rect => {
    const from = random.below(length + 1) - 1;
    const left = random.below(width + 1) - 1;
    return { from, left, to: from + random.below(13), right: left + random.below(7) };
  };
  const rects = (most: number) => (clear ? [] : Array.from({ length: random.below(most + 1) }, rect));
  const knots = rects(4);
  const blocked = [knots, [...knots, ...rects(2)]];
  return boardOfSize(tag, length, width, { count: clear ? null : 1, cost: random.below(200), blocked });
}
