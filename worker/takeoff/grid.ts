/**
 * The grid that cutting is reckoned on, 1/32 in where inches are shown and 1 mm where millimetres are, and the coarser
 * step that a saw is set to: what the shop reads on its tape. What is needed rounds up to it and what a board gives rounds down, so that no error is ever
 * in the saw's favour.
 */
import type { Settings } from '../contract/settings.ts';
import { FEET_FROM_NM, type LengthStyle } from '../wood/length.ts';
import { NM_PER_INCH, NM_PER_MM } from '../wood/unit.ts';

/** One step of the grid, nanometres. */
export function gridNm(settings: Pick<Settings, 'shown'>): number {
  return settings.shown === 'in' ? NM_PER_INCH / 32 : NM_PER_MM;
}

/** What a fence or a stop is set to: the smallest fraction on the shop's tape, never finer than the grid. Nanometres. */
export function tapeStepNm(settings: Shown): number {
  return settings.shown === 'in' ? Math.max(NM_PER_INCH / settings.denominator, gridNm(settings)) : gridNm(settings);
}

/** The least multiple of the step that is not smaller. */
export function roundedUpNm(lengthNm: number, stepNm: number): number {
  return Math.ceil(lengthNm / stepNm) * stepNm;
}

type Shown = Pick<Settings, 'shown' | 'denominator'>;

/** Widths, thicknesses and allowances as this shop reads them off its tape: inches without feet. */
export function tapeStyle(settings: Shown): LengthStyle {
  return { system: settings.shown, denominator: settings.denominator, feet: 'never' };
}

/** Lengths along the grain, in feet from 8 ft on: 81 1/2", 8' 4 1/2". */
export function alongStyle(settings: Shown): LengthStyle {
  return { system: settings.shown, denominator: settings.denominator, feet: 'from-8-ft' };
}

/** Lengths set against each other in one sentence, all in feet where the longest is: trimmed 7' 10", needs 8' 5". */
export function comparedStyle(longestNm: number, settings: Shown): LengthStyle {
  return { ...alongStyle(settings), feet: longestNm >= FEET_FROM_NM ? 'always' : 'never' };
}
