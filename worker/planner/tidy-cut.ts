/** A pattern with less work at the saw for the same blanks, where cuts are to be saved. */
import { type CutBoard, placedCounts } from './plan.ts';
import type { Problem } from './problem.ts';
import { sawWorkOf } from './saw-work.ts';
import { sameWidthStrips } from './tidy-strips.ts';
import { viewOf } from './view.ts';

/** The same blanks ripped as a person would, where that takes less work at the saw. */
export function tidyCut(problem: Problem, cut: CutBoard): CutBoard {
  if (problem.cutCost === undefined || cut.pieces.length < 2) return cut;
  const counts = placedCounts(problem, [cut]);
  let best = cut;
  for (const turned of [false, true]) {
    for (const pieces of sameWidthStrips(viewOf(problem, cut.board, turned), counts)) {
      const other = { board: cut.board, pieces };
      if (sawWorkOf(problem, other) < sawWorkOf(problem, best)) best = other;
    }
  }
  return best;
}
