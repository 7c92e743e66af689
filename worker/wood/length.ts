/**
 * Reading and showing lengths in every form of the tape: 23 5/8", 7' 6-1/2", ¾, 600 mm, 2.55 m, 5/4. A text is either
 * read exactly, to the nanometre, or refused with what would be right; nothing is guessed and nothing is rounded.
 */
import { type NumberFault, type Ratio, readNumber } from './length-number.ts';
import { plainLength } from './length-plain.ts';
import { requireWithin } from './result.ts';
import { NM_PER_64TH_INCH, NM_PER_FOOT, NM_PER_INCH, NM_PER_MM, NM_PER_TENTH_MM, type Nm, nm } from './unit.ts';

export type LengthUnit = 'in' | 'ft' | 'mm' | 'cm' | 'm';

/** Why a text is no length, with what would be right. */
export interface LengthFault {
  readonly why:
    | 'empty'
    | 'not-a-length'
    | 'no-unit'
    | 'zero-denominator'
    | 'negative'
    | 'ambiguous'
    | 'too-fine'
    | 'too-long';
  readonly read: string;
  readonly help: string;
}
export type LengthReading =
  | { readonly ok: true; readonly nm: Nm; readonly system: 'in' | 'mm'; readonly call: string | null }
  | { readonly ok: false; readonly fault: LengthFault };

/** What the column or the shop takes for granted: the unit of a bare number (null: none), and the decimal mark. */
export interface LengthAssumption {
  readonly unit: LengthUnit | null;
  readonly decimal: '.' | ',';
}

const NM_MAX = 30_000 * NM_PER_MM;
const EXAMPLES = 'write it as on a tape, with its unit: 23 5/8", 8\' 4 1/2", 600 mm';

const NM_PER: Record<LengthUnit, number> = {
  in: NM_PER_INCH,
  ft: NM_PER_FOOT,
  mm: NM_PER_MM,
  cm: 10 * NM_PER_MM,
  m: 1000 * NM_PER_MM,
};

const UNIT_WORDS: readonly (readonly [RegExp, LengthUnit])[] = [
  [/(?:"|inches|inch|ins?)\.?$/, 'in'],
  [/(?:'|feet|foot|ft)\.?$/, 'ft'],
  [/(?:mm|millimet(?:er|re)s?)\.?$/, 'mm'],
  [/(?:cm|centimet(?:er|re)s?)\.?$/, 'cm'],
  [/(?:m|met(?:er|re)s?)\.?$/, 'm'],
];

/**
 * Reads one length, 0 to 30 m. A bare number takes `assume.unit`, or is refused with 'no-unit' when that is null; a
 * bare fraction ("23 5/8", "¾") is inches unless feet are assumed, because no metric tape shows fractions. 4/4 to 16/4
 * without a unit or in inches come with their `call`. Zero is read as 0, even without a unit; whoever needs more than
 * zero refuses it.
 */
export function readLength(text: string, assume: LengthAssumption): LengthReading {
  const written = plainLength(text);
  const fault = (why: LengthFault['why'], help: string): LengthReading => ({
    ok: false,
    fault: { why, read: text, help },
  });
  if (written === '') return fault('empty', 'enter a length');
  if (/^-[ \d.,]/.test(written)) return fault('negative', 'a length is zero or more; take the minus sign away');
  if (/\d["']? ?(?:[x×*]|by) ?\.?\d/.test(written)) {
    return fault('not-a-length', 'this is more than one size; enter one length in each cell');
  }
  const feetAndInches = /^(.+?) ?(?:'|feet|foot|ft\.?)[ -]*(\d.*?) ?(?:"|inches|inch|ins?)?\.?$/.exec(written);
  if (feetAndInches) return readFeetAndInches(feetAndInches[1] ?? '', feetAndInches[2] ?? '', assume, fault);

  const unitWord = UNIT_WORDS.find(([pattern]) => pattern.test(written));
  const number = readNumber((unitWord ? written.replace(unitWord[0], '') : written).trim(), assume.decimal);
  if (!number.ok) return numberFault(number.fault, fault);
  const unit = unitWord?.[1] ?? (number.fraction === 'none' || assume.unit === 'ft' ? assume.unit : 'in');
  const isCall = number.fraction === 'quarters' && (unitWord === undefined || unit === 'in');
  if (unit === null && number.ratio.numerator === 0n) return exact(number.ratio, 'in', null, fault);
  if (unit === null) return fault('no-unit', `${written} of what? ${EXAMPLES}`);
  if (isCall) return exact(number.ratio, 'in', `${number.ratio.numerator}/4`, fault);
  if (number.fraction === 'quarters') return numberFault('improper-fraction', fault);
  return exact(number.ratio, unit, null, fault);
}

/** A number cell, which carries no text: the nearest nanometre to value × unit, 0 to 30 m. */
export function readLengthNumber(value: number, unit: LengthUnit): LengthReading {
  const fault = (why: LengthFault['why'], help: string): LengthReading => ({
    ok: false,
    fault: { why, read: String(value), help },
  });
  if (!Number.isFinite(value)) return fault('not-a-length', EXAMPLES);
  if (value < 0) return fault('negative', 'a length is zero or more');
  const nearestNm = Math.round(value * NM_PER[unit]);
  if (nearestNm > NM_MAX) return fault('too-long', tooLargeHelp(NM_MAX, unit));
  return { ok: true, nm: nm(nearestNm), system: systemOf(unit), call: null };
}

/** From here on a tape is read in feet, where feet are 'from-8-ft'. */
export const FEET_FROM_NM = 8 * NM_PER_FOOT;

/** How lengths are shown: in which system, to which fraction of an inch, and whether in feet. */
export interface LengthStyle {
  readonly system: 'in' | 'mm';
  readonly denominator: 8 | 16 | 32 | 64;
  readonly feet?: 'never' | 'from-8-ft' | 'always';
}

/**
 * 23 5/8", 8' 4 1/2", 8' 0 1/4", 600 mm, 600.5 mm. Between feet and a fraction the whole inches stand, even none: 8' 1/4"
 * would be taken for 8 1/4" (common practice of drawings, no source). Inches that the denominator can't show exactly use a finer fraction if one up
 * to 1/64 is exact, and otherwise the nearest with a leading ≈; millimetres go to the tenth. A difference below zero
 * has a minus sign.
 */
export function lengthText(lengthNm: number, style: LengthStyle): string {
  const shown = rounded(lengthNm, style);
  const sign = `${shown.exact ? '' : '≈ '}${shown.negative ? '−' : ''}`;
  if (style.system === 'mm') return `${sign}${tenthsText(shown.count)} mm`;
  const { feet, inches, over, under } = tapeParts(shown, lengthNm, style);
  const fraction = over > 0 ? `${over}/${under}` : '';
  const inchText = inches > 0 || feet > 0 || over === 0 ? `${inches}${fraction && ` ${fraction}`}"` : `${fraction}"`;
  if (feet === 0) return sign + inchText;
  return `${sign}${feet}'${inches > 0 || over > 0 ? ` ${inchText}` : ''}`;
}

const FRACTION_WORDS: Record<number, readonly [string, string]> = {
  2: ['half', 'halves'],
  4: ['quarter', 'quarters'],
  8: ['eighth', 'eighths'],
  16: ['sixteenth', 'sixteenths'],
  32: ['thirty-second', 'thirty-seconds'],
  64: ['sixty-fourth', 'sixty-fourths'],
};

/**
 * The same length in words, for a screen reader: "23 and 5 eighths inches", "8 feet 4 and 1 half inches", "600
 * millimetres".
 */
export function lengthTextSpoken(lengthNm: number, style: LengthStyle): string {
  const shown = rounded(lengthNm, style);
  const about = `${shown.exact ? '' : 'about '}${shown.negative ? 'minus ' : ''}`;
  if (style.system === 'mm') return `${about}${tenthsText(shown.count)} ${plural(shown.count / 10, 'millimetre')}`;
  const { feet, inches, over, under } = tapeParts(shown, lengthNm, style);
  const fraction = over > 0 ? `${over} ${FRACTION_WORDS[under]?.[over === 1 ? 0 : 1]}` : '';
  const feetText = feet > 0 ? `${feet} ${feet === 1 ? 'foot' : 'feet'}` : '';
  if (feetText && inches === 0 && !fraction) return about + feetText;
  const inchText = fraction
    ? inches > 0
      ? `${inches} and ${fraction} inches`
      : `${fraction} of an inch`
    : `${inches} ${inches === 1 ? 'inch' : 'inches'}`;
  return `${about}${feetText ? `${feetText} ` : ''}${inchText}`;
}

type Fault = (why: LengthFault['why'], help: string) => LengthReading;

function readFeetAndInches(feetText: string, inchText: string, assume: LengthAssumption, fault: Fault): LengthReading {
  const feet = readNumber(feetText.trim(), assume.decimal);
  const inches = readNumber(inchText.trim(), assume.decimal);
  if (!feet.ok) return numberFault(feet.fault, fault);
  if (!inches.ok) return numberFault(inches.fault, fault);
  if (feet.ratio.denominator !== 1n) {
    return fault('ambiguous', 'parts of a foot and inches together; write whole feet and inches: 7\' 6 1/2"');
  }
  const under = inches.ratio.denominator;
  if (inches.ratio.numerator >= 12n * under || inches.fraction === 'quarters') {
    return fault('ambiguous', 'inches after feet are less than 12, and whole with a fraction: 7\' 6 1/2"');
  }
  const numerator = feet.ratio.numerator * 12n * under + inches.ratio.numerator;
  return exact({ numerator, denominator: under }, 'in', null, fault);
}

function exact(ratio: Ratio, unit: LengthUnit, call: string | null, fault: Fault): LengthReading {
  const scaled = ratio.numerator * BigInt(NM_PER[unit]);
  if (scaled > BigInt(NM_MAX) * ratio.denominator) return fault('too-long', tooLargeHelp(NM_MAX, unit));
  if (scaled % ratio.denominator !== 0n) {
    const nearest = Number(scaled / ratio.denominator);
    const system = systemOf(unit);
    const step = system === 'in' ? NM_PER_64TH_INCH : NM_PER_TENTH_MM;
    const near = lengthText(Math.max(1, Math.round(nearest / step)) * step, { system, denominator: 64 });
    return fault('too-fine', `finer than any tape; the nearest ${system === 'in' ? '1/64 in' : '0.1 mm'} is ${near}`);
  }
  return { ok: true, nm: nm(Number(scaled / ratio.denominator)), system: systemOf(unit), call };
}

function numberFault(found: NumberFault, fault: Fault): LengthReading {
  switch (found) {
    case 'zero-denominator':
      return fault('zero-denominator', 'a fraction can’t have 0 below the line; write it like 23 5/8"');
    case 'ambiguous-mark':
      return fault(
        'ambiguous',
        'a thousand or a decimal? leave the thousands mark out, and use this sheet’s decimal mark',
      );
    case 'improper-fraction':
      return fault(
        'ambiguous',
        'is a space missing? write whole inches and a fraction: 23 5/8" (5/4 to 16/4 are read)',
      );
    case 'not-a-number':
      return fault('not-a-length', EXAMPLES);
  }
}

/** The help for a size past a limit, in the unit that it was read in: "more than 98 ft; is it really inches?". */
export function tooLargeHelp(largestNm: number, unit: LengthUnit): string {
  const inches = Math.floor(largestNm / NM_PER.in);
  const inFeet = inches < FEET_FROM_INCHES ? `${inches} in` : `${Math.floor(inches / 12)} ft`;
  const largest = systemOf(unit) === 'in' ? inFeet : `${largestNm / NM_PER.m} m`;
  return `more than ${largest}; is it really ${UNIT_NAMES[unit]}?`;
}

const FEET_FROM_INCHES = 240;
const UNIT_NAMES = { in: 'inches', ft: 'feet', mm: 'millimetres', cm: 'centimetres', m: 'metres' } as const;
const systemOf = (unit: LengthUnit) => (unit === 'in' || unit === 'ft' ? 'in' : 'mm');

const tenthsText = (tenths: number) =>
  tenths % 10 === 0 ? String(tenths / 10) : `${Math.floor(tenths / 10)}.${tenths % 10}`;
const plural = (count: number, word: string) => (count === 1 ? word : `${word}s`);

interface Shown {
  /** Steps of `under` (64ths, 32nds … of an inch) or tenths of a millimetre. */
  readonly count: number;
  readonly under: number;
  readonly exact: boolean;
  readonly negative: boolean;
}

/** 1000 km, for the lengths of a whole stock together. */
const SHOWN_NM_MAX = 1e15;

function rounded(lengthNm: number, style: LengthStyle): Shown {
  requireWithin('length', lengthNm, -SHOWN_NM_MAX, SHOWN_NM_MAX);
  const magnitudeNm = Math.abs(lengthNm);
  const fits64 = magnitudeNm % NM_PER_64TH_INCH === 0;
  const under = fits64 ? 64 : style.denominator;
  const stepNm = style.system === 'mm' ? NM_PER_TENTH_MM : NM_PER_INCH / under;
  const count = Math.round(magnitudeNm / stepNm);
  return { count, under, exact: count * stepNm === magnitudeNm, negative: lengthNm < 0 && count > 0 };
}

function tapeParts(shown: Shown, lengthNm: number, style: LengthStyle) {
  const inFeet = style.feet === 'always' || (style.feet === 'from-8-ft' && Math.abs(lengthNm) >= FEET_FROM_NM);
  const wholeInches = Math.floor(shown.count / shown.under);
  const feet = inFeet ? Math.floor(wholeInches / 12) : 0;
  let over = shown.count - wholeInches * shown.under;
  let under = shown.under;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  return { feet, inches: wholeInches - feet * 12, over, under };
}
