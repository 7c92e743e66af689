/** Every assumption that shapes a takeoff, said in words with its source, so that nobody trusts a figure further than it goes. */
import type { Settings } from '../contract/settings.ts';
import { lengthText } from '../wood/length.ts';
import { tapeStepNm, tapeStyle } from './grid.ts';

export function assumptionsOf(settings: Settings): string[] {
  const show = (lengthNm: number) => lengthText(lengthNm, tapeStyle(settings));
  const { allowances, kerf, moistureMax } = settings;
  const step = lengthText(tapeStepNm(settings), { system: settings.shown, denominator: 32 });
  return [
    `Blanks are finished size plus ${show(allowances.lengthNm)} in length and ${show(allowances.widthNm)} in width (common practice, no source), rounded up to ${step}.`,
    `Planing takes ${show(allowances.thicknessNm)} off both faces together up to 6/4 rough and ${show(allowances.thicknessThickNm)} from 8/4 (hardwood grading's surfaced sizes, from a copy of the table).`,
    `Each joint between staves takes ${show(allowances.glueJointWidthNm)} of width (common practice, no source).`,
    `Parts are right at ${settings.targetMoisturePercent} % moisture (Wood Handbook FPL-GTR-190 Ch. 13: 8 % for most of the US, indoors).`,
    `Blanks allow for shrinkage from the wettest stock their use may be cut from: ${moistureMax.critical} % critical, ${moistureMax.visible} % visible, ${moistureMax.hidden} % hidden, ${moistureMax.layer} % plies and staves (common practice, no source); shrinkage by species from Wood Handbook Table 4-3 and eq. 4-9, where grain is not asked for along the growth rings, the larger way. Single boards differ by 20 % and more.`,
    `Gross is rough faces at the called thickness times ${settings.wasteFactor} for kerf (${show(kerf.ripNm)} ripping, ${show(kerf.crosscutNm)} crosscutting), end trim of ${show(allowances.endTrimNm)}, defects and what does not come out even (common practice, no source; a cut plan counts them one by one).`,
    'Net and rough are true volumes; gross, stock and what to buy count the called rough thickness.',
    'Stock is the longest length of each board that no other job holds. A board counts only for blanks that it can give: long, wide and thick enough between its end trims, clear of its defects, of the grain that is asked for, and flat enough over their size (warp falls with the square of the length and width cut, geometry of an even curve).',
    'Short are blanks that found no place when all were laid on the boards, blade and defects included. It is a quick look: where nothing proves that no plan can place them, the takeoff says so.',
    'Weight is finished wood at the target moisture (Wood Handbook FPL-GTR-282 eq. 4-11 and 4-14); single boards differ by about 10 %.',
    "Cost is all gross board feet at the shop's prices, stock included; what is to buy is priced on its own.",
  ];
}
