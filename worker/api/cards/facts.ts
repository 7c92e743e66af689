/** What a card says of a board beyond its cuts: how wet it is, and what to beware of at this board. */
import type { Board } from '../../contract/board.ts';
import type { JobWithParts } from '../../contract/job.ts';
import type { Layout, PlacedPiece } from '../../contract/plan.ts';
import type { Settings } from '../../contract/settings.ts';
import { boardWarnings } from '../../planner/board-warnings.ts';
import { tape } from '../../planner/cut-words.ts';
import { elementsOf } from '../../takeoff/elements.ts';
import { roundedUpNm, tapeStepNm } from '../../takeoff/grid.ts';
import { dayText } from '../../wood/day.ts';
import { latestReading } from '../../wood/reading.ts';

type Part = JobWithParts['parts'][number];

export function moistureText(board: Board): string {
  const reading = latestReading(board.readings);
  return reading ? `${reading.moisturePercent} % on ${dayText(reading.on)}` : 'not measured';
}

/** Warnings that belong to this board as it is now, and those of its plan; the cautions for every board stand once on the page. */
export function cardWarnings(board: Board, layout: Layout, settings: Settings): string[] {
  const now = boardWarnings(board, settings);
  return [...now, ...layout.warnings.filter((warning) => !now.includes(warning))];
}

/**
 * Finished length, width and thickness of a piece, or of its ply or stave as it goes into the glue-up; null where the cut
 * list no longer has the part.
 */
export function finishedSize(
  part: Part | undefined,
  element: PlacedPiece['element'],
  settings: Settings,
): string | null {
  if (!part) return null;
  const layer = element === null ? undefined : elementsOf(part, settings)[element];
  const { lengthNm, widthNm, thicknessNm } = layer?.finished ?? part;
  const isStave = layer?.what === 'stave';
  const acrossNm = isStave ? staveOnTapeNm(widthNm, settings) : widthNm;
  const size = `${tape(thicknessNm, settings)} × ${tape(acrossNm, settings)} × ${tape(lengthNm, settings)}`;
  return isStave ? `${size} before its edges are jointed` : size;
}

/** A panel divided among its staves seldom comes out on the tape: the next mark up. */
export const staveOnTapeNm = (widthNm: number, settings: Settings): number =>
  roundedUpNm(widthNm, tapeStepNm(settings));

/** "7 days": how long it lies in stickers before it is milled. */
export function restText(part: Part | undefined, settings: Settings): string {
  if (!part) return '';
  const days = settings.restDays[part.use];
  return days === 0 ? 'none' : days === 1 ? '1 day' : `${days} days`;
}
