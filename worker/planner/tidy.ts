/**
 * One board's pieces laid out anew once the search is through: the same pieces, so that what is left is worth more, and
 * with fewer settings of the fence, walks between the saws and cuts.
 */

import { checkLayout } from './check.ts';
import { type Job, priced } from './job.ts';
import { cutUpWays, restsWorth } from './layout.ts';
import { placedCounts } from './plan.ts';
import type { BoardLayout, PlacedBlank, Problem } from './problem.ts';
import type { CutUp } from './saw-cuts.ts';
import { sawOrder } from './saw-order.ts';
import { sameWidthStrips } from './tidy-strips.ts';
import { viewOf } from './view.ts';

/** What work at the saw is worth, in the measure of what is left: the board's face in the problem's unit of value. */
export interface HandlingCost {
  readonly setting: number;
  readonly walk: number;
  readonly cut: number;
  /** A rip of stock that is shorter than `ripLeast`, in steps of the grid. */
  readonly shortRip: number;
  readonly ripLeast: number;
}

/** As long as no more than this share of the job's work is done, boards in turn. */
const WORK_SHARE = 0.35;
/** Other patterns are asked for this often, at these depths. */
const LOOKS = [
  { depth: 1, rounds: 4 },
  { depth: 2, rounds: 4 },
] as const;

/** What a layout leaves, less the work at the saw. */
export const worthLeft = (problem: Problem, layout: BoardLayout, cost: HandlingCost): number =>
  worthOf(problem, sawOrder(problem, layout), cost);

/** Ordered for the saw. Never worth less than the layout given, which stays where nothing is better. */
export function tidied(job: Job, layout: BoardLayout, cost: HandlingCost): BoardLayout {
  const { problem } = job;
  const before = sawOrder(problem, layout);
  let best = { layout: before.layout, worth: worthOf(problem, before, cost) };
  for (const pieces of arrangements(job, layout))
    for (const way of cutUpWays(problem, problem.boards[layout.board]!, pieces)) {
      const found = laidOut(problem, layout.board, pieces, way);
      if (found.reserves < before.reserves) continue;
      const worth = worthOf(problem, found, cost);
      if (worth > best.worth + 1e-9 && checkLayout(problem, found.layout).length === 0)
        best = { layout: found.layout, worth };
    }
  return best.layout;
}

function laidOut(problem: Problem, board: number, pieces: readonly PlacedBlank[], { cuts, rests }: CutUp) {
  return sawOrder(problem, { board, pieces, cuts, rests });
}

function worthOf(
  problem: Problem,
  { layout, settings, walks }: ReturnType<typeof sawOrder>,
  cost: HandlingCost,
): number {
  const shortRips = layout.cuts.filter(({ axis, of }) => axis === 'rip' && of.to - of.from < cost.ripLeast).length;
  const work = settings * cost.setting + walks * cost.walk + layout.cuts.length * cost.cut + shortRips * cost.shortRip;
  return restsWorth(problem.rest, layout.rests) - work;
}

/** The pieces where they lie, in strips of one width, and as other patterns put them. */
function* arrangements(job: Job, layout: BoardLayout): Generator<readonly PlacedBlank[]> {
  const { problem } = job;
  yield layout.pieces;
  const counts = placedCounts(problem, [layout]);
  for (const turned of [false, true]) yield* sameWidthStrips(viewOf(problem, layout.board, turned), counts);
  for (const { depth, rounds } of LOOKS) {
    if (job.work > WORK_SHARE * job.workMost) return;
    const { pieces } = priced(job, layout.board, job.weights, counts, depth, rounds);
    if (pieces.length === layout.pieces.length) yield pieces;
  }
}
