/** Days as ISO texts ("2026-03-01"), counted without a clock and without time zones. */
import { requireWithin } from './result.ts';

const MS_PER_DAY = 86_400_000;

/** Whole days since 1970-01-01. Throws a RangeError for a text that is no day of the calendar. */
export function dayNumber(day: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  const ms = match ? Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3])) : Number.NaN;
  if (Number.isNaN(ms) || new Date(ms).toISOString().slice(0, 10) !== day) {
    throw new RangeError(`a day is written like 2026-03-01, not ${day}`);
  }
  return ms / MS_PER_DAY;
}

export function dayOfNumber(days: number): string {
  requireWithin('day', days, -1e6, 1e6);
  return new Date(days * MS_PER_DAY).toISOString().slice(0, 10);
}

/** The day so many days later; a part of a day counts as a whole one. */
export function dayAfter(day: string, days: number): string {
  requireWithin('days', days, -1e6, 1e6);
  return dayOfNumber(dayNumber(day) + Math.ceil(days));
}

export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}
