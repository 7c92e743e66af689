/** What one piece of wood can make of what the open jobs still want: each part alone, and the best mixture. */
import type { BoardView } from '../contract/board.ts';
import type { Drawing } from '../contract/drawing.ts';
import type { JobWithParts } from '../contract/job.ts';
import type { UsesAnswer } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import type { Wood } from '../takeoff/which-wood.ts';
import { drawOneCut, presentOneCut } from './offcut-present.ts';
import { cutForMost, cutForOne } from './offcut-search.ts';
import { distance } from './present-unplaced.ts';
import { holdsInTheWay, type ShopBoard, shopBoard } from './shop-board.ts';
import { type FitOptions, placeOn } from './shop-fit.ts';
import { gridFits } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';
import type { Worth } from './shop-worth.ts';

export interface JobDemand {
  readonly job: JobWithParts;
  readonly wanted: readonly Wanted[];
}

const NOT_MOST = 10;
/** Whoever holds the piece up decides whether it is worth planing down. */
const OPTIONS: FitOptions = { evenIfThick: true };

export function usesFor(
  board: BoardView,
  wood: Wood,
  demands: readonly JobDemand[],
  settings: Settings,
  worth: Worth,
): UsesAnswer {
  const parts: (UsesAnswer['parts'][number] & { readonly worth: number })[] = [];
  const not: (UsesAnswer['not'][number] & { readonly distance: number })[] = [];
  for (const { job, wanted } of demands) {
    const on = shopBoard(board, wood, holdsInTheWay(board, job), settings);
    for (const asks of wanted) {
      const alone = cutAlone(asks, on, settings);
      const name = { jobName: job.name, label: asks.part.label };
      if (!alone.ok) not.push({ ...name, why: alone.why, distance: alone.distance });
      else
        parts.push({
          ...name,
          jobId: job.id,
          partKey: asks.part.key,
          element: asks.element,
          wanted: asks.pieces.length,
          count: alone.count,
          drawing: alone.drawing,
          worth: alone.worth,
        });
    }
  }
  return {
    parts: parts.sort((a, b) => b.worth - a.worth).map(({ worth: _worth, ...row }) => row),
    best: bestMixture(board, wood, demands, settings, worth),
    not: not
      .sort((a, b) => a.distance - b.distance)
      .slice(0, NOT_MOST)
      .map(({ distance: _distance, ...row }) => row),
  };
}

type Alone =
  | { readonly ok: true; readonly count: number; readonly drawing: Drawing; readonly worth: number }
  | { readonly ok: false; readonly why: string; readonly distance: number };

function cutAlone(asks: Wanted, on: ShopBoard, settings: Settings): Alone {
  if (asks.wood.key !== on.wood.key)
    return {
      ok: false,
      why: `${asks.wood.name} is asked for, this is ${on.wood.name}`,
      distance: Number.POSITIVE_INFINITY,
    };
  const fit = placeOn(asks, on, settings, OPTIONS);
  if (!fit.ok) return { ok: false, why: fit.fails.map((fail) => fail.words).join('; '), distance: distance(fit.fails) };
  const cut = cutForOne(asks, { on, fits: gridFits([asks], on, settings, OPTIONS) }, settings);
  if (!cut) return { ok: false, why: 'no cut gives it clear of the defects', distance: 1 };
  const count = cut.layout.pieces.length;
  // Long clear pieces are worth more than their area, as in a plan.
  const worth = count * fit.widthNm * fit.lengthNm ** 1.5;
  return { ok: true, count, drawing: drawOneCut(cut, on, settings), worth };
}

/** Over all jobs that may cut this wood: where it is held, only the job that holds it. */
function bestMixture(
  board: BoardView,
  wood: Wood,
  demands: readonly JobDemand[],
  settings: Settings,
  worth: Worth,
): UsesAnswer['best'] {
  const free = shopBoard(board, wood, holdsInTheWay(board, null), settings);
  const holder = free.run ? null : demands.find(({ job }) => board.held.some((held) => held.jobId === job.id));
  const on = holder ? shopBoard(board, wood, holdsInTheWay(board, holder.job), settings) : free;
  const wanted = (holder ? [holder] : demands).flatMap((demand) => demand.wanted);
  const fits = gridFits(wanted, on, settings, OPTIONS);
  if (fits.every((fit) => fit === null)) return { layout: null, worthPercent: 0 };
  const able = wanted.filter((_, index) => fits[index] !== null);
  const cut = cutForMost(able, { on, fits: fits.filter((fit) => fit !== null) }, settings, worth);
  const layout = cut ? presentOneCut(cut, on, settings) : null;
  return { layout, worthPercent: layout?.yieldPercent ?? 0 };
}
