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

/** The way of cutting that leaves most; null when the pieces do not come apart. */
export function bestCutUp(problem: Problem, stock: StockBoard, pieces: Pieces): CutUp | null {
  const ways = cutUpWays(problem, stock, pieces);
  const { rest } = problem;
  if (rest === null) return ways[0] ?? null;
  return [...ways].sort((a, b) => restsWorth(rest, b.rests) - restsWorth(rest, a.rests))[0] ?? null;
}

/**
 * The ways of cutting with no stage too many: ripping first, crosscutting first. A crooked board that is parted first is
 * cut up section by section.
 */
export function cutUpWays(problem: Problem, stock: StockBoard, pieces: Pieces): readonly CutUp[] {
  const sections = sectionsOf(problem, stock);
  const whole = { from: 0, to: stock.length, left: 0, right: stock.width };
  const upTo = (axis: SawCut['axis'] | null) =>
    sections.length === 0
      ? cutUp(whole, pieces, problem.kerf, axis)
      : sectionsCutUp(problem, whole, sections, pieces, axis);
  if (problem.rest === null) return [upTo(null)].filter((way) => way !== null);
  const most = problem.maxStages ?? Number.POSITIVE_INFINITY;
  const ways = (['rip', 'crosscut'] as const).map(upTo).filter((way) => way !== null && way.stages <= most);
  return (ways.length > 0 ? ways : [upTo(null)]).filter((way) => way !== null);
}

function sectionsOf(problem: Problem, { edges, length }: StockBoard): readonly { from: number; to: number }[] {
  const partedAt = edges?.partedAt ?? [];
  if (partedAt.length === 0) return [];
  return [...partedAt, length].map((to, at) => ({
    from: at === 0 ? 0 : partedAt[at - 1]! + problem.kerf.crosscut,
    to,
  }));
}

function sectionsCutUp(
  { kerf }: Problem,
  whole: Rect,
  sections: readonly { from: number; to: number }[],
  pieces: Pieces,
  axis: SawCut['axis'] | null,
): CutUp | null {
  const cuts: SawCut[] = [];
  const rests: Rect[] = [];
  let stages = 0;
  for (const { from, to } of sections) {
    const of = { ...whole, from };
    if (to < whole.to) cuts.push({ axis: 'crosscut', of, at: to, kerf: kerf.crosscut });
    const inside = pieces.filter((piece) => piece.from >= from && piece.to <= to);
    const parted = cutUp({ ...of, to }, inside, kerf, axis);
    if (!parted) return null;
    cuts.push(...parted.cuts);
    rests.push(...parted.rests);
    stages = Math.max(stages, 1 + parted.stages);
  }
  return { cuts, rests, stages };
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

/** Most that a unit of area left over can be worth on any of the boards. */
export function restMostOf({ rest, boards }: Problem): number {
  if (rest === null) return 0;
  const lengthMost = Math.max(0, ...boards.map((board) => board.length));
  const widthMost = Math.max(0, ...boards.map((board) => board.width));
  return restWorthOf(rest, lengthMost, widthMost) / Math.max(1, lengthMost * widthMost);
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
