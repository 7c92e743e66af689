/** What to know before a board goes to the saw, said once on its layout. */
import type { Settings } from '../contract/settings.ts';
import { alongStyle, tapeStyle } from '../takeoff/grid.ts';
import { canResaw } from '../takeoff/piece-on-board.ts';
import { lengthText } from '../wood/length.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { LIFT_ALONE_KG_MAX, weightKg } from '../wood/weight.ts';
import type { ShopBoard } from './shop-board.ts';
import type { Wanted } from './shop-wanted.ts';

/** Wetter stock binds at a table saw. Common practice, no source. */
const WET_PERCENT = 12;
/** Cup or twist from which a board rocks on the table. Common practice, no source. */
const ROCKS_NM = NM_PER_INCH / 16;

export function layoutWarnings(on: ShopBoard, cut: readonly Wanted[], settings: Settings): string[] {
  const { board, moisturePercent } = on;
  const show = (acrossNm: number) => lengthText(acrossNm, tapeStyle(settings));
  const warnings: string[] = [];
  if (moisturePercent === null) warnings.push('No moisture reading: read it before cutting.');
  else if (moisturePercent > WET_PERCENT)
    warnings.push(
      `${moisturePercent} % moisture: wet stock can bind and kick back at a table saw; use a band saw. Let the blanks rest before milling.`,
    );
  const cupNm = board.warp?.cupNm ?? 0;
  const twistNm = board.warp?.twistNm ?? 0;
  if (cupNm >= ROCKS_NM || twistNm >= ROCKS_NM) {
    const shape = [cupNm >= ROCKS_NM ? `cup ${show(cupNm)}` : '', twistNm >= ROCKS_NM ? `twist ${show(twistNm)}` : ''];
    warnings.push(
      `Not flat (${shape.filter(Boolean).join(', ')}): crosscut to rough length, then rip at the band saw or joint a face and an edge before the table saw.`,
    );
  }
  const crookNm = board.warp?.crookNm ?? 0;
  if (crookNm >= ROCKS_NM)
    warnings.push(`Crook ${show(crookNm)} over its length: joint or snap a straight edge before ripping.`);
  warnings.push(...thickWarnings(on, cut, settings));
  for (const held of on.held) {
    const run = `${lengthText(held.fromNm, alongStyle(settings))} to ${lengthText(held.toNm, alongStyle(settings))}`;
    warnings.push(`${held.jobName} holds ${run}: part that off first, and tag it.`);
  }
  const massKg = massOf(on);
  if (massKg !== null && massKg > LIFT_ALONE_KG_MAX) warnings.push(`About ${Math.round(massKg)} kg: two people.`);
  return warnings;
}

/** Thick enough for two layers of some piece: sawing it in two first would give twice as many. */
function thickWarnings({ board }: ShopBoard, cut: readonly Wanted[], settings: Settings): readonly string[] {
  const thin = cut.find(({ finished }) => canResaw(board.thicknessNm, finished.thicknessNm, settings));
  return thin ? [`Thick enough to resaw: ${thin.part.label} needs only half of it.`] : [];
}

function massOf({ board, wood, moisturePercent }: ShopBoard): number | null {
  if (!wood.species || moisturePercent === null) return null;
  return weightKg(board, wood.species, Math.min(300, moisturePercent));
}
