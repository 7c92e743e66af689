/**
 * How a finished piece of furniture moves with the seasons, and the room it needs for that: panels in grooves, drawers
 * in their openings, tops on their frames.
 */
import { LENGTH_NM_MAX, requireSize, requireWithin } from './result.ts';
import { type Direction, type Shrinks, shrinkPercentIn, sizeAtShrink } from './shrinkage.ts';
import { NM_PER_INCH } from './unit.ts';

export interface Season {
  /** Moisture content when it was made. */
  readonly madePercent: number;
  /** Lowest of the year, in the heating season. */
  readonly lowPercent: number;
  /** Highest of the year. */
  readonly highPercent: number;
}

export interface SeasonalMovement {
  readonly smallestNm: number;
  readonly largestNm: number;
  /** From the size as made; both zero or more. */
  readonly shrinksNm: number;
  readonly growsNm: number;
}

/**
 * Interior wood in heated houses goes through 4 to 13.5 % in a year across the country (study as quoted, second hand).
 */
export const INTERIOR_RANGE_PERCENT = { lowPercent: 4, highPercent: 13.5 } as const;

function requireSeason({ madePercent, lowPercent, highPercent }: Season): void {
  requireWithin('moisture when made', madePercent, 0, 300);
  requireWithin('highest moisture', highPercent, 0, 300);
  requireWithin('lowest moisture', lowPercent, 0, highPercent);
}

/** What a size across the grain does from its making through the year, whole nanometres, by Wood Handbook eq. 13-3. */
export function seasonalMovement(sizeNm: number, shrinkPercent: number, season: Season): SeasonalMovement {
  const { madePercent, lowPercent, highPercent } = season;
  requireSeason(season);
  const at = (toPercent: number) => sizeAtShrink({ sizeNm, shrinkPercent, fromPercent: madePercent, toPercent });
  const smallestNm = Math.min(sizeNm, at(lowPercent));
  const largestNm = Math.max(sizeNm, at(highPercent));
  return { smallestNm, largestNm, shrinksNm: sizeNm - smallestNm, growsNm: largestNm - sizeNm };
}

/** As `seasonalMovement`, by species and direction. Flat-sawn boards move tangentially across their width. */
export function seasonalMovementOf(
  sizeNm: number,
  wood: { readonly species: Shrinks; readonly direction: Direction },
  season: Season,
): SeasonalMovement {
  return seasonalMovement(sizeNm, shrinkPercentIn(wood.direction, wood.species), season);
}

/** Room that the groove keeps beyond the widest panel, each side: 1/32 in. Common practice, no source. */
export const GROOVE_PLAY_NM = NM_PER_INCH / 32;
/** Least that the panel must stay in the groove, each side: 3/16 in. Common practice, no source. */
export const GROOVE_HOLD_NM = (NM_PER_INCH * 3) / 16;

export interface PanelFit {
  /** Panel width to make, its tongue or edge in both grooves included. */
  readonly panelNm: number;
  /** Least depth of each groove. */
  readonly grooveDepthNm: number;
  /** From the panel's edge to the groove's bottom, when made. */
  readonly gapWhenMadeNm: number;
}

/**
 * A floating panel between two grooves, whose stiles stand `openingNm` apart: wide enough to stay in both grooves at
 * its narrowest, in grooves deep enough for its widest. The panel is taken to stay centred (pin it in the middle).
 */
export function panelFit(openingNm: number, shrinkPercent: number, season: Season): PanelFit {
  requireWithin('opening', openingNm, 1, LENGTH_NM_MAX);
  const narrowestNm = openingNm + 2 * GROOVE_HOLD_NM;
  const back = { shrinkPercent, fromPercent: Math.min(season.lowPercent, season.madePercent) };
  const panelNm = Math.ceil(sizeAtShrink({ ...back, sizeNm: narrowestNm, toPercent: season.madePercent }));
  const { largestNm } = seasonalMovement(panelNm, shrinkPercent, season);
  const grooveDepthNm = Math.ceil((largestNm - openingNm) / 2 + GROOVE_PLAY_NM);
  return { panelNm, grooveDepthNm, gapWhenMadeNm: Math.floor(grooveDepthNm - (panelNm - openingNm) / 2) };
}

/** Play that a drawer keeps at its highest: 1/32 in. Common practice, no source. */
export const DRAWER_PLAY_NM = NM_PER_INCH / 32;

/** Height to make a solid drawer side or front for its opening, so that it still runs in the dampest season. */
export function drawerHeightNm(openingNm: number, shrinkPercent: number, season: Season): number {
  requireWithin('opening', openingNm, DRAWER_PLAY_NM, LENGTH_NM_MAX);
  requireSeason(season);
  const highest = Math.max(season.highPercent, season.madePercent);
  const most = openingNm - DRAWER_PLAY_NM;
  return Math.floor(sizeAtShrink({ sizeNm: most, shrinkPercent, fromPercent: highest, toPercent: season.madePercent }));
}

/** Length of a slot for a screw that holds a top to its frame: the screw, and the movement of that half each way. */
export function slotLengthNm(fromFixedNm: number, screwNm: number, shrinkPercent: number, season: Season): number {
  requireSize('screw', screwNm);
  const moves = seasonalMovement(fromFixedNm, shrinkPercent, season);
  return Math.ceil(screwNm + 2 * Math.max(moves.growsNm, moves.shrinksNm));
}
