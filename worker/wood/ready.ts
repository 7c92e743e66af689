/**
 * What "ready" means for a drying board: dry enough for the parts that are seen. The shop's own figures say how dry that
 * is; long critical parts may ask for less moisture and hidden ones take more.
 */

/** Highest moisture content at cutting by what a part is used for, per cent. */
export interface DryEnoughPercent {
  readonly critical: number;
  readonly visible: number;
  readonly hidden: number;
}

/** A board is ready at this moisture content or below it, per cent. */
export const readyPercent = ({ visible }: DryEnoughPercent): number => visible;

/** The most demanding use that a moisture content allows; unknown without one. */
export type DryFor = 'critical' | 'visible' | 'hidden' | 'wet' | 'unknown';

export function dryFor(moisturePercent: number | null, at: DryEnoughPercent): DryFor {
  if (moisturePercent === null) return 'unknown';
  if (moisturePercent <= at.critical) return 'critical';
  if (moisturePercent <= at.visible) return 'visible';
  return moisturePercent <= at.hidden ? 'hidden' : 'wet';
}
