/** Boards changed for smaller ones once the search is through: the same pieces from a board that costs less. */
import { type Job, priced } from './job.ts';
import { bestCutUp, restsWorth } from './layout.ts';
import { type Plan, placedCounts } from './plan.ts';
import type { BoardLayout, PlacedBlank, Problem } from './problem.ts';
import { sawWorkOf } from './saw-work.ts';

/** Boards tried in place of one or of two, cheapest first. */
const TRIED_MOST = 6;
const TRIED_FOR_TWO = 3;
/** Boards that give a larger share of their face than this are not joined with others. */
const FULL_SHARE = 0.8;

/** Work for all of it, as a share of what the job allows. */
const WORK_SHARE = 0.2;

type Cut = Plan[number];

/** Never dearer than the plan given, what is left counted against the cost. Boards one of each. */
export function onCheaperBoards(job: Job, layouts: readonly BoardLayout[]): Plan {
  const { problem } = job;
  // Those that give least of themselves have most to gain.
  let plan: Cut[] = [...layouts].sort((a, b) => share(problem, a) - share(problem, b) || a.board - b.board);
  for (const now of [...plan]) {
    const other = onOther(job, plan, [now], TRIED_MOST);
    if (other) plan = plan.map((cut) => (cut === now ? other : cut));
  }
  const loose = () => plan.filter((cut) => share(problem, cut) < FULL_SHARE);
  for (const one of loose())
    for (const two of loose()) {
      if (one.board >= two.board || !plan.includes(one) || !plan.includes(two)) continue;
      const other = onOther(job, plan, [one, two], TRIED_FOR_TWO);
      if (other) plan = [...plan.filter((cut) => cut !== one && cut !== two), other];
    }
  return plan;
}

/** One board not opened yet that gives all that some boards do, for less. */
function onOther(job: Job, plan: Plan, now: readonly Cut[], triedMost: number): Cut | null {
  const { problem } = job;
  const counts = placedCounts(problem, now);
  const wanted = now.reduce((sum, { pieces }) => sum + pieces.length, 0);
  const cost = now.reduce((sum, { board }) => sum + problem.boards[board]!.cost, 0);
  const homes = [...problem.boards.keys()].filter(
    (board) => couldHold(problem, board, counts, cost) && !plan.some((cut) => cut.board === board),
  );
  homes.sort((a, b) => problem.boards[a]!.cost - problem.boards[b]!.cost || a - b);
  let least = now.reduce((sum, { board, pieces }) => sum + netCost(problem, board, pieces), 0);
  let best: Cut | null = null;
  for (const board of homes.slice(0, triedMost)) {
    if (job.work > WORK_SHARE * job.workMost) break;
    const { pieces } = priced(job, board, job.weights, counts, 1, 3);
    if (pieces.length < wanted) continue;
    const other = netCost(problem, board, pieces);
    if (other >= least - 1e-9) continue;
    least = other;
    best = { board, pieces };
  }
  return best;
}

function share({ boards, blanks }: Problem, { board, pieces }: Plan[number]): number {
  const { length, width } = boards[board]!;
  return pieces.reduce((sum, { blank }) => sum + blanks[blank]!.length * blanks[blank]!.width, 0) / (length * width);
}

/** By size alone, and for less. */
function couldHold({ boards, blanks }: Problem, board: number, counts: Int32Array, costMost: number): boolean {
  const { cost, length, width, fits } = boards[board]!;
  if (cost >= costMost) return false;
  let area = 0;
  for (const [blank, count] of counts.entries()) {
    if (count === 0) continue;
    const fit = fits ? fits[blank] : blanks[blank];
    if (!fit) return false;
    area += count * fit.length * fit.width;
  }
  return area <= length * width;
}

function netCost(problem: Problem, board: number, pieces: readonly PlacedBlank[]): number {
  const stock = problem.boards[board]!;
  const cut = bestCutUp(problem, stock, pieces);
  if (!cut) return Number.POSITIVE_INFINITY;
  return stock.cost + sawWorkOf(problem, { board, pieces }) - restsWorth(problem.rest, cut.rests);
}
