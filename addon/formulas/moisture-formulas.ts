/** Formulas of moisture: what the air brings wood to, how a size changes with it, and what a board weighs. */
import { emcPercent } from '../../worker/wood/moisture.ts';
import { facesDirections, type Grain, sizeAtShrink, sizeBeforeDrying } from '../../worker/wood/shrinkage.ts';
import { poundsFromKg, weightKg } from '../../worker/wood/weight.ts';
import {
  lengthNumber,
  readChoice,
  readLengthArgument,
  readNumberArgument,
  readPercentArgument,
  readSpeciesArgument,
  readUnit,
} from './cell-argument.ts';
import { type Argument, type Fault, type Habits, isFault, type SheetValue, type WoodFormula } from './formula.ts';
import { LENGTH, readSize, THICKNESS, UNIT, WIDTH } from './size-formulas.ts';

const SPECIES: Argument = { name: 'species', help: 'White oak, walnut, hard maple; the botanical name is read too.' };
const GRAIN: Argument = {
  name: 'grain',
  help: 'How the board is sawn: flat, rift, quarter or unknown (then the larger figure is taken).',
};
const moisture = (name: string, help: string): Argument => ({ name, help });

const GRAINS: readonly [Grain, ...Grain[]] = ['unknown', 'flat', 'rift', 'quarter'];
/** Green wood of light species holds up to about three times its dry weight in water. */
const MOISTURE_MAX = 300;

/** How much this wood's width moves, per cent from green to oven-dry. */
function shrinkOf(species: SheetValue | undefined, grain: SheetValue | undefined, habits: Habits): number | Fault {
  const wood = readSpeciesArgument(species, habits);
  if (isFault(wood)) return wood;
  const sawn = readChoice('grain', grain, GRAINS);
  return isFault(sawn) ? sawn : facesDirections(sawn, wood).widthPercent;
}

function movedSize(
  values: readonly SheetValue[],
  habits: Habits,
  move: (sizeNm: number, shrinkPercent: number, fromPercent: number, toPercent: number) => number,
): number | Fault {
  const unit = readUnit(values[5], habits);
  if (isFault(unit)) return unit;
  const sizeNm = readLengthArgument('width', values[0], unit, habits);
  if (isFault(sizeNm)) return sizeNm;
  const shrinkPercent = shrinkOf(values[1], values[2], habits);
  if (isFault(shrinkPercent)) return shrinkPercent;
  const fromPercent = readPercentArgument('moisture now', values[3], MOISTURE_MAX, habits);
  if (isFault(fromPercent)) return fromPercent;
  const toPercent = readPercentArgument('moisture later', values[4], MOISTURE_MAX, habits);
  if (isFault(toPercent)) return toPercent;
  return lengthNumber(move(sizeNm, shrinkPercent, fromPercent, toPercent), unit);
}

function emcOf(values: readonly SheetValue[], habits: Habits): number | Fault {
  const relativeHumidityPercent = readPercentArgument('humidity', values[0], 100, habits);
  if (isFault(relativeHumidityPercent)) return relativeHumidityPercent;
  const scale = readChoice('scale', values[2], habits.unit === 'mm' ? ['C', 'F'] : ['F', 'C']);
  if (isFault(scale)) return scale;
  const degrees = readNumberArgument('temperature', values[1], scale === 'F' ? [-22, 212] : [-30, 100], habits);
  if (isFault(degrees)) return degrees;
  const reading = emcPercent(
    scale === 'F'
      ? { relativeHumidityPercent, temperatureF: degrees }
      : { relativeHumidityPercent, temperatureC: degrees },
  );
  // Real wood differs by a point or two, so no more than a tenth is said.
  return reading.ok ? Math.round(reading.value * 10) / 10 : { fault: reading.help };
}

function shrinkageOf(values: readonly SheetValue[], habits: Habits): number | Fault {
  const shrinkPercent = shrinkOf(values[0], values[1], habits);
  if (isFault(shrinkPercent)) return shrinkPercent;
  const fromPercent = readPercentArgument('moisture now', values[2], MOISTURE_MAX, habits);
  if (isFault(fromPercent)) return fromPercent;
  const toPercent = readPercentArgument('moisture later', values[3], MOISTURE_MAX, habits);
  if (isFault(toPercent)) return toPercent;
  const sizeNm = 1e12;
  const lost = 1 - sizeAtShrink({ sizeNm, shrinkPercent, fromPercent, toPercent }) / sizeNm;
  const percent = Math.round(lost * 10_000) / 100;
  return percent === 0 ? 0 : percent;
}

function weightOf(values: readonly SheetValue[], habits: Habits): number | Fault {
  const size = readSize(values, 5, habits);
  if (isFault(size)) return size;
  const wood = readSpeciesArgument(values[3], habits);
  if (isFault(wood)) return wood;
  const moisturePercent = readPercentArgument('moisture', values[4], MOISTURE_MAX, habits);
  if (isFault(moisturePercent)) return moisturePercent;
  const massUnit = readChoice('mass', values[6], habits.unit === 'mm' ? ['kg', 'lb'] : ['lb', 'kg']);
  if (isFault(massUnit)) return massUnit;
  const massKg = weightKg(size, wood, moisturePercent);
  return Math.round((massUnit === 'kg' ? massKg : poundsFromKg(massKg)) * 10) / 10;
}

const NOW_AND_LATER = [
  moisture('now', 'Moisture content now, in per cent.'),
  moisture('later', 'Moisture content it comes to.'),
];

export const moistureFormulas: readonly WoodFormula[] = [
  {
    name: 'EMC',
    asks: null,
    help: 'Moisture content that wood comes to in this air, to a tenth; real boards differ by 1 to 2 points.',
    arguments: [
      { name: 'humidity', help: 'Relative humidity in per cent: 40, or a cell that shows 40 %.' },
      { name: 'temperature', help: 'Of the air.' },
      { name: 'scale', help: 'F or C. Without it: F, or C where the file is set to millimetres.', optional: true },
    ],
    gives: '% MC',
    example: { given: [40, 70, 'F'], result: 7.7 },
    work: emcOf,
  },
  {
    name: 'SHRINKAGE',
    asks: null,
    help: 'How much narrower a board gets between two moisture contents, in per cent of its width now. Below zero: it swells.',
    arguments: [SPECIES, GRAIN, ...NOW_AND_LATER],
    gives: '% of the width now',
    example: { given: ['black walnut', 'flat', 30, 8], result: 5.72 },
    work: shrinkageOf,
  },
  {
    name: 'WIDTHAT',
    asks: null,
    help: 'The width that a board has after its moisture content changed.',
    arguments: [WIDTH, SPECIES, GRAIN, ...NOW_AND_LATER, UNIT],
    gives: 'width in the unit',
    example: { given: [2.25, 'American beech', 'flat', 30, 7], result: 2.044725 },
    work: (values, habits) =>
      movedSize(values, habits, (sizeNm, shrinkPercent, fromPercent, toPercent) =>
        sizeAtShrink({ sizeNm, shrinkPercent, fromPercent, toPercent }),
      ),
  },
  {
    name: 'CUTWIDTH',
    asks: null,
    help: 'The width to cut now, so that the piece has the finished width once it is dry. Wood only; add what the planer takes.',
    arguments: [{ name: 'finished', help: 'The width wanted once dry.' }, SPECIES, GRAIN, ...NOW_AND_LATER, UNIT],
    gives: 'width in the unit',
    example: { given: [6, 'northern red oak', 'flat', 30, 8], result: 6.403871 },
    work: (values, habits) =>
      movedSize(values, habits, (finishedNm, shrinkPercent, fromPercent, toPercent) =>
        sizeBeforeDrying({ finishedNm, shrinkPercent, fromPercent, toPercent }),
      ),
  },
  {
    name: 'WEIGHT',
    asks: null,
    help: 'What a piece weighs at its moisture content. Single boards differ by about a tenth; lift with two from 50 lb (23 kg).',
    arguments: [
      LENGTH,
      WIDTH,
      THICKNESS,
      SPECIES,
      moisture('moisture', 'Moisture content in per cent.'),
      UNIT,
      { name: 'mass', help: 'lb or kg. Without it: lb, or kg where the file is set to millimetres.', optional: true },
    ],
    gives: 'lb or kg',
    example: { given: [96, 7.5, '8/4', 'white oak', 8, 'in', 'lb'], result: 38.3 },
    work: weightOf,
  },
];
