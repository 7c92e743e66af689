/** The forecast of a drying board as a curve: the likely moisture day by day, between the fastest and the slowest. */
import { dayNumber, dayOfNumber, daysBetween } from './day.ts';
import { daysToReach, moistureAfter, type ReadyDate } from './drying.ts';

export interface CurveDay {
  readonly on: string;
  readonly lowPercent: number;
  readonly likelyPercent: number;
  readonly highPercent: number;
}

/** Enough for a smooth line on a panel. */
const STEPS = 30;

/**
 * From where the days are counted to the latest day, by the same law as the dates themselves; each of the three lines
 * meets the target on its own day. Empty where the board stands at the target already.
 */
export function dryingCurve(targetPercent: number, range: Extract<ReadyDate, { kind: 'range' }>): CurveDay[] {
  const { from, emcPercent } = range;
  const daysAtTauOne = daysToReach(targetPercent, from.moisturePercent, emcPercent, 1);
  if (!daysAtTauOne) return [];
  const percentOn = (days: number, meetsOn: string) => {
    const tauDays = Math.max(1, daysBetween(from.on, meetsOn)) / daysAtTauOne;
    return moistureAfter(days, from.moisturePercent, emcPercent, tauDays);
  };
  const span = Math.max(1, daysBetween(from.on, range.latestOn));
  const days = [...new Set(Array.from({ length: STEPS + 1 }, (_, at) => Math.round((span * at) / STEPS)))];
  return days.map((day) => ({
    on: dayOfNumber(dayNumber(from.on) + day),
    lowPercent: percentOn(day, range.earliestOn),
    likelyPercent: percentOn(day, range.likelyOn),
    highPercent: percentOn(day, range.latestOn),
  }));
}
