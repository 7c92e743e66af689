/** Days as ISO texts ("2026-03-01"), counted without a clock and without time zones, and as they are written for people. */
import { requireWithin } from './result.ts';

const MS_PER_DAY = 86_400_000;
/** The last day of the year 9999. */
const MS_MAX = 253_402_300_799_999;

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

export const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** "3 Dec 2026", from an ISO day: on paper and in what is kept, which may be read in another year. */
export function dayText(day: string): string {
  return `${dayInYearText(day)} ${day.slice(0, 4)}`;
}

/** "3 Dec", with the year where it is another than today's. */
export function dayTextBeside(day: string, today: string): string {
  return day.slice(0, 4) === today.slice(0, 4) ? dayInYearText(day) : dayText(day);
}

/** "3 Dec", where the year stands elsewhere. */
export function dayInYearText(day: string): string {
  const [, month = '', date = ''] = day.split('-');
  return `${Number(date)} ${MONTHS[Number(month) - 1] ?? month}`;
}

/** The day of a moment, UTC. */
export function dayOfMs(atMs: number): string {
  requireWithin('moment', atMs, 0, MS_MAX);
  return new Date(atMs).toISOString().slice(0, 10);
}
