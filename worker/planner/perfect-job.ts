/** Jobs whose blanks just fill the boards, as rectangles without waste see them: each size with the blade beside and behind it. */
import { boardOf, type Job } from './job.ts';
import { hasNoDefects, type Spot } from './view.ts';
import type { WasteFreeSheet } from './waste-free.ts';

/** Beyond these the rectangles are too many to look at. */
const KINDS_MOST = 150;
/** How many of a job's steps one of a search for rectangles without waste takes. */
export const WASTE_FREE_STEP = 1.6;

/**
 * Whether so many boards of the one kind, clear and cut in any number of stages, are just the blanks' area with a blade
 * beside and behind each.
 */
export function isPerfect(job: Job, boards: number): boolean {
  const { boards: kinds, maxStages } = job.problem;
  if (kinds.length !== 1 || (kinds[0]!.count ?? boards) < boards) return false;
  const { view, isBar } = boardOf(job, 0);
  if (isBar || maxStages !== null || !hasNoDefects(view)) return false;
  if (view.items.length !== job.problem.blanks.length || view.items.length > KINDS_MOST) return false;
  let area = 0;
  for (const item of view.items)
    area += (item.along + view.kerfAlong) * (item.across + view.kerfAcross) * job.wanted[item.blank]!;
  return area === boards * (view.along + view.kerfAlong) * (view.across + view.kerfAcross);
}

export function sheetWithBlades(job: Job): WasteFreeSheet {
  const { view } = boardOf(job, 0);
  return {
    items: view.items.map((item) => ({
      ...item,
      along: item.along + view.kerfAlong,
      across: item.across + view.kerfAcross,
    })),
    copies: Int32Array.from(view.items, (item) => job.wanted[item.blank]!),
    along: view.along + view.kerfAlong,
    across: view.across + view.kerfAcross,
  };
}

/** The same spots with the blanks' own sizes. */
export function withoutBlades(job: Job, spots: readonly Spot[]): Spot[] {
  const own = new Map(boardOf(job, 0).view.items.map((item) => [item.blank, item]));
  return spots.map((spot) => ({ ...spot, item: own.get(spot.item.blank)! }));
}
