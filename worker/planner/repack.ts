/**
 * Gets all blanks onto a given number of boards of one kind: regions of two boards are taken back together and cut anew
 * one after the other from their blanks and those still without a place. A little may be lost for a while.
 */
import type { PlacedBlank, Problem, Rect } from './problem.ts';
import type { Random } from './random.ts';
import { shakenAsks } from './recut.ts';
import { type Region, randomRegion } from './region.ts';
import { cutRegion } from './region-cut.ts';
import type { View } from './view.ts';

export interface RepackTask {
  readonly problem: Problem;
  /** The one kind of board, not turned. */
  readonly view: View;
  readonly wanted: Int32Array;
  /** Area of one copy of each blank. */
  readonly areas: Float64Array;
  /** One entry a board. */
  readonly start: readonly (readonly PlacedBlank[])[];
  readonly workMost: number;
}

export interface Repacked {
  readonly boards: readonly (readonly PlacedBlank[])[];
  /** Area still without a place; 0 when all is placed. */
  readonly missing: number;
  readonly work: number;
}

const PIECES_LEAST = 2;
const PIECES_MORE = 20;
/** Share of a board's area that a step may lose at first. */
const HEAT = 0.08;

export function repackBoards(task: RepackTask, random: Random): Repacked {
  const { problem, view, areas } = task;
  const whole: Rect = { from: 0, to: view.along, left: 0, right: view.across };
  const heat = HEAT * view.along * view.across;
  const left = task.wanted.slice();
  const boards = task.start.map((pieces) => [...pieces] as readonly PlacedBlank[]);
  for (const pieces of boards) for (const piece of pieces) left[piece.blank]!--;
  let missing = left.reduce((sum, copies, blank) => sum + copies * areas[blank]!, 0);
  let best = { boards: [...boards] as Repacked['boards'], missing };
  let work = 0;
  while (work < task.workMost && best.missing > 1e-9) {
    work += 1000;
    const cool = 1 - work / task.workMost;
    const picked = new Set([random.below(boards.length), random.below(boards.length)]);
    const regions = [...picked].map((board) => ({
      board,
      ...randomRegion(whole, boards[board]!, problem.kerf, PIECES_LEAST + random.below(PIECES_MORE), random),
    }));
    const taken = regions.flatMap((region) => region.pieces);
    for (const piece of taken) left[piece.blank]!++;
    const cut: { board: number; region: Region; pieces: readonly PlacedBlank[] }[] = [];
    for (const region of regions) {
      const found = cutRegion(problem, view, shakenAsks(view, region.at, taken, areas, left, random), random);
      work += found.work;
      for (const piece of found.pieces) left[piece.blank]!--;
      cut.push({ board: region.board, region, pieces: found.pieces });
    }
    const placed = cut.flatMap(({ pieces }) => pieces);
    const gain = areaOf(areas, placed) - areaOf(areas, taken);
    const kept = gain >= heat * cool * cool * Math.log(1 - random.next()) - 1e-9;
    if (!kept) {
      for (const piece of placed) left[piece.blank]!++;
      for (const piece of taken) left[piece.blank]!--;
      continue;
    }
    for (const { board, region, pieces } of cut) {
      const gone = new Set(region.pieces);
      boards[board] = [...boards[board]!.filter((piece) => !gone.has(piece)), ...pieces];
    }
    missing -= gain;
    if (missing < best.missing - 1e-9) best = { boards: [...boards], missing };
  }
  return { ...best, work };
}

function areaOf(areas: Float64Array, pieces: readonly PlacedBlank[]): number {
  return pieces.reduce((sum, piece) => sum + areas[piece.blank]!, 0);
}
