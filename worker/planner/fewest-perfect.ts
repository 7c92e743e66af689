/** All blanks from the least sheets that their area allows, where that leaves no waste at all. */
import { boardOf, type Job } from './job.ts';
import { perfectSheets } from './perfect-sheets.ts';
import type { Plan } from './plan.ts';
import { placedOf } from './view.ts';

/** Share of the work allowed, and how many of the job's steps one of this search takes. */
const SHARE = 0.9;
const STEP = 2;
/** Beyond these the rectangles are too many to look at. */
const KINDS_MOST = 150;

/**
 * Whether so many boards of the one kind, clear and cut in any number of stages, are just the blanks' area with a blade
 * beside and behind each.
 */
export function isPerfect(job: Job, boards: number): boolean {
  const { boards: kinds, maxStages } = job.problem;
  if (kinds.length !== 1 || (kinds[0]!.count ?? boards) < boards) return false;
  const { view, isBar } = boardOf(job, 0);
  if (isBar || maxStages !== null || view.blocked.some((list) => list.length > 0)) return false;
  if (view.items.length !== job.problem.blanks.length || view.items.length > KINDS_MOST) return false;
  let area = 0;
  for (const item of view.items)
    area += (item.along + view.kerfAlong) * (item.across + view.kerfAcross) * job.wanted[item.blank]!;
  return area === boards * (view.along + view.kerfAlong) * (view.across + view.kerfAcross);
}

/** null where none was found. */
export function* fewestPerfect(job: Job, boards: number): Generator<undefined, Plan | null> {
  const { view } = boardOf(job, 0);
  const found = yield* perfectSheets({
    items: view.items.map((item) => ({
      ...item,
      along: item.along + view.kerfAlong,
      across: item.across + view.kerfAcross,
    })),
    copies: Int32Array.from(view.items, (item) => job.wanted[item.blank]!),
    along: view.along + view.kerfAlong,
    across: view.across + view.kerfAcross,
    sheets: boards,
    workMost: (job.workMost * SHARE) / STEP,
    random: job.random,
  });
  job.work += Math.round(found.work * STEP);
  if (!found.sheets) return null;
  const own = new Map(view.items.map((item) => [item.blank, item]));
  return found.sheets.map((spots) => ({
    board: 0,
    pieces: spots.map((spot) => placedOf(view, { ...spot, item: own.get(spot.item.blank)! })),
  }));
}
