/** From a plan to layouts for the saw, and what they achieve. */
import type { Plan } from './plan.ts';
import type { BoardLayout, Problem, Rect, RestWorth, SawCut, StockBoard } from './problem.ts';
import { type CutUp, cutUp } from './saw-cuts.ts';

type Pieces = Plan[number]['pieces'];

export function layoutsOf(problem: Problem, plan: Plan): BoardLayout[] {
  return plan
    .map((cut) => {
      const stock = problem.boards[cut.board]!;
      const parted = bestCutUp(problem, stock, cut.pieces);
      if (!parted) throw new Error('A pattern from the search does not come apart by edge-to-edge cuts.');
      return { board: cut.board, pieces: cut.pieces, cuts: parted.cuts, rests: parted.rests };
    })
    .sort((a, b) => a.board - b.board);
}

/** Null when the pieces do not come apart. A crooked board that is parted first is cut up section by section. */
export function bestCutUp(problem: Problem, stock: StockBoard, pieces: Pieces): CutUp | null {
  const whole = { from: 0, to: stock.length, left: 0, right: stock.width };
  const partedAt = stock.edges?.partedAt ?? [];
  if (partedAt.length === 0) return bestOfWays(problem, whole, pieces);
  const blade = problem.kerf.crosscut;
  const cuts: SawCut[] = [];
  const rests: Rect[] = [];
  let stages = 0;
  let of: Rect = whole;
  for (const at of [...partedAt, stock.length]) {
    const section = { ...of, to: at };
    if (at < stock.length) cuts.push({ axis: 'crosscut', of, at, kerf: blade });
    of = { ...of, from: at + blade };
    const inside = pieces.filter((piece) => piece.from >= section.from && piece.to <= section.to);
    const parted = bestOfWays(problem, section, inside);
    if (!parted) return null;
    cuts.push(...parted.cuts);
    rests.push(...parted.rests);
    stages = Math.max(stages, 1 + parted.stages);
  }
  return { cuts, rests, stages };
}

function bestOfWays(problem: Problem, whole: Rect, pieces: Pieces): CutUp | null {
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
