/** What cutting a board costs at the saw, where cuts are to be saved: counted as the plan is shown, each cut and each setting alike. */
import { cutUpWays } from './layout.ts';
import type { CutBoard } from './plan.ts';
import type { Problem } from './problem.ts';
import { sawOrder } from './saw-order.ts';

/** The search asks for the same patterns again and again. */
const known = new WeakMap<Problem, WeakMap<CutBoard['pieces'], number>>();

/** In the problem's unit of value; nothing where cuts cost nothing. */
export function sawWorkOf(problem: Problem, cut: CutBoard): number {
  const { cutCost } = problem;
  if (cutCost === undefined) return 0;
  let ofProblem = known.get(problem);
  if (!ofProblem) {
    ofProblem = new WeakMap();
    known.set(problem, ofProblem);
  }
  let count = ofProblem.get(cut.pieces);
  if (count === undefined) {
    count = leastCount(problem, cut);
    ofProblem.set(cut.pieces, count);
  }
  return cutCost * count;
}

/** Cuts and settings of the way of cutting that takes fewest. */
function leastCount(problem: Problem, { board, pieces }: CutBoard): number {
  const ways = cutUpWays(problem, problem.boards[board]!, pieces);
  const counts = ways.map(({ cuts, rests }) => {
    const { layout, settings } = sawOrder(problem, { board, pieces, cuts, rests });
    return layout.cuts.length + settings;
  });
  return counts.length > 0 ? Math.min(...counts) : 0;
}
