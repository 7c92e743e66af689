/** Formulas of size and volume: board feet, cubic metres, lengths between text and number, rough sizes. */
import { type LengthStyle, lengthText } from '../../worker/wood/length.ts';
import { roughSize } from '../../worker/wood/rough.ts';
import type { Size } from '../../worker/wood/unit.ts';
import { boardFeet, cubicMetres, tallyBoardFeet } from '../../worker/wood/volume.ts';
import {
  lengthNumber,
  readChoice,
  readLengthArgument,
  readNumberArgument,
  readThicknessArgument,
  readUnit,
} from './cell-argument.ts';
import {
  type Argument,
  type Fault,
  type Habits,
  isBlank,
  isFault,
  type SheetValue,
  type WoodFormula,
} from './formula.ts';

export const LENGTH: Argument = { name: 'length', help: `Along the grain: 96, 8', 7' 6 1/2", 2400 mm.` };
export const WIDTH: Argument = { name: 'width', help: 'Across the grain: 7.5, 7 1/2", 190 mm.' };
export const THICKNESS: Argument = {
  name: 'thickness',
  help: 'A size (1 1/4", 32 mm) or a call (5/4). A 5/4 that the sheet turned into a date is read as 5/4.',
};
export const UNIT: Argument = {
  name: 'unit',
  help: 'Unit of plain numbers: in, ft, mm, cm or m. Without it: inches, or millimetres where the file is set to them.',
  optional: true,
};
const COUNT: Argument = { name: 'count', help: 'How many pieces of this size. Without it: one.', optional: true };

/** Length, width, thickness and unit, in this order, as most formulas begin. */
export function readSize(values: readonly SheetValue[], unitAt: number, habits: Habits): Size | Fault {
  const unit = readUnit(values[unitAt], habits);
  if (isFault(unit)) return unit;
  const lengthNm = readLengthArgument('length', values[0], unit, habits);
  if (isFault(lengthNm)) return lengthNm;
  const widthNm = readLengthArgument('width', values[1], unit === 'ft' ? 'in' : unit, habits);
  if (isFault(widthNm)) return widthNm;
  const thicknessNm = readThicknessArgument('thickness', values[2], unit === 'ft' ? 'in' : unit, habits);
  return isFault(thicknessNm) ? thicknessNm : { lengthNm, widthNm, thicknessNm };
}

/** Pieces times a volume; ten digits are kept, so that a sum shows no dust of the arithmetic. */
function volumeOf(volume: (size: Size) => number): WoodFormula['work'] {
  return (values, habits) => {
    const size = readSize(values, 3, habits);
    if (isFault(size)) return size;
    const count = isBlank(values[4]) ? 1 : readNumberArgument('count', values[4], [0, 100_000], habits);
    return isFault(count) ? count : Number((volume(size) * count).toPrecision(10));
  };
}

/** Lengths in feet, the other two in inches, is how lumber is written; with "ft" that is what is meant. */
const FEET_NOTE = 'With “ft” the length is in feet, width and thickness in inches.';

function roughOf(values: readonly SheetValue[], habits: Habits): readonly number[] | Fault {
  const unit = readUnit(values[3], habits);
  const size = readSize(values, 3, habits);
  if (isFault(size)) return size;
  if (isFault(unit)) return unit;
  const rough = roughSize(size);
  const across = unit === 'ft' ? 'in' : unit;
  return [
    lengthNumber(rough.lengthNm, unit),
    lengthNumber(rough.widthNm, across),
    lengthNumber(rough.thicknessNm, across),
  ];
}

function tapeOf(values: readonly SheetValue[], habits: Habits): string | Fault {
  const unit = readUnit(values[1], habits);
  if (isFault(unit)) return unit;
  const lengthNm = readLengthArgument('number', values[0], unit, habits);
  if (isFault(lengthNm)) return lengthNm;
  const denominator = readChoice('fraction', values[2], ['16', '8', '32', '64']);
  if (isFault(denominator)) return denominator;
  const shown = Number(denominator) as LengthStyle['denominator'];
  return lengthText(lengthNm, { system: 'in', denominator: shown, feet: unit === 'ft' ? 'always' : 'never' });
}

const textToNumber =
  (unit: 'in' | 'mm'): WoodFormula['work'] =>
  (values, habits) => {
    const assumed = readUnit(values[1], { ...habits, unit });
    if (isFault(assumed)) return assumed;
    const lengthNm = readLengthArgument('length', values[0], assumed, habits);
    return isFault(lengthNm) ? lengthNm : lengthNumber(lengthNm, unit);
  };

const TEXT_UNIT: Argument = {
  name: 'unit',
  help: 'Unit of a plain number in the cell: in, ft, mm, cm or m.',
  optional: true,
};

export const sizeFormulas: readonly WoodFormula[] = [
  {
    name: 'BOARDFEET',
    asks: null,
    help: `Board feet of wood really there: length × width × thickness, 144 cubic inches to the foot. ${FEET_NOTE}`,
    arguments: [LENGTH, WIDTH, THICKNESS, UNIT, COUNT],
    gives: 'board feet',
    example: { given: [96, 7.5, '8/4'], result: 10 },
    work: volumeOf(boardFeet),
  },
  {
    name: 'TALLY',
    asks: null,
    help: `Board feet as bought and sold: a thickness under one inch counts as one inch. ${FEET_NOTE}`,
    arguments: [LENGTH, WIDTH, THICKNESS, UNIT, COUNT],
    gives: 'board feet',
    example: { given: [96, 6, '3/4'], result: 4 },
    work: volumeOf((size) => tallyBoardFeet({ ...size, callRoughNm: size.thicknessNm })),
  },
  {
    name: 'CUBICMETRES',
    asks: null,
    help: 'Cubic metres of wood really there.',
    arguments: [LENGTH, WIDTH, THICKNESS, UNIT, COUNT],
    gives: 'cubic metres',
    example: { given: [2000, 200, 50, 'mm'], result: 0.02 },
    work: volumeOf(cubicMetres),
  },
  {
    name: 'INCHES',
    asks: null,
    help: 'A length as written on a tape, as a number of inches.',
    arguments: [{ name: 'length', help: `23 5/8", 7' 6 1/2", ¾, 600 mm.` }, TEXT_UNIT],
    gives: 'inches',
    example: { given: ['23 5/8"'], result: 23.625 },
    work: textToNumber('in'),
  },
  {
    name: 'MILLIMETRES',
    asks: null,
    help: 'A length as written on a tape, as a number of millimetres.',
    arguments: [{ name: 'length', help: `23 5/8", 7' 6 1/2", ¾, 60 cm.` }, TEXT_UNIT],
    gives: 'millimetres',
    example: { given: ['23 5/8"'], result: 600.075 },
    work: textToNumber('mm'),
  },
  {
    name: 'TAPE',
    asks: null,
    help: 'A number as a tape shows it, in inches and fractions. ≈ stands before a length that was rounded.',
    arguments: [
      { name: 'number', help: 'A length as a number: 23.625.' },
      UNIT,
      { name: 'fraction', help: 'Finest fraction of an inch: 8, 16, 32 or 64. Without it: 16.', optional: true },
    ],
    gives: 'text',
    example: { given: [23.625], result: '23 5/8"' },
    work: tapeOf,
  },
  {
    name: 'ROUGH',
    asks: null,
    help: 'Rough size to cut for a finished part, by common practice: 1 in of length, 1/4 in of width, 3/16 in of thickness (1/4 in for thick stock), 1/16 in more over 48 in. Three cells side by side.',
    arguments: [LENGTH, WIDTH, THICKNESS, UNIT],
    gives: 'length, width and thickness in the unit',
    example: { given: [28, 2.25, 2.25], result: [29, 2.5, 2.5] },
    work: roughOf,
  },
];
