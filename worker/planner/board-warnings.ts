/** What to beware of at one board, whatever is cut from it: wet, not flat, crooked, a loose knot, heavy. */
import type { Board } from '../contract/board.ts';
import type { Settings } from '../contract/settings.ts';
import { tapeStyle } from '../takeoff/grid.ts';
import { lengthText } from '../wood/length.ts';
import { bookWith } from '../wood/own-wood.ts';
import { latestReading } from '../wood/reading.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { LIFT_ALONE_KG_MAX, poundsFromKg, weightKg } from '../wood/weight.ts';

/** Above this, stock may close on the blade. Common practice, no source. */
const WET_PERCENT = 12;
/** Air-dried to kiln-dried; taken for the weight where nobody has measured. Common practice, no source. */
const DRY_PERCENT = 12;
/** Cup, twist or crook from which a board rocks on the table or leaves the fence. Common practice, no source. */
const ROCKS_NM = NM_PER_INCH / 16;

/** The whole board's weight from its species and moisture content; null for a species whose density is not known. */
export function boardWeight(
  board: Board,
  { ownWoods }: Pick<Settings, 'ownWoods'>,
): { readonly massKg: number; readonly assumed: boolean } | null {
  const wood = bookWith(ownWoods).byKey(board.species);
  if (!wood) return null;
  const reading = latestReading(board.readings);
  return { massKg: weightKg(board, wood, reading?.moisturePercent ?? DRY_PERCENT), assumed: reading === null };
}

export function weightText(massKg: number, { shown }: Pick<Settings, 'shown'>): string {
  const [kg, lb] = [`${Math.round(massKg)} kg`, `${Math.round(poundsFromKg(massKg))} lb`];
  return shown === 'in' ? `${lb} (${kg})` : kg;
}

/** Common practice at the saw, no source; the machine's manual and local safety rules come first. */
export function boardWarnings(board: Board, settings: Settings): string[] {
  const show = (acrossNm: number) => lengthText(acrossNm, tapeStyle(settings));
  const warnings: string[] = [];
  const reading = latestReading(board.readings);
  if (!reading) warnings.push('Moisture not measured: take a reading before you cut.');
  else if (reading.moisturePercent > WET_PERCENT)
    warnings.push(
      `Wet stock, ${reading.moisturePercent} % MC: it can close on the blade and kick back. Rip it on the band saw, or let it dry; let the blanks rest before milling.`,
    );
  const { cupNm = 0, twistNm = 0, crookNm = 0 } = board.warp ?? {};
  const shape = [
    ...(cupNm >= ROCKS_NM ? [`cup ${show(cupNm)}`] : []),
    ...(twistNm >= ROCKS_NM ? [`twist ${show(twistNm)}`] : []),
  ];
  if (shape.length > 0)
    warnings.push(
      `Not flat (${shape.join(', ')}): it can rock and bind. Joint a face and an edge before the table saw, or make the rips on the band saw.`,
    );
  if (crookNm >= ROCKS_NM)
    warnings.push(`Crook ${show(crookNm)} over its length: joint or snap a straight edge before ripping.`);
  if (board.defects.some((defect) => defect.kind === 'knot-loose'))
    warnings.push('Loose knot: knock it out or cut around it; keep your face out of the line of the blade.');
  const weight = boardWeight(board, settings);
  if (weight && weight.massKg > LIFT_ALONE_KG_MAX)
    warnings.push(
      `Heavy, about ${weightText(weight.massKg, settings)}${weight.assumed ? ` if dry (${DRY_PERCENT} % MC), more if wet` : ''}: two people, or a lift or cart.`,
    );
  return warnings;
}
