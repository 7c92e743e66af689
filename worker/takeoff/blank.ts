/**
 * The rough piece that an element is milled from: its finished size, what it will still shrink, and what the shop
 * leaves for squaring, jointing and planing; rounded up to what its tape shows.
 */
import type { Settings } from '../contract/settings.ts';
import { planedOffNm } from '../wood/rough.ts';
import { facesDirections, type Grain, sizeBeforeDrying } from '../wood/shrinkage.ts';
import type { Species } from '../wood/species.ts';
import { NM_PER_INCH, type Size } from '../wood/unit.ts';
import { gridNm, roundedUpNm, tapeStepNm } from './grid.ts';

/** The wood that a blank is cut from. species null (not in the list): no shrinkage is reckoned with. */
export interface WoodAtCutting {
  readonly species: Species | null;
  readonly moisturePercent: number;
  readonly grain: Grain;
}

/** What the shop's settings say of blanks. */
export type BlankSettings = Pick<Settings, 'shown' | 'denominator' | 'allowances' | 'targetMoisturePercent'>;

/**
 * The planing allowance may give way by this much to shrinkage and warp: rough stock is not measured finer, and clean-up
 * alone takes far less than the allowance. So 8/4 at 10 % still gives the 1 3/4 in that its surfaced size promises.
 */
export const PLANING_GIVE_NM = NM_PER_INCH / 32;

/** Planed off both faces together. 3/4 in finished takes 3/16 in (4/4 rough); 1 3/4 in takes 1/4 in (8/4 rough). */
export function planingAllowanceNm(finishedThicknessNm: number, settings: Pick<Settings, 'allowances'>): number {
  const { thicknessNm, thicknessThickNm } = settings.allowances;
  return planedOffNm(finishedThicknessNm, { thinNm: thicknessNm, thickNm: thicknessThickNm });
}

/**
 * Size of an element at cutting so that it has `finished` at the shop's target moisture; no allowances. Never less than
 * finished. Along the grain wood hardly moves (0.1 to 0.2 % from green to oven-dry): the length allowance takes that.
 */
export function sizeAtCutting(finished: Size, settings: BlankSettings, wood: WoodAtCutting): Size {
  if (wood.species === null) return finished;
  const { widthPercent, thicknessPercent } = facesDirections(wood.grain, wood.species);
  const before = (finishedNm: number, shrinkPercent: number) =>
    Math.max(
      finishedNm,
      sizeBeforeDrying({
        finishedNm,
        shrinkPercent,
        fromPercent: wood.moisturePercent,
        toPercent: settings.targetMoisturePercent,
      }),
    );
  return {
    lengthNm: finished.lengthNm,
    widthNm: before(finished.widthNm, widthPercent),
    thicknessNm: before(finished.thicknessNm, thicknessPercent),
  };
}

/** The rough size, length and width as the saw is set, thickness (which is bought, not sawn) on the grid. White oak 3/4 x 5 1/2 x 70 in, flat, cut at 8 %: 15/16 x 5 3/4 x 71 in. */
export function blankFor(finished: Size, settings: BlankSettings, wood: WoodAtCutting): Size {
  const planingNm = planingAllowanceNm(finished.thicknessNm, settings);
  return blankAround(sizeAtCutting(finished, settings, wood), planingNm, settings);
}

/** As `blankFor`, of a size that is known at cutting already. */
export function blankAround(atCutting: Size, planingNm: number, settings: BlankSettings): Size {
  const stepNm = tapeStepNm(settings);
  const { allowances } = settings;
  return {
    lengthNm: roundedUpNm(atCutting.lengthNm + allowances.lengthNm, stepNm),
    widthNm: roundedUpNm(atCutting.widthNm + allowances.widthNm, stepNm),
    thicknessNm: roundedUpNm(atCutting.thicknessNm + planingNm, gridNm(settings)),
  };
}
