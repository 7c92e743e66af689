/** A finished size month by month: the moisture of wood through the year, and what it does to a width. */
import { type Air, emcPercent, type MoistureFault } from './moisture.ts';
import { answer, type Result, requireWithin } from './result.ts';
import { sizeAtShrink } from './shrinkage.ts';

const MONTHS = 12;

/**
 * Twelve moisture contents from January that swing evenly between the lowest, in January, and the highest, in July, as
 * in a heated house north of the equator. The even swing is common practice, no source.
 */
export function evenYearPercents(lowPercent: number, highPercent: number): number[] {
  requireWithin('highest moisture', highPercent, 0, 300);
  requireWithin('lowest moisture', lowPercent, 0, highPercent);
  const middle = (lowPercent + highPercent) / 2;
  const swing = (highPercent - lowPercent) / 2;
  return Array.from({ length: MONTHS }, (_, month) => middle - swing * Math.cos((2 * Math.PI * month) / MONTHS));
}

/** What the air of each month would bring wood to. Thick or finished wood lags behind it and swings less. */
export function airYearPercents(monthAirs: readonly Air[]): Result<readonly number[], MoistureFault> {
  const percents: number[] = [];
  for (const air of monthAirs) {
    const emc = emcPercent(air);
    if (!emc.ok) return emc;
    percents.push(emc.value);
  }
  return answer(percents);
}

/** The size at each of these moisture contents of what measured `sizeNm` when made (Wood Handbook eq. 13-3). */
export function sizesThroughYear(
  sizeNm: number,
  shrinkPercent: number,
  made: { readonly madePercent: number; readonly monthPercents: readonly number[] },
): number[] {
  return made.monthPercents.map((toPercent) =>
    sizeAtShrink({ sizeNm, shrinkPercent, fromPercent: made.madePercent, toPercent }),
  );
}
