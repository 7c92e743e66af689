/** One board, the greatest worth: the offcut question, looked at harder than boards of a whole yard. */
import { bestAroundDefects } from './around-defects.ts';
import { searchBlocks } from './block-search.ts';
import { boardOf, type Job } from './job.ts';
import type { OneBoard, Pattern } from './one-board.ts';
import { isPerfect, sheetWithBlades, WASTE_FREE_STEP, withoutBlades } from './perfect-job.ts';
import { perfectSlices } from './perfect-slices.ts';
import { recutRegions } from './recut.ts';
import { refillRegions } from './refill.ts';
import type { Sheet } from './sheet.ts';
import { PASS_STEP, searchSheet } from './sheet-search.ts';
import { searchSlices } from './slices.ts';
import { hasNoDefects, type Spot } from './view.ts';

/** One exact pass over a sheet may take so many steps where no blank runs out and nothing more is to be done. */
const PASS_MOST = 4_000_000_000;
/** Steps of the exact search round defects, likewise, and how many of the search's own each of them takes. */
const AROUND_MOST = 8_000_000;
const AROUND_STEP = 8;
/** Share of the work allowed for rents and patterns built from small to large. */
const LEARNING_SHARE = 0.7;
/** One exact pass over a sheet may take this share of the work. */
const PASS_SHARE = 0.25;
/** The same where all blanks might fit: then rents say nothing. */
const LEARNING_SHARE_LOOSE = 0.1;

/** Share of all work for a sheet that all blanks just fill. */
const PERFECT_SHARE = 0.055;
/** Share of the work left for patterns built from blocks. */
const BLOCKS_SHARE = 0.6;
/** And of all work, however much the exact passes took. */
const BLOCKS_LEAST = 0.2;
/** Share of the work allowed for a harder look where nothing exact is possible. */
const HARDER_SHARE = 0.1;
/** About what one round of that takes. */
const HARDER_ROUND = 1_000_000;
/** Share of the work for regions round defects, which are asked about while somebody holds the board. */
const REFILL_SHARE = 0.042;
const COARSE_SHARE = 0.0125;
/** Staged patterns take a few milliseconds where a board has so few units along for all its blanks. */
const COARSE_MOST = 5000;
/** Work that normal effort allows one board. */
const NORMAL_WORK = 60_000_000;

export interface Single {
  readonly pattern: Pattern;
  /** Infinite where nothing exact was tried. */
  readonly bound: number;
}

export function* bestOfOne(job: Job, board: number): Generator<Single, Single> {
  const { problem, weights, wanted, random } = job;
  const search = boardOf(job, board);
  if (problem.maxStages === null && !hasNoDefects(search.view)) return yield* bestRefilled(job, search);
  const before = search.work;
  let pattern = search.limited(weights, wanted, 2, 12, random);
  let bound = Number.POSITIVE_INFINITY;
  let learntAll = false;
  yield { pattern, bound };
  const plain = problem.rest === null && job.tiers === 1;
  const sheet = plain ? search.sheet(PASS_MOST) : null;
  if (sheet && neverRunsOut(search, wanted)) {
    const { value, spots } = sheet.unlimited(weights);
    job.work += sheet.passWork;
    pattern = search.fromSpots(spots, weights, wanted, random);
    return { pattern, bound: value };
  }
  if (plain && problem.maxStages === null && neverRunsOut(search, wanted)) {
    const exact = provenAround(job, search, pattern);
    if (exact.pattern.value >= exact.bound - 1e-9) return exact;
    ({ pattern, bound } = exact);
  }
  if (sheet && sheet.passWork * PASS_STEP <= job.workMost * PASS_SHARE) {
    const answer = learnt(job, search, sheet, pattern);
    pattern = answer.pattern;
    bound = answer.bound;
    learntAll = !answer.coarse;
  } else {
    const depth = sheet ? 4 : job.workMost >= NORMAL_WORK / 10 ? 3 : 2;
    const rounds = sheet ? 2 : Math.min(12, Math.ceil((job.workMost * HARDER_SHARE) / HARDER_ROUND));
    const harder = search.limited(weights, wanted, depth, rounds, random);
    if (harder.value > pattern.value + 1e-9) pattern = harder;
    yield { pattern, bound };
  }
  job.work += search.work - before;
  if (plain && pattern.value < bound - 1e-9 && isPerfect(job, 1)) {
    const { spots, work } = yield* yielding(
      perfectSlices({
        ...sheetWithBlades(job),
        workMost: (job.workMost * PERFECT_SHARE) / WASTE_FREE_STEP,
        random,
      }),
      () => ({ pattern, bound }),
    );
    job.work += Math.round(work * WASTE_FREE_STEP);
    if (spots) pattern = search.fromSpots(withoutBlades(job, spots), weights, wanted, random);
    yield { pattern, bound };
  }
  if (
    plain &&
    problem.maxStages === null &&
    hasNoDefects(search.view) &&
    !search.isBar &&
    pattern.value < bound - 1e-9
  ) {
    const task = {
      view: search.view,
      prices: weights,
      limits: wanted,
      start: pattern,
      bound,
      workMost: Math.max((job.workMost - job.work) * BLOCKS_SHARE, job.workMost * BLOCKS_LEAST),
      repaired: (spots: readonly Spot[]) => search.fromSpots(spots, weights, wanted, random),
    };
    // Where all might fit, it is not which blanks but how to get them all in.
    const built = allMightFit(search, wanted)
      ? searchSlices(task, random)
      : learntAll
        ? null
        : searchBlocks(task, random);
    if (built) {
      pattern = built.pattern;
      job.work += built.work;
      yield { pattern, bound };
    }
  }
  // A region cut anew takes stages of its own, so that is left where they are counted.
  if (pattern.value >= bound - 1e-9 || problem.maxStages !== null) return { pattern, bound };
  const steps = recutRegions(
    {
      problem,
      view: search.view,
      prices: weights,
      limits: wanted,
      start: pattern.pieces,
      bound,
      workMost: job.workMost - job.work,
    },
    random,
  );
  for (;;) {
    const { value: found, done } = steps.next();
    if (found.value > pattern.value + 1e-9) pattern = { board, pieces: found.pieces, value: found.value };
    if (done) {
      job.work += found.work;
      break;
    }
    yield { pattern, bound };
  }
  return { pattern, bound };
}

/** Round defects a thousand regions refilled are ahead of any staged pattern, also where nothing was cut before. */
function* bestRefilled(job: Job, search: OneBoard): Generator<Single, Single> {
  const { problem, weights, wanted, random } = job;
  const { board, view } = search;
  const bound = Number.POSITIVE_INFINITY;
  const isCoarse = view.along * view.items.length <= COARSE_MOST;
  // A small board is soon stuck, so it is looked at from two sides.
  const starts = isCoarse ? [search.limited(weights, wanted, 2, 4, random).pieces, []] : [[]];
  const workMost = job.workMost * (isCoarse ? COARSE_SHARE : REFILL_SHARE);
  job.work += search.work;
  let pattern: Pattern = { board, pieces: [], value: 0 };
  for (const start of starts) {
    const task = { view, kerf: problem.kerf, prices: weights, limits: wanted, start, bound, workMost };
    const steps = refillRegions(task, random);
    for (let ended = false; !ended; ) {
      const { value: found, done } = steps.next();
      if (found.value > pattern.value + 1e-9) pattern = { board, pieces: found.pieces, value: found.value };
      if (done) job.work += found.work;
      else yield { pattern, bound };
      ended = done === true;
    }
  }
  if (problem.rest !== null || job.tiers > 1 || !neverRunsOut(search, wanted)) return { pattern, bound };
  yield { pattern, bound };
  return provenAround(job, search, pattern);
}

/** The exact search round defects, from the best pattern known: the better that is, the sooner it ends. */
function provenAround(job: Job, search: OneBoard, pattern: Pattern): Single {
  const { weights, wanted, random } = job;
  const around = bestAroundDefects(search.view, weights, pattern.value, AROUND_MOST);
  if (!around) return { pattern, bound: Number.POSITIVE_INFINITY };
  job.work += around.work * AROUND_STEP;
  const { spots, bound } = around;
  return { pattern: spots ? search.fromSpots(spots, weights, wanted, random) : pattern, bound };
}

/** Tells of the best so far at each step of a search that has nothing to show before its end. */
function* yielding<T>(steps: Generator<undefined, T>, now: () => Single): Generator<Single, T> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    yield now();
  }
}

function learnt(job: Job, search: OneBoard, sheet: Sheet, start: Pattern) {
  const { weights, wanted, random } = job;
  const answer = searchSheet(
    sheet,
    {
      prices: weights,
      limits: wanted,
      start,
      workMost: job.workMost * (allMightFit(search, wanted) ? LEARNING_SHARE_LOOSE : LEARNING_SHARE),
      whole: weights.every(Number.isInteger),
      repaired: (spots) => search.fromSpots(spots, weights, wanted, random),
    },
    random,
  );
  job.work += answer.work;
  return answer;
}

/** Whether even a sheet full of one kind leaves some over, for every kind. */
function neverRunsOut({ view }: OneBoard, wanted: Int32Array): boolean {
  return view.items.every(
    (item) =>
      wanted[item.blank]! >=
      Math.floor((view.along + view.kerfAlong) / (item.along + view.kerfAlong)) *
        Math.floor((view.across + view.kerfAcross) / (item.across + view.kerfAcross)),
  );
}

function allMightFit({ view }: OneBoard, wanted: Int32Array): boolean {
  const area = view.items.reduce(
    (sum, item) => sum + wanted[item.blank]! * (item.along + view.kerfAlong) * (item.across + view.kerfAcross),
    0,
  );
  return area <= (view.along + view.kerfAlong) * (view.across + view.kerfAcross);
}
