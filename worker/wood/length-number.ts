/**
 * A written number as an exact ratio of two integers: decimals with either mark, digits in groups, fractions of the
 * tape. Nothing here is ever a floating number, so nothing drifts.
 */

/** numerator / denominator, denominator > 0. */
export interface Ratio {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

export type NumberFault = 'not-a-number' | 'zero-denominator' | 'ambiguous-mark' | 'improper-fraction';

export type NumberReading =
  | { readonly ok: true; readonly ratio: Ratio; readonly fraction: 'none' | 'proper' | 'quarters' }
  | { readonly ok: false; readonly fault: NumberFault };

const mixed = /^(?:(\d+)(?: ?- ?| ))?(\d+) ?\/ ?(\d+)$/;
const fail = (fault: NumberFault): NumberReading => ({ ok: false, fault });

/** "23 5/8", "23-5/8", "5/8", "5/4", "100.5", "1 234,5", ".5"; spaces already plain and single. */
export function readNumber(written: string, decimal: '.' | ','): NumberReading {
  const parts = mixed.exec(written);
  if (parts) return fractionReading(parts[1], parts[2] ?? '', parts[3] ?? '');
  return decimalReading(written, decimal);
}

/**
 * n/4 with n from 4 to 16 is how lumber thickness is called; any other top-heavy fraction is more likely a lost space.
 */
function fractionReading(whole: string | undefined, over: string, under: string): NumberReading {
  const numerator = BigInt(over);
  const denominator = BigInt(under);
  if (denominator === 0n) return fail('zero-denominator');
  const proper = numerator < denominator;
  const quarters = whole === undefined && under === '4' && numerator >= 4n && numerator <= 16n;
  if (!proper && !quarters) return fail('improper-fraction');
  const ratio = { numerator: BigInt(whole ?? 0) * denominator + numerator, denominator };
  return { ok: true, ratio, fraction: quarters ? 'quarters' : 'proper' };
}

function decimalReading(written: string, decimal: '.' | ','): NumberReading {
  const ungrouped = withoutSpaces(written);
  if (ungrouped === null || !/^[\d.,]*\d[\d.,]*$/.test(ungrouped)) return fail('not-a-number');
  const split = splitAtMark(ungrouped, decimal);
  if (split === 'ambiguous') return fail('ambiguous-mark');
  if (split === null || !/^\d*$/.test(split.whole) || !/^\d*$/.test(split.decimals)) return fail('not-a-number');
  const numerator = BigInt(split.whole + split.decimals);
  return { ok: true, ratio: { numerator, denominator: 10n ** BigInt(split.decimals.length) }, fraction: 'none' };
}

/** Spaces inside a number may only part groups of three: "1 234,5", not "23 5". */
function withoutSpaces(written: string): string | null {
  if (!written.includes(' ')) return written;
  return /^\d{1,3}(?: \d{3})+(?:[.,]\d*)?$/.test(written) ? written.replaceAll(' ', '') : null;
}

type Split = { readonly whole: string; readonly decimals: string };

/**
 * Which mark is the decimal one. With both present the last is; a mark that repeats parts thousands; one that cannot
 * part thousands (not three digits behind it, or a zero or four digits before) is decimal whoever wrote it. What is
 * left, "1,234" in a sheet whose decimal mark is the point, could be either and is not guessed.
 */
function splitAtMark(written: string, decimal: '.' | ','): Split | 'ambiguous' | null {
  const marks = [...written].filter((c) => c === '.' || c === ',');
  const last = marks.at(-1);
  if (last === undefined) return { whole: written, decimals: '' };
  const at = written.lastIndexOf(last);
  const before = written.slice(0, at);
  const after = written.slice(at + 1);
  if (new Set(marks).size === 2) {
    const whole = ungroup(before);
    return whole === null ? null : { whole, decimals: after };
  }
  if (marks.length > 1) {
    const whole = ungroup(written);
    return whole === null ? null : { whole, decimals: '' };
  }
  if (last !== decimal && /^[1-9]\d{0,2}$/.test(before) && after.length === 3) return 'ambiguous';
  return { whole: before, decimals: after };
}

function ungroup(written: string): string | null {
  return /^\d{1,3}(?:([.,])\d{3})?(?:\1\d{3})*$/.test(written) ? written.replaceAll(/[.,]/g, '') : null;
}
