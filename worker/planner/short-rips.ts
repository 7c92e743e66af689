/** Rips of stock that is too short to be held: hands come too near the blade, and it turns between fence and blade. */
import type { Cut } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { tapeStyle } from '../takeoff/grid.ts';
import { lengthText } from '../wood/length.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { listed } from './listed.ts';

/** Shorter stock is not ripped against a fence. Common practice, no source; the saw's manual comes first. */
export const RIP_LEAST_NM = 12 * NM_PER_INCH;

/** Names the cuts by their numbers, in turn from 1. */
export function shortRipWarnings(cuts: readonly Pick<Cut, 'axis' | 'of'>[], settings: Settings): readonly string[] {
  const numbers = cuts.flatMap(({ axis, of }, at) =>
    axis === 'rip' && of.toNm - of.fromNm < RIP_LEAST_NM ? [String(at + 1)] : [],
  );
  if (numbers.length === 0) return [];
  const [which, rips] = numbers.length === 1 ? ['Cut', 'rips'] : ['Cuts', 'rip'];
  const short = lengthText(RIP_LEAST_NM, tapeStyle(settings));
  return [
    `${which} ${listed(numbers)} ${rips} stock shorter than ${short}: too short to be held against the fence of a table saw. Saw it where it can be clamped or carried, in a sled or at the band saw.`,
  ];
}
