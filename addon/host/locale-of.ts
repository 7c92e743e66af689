/** How a place writes numbers and dates, from its language tag. */
import type { Locale } from './host.ts';

/** Where a tag says nothing that can be used, a sheet is read as in the United States, and the mapping can be corrected. */
const FALLBACK: Locale = { tag: 'en-US', decimal: '.', dateOrder: 'mdy' };

/** From "de-DE" or, as Google writes it, "de_DE". */
export function localeOf(tagGiven: string): Locale {
  const tag = tagGiven.replace('_', '-');
  try {
    const decimal = new Intl.NumberFormat(tag).formatToParts(1.5).find((part) => part.type === 'decimal')?.value;
    const order = new Intl.DateTimeFormat(tag, { calendar: 'gregory' })
      .formatToParts(0)
      .map((part) => part.type)
      .filter((type) => type === 'day' || type === 'month' || type === 'year')
      .map((type) => type.charAt(0))
      .join('');
    const dateOrder = order === 'dmy' || order === 'ymd' ? order : 'mdy';
    return { tag, decimal: decimal === ',' ? ',' : '.', dateOrder };
  } catch {
    return FALLBACK;
  }
}
