/** Sizes that a sawn board hardly has, so that 55 in typed for 5 is asked about. Common practice, no source. */
import { lengthText } from '../../worker/wood/length.ts';
import { NM_PER_FOOT } from '../../worker/wood/unit.ts';

export type Axis = 'length' | 'width' | 'thickness';
type System = 'in' | 'mm';

const NM_PER_INCH = NM_PER_FOOT / 12;
const NM_PER_MM = 1_000_000;

const USUAL_NM_MAX: Record<System, Record<Axis, number>> = {
  in: { length: 20 * NM_PER_FOOT, width: 24 * NM_PER_INCH, thickness: 4 * NM_PER_INCH },
  mm: { length: 6000 * NM_PER_MM, width: 600 * NM_PER_MM, thickness: 100 * NM_PER_MM },
};
const usualWords: Record<System, Record<Axis, string>> = {
  in: { length: "20'", width: '24"', thickness: '4"' },
  mm: { length: '6 m', width: '600 mm', thickness: '100 mm' },
};
const across: Record<Axis, string> = { length: 'long', width: 'wide', thickness: 'thick' };
const beyond: Record<Axis, string> = { length: 'longer', width: 'wider', thickness: 'thicker' };

/** system is the shop's: 20 ft and 6 m are not quite the same. */
export function isUnusual(axis: Axis, nm: number, system: System): boolean {
  return nm > USUAL_NM_MAX[system][axis];
}

/** "wider than 24"". */
export function beyondUsualText(axis: Axis, system: System): string {
  return `${beyond[axis]} than ${usualWords[system][axis]}`;
}

/** `55" wide: is that right?`; null for a size that boards have. */
export function unusualText(axis: Axis, nm: number, system: System): string | null {
  return isUnusual(axis, nm, system) ? `${sizeText(nm, system)} ${across[axis]}: is that right?` : null;
}

export function sizeText(nm: number, system: System): string {
  return lengthText(nm, { system, denominator: 16, feet: 'from-8-ft' });
}
