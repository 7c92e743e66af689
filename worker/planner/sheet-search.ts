/**
 * One clear sheet, copies limited: rents on blanks drive the exact unlimited search down to a bound, and at the best
 * rents patterns within the limits are built, more of them kept each time. Stops when pattern and bound meet.
 */
import type { Pattern } from './one-board.ts';
import type { Random } from './random.ts';
import type { Sheet } from './sheet.ts';
import { buildSheet, worthBeside } from './sheet-building.ts';
import type { Spot } from './view.ts';

export interface SheetAnswer {
  readonly pattern: Pattern;
  readonly bound: number;
  readonly work: number;
}

export interface SheetTask {
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly start: Pattern;
  readonly workMost: number;
  /** Values are whole numbers, so bounds may be rounded down. */
  readonly whole: boolean;
  readonly repaired: (spots: readonly Spot[]) => Pattern;
}

/** Patterns kept in memory take no more than this. */
const BYTES_MOST = 40_000_000;
/** One step of building takes as long as this many of the exact search. */
const BUILDING_STEP = 6;

export function searchSheet(sheet: Sheet, task: SheetTask, random: Random): SheetAnswer {
  const learnt = learnRents(sheet, task, task.workMost * 0.4);
  let best = learnt.pattern;
  let { bound, work } = learnt;
  const { prices, limits } = task;
  const kinds = prices.length;
  const rounded = (): number => (task.whole ? Math.floor(bound + 1e-6) : bound);
  if (rounded() > best.value + 1e-9 && keepsOne(sheet, kinds)) {
    const small = sheet.states * kinds < 200_000;
    const most = small ? task.workMost * 0.1 : task.workMost * 0.5 - work;
    const varied = variations(sheet, task, best, learnt.rents, most, random);
    best = varied.pattern;
    work += varied.work;
  }
  const keepMost = Math.floor(BYTES_MOST / (sheet.states * (kinds + 24)));
  let keep = Math.max(1, Math.min(16, keepMost, Math.floor(1.5e6 / (sheet.states * Math.sqrt(kinds)))));
  let beside: Float64Array | null = null;
  let idle = 0;
  const aims = [0, 0, 0.5, 0.9, 0.75] as const;
  for (let turn = 0; keep <= keepMost && work < task.workMost && rounded() > best.value + 1e-9; turn++) {
    if (!beside) {
      sheet.unlimited(prices.map((price, blank) => price - learnt.rents[blank]!));
      beside = worthBeside(sheet, sheet.worths);
      work += sheet.passWork * 3;
    }
    // Aiming above the best known drops whatever wastes too much for the aim, and so leaves room for what does not.
    const aim = aims[turn % aims.length]!;
    const floor = best.value + aim * (rounded() - best.value);
    const found = buildSheet(sheet, {
      prices,
      limits,
      rents: learnt.rents,
      beside,
      floor,
      keep,
      workMost: Math.max(1e5, (task.workMost - work) / BUILDING_STEP),
      share: turn % aims.length === 1 ? 1 : 0,
    });
    work += found.work * BUILDING_STEP + sheet.states;
    if (found.spots) {
      const pattern = task.repaired(found.spots);
      if (pattern.value > best.value + 1e-9) {
        best = pattern;
        idle = -1;
      }
    }
    if (found.exact) bound = Math.min(bound, Math.max(floor, best.value));
    if (turn % aims.length === aims.length - 1) {
      if (++idle >= 3) break;
      keep = keep < keepMost ? Math.min(keepMost, keep * 4) : keep + 1;
    }
  }
  return { pattern: best, bound: rounded(), work };
}

function keepsOne(sheet: Sheet, kinds: number): boolean {
  return sheet.states * kinds * 2 <= BYTES_MOST;
}

function limitedWork(sheet: Sheet): number {
  return sheet.passWork * 2 + sheet.states * 20 + 2000;
}

/** Patterns within the limits at many sets of rents near the best. */
function variations(
  sheet: Sheet,
  task: SheetTask,
  start: Pattern,
  rents: Float64Array,
  workMost: number,
  random: Random,
) {
  const { prices, limits } = task;
  let pattern = start;
  let work = 0;
  while (work < workMost) {
    const spread = 0.02 + 0.3 * random.next() ** 2;
    const share = random.below(4) === 0 ? 0 : 0.3 + 0.9 * random.next();
    const varied = prices.map((price, blank) =>
      Math.max(price * 1e-3, price - rents[blank]! * share - price * spread * (random.next() - 0.5)),
    );
    const right = task.repaired(sheet.limited(varied, limits));
    if (right.value > pattern.value + 1e-9) pattern = right;
    work += limitedWork(sheet);
  }
  return { pattern, work };
}

function learnRents(sheet: Sheet, task: SheetTask, workMost: number) {
  const { prices, limits } = task;
  const kinds = prices.length;
  const rents = new Float64Array(kinds);
  let best: Float64Array = rents.slice();
  let pattern = task.start;
  let bound = Number.POSITIVE_INFINITY;
  let stride = 1;
  let idle = 0;
  let work = 0;
  for (let round = 0; work < workMost && round < 150 && stride > 0.02; round++) {
    const found = sheet.unlimited(prices.map((price, blank) => Math.max(0, price - rents[blank]!)));
    work += sheet.passWork + 2000;
    const over = new Int32Array(kinds);
    for (const spot of found.spots) over[spot.item.blank]!++;
    let relaxed = found.value;
    let norm = 0;
    let excess = false;
    for (let blank = 0; blank < kinds; blank++) {
      over[blank]! -= limits[blank]!;
      relaxed += rents[blank]! * limits[blank]!;
      if (over[blank]! > 0) excess = true;
      if (over[blank]! > 0 || rents[blank]! > 0) norm += over[blank]! * over[blank]!;
    }
    if (relaxed < bound - 1e-9) {
      if (relaxed < bound * (1 - 2e-4)) idle = 0;
      bound = relaxed;
      best = rents.slice();
    } else if (++idle >= 5) {
      stride *= 0.6;
      idle = 0;
    }
    const take = (spots: readonly Spot[]): void => {
      const right = task.repaired(spots);
      if (right.value > pattern.value + 1e-9) pattern = right;
    };
    if (round < 4 || !excess || sheet.passWork > 1e7) take(found.spots);
    if (round % 3 === 0 && keepsOne(sheet, kinds)) {
      take(
        sheet.limited(
          prices.map((price, blank) => Math.max(price * 1e-3, price - rents[blank]!)),
          limits,
        ),
      );
      work += limitedWork(sheet);
    }
    if (norm === 0 || (task.whole ? Math.floor(bound + 1e-6) : bound) <= pattern.value + 1e-9) break;
    const step = (stride * (relaxed - pattern.value)) / norm;
    for (let blank = 0; blank < kinds; blank++) {
      rents[blank] = Math.min(prices[blank]!, Math.max(0, rents[blank]! + step * over[blank]!));
    }
  }
  return { pattern, bound, rents: best, work };
}
