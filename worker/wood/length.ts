/** Reading and showing lengths. (The reading and showing of every form of the tape.) */
import { NM_PER_64TH_INCH, NM_PER_FOOT, NM_PER_INCH, NM_PER_MM, type Nm, nm } from './unit.ts';

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

/** Placeholder until the full reader lands: whole numbers with a unit. */
export function readLength(
  text: string,
  _assume: { readonly unit: LengthUnit | null; readonly decimal: '.' | ',' },
): LengthReading {
  const match = /^\s*(\d+(?:\.\d+)?)\s*(mm|in|")\s*$/.exec(text);
  if (!match)
    return {
      ok: false,
      fault: {
        why: 'not-a-length',
        read: text,
        help: 'write it as on a tape, with its unit: 23 5/8 in, 8\' 4 1/2", 600 mm',
      },
    };
  const per = match[2] === 'mm' ? NM_PER_MM : NM_PER_INCH;
  return { ok: true, nm: nm(Math.round(Number(match[1]) * per)), system: match[2] === 'mm' ? 'mm' : 'in', call: null };
}
void NM_PER_64TH_INCH;
void NM_PER_FOOT;
