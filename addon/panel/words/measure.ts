/** Sizes, volumes, money, days and moisture as the shop reads them; the unit and the fraction are the shop's own figures. */
import { dayTextBeside } from '../../../worker/wood/day.ts';
import { type LengthStyle, lengthText, lengthTextSpoken, readLength } from '../../../worker/wood/length.ts';
import type { Size } from '../../../worker/wood/unit.ts';
import { boardFeet, boardFeetFromM3 } from '../../../worker/wood/volume.ts';
import { amountText, minorDigits, readAmount } from '../../sheet/currency.ts';

/** The part of the shop's figures that decides how things are shown. */
export interface ShownIn {
  readonly shown: 'in' | 'mm';
  readonly denominator: 8 | 16 | 32 | 64;
  readonly currency: string;
}
export const shownInAtFirst: ShownIn = { shown: 'in', denominator: 16, currency: 'USD' };

type System = 'in' | 'mm';

export interface Measure {
  readonly system: System;
  length(nm: number, system?: System): string;
  spoken(nm: number, system?: System): string;
  /** 8' 4 1/2" × 9 1/4" × 2" */
  size(size: Size, system?: System): string;
  sizeSpoken(size: Size, system?: System): string;
  /** What somebody typed, in nanometres; a bare number is in the shop's unit. Null where it is no size or zero. */
  read(typed: string): number | null;
  /** As read, but zero is allowed: a place on a board, an offset. */
  readPlace(typed: string): number | null;
  /** The help for a text that is no size. */
  readHelp(typed: string): string | null;
  money(minor: number): string;
  /** An amount as typed, in small units of the shop's currency; null where it is none. */
  readMoney(typed: string): number | null;
  /** As readMoney reads it again. */
  moneyTyped(minor: number): string;
  /** Wood in the shop's unit: board feet or cubic metres. */
  volume(m3: number): string;
}

export function makeMeasure(shownIn: ShownIn): Measure {
  const style = (system: System): LengthStyle => ({ system, denominator: shownIn.denominator, feet: 'from-8-ft' });
  const length = (nm: number, system: System = shownIn.shown) => lengthText(nm, style(system));
  const spoken = (nm: number, system: System = shownIn.shown) => lengthTextSpoken(nm, style(system));
  const reading = (typed: string) => readLength(typed, { unit: shownIn.shown, decimal: '.' });
  const readPlace = (typed: string) => {
    const found = reading(typed);
    return found.ok ? found.nm : null;
  };
  return {
    system: shownIn.shown,
    length,
    spoken,
    size: (size, system) =>
      `${length(size.lengthNm, system)} × ${length(size.widthNm, system)} × ${length(size.thicknessNm, system)}`,
    sizeSpoken: (size, system) =>
      `${spoken(size.lengthNm, system)} long, ${spoken(size.widthNm, system)} wide, ${spoken(size.thicknessNm, system)} thick`,
    readPlace,
    read(typed) {
      const nm = readPlace(typed);
      return nm === null || nm === 0 ? null : nm;
    },
    readHelp(typed) {
      const found = reading(typed);
      if (!found.ok) return capital(found.fault.help);
      return found.nm === 0 ? 'More than zero.' : null;
    },
    money: (minor) => moneyText(minor, shownIn.currency),
    readMoney: (typed) => readAmount(typed, shownIn.currency),
    moneyTyped: (minor) => amountText(minor, shownIn.currency),
    volume: (m3) => (shownIn.shown === 'in' ? boardFeetText(boardFeetFromM3(m3)) : m3Text(m3)),
  };
}

export function boardFeetText(value: number): string {
  return `${figure(value, value >= 100 ? 0 : 1)} bf`;
}

export function boardFeetOf(size: Size): string {
  return boardFeetText(boardFeet(size));
}

export function m3Text(value: number): string {
  return `${figure(value, value >= 1 ? 2 : 3)} m³`;
}

export function figure(value: number, decimals: number): string {
  return value.toLocaleString('en-US', { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
}

export function moneyText(minor: number, currency: string): string {
  try {
    const format = new Intl.NumberFormat('en-US', { style: 'currency', currency });
    return format.format(minor / 10 ** minorDigits(currency));
  } catch {
    // A currency that the browser does not know still has an amount.
    return `${figure(minor / 100, 2)} ${currency}`;
  }
}

export function weightText(kg: number, system: System): string {
  return system === 'mm' ? `${figure(kg, 0)} kg` : `${figure(kg / KG_PER_POUND, 0)} lb`;
}

/** Exact by definition (international pound). */
const KG_PER_POUND = 0.45359237;

export function percentText(value: number): string {
  return `${Number.isInteger(value) ? value : value.toFixed(1)}\u00a0%`;
}

/** "3 Dec, 14:05" in the shop's own time. */
export function momentText(atMs: number, today: string): string {
  const at = new Date(atMs);
  const two = (value: number) => String(value).padStart(2, '0');
  const iso = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return `${dayTextBeside(iso, today)}, ${two(at.getHours())}:${two(at.getMinutes())}`;
}

export function count(value: number, one: string, many = `${one}s`): string {
  return `${value.toLocaleString('en-US')} ${value === 1 ? one : many}`;
}

const NAMES_SHOWN = 6;

/** "Stile, Rail and 3 more"; a name that comes twice is said once. */
export function namesText(names: readonly string[]): string {
  const all = [...new Set(names)];
  const shown = all.slice(0, NAMES_SHOWN).join(', ');
  return all.length > NAMES_SHOWN ? `${shown} and ${all.length - NAMES_SHOWN} more` : shown;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "white-oak" as a person writes it: "White oak". */
export function speciesText(key: string): string {
  return capital(key.replaceAll('-', ' '));
}
