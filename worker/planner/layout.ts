/** From a plan to layouts for the saw, and what they achieve. */
import type { Plan } from './plan.ts';
import type { BoardLayout, Problem, Rect, RestWorth } from './problem.ts';
import { type CutUp, cutUp } from './saw-cuts.ts';

export function layoutsOf(problem: Problem, plan: Plan): BoardLayout[] {
  return plan
    .map((cut) => {
      const stock = problem.boards[cut.board]!;
      const whole = { from: 0, to: stock.length, left: 0, right: stock.width };
      const parted = bestCutUp(problem, whole, cut.pieces);
      if (!parted) throw new Error('A pattern from the search does not come apart by edge-to-edge cuts.');
      return { board: cut.board, pieces: cut.pieces, cuts: parted.cuts, rests: parted.rests };
    })
    .sort((a, b) => a.board - b.board);
}

export function bestCutUp(problem: Problem, whole: Rect, pieces: Plan[number]['pieces']): CutUp | null {
  if (problem.rest === null) return cutUp(whole, pieces, problem.kerf, null);
  const worth = problem.rest;
  const most = problem.maxStages ?? Number.POSITIVE_INFINITY;
  const ways = (['rip', 'crosscut'] as const)
    .map((axis) => cutUp(whole, pieces, problem.kerf, axis))
    .filter((way) => way !== null)
    .filter((way) => way.stages <= most);
  return (
    ways.sort((a, b) => restsWorth(worth, b.rests) - restsWorth(worth, a.rests))[0] ??
    cutUp(whole, pieces, problem.kerf, null)
  );
}

export function restsWorth(worth: RestWorth | null, rests: readonly Rect[]): number {
  return worth === null
    ? 0
    : rests.reduce((sum, rest) => sum + restWorthOf(worth, rest.to - rest.from, rest.right - rest.left), 0);
}

export function restWorthOf(worth: RestWorth, length: number, width: number): number {
  if (length < worth.lengthMin || width < worth.widthMin) return 0;
  const longer = (length / worth.lengthRef) ** worth.lengthPower;
  const wider = (width / worth.widthRef) ** worth.widthPower;
  return worth.perArea * length * width * longer * wider;
}

export function achievedBy(problem: Problem, layouts: readonly BoardLayout[]): number {
  if (problem.objective === 'boards') return layouts.length;
  let sum = 0;
  for (const layout of layouts) {
    for (const piece of layout.pieces) sum += problem.blanks[piece.blank]!.value;
    sum += restsWorth(problem.rest, layout.rests);
    if (problem.objective === 'net') sum -= problem.boards[layout.board]!.cost;
  }
  return sum;
}
