/**
 * Reads what a formula is given: lengths as on a tape, species, per cents, choices. Each reading names the argument in
 * its fault, because the sheet shows only one sentence for the whole formula.
 */
import { readLength, readLengthNumber } from '../../worker/wood/length.ts';
import { readNumber } from '../../worker/wood/length-number.ts';
import { plainLength } from '../../worker/wood/length-plain.ts';
import { bookWith, type OwnWood } from '../../worker/wood/own-wood.ts';
import type { Species } from '../../worker/wood/species.ts';
import { type WoodName, woodNameBook } from '../../worker/wood/species-naming.ts';
import { readThicknessCall } from '../../worker/wood/thickness.ts';
import { fractionOfDate } from '../sheet/fraction-date.ts';
import { type Fault, type Habits, isBlank, type SheetValue } from './formula.ts';

export type Unit = 'in' | 'ft' | 'mm' | 'cm' | 'm';

const UNIT_NAMES: Readonly<Record<string, Unit>> = {
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  ft: 'ft',
  feet: 'ft',
  foot: 'ft',
  "'": 'ft',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
};

const fault = (words: string): Fault => ({ fault: words });

export function readUnit(value: SheetValue | undefined, habits: Habits): Unit | Fault {
  if (isBlank(value)) return habits.unit;
  const unit = UNIT_NAMES[String(value).trim().toLowerCase()];
  return unit ?? fault(`unit: write in, ft, mm, cm or m, not “${String(value)}”`);
}

/** A length of more than zero, in whole nanometres. */
export function readLengthArgument(
  name: string,
  value: SheetValue | undefined,
  unit: Unit,
  habits: Habits,
): number | Fault {
  if (value === undefined || value === null || isBlank(value)) return fault(`give the ${name}`);
  if (typeof value === 'boolean') return fault(`${name}: a length, not ${value ? 'TRUE' : 'FALSE'}`);
  const reading =
    typeof value === 'number' ? readLengthNumber(value, unit) : readLength(value, { unit, decimal: habits.decimal });
  if (!reading.ok) return fault(`${name}: ${reading.fault.help}`);
  return reading.nm > 0 ? reading.nm : fault(`${name}: more than zero`);
}

/** Day numbers from 1 January 2000; as a length such a number is longer than any board in any unit of the tape. */
const DATE_SERIAL_MIN = 36_526;

/**
 * A thickness: a length, or a call such as 5/4. A sheet turns 5/4 into a date; a day number that can be no thickness is
 * turned back into the call it came from.
 */
export function readThicknessArgument(
  name: string,
  value: SheetValue | undefined,
  unit: Unit,
  habits: Habits,
): number | Fault {
  if (typeof value === 'number' && value >= DATE_SERIAL_MIN) {
    const call = fractionOfDate(value, habits.dateOrder);
    const read = call === null ? null : readThicknessCall(call);
    return read
      ? read.roughNm
      : fault(`${name}: this cell holds a date. Format the column as plain text and write it again`);
  }
  return readLengthArgument(name, value, unit, habits);
}

/** A column names the same few woods again and again, and looking for what a misspelt one may mean is slow. */
let woodsRead = new Map<string, Species | Fault>();
let woodsReadWith: readonly OwnWood[] = [];
const WOODS_READ_MAX = 500;
const NO_WOODS: readonly OwnWood[] = [];
const NO_SPECIES = fault('give the species, such as white oak');

/** A wood with its figures. */
export function readSpeciesArgument(value: SheetValue | undefined, habits: Habits): Species | Fault {
  if (typeof value !== 'string' || isBlank(value)) return NO_SPECIES;
  const { ownWoods = NO_WOODS } = habits;
  if (woodsReadWith !== ownWoods || woodsRead.size >= WOODS_READ_MAX) woodsRead = new Map();
  woodsReadWith = ownWoods;
  const known = woodsRead.get(value);
  if (known) return known;
  const reading = bookWith(ownWoods).read(value);
  const read = reading.ok ? reading.species : fault(reading.help);
  woodsRead.set(value, read);
  return read;
}

/** A wood by its name alone, with figures or without. */
export function readWoodArgument(value: SheetValue | undefined, habits: Habits): WoodName | Fault {
  if (typeof value !== 'string' || isBlank(value)) return NO_SPECIES;
  const reading = woodNameBook(habits.ownWoods ?? NO_WOODS).read(value);
  return reading.ok ? reading.species : fault(reading.help);
}

export function readNumberArgument(
  name: string,
  value: SheetValue | undefined,
  range: readonly [min: number, max: number],
  habits: Habits,
): number | Fault {
  if (value === undefined || value === null || isBlank(value)) return fault(`give the ${name}`);
  const number =
    typeof value === 'number' ? value : typeof value === 'string' ? numberOfText(value, habits) : Number.NaN;
  const [min, max] = range;
  return number >= min && number <= max ? number : fault(`${name}: a number from ${min} to ${max}`);
}

/** A share of a hundred: 45, "45 %", or a cell formatted as per cent, which holds 0.45. */
export function readPercentArgument(
  name: string,
  value: SheetValue | undefined,
  max: number,
  habits: Habits,
): number | Fault {
  const read = readNumberArgument(
    name,
    typeof value === 'string' ? value.replace(/\s*%\s*$/, '') : value,
    [0, max],
    habits,
  );
  // No air and no wood of a shop is under one per cent, so a number below one is a share.
  return typeof read === 'number' && typeof value === 'number' && read < 1 ? read * 100 : read;
}

function numberOfText(text: string, habits: Habits): number {
  const reading = readNumber(plainLength(text), habits.decimal);
  return reading.ok ? Number(reading.ratio.numerator) / Number(reading.ratio.denominator) : Number.NaN;
}

/** One of a few words; the first is meant where nothing is given. */
export function readChoice<Choice extends string>(
  name: string,
  value: SheetValue | undefined,
  choices: readonly [Choice, ...Choice[]],
): Choice | Fault {
  if (isBlank(value)) return choices[0];
  const written = String(value).trim().toLowerCase();
  return choices.find((choice) => choice.toLowerCase() === written) ?? fault(`${name}: write ${choices.join(' or ')}`);
}

const NM_PER: Readonly<Record<Unit, number>> = {
  in: 25_400_000,
  ft: 304_800_000,
  mm: 1_000_000,
  cm: 10_000_000,
  m: 1_000_000_000,
};

/** A length as a number in a unit, to the millionth, so that 23 5/8 in is 600.075 mm and nothing after it. */
export function lengthNumber(lengthNm: number, unit: Unit): number {
  return Math.round((lengthNm / NM_PER[unit]) * 1e6) / 1e6;
}
