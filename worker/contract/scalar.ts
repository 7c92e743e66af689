/**
 * The small values of the wire. A length goes out as a whole number of nanometres and comes in as that or as a text
 * with its unit, as on a tape ("8' 4 1/2\"", "2550 mm", "5/4"), so that a person with curl can speak to the yard.
 */
import * as z from 'zod';
import { readLength } from '../wood/length.ts';
import { limits } from './limits.ts';

const lengthText = z.string().max(60);

function lengthUpTo(maxNm: number, axis: string) {
  return z
    .union([z.number(), lengthText], {
      error: `${axis}: a whole number of nanometres, or a text with its unit such as "23 5/8 in" or "600 mm"`,
    })
    .transform((value, context): number => {
      if (typeof value === 'number') {
        if (Number.isSafeInteger(value)) return value;
        context.issues.push({
          code: 'custom',
          input: value,
          message: `${axis}: a whole number of nanometres, or a text with its unit such as "23 5/8 in" or "600 mm"`,
        });
        return z.NEVER;
      }
      const reading = readLength(value, { unit: null, decimal: '.' });
      if (reading.ok) return reading.nm;
      context.issues.push({ code: 'custom', input: value, message: `${axis}: ${reading.fault.help}` });
      return z.NEVER;
    })
    .refine((value) => value > 0, { message: `${axis}: must be more than zero` })
    .refine((value) => value <= maxNm, {
      message: `${axis}: ${axis === 'length' ? 'longer' : 'larger'} than any board; is the unit right?`,
    });
}

/** Along the grain, nanometres, 0 < length <= 30 m. */
export const lengthNm = lengthUpTo(limits.lengthNmMax, 'length');
/** Across the grain, nanometres, 0 < width <= 3 m. */
export const widthNm = lengthUpTo(limits.widthNmMax, 'width');
/** Face to face, nanometres, 0 < thickness <= 600 mm. */
export const thicknessNm = lengthUpTo(limits.thicknessNmMax, 'thickness');
/** A place along or across a board, nanometres from its near end or left edge; may be zero. */
export const offsetNm = z.union([z.number(), lengthText]).transform((value, context): number => {
  if (typeof value === 'number') {
    if (Number.isSafeInteger(value) && value >= 0 && value <= limits.lengthNmMax) return value;
    context.issues.push({
      code: 'custom',
      input: value,
      message: 'a place on the board: zero or more, whole nanometres or a text with its unit',
    });
    return z.NEVER;
  }
  if (/^\s*0+(\.0+)?\s*$/.test(value)) return 0;
  const reading = readLength(value, { unit: null, decimal: '.' });
  if (reading.ok) return reading.nm;
  context.issues.push({ code: 'custom', input: value, message: `a place on the board: ${reading.fault.help}` });
  return z.NEVER;
});

export const id = (prefix: string) =>
  z.string().regex(new RegExp(`^${prefix}_[0-9a-z]{8,32}$`), `an id like ${prefix}_…`);
export const boardId = id('bd');
export const jobId = id('jb');
export const planId = id('pl');
export const reservationId = id('rs');
export const sessionId = id('cs');

export const text = z.string().max(limits.textChars);
/** What the shop writes on the board's end, without control characters; compared without case. */
export const tag = z
  .string()
  .trim()
  .min(1, 'a board needs a tag')
  .max(limits.tagChars)
  .regex(/^\P{Cc}*$/u, 'a tag has no line breaks or control characters');
/** The row's own key in the sheet, 1 to 40 characters. */
export const partKey = z
  .string()
  .trim()
  .min(1)
  .max(40)
  .regex(/^\P{Cc}*$/u);
/** A species by its key in wood/species ("white-oak") once read; any spelling that the species list knows comes in. */
export const species = z.string().trim().min(1, 'name the species').max(60);
/** A day, ISO 8601. */
export const day = z.iso.date();
/** Moisture content, per cent of oven-dry mass. */
export const moisturePercent = z.number().min(0).max(250, 'moisture content over 250 % is not wood');
/** Money in the yard's smallest unit (cents). */
export const minor = z.number().int().min(0).max(1_000_000_000_000);
/** Price of a board foot in minor units, so bounded that the price of any list is still a safe whole number. */
export const minorPerBoardFoot = z.number().int().min(0).max(10_000_000, 'more than any wood costs a board foot');
export const seq = z.number().int().min(0);
/** An instant, milliseconds since 1970 UTC. */
export const atMs = z.number().int().min(0);
