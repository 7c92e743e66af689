/** All blanks from the least sheets that their area allows, where that leaves no waste at all. */
import { boardOf, type Job } from './job.ts';
import { sheetWithBlades, WASTE_FREE_STEP, withoutBlades } from './perfect-job.ts';
import { perfectSheets } from './perfect-sheets.ts';
import type { Plan } from './plan.ts';
import { placedOf } from './view.ts';

/** Share of the work allowed. */
const SHARE = 0.9;

/** For a job that is perfect with so many boards; null where no plan was found. */
export function* fewestPerfect(job: Job, boards: number): Generator<undefined, Plan | null> {
  const { view } = boardOf(job, 0);
  const found = yield* perfectSheets({
    ...sheetWithBlades(job),
    sheets: boards,
    workMost: (job.workMost * SHARE) / WASTE_FREE_STEP,
    random: job.random,
  });
  job.work += Math.round(found.work * WASTE_FREE_STEP);
  if (!found.sheets) return null;
  return found.sheets.map((spots) => ({
    board: 0,
    pieces: withoutBlades(job, spots).map((spot) => placedOf(view, spot)),
  }));
}
