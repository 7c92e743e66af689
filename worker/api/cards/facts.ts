/** What a card says of a board beyond its cuts: how wet it is, and what to beware of at this board. */
import type { Board } from '../../contract/board.ts';
import type { JobWithParts } from '../../contract/job.ts';
import type { Layout, PlacedPiece } from '../../contract/plan.ts';
import type { Settings } from '../../contract/settings.ts';
import { boardWarnings } from '../../planner/board-warnings.ts';
import { type Shown, tape } from '../../planner/cut-words.ts';
import { latestReading } from '../../wood/reading.ts';

type Part = JobWithParts['parts'][number];

export function moistureText(board: Board): string {
  const reading = latestReading(board.readings);
  return reading ? `${reading.moisturePercent} % on ${reading.on}` : 'not measured';
}

/** Warnings that belong to this board as it is now, and those of its plan; the cautions for every board stand once on the page. */
export function cardWarnings(board: Board, layout: Layout, settings: Settings): string[] {
  const now = boardWarnings(board, settings);
  return [...now, ...layout.warnings.filter((warning) => !now.includes(warning))];
}

/** Finished length, width and thickness of a piece or of its layer; null where the cut list no longer has the part. */
export function finishedSize(part: Part | undefined, element: PlacedPiece['element'], shown: Shown): string | null {
  if (!part) return null;
  let { widthNm, thicknessNm } = part;
  const made = part.lamination;
  if (element !== null && made?.kind === 'plies') {
    const ply = made.plies[element];
    if (ply) ({ widthNm, thicknessNm } = ply);
  }
  if (element !== null && made?.kind === 'staves') widthNm = Math.round(widthNm / made.count);
  return `${tape(thicknessNm, shown)} × ${tape(widthNm, shown)} × ${tape(part.lengthNm, shown)}`;
}

/** "7 days": how long it lies in stickers before it is milled. */
export function restText(part: Part | undefined, settings: Settings): string {
  if (!part) return '';
  const days = settings.restDays[part.use];
  return days === 0 ? 'none' : days === 1 ? '1 day' : `${days} days`;
}
