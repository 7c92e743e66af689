/**
 * How a yard's plan grows while it is searched: `node test/bench/yard-curve.ts FILE [name pattern]` for instances, or
 * `node test/bench/yard-curve.ts made BOARDS PIECES SEED` for a yard made here. One line of JSON each: CPU seconds to the
 * first plan and in all, share of the last plan's value at the first plan and after 1 s, gross worth over bound, live
 * memory over the start. Seconds are the processor's.
 */
import { readFileSync } from 'node:fs';
import { checkSolution } from '../../worker/planner/check.ts';
import type { Problem, Rect } from '../../worker/planner/problem.ts';
import { seededRandom } from '../../worker/planner/random.ts';
import { solveSteps } from '../../worker/planner/solve.ts';
import { type Instance, problemOf } from './instance.ts';

const [source, ...rest] = process.argv.slice(2);
if (source === undefined) {
  process.stderr.write('Say which file holds the instances, or: made BOARDS PIECES SEED\n');
  process.exit(2);
}
if (source === 'made') {
  const [boards, pieces, seed] = rest.map(Number);
  measure(`${boards} boards, ${pieces} pieces, seed ${seed}`, madeYard(boards ?? 200, pieces ?? 300, seed ?? 1));
} else {
  const read: Instance[] = JSON.parse(readFileSync(source, 'utf8'));
  for (const one of read) if (new RegExp(rest[0] ?? '.').test(one.name)) measure(one.name, problemOf(one));
}

function measure(name: string, problem: Problem): void {
  globalThis.gc?.();
  const memoryBefore = process.memoryUsage().heapUsed + process.memoryUsage().arrayBuffers;
  const from = process.cpuUsage().user;
  const seconds = () => (process.cpuUsage().user - from) / 1e6;
  const curve: { at: number; achieved: number }[] = [];
  const steps = solveSteps(problem, { effort: 'normal', seed: 1 });
  let memoryMost = 0;
  let step = steps.next();
  while (!step.done) {
    curve.push({ at: seconds(), achieved: step.value.achieved });
    if (curve.length % 20 === 0) {
      globalThis.gc?.();
      memoryMost = Math.max(memoryMost, process.memoryUsage().heapUsed + process.memoryUsage().arrayBuffers);
    }
    step = steps.next();
  }
  const solution = step.value;
  const all = seconds();
  const after = (second: number) => curve.filter(({ at }) => at <= second).at(-1)?.achieved ?? 0;
  const opened = new Set(solution.layouts.map((layout) => layout.board));
  // Gross: parts, and the boards left untouched at their cost.
  const untouched = problem.boards.reduce((sum, board, index) => sum + (opened.has(index) ? 0 : board.cost), 0);
  const stock = problem.boards.reduce((sum, board) => sum + board.cost, 0);
  const parts = solution.layouts.flatMap((layout) => layout.pieces);
  const worth = parts.reduce((sum, piece) => sum + problem.blanks[piece.blank]!.value, 0);
  process.stdout.write(
    `${JSON.stringify({
      name,
      achieved: round(solution.achieved),
      bound: round(solution.bound),
      netToBound: round(solution.achieved / solution.bound),
      grossToBound: round((worth + untouched) / (solution.bound + stock)),
      placed: parts.length,
      opened: opened.size,
      steps: solution.steps,
      firstPlanSeconds: round(curve[0]?.at ?? all),
      firstPlanShare: round((curve[0]?.achieved ?? 0) / solution.achieved),
      shareAfterOneSecond: round(after(1) / solution.achieved),
      shareAfterTwoSeconds: round(after(2) / solution.achieved),
      seconds: round(all),
      memoryMb: globalThis.gc ? Math.round((memoryMost - memoryBefore) / 1e6) : 'run with --expose-gc',
      faults: checkSolution(problem, solution).length,
    })}\n`,
  );
}

/** Rough boards with knots and end checks, parts whose worth grows faster than their length; all invented. */
function madeYard(boardCount: number, pieceCount: number, seed: number): Problem {
  const random = seededRandom(seed);
  const between = (least: number, most: number) => least + random.below(most - least + 1);
  const boards = Array.from({ length: boardCount }, (_, index) => {
    const length = between(1800, 4200);
    const width = between(100, 300);
    const defects: Rect[] = Array.from({ length: between(2, 9) }, () => {
      const from = random.below(length - 30);
      const left = random.below(width - 15);
      return {
        from,
        to: Math.min(length, from + between(20, 120)),
        left,
        right: Math.min(width, left + between(15, 60)),
      };
    });
    return {
      tag: `B${index + 1}`,
      length,
      width,
      count: 1,
      cost: (length * width) / 7000,
      blocked: [defects],
      fits: null,
    };
  });
  const kinds = Math.max(4, Math.round(pieceCount / 5));
  const blanks = Array.from({ length: kinds }, (_, index) => {
    const length = between(250, 2300);
    const width = between(30, 140);
    return {
      part: `P${index + 1}`,
      length,
      width,
      quantity: Math.floor(pieceCount / kinds),
      value: (width * (length / 1000) ** 1.3) / 2,
      tier: 1,
      quality: 0,
      matchGroup: null,
    };
  });
  return { kerf: { rip: 4, crosscut: 4 }, maxStages: null, boards, blanks, objective: 'net', rest: null };
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}
