/**
 * Fractions that the sheet turned into dates: 5/4 typed into an unformatted cell becomes 5 April (day first) or 4 May.
 * The date is turned back only as a proposal; nothing is read from it before the user agrees.
 */

const DAY_MS = 86_400_000;
/** Day 0 of the sheets' calendar, 30 December 1899; right from 1 March 1900 on. */
const EPOCH_MS = Date.UTC(1899, 11, 30);
const SERIAL_MAX = 2_958_465;

export interface CalendarDay {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

export function dayOfSerial(serial: number): CalendarDay | null {
  if (!Number.isFinite(serial) || serial < 61 || serial > SERIAL_MAX) return null;
  const date = new Date(EPOCH_MS + Math.floor(serial) * DAY_MS);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

export function isoDay(day: CalendarDay): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${String(day.year).padStart(4, '0')}-${two(day.month)}-${two(day.day)}`;
}

const isTapeFraction = (over: number, under: number) =>
  (under === 4 && over >= 4 && over <= 16) || ([2, 4, 8, 16, 32, 64].includes(under) && over < under);

/** "5/4" for the date that it became; null when no fraction of a tape looks like this date. */
export function fractionOfDate(serial: number, dateOrder: 'mdy' | 'dmy' | 'ymd'): string | null {
  const date = dayOfSerial(serial);
  return date === null ? null : fractionOfDay(date, dateOrder);
}

/** As fractionOfDate, for a list that was pasted after its fractions had become dates: "4-May", "05. Apr", "mars 4". */
export function fractionOfDayText(text: string, dateOrder: 'mdy' | 'dmy' | 'ymd'): string | null {
  const plain = text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase().trim();
  const written = /^(\d{1,2})[-. ]+(?:de )?([a-z]{3,9})\.?$|^([a-z]{3,9})[-. ]+(\d{1,2})$/.exec(plain);
  if (!written) return null;
  const month = monthNamed(written[2] ?? written[3] ?? '');
  return month === null ? null : fractionOfDay({ year: 2000, month, day: Number(written[1] ?? written[4]) }, dateOrder);
}

/** By its first letters in the languages of the headings; null for any other word. */
function monthNamed(word: string): number | null {
  const at = monthBeginnings.findIndex((beginnings) => beginnings.some((one) => word.startsWith(one)));
  return at < 0 ? null : at + 1;
}
const monthBeginnings: readonly (readonly string[])[] = [
  ['jan', 'ene', 'gen'],
  ['feb', 'fev'],
  ['mar', 'maa', 'mrt', 'mrz'],
  ['apr', 'abr', 'avr'],
  ['may', 'mai', 'maj', 'mag', 'mei'],
  ['jun', 'juin', 'giu'],
  ['jul', 'juil', 'lug'],
  ['aug', 'ago', 'aou'],
  ['sep', 'set'],
  ['oct', 'okt', 'ott', 'out'],
  ['nov'],
  ['dec', 'dez', 'dic', 'des'],
];

function fractionOfDay(date: CalendarDay, dateOrder: 'mdy' | 'dmy' | 'ymd'): string | null {
  const monthFirst: [number, number] = [date.month, date.day];
  const dayFirst: [number, number] = [date.day, date.month];
  const tries = dateOrder === 'dmy' ? [dayFirst, monthFirst] : [monthFirst, dayFirst];
  // 5/32 and 7/64 become a month of a year, on its first day.
  if (date.day === 1) tries.push([date.month, date.year % 100]);
  for (const [over, under] of tries) if (isTapeFraction(over, under)) return `${over}/${under}`;
  return null;
}

/** Does a number format show days, months or years? Text in quotes and colours do not count. */
export function isDateFormat(format: string | null): boolean {
  if (format === null) return false;
  const bare = format.replaceAll(/"[^"]*"|\[[^\]]*\]|\\./g, '').toLowerCase();
  return bare !== 'general' && /[dy]|m{1,4}[-/. ]|[-/. ]m{1,4}/.test(bare) && !/[#0?]/.test(bare);
}

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/** A day as people write it: 2026-10-12, 10/12/2026 in the sheet's order, 12 Oct 2026. Null when it is none. */
export function readDayText(text: string, dateOrder: 'mdy' | 'dmy' | 'ymd'): string | null {
  const written = text.trim().toLowerCase();
  const numeric = /^(\d{1,4})[-/. ](\d{1,2})[-/. ](\d{1,4})$/.exec(written);
  if (numeric) {
    const [a, b, c] = [Number(numeric[1]), Number(numeric[2]), Number(numeric[3])];
    if ((numeric[1] ?? '').length === 4) return validDay(a, b, c);
    if (dateOrder === 'ymd') return validDay(century(a), b, c);
    return dateOrder === 'dmy' ? validDay(century(c), b, a) : validDay(century(c), a, b);
  }
  const named = /^(?:(\d{1,2})[-. ]*)?([a-z]{3,9})[-. ]*(?:(\d{1,2})(?:st|nd|rd|th)?,? )?[-. ]*(\d{4}|\d{2})$/.exec(
    written,
  );
  if (!named) return null;
  const month = months.indexOf((named[2] ?? '').slice(0, 3)) + 1;
  const day = named[1] ?? named[3];
  return month > 0 && day !== undefined ? validDay(century(Number(named[4])), month, Number(day)) : null;
}

const century = (year: number) => (year < 100 ? 2000 + year : year);

function validDay(year: number, month: number, day: number): string | null {
  const date = new Date(Date.UTC(year, month - 1, day));
  const same = date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  return same && year >= 1900 ? isoDay({ year, month, day }) : null;
}
