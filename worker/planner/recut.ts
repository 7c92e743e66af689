/**
 * Makes the pattern of one clear board better by cutting regions of it anew: a small region is taken back, and its blanks and
 * those not yet placed are cut from it by the best pattern found at prices shaken a little. A pattern somewhat worse is
 * kept for a while, less and less so, to get over a hill.
 */
import type { PlacedBlank, Problem, Rect } from './problem.ts';
import type { Random } from './random.ts';
import { randomRegion } from './region.ts';
import { cutRegion, type RegionAsks } from './region-cut.ts';
import type { View } from './view.ts';

export interface RecutTask {
  readonly problem: Problem;
  /** The board, not turned. */
  readonly view: View;
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly start: readonly PlacedBlank[];
  /** No pattern is worth more. */
  readonly bound: number;
  readonly workMost: number;
}

export interface Recut {
  readonly pieces: readonly PlacedBlank[];
  readonly value: number;
  readonly work: number;
}

/** Blanks in a region: at least, and how many more at most. */
const PIECES_LEAST = 2;
const PIECES_MORE = 26;
const PIECES_FEWER = 8;
/** Steps of taking back a region. */
const REGION_STEP = 1000;
/** Kinds not in a region that are tried in it. */
const OTHERS_MOST = 16;
/** Share of the whole worth that a step may lose at first. */
const HEAT = 0.02;

/** Tells of the best so far now and then. */
export function* recutRegions(task: RecutTask, random: Random): Generator<Recut, Recut> {
  const { problem, view, prices, limits } = task;
  const whole: Rect = { from: 0, to: view.along, left: 0, right: view.across };
  const left = limits.slice();
  for (const piece of task.start) left[piece.blank]!--;
  const worthOf = (list: readonly PlacedBlank[]): number => list.reduce((sum, piece) => sum + prices[piece.blank]!, 0);
  let pieces = task.start;
  let value = worthOf(pieces);
  let best = { pieces, value };
  let work = 0;
  const heat = HEAT * value;
  let told = 0;
  while (work < task.workMost && best.value < task.bound - 1e-9) {
    work += REGION_STEP;
    if (work > told + task.workMost / 8) {
      told = work;
      yield { ...best, work };
    }
    const cool = 1 - work / task.workMost;
    const region = randomRegion(whole, pieces, problem.kerf, piecesMost(random), random);
    for (const piece of region.pieces) left[piece.blank]!++;
    const found = cutRegion(problem, view, shakenAsks(view, region.at, region.pieces, prices, left, random), random);
    const allowed = heat * cool * cool * -Math.log(1 - random.next());
    const before = worthOf(region.pieces);
    const after = worthOf(found.pieces);
    work += found.work;
    const taken = after >= before - allowed - 1e-9 ? found.pieces : region.pieces;
    for (const piece of taken) left[piece.blank]!--;
    if (taken === region.pieces) continue;
    const gone = new Set(region.pieces);
    pieces = [...pieces.filter((piece) => !gone.has(piece)), ...taken];
    value += after - before;
    if (value > best.value + 1e-9) best = { pieces, value };
  }
  return { ...best, work };
}

function piecesMost(random: Random): number {
  const many = random.below(2) === 0;
  return PIECES_LEAST + random.below(many ? PIECES_MORE : PIECES_FEWER);
}

/** What a region is asked for: blanks of its own, and by chance some of those not placed. */
export function shakenAsks(
  view: View,
  at: Rect,
  own: readonly PlacedBlank[],
  prices: Float64Array,
  left: Int32Array,
  random: Random,
): RegionAsks {
  const inside = new Set(own.map((piece) => piece.blank));
  const fitting = view.items.filter(
    (item) =>
      left[item.blank]! > 0 &&
      prices[item.blank]! > 0 &&
      item.along <= at.to - at.from &&
      item.across <= at.right - at.left,
  );
  const keep = OTHERS_MOST / Math.max(1, fitting.length - inside.size);
  const blanks = fitting.map((item) => item.blank).filter((blank) => inside.has(blank) || random.next() < keep);
  const noise = 0.3 * random.next() ** 2;
  return {
    at,
    blanks,
    prices: Float64Array.from(blanks, (blank) => prices[blank]! * (1 + noise * (random.next() - 0.5))),
    limits: Int32Array.from(blanks, (blank) => left[blank]!),
  };
}
