/** What a card says of a board beyond its cuts: how wet it is, what it weighs, and what to beware of at this board. */
import type { Board } from '../../contract/board.ts';
import type { JobWithParts } from '../../contract/job.ts';
import type { Layout, PlacedPiece } from '../../contract/plan.ts';
import type { Settings } from '../../contract/settings.ts';
import { type Shown, tape } from '../../planner/cut-words.ts';
import { bookWith } from '../../wood/own-wood.ts';
import { LIFT_ALONE_KG_MAX, poundsFromKg, weightKg } from '../../wood/weight.ts';

type Part = JobWithParts['parts'][number];

/** Above this, stock may close on the blade. Common practice, no source. */
const WET_PERCENT = 12;
/** Air-dried to kiln-dried; taken for the weight where nobody has measured. Common practice, no source. */
const DRY_PERCENT = 12;

export function latestReading(board: Board): Board['readings'][number] | null {
  return board.readings.reduce<Board['readings'][number] | null>(
    (latest, reading) => (latest === null || reading.on >= latest.on ? reading : latest),
    null,
  );
}

export function moistureText(board: Board): string {
  const reading = latestReading(board);
  return reading ? `${reading.moisturePercent} % on ${reading.on}` : 'not measured';
}

/** The whole board's weight from its species and moisture content; null for a species whose density is not known. */
export function boardWeight(
  board: Board,
  { ownWoods }: Pick<Settings, 'ownWoods'>,
): { readonly massKg: number; readonly assumed: boolean } | null {
  const wood = bookWith(ownWoods).byKey(board.species);
  if (!wood) return null;
  const reading = latestReading(board);
  return { massKg: weightKg(board, wood, reading?.moisturePercent ?? DRY_PERCENT), assumed: reading === null };
}

export function weightText(massKg: number, shown: Shown): string {
  const [kg, lb] = [`${Math.round(massKg)} kg`, `${Math.round(poundsFromKg(massKg))} lb`];
  return shown.shown === 'in' ? `${lb} (${kg})` : kg;
}

/** Warnings that belong to this board; the cautions for every board stand once on the page. */
export function boardWarnings(board: Board, layout: Layout, settings: Settings): string[] {
  const warnings: string[] = [];
  const reading = latestReading(board);
  if (!reading) warnings.push('Moisture not measured: take a reading before you cut.');
  else if (reading.moisturePercent > WET_PERCENT)
    warnings.push(
      `Wet stock, ${reading.moisturePercent} % MC: it can close on the blade and kick back. Rip it on the band saw, or let it dry.`,
    );
  const warp = board.warp;
  if (warp && (warp.cupNm > 0 || warp.twistNm > 0)) {
    const found = [
      ...(warp.cupNm > 0 ? [`cup ${tape(warp.cupNm, settings)}`] : []),
      ...(warp.twistNm > 0 ? [`twist ${tape(warp.twistNm, settings)}`] : []),
    ];
    warnings.push(
      `Not flat (${found.join(', ')}): it can rock and bind. Flatten a face and joint an edge before the table saw, or rip on the band saw.`,
    );
  }
  if (board.defects.some((defect) => defect.kind === 'knot-loose'))
    warnings.push('Loose knot: knock it out or cut around it; keep your face out of the line of the blade.');
  const weight = boardWeight(board, settings);
  if (weight && weight.massKg > LIFT_ALONE_KG_MAX)
    warnings.push(
      `Heavy, about ${weightText(weight.massKg, settings)}${weight.assumed ? ` if dry (${DRY_PERCENT} % MC), more if wet` : ''}: two people, or a lift or cart.`,
    );
  return [...warnings, ...layout.warnings.filter((warning) => !warnings.includes(warning))];
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

/** What the shop calls one of the pieces that a part is glued up from. */
export const layerWord = (part: Part | undefined): string =>
  part?.lamination?.kind === 'staves' ? 'stave' : part?.lamination?.kind === 'plies' ? 'ply' : 'layer';

/** "7 days": how long it lies in stickers before it is milled. */
export function restText(part: Part | undefined, settings: Settings): string {
  if (!part) return '';
  const days = settings.restDays[part.use];
  return days === 0 ? 'none' : days === 1 ? '1 day' : `${days} days`;
}
