/**
 * No function of the trade's arithmetic takes an impossible number: not a number, without end, below zero, a kilometre
 * of board, moisture of 400 %, humidity of 120 %. It refuses with a reason, or throws a RangeError that names the quantity.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { adhesives, clampingPressureKPa } from '../../worker/wood/adhesive.ts';
import { dayAfter, dayNumber, dayOfMs, dayOfNumber, daysBetween } from '../../worker/wood/day.ts';
import { deliveryCheck } from '../../worker/wood/delivery.ts';
import * as drying from '../../worker/wood/drying.ts';
import { dryingCurve } from '../../worker/wood/drying-curve.ts';
import { gluePreparation } from '../../worker/wood/glue-preparation.ts';
import * as glue from '../../worker/wood/glue-up.ts';
import { gradeAdvice } from '../../worker/wood/grade.ts';
import { gradeNeeds } from '../../worker/wood/grade-rule.ts';
import { piecesFrom } from '../../worker/wood/kerf.ts';
import { lengthText, lengthTextSpoken, readLengthNumber } from '../../worker/wood/length.ts';
import * as meter from '../../worker/wood/meter.ts';
import * as moisture from '../../worker/wood/moisture.ts';
import * as movement from '../../worker/wood/movement.ts';
import * as year from '../../worker/wood/movement-year.ts';
import { planedOffNm, roughSize } from '../../worker/wood/rough.ts';
import * as shrinkage from '../../worker/wood/shrinkage.ts';
import { softwoodDressed, softwoodShrinkPercent } from '../../worker/wood/softwood.ts';
import { taperSteps } from '../../worker/wood/taper.ts';
import { callCovering, callOf } from '../../worker/wood/thickness.ts';
import { NM_PER_INCH, nm, nmFromInch, nmFromMm } from '../../worker/wood/unit.ts';
import * as volume from '../../worker/wood/volume.ts';
import * as warp from '../../worker/wood/warp.ts';
import * as weight from '../../worker/wood/weight.ts';

const IN = NM_PER_INCH;
const pva = adhesives[0]!;
const face = { lengthNm: 96 * IN, widthNm: 8 * IN };
const size = { ...face, thicknessNm: IN };
const bent = { bowNm: 1e6, crookNm: 1e6, cupNm: 1e6, twistNm: 1e6 };
const season = { madePercent: 8, lowPercent: 4, highPercent: 13 };
const woods = { shrinkRadialPercent: 5, shrinkTangentialPercent: 10 };
const line = { lengthNm: 60 * IN, widthNm: IN };
const readings = [
  { moisturePercent: 14, on: '2026-03-01', meter: 'pin' },
  { moisturePercent: 10.5, on: '2026-03-22', meter: 'pin' },
] as const;
const air = { temperatureC: 20, relativeHumidityPercent: 40 };

// biome-ignore lint/suspicious/noExplicitAny: a table of functions of every shape; each row's arguments are checked where it is written
type Case = readonly [given: Record<string, unknown>, call: (given: any) => unknown];

/** Every public function that takes numbers, with good ones. */
const functions: Readonly<Record<string, Case>> = {
  taperSteps: [{ face, widthFarNm: 3 * IN }, (a) => taperSteps(a.face, a.widthFarNm)],
  clampingPressureKPa: [{ gravity: 0.5 }, (a) => clampingPressureKPa(pva, a.gravity)],
  dayOfNumber: [{ days: 20_000 }, (a) => dayOfNumber(a.days)],
  dayOfMs: [{ atMs: 1_764_000_000_000 }, (a) => dayOfMs(a.atMs)],
  dayAfter: [{ days: 3 }, (a) => dayAfter('2026-03-01', a.days)],
  restUntil: [{ days: 3 }, (a) => drying.restUntil('2026-03-01', a.days)],
  deliveryCheck: [
    { board: { ...face, callRoughNm: IN }, bill: { boardFeet: 5, minorPerBoardFoot: 900 } },
    (a) => deliveryCheck([a.board], a.bill),
  ],
  moistureAfter: [
    { days: 30, fromPercent: 20, emcPercent: 12, tauDays: 25 },
    (a) => drying.moistureAfter(a.days, a.fromPercent, a.emcPercent, a.tauDays),
  ],
  daysToReach: [
    { toPercent: 15, fromPercent: 20, emcPercent: 12, tauDays: 25 },
    (a) => drying.daysToReach(a.toPercent, a.fromPercent, a.emcPercent, a.tauDays),
  ],
  dryingRate: [{ readings, emcPercent: 7 }, (a) => drying.dryingRate(a.readings, a.emcPercent)],
  readyDate: [
    { readings, air, targetPercent: 8, thicknessNm: IN },
    (a) => drying.readyDate({ ...a, species: null, stackedOn: null }),
  ],
  dryingCurve: [
    { targetPercent: 8, from: { moisturePercent: 12, on: '2026-03-01' }, emcPercent: 7 },
    (a) =>
      dryingCurve(a.targetPercent, {
        kind: 'range',
        basis: 'readings',
        earliestOn: '2026-03-20',
        likelyOn: '2026-04-01',
        latestOn: '2026-04-20',
        note: '',
        ...a,
      }),
  ],
  gluePreparation: [
    { moisturePercents: [7, 8], temperatureC: 20, hoursSincePlaned: 3 },
    (a) => gluePreparation(pva, a),
  ],
  glueLineAreaM2: [{ line }, (a) => glue.glueLineAreaM2(a.line)],
  glueMassG: [{ line, spread: 200 }, (a) => glue.glueMassG([a.line], a.spread)],
  wetFilmMm: [{ spread: 200, density: 1.1 }, (a) => glue.wetFilmMm(a.spread, a.density)],
  clampsNeeded: [
    { line, clamping: { pressureKPa: 1000, clampForceN: 4000, padToLineNm: 4 * IN } },
    (a) => glue.clampsNeeded(a.line, a.clamping),
  ],
  pressureReachedKPa: [{ count: 4, force: 4000, line }, (a) => glue.pressureReachedKPa(a.count, a.force, a.line)],
  pliesFor: [{ finishedNm: 3 * IN, plyNm: IN }, (a) => glue.pliesFor(a.finishedNm, a.plyNm)],
  glueBatches: [{ joints: 6, openMinutes: 6, spreadMinutesPerJoint: 1, clampMinutes: 2 }, (a) => glue.glueBatches(a)],
  gradeNeeds: [{ surfaceMeasure: 8 }, (a) => gradeNeeds('FAS', a.surfaceMeasure)],
  gradeAdvice: [
    { board: face, defect: { fromNm: 1e6, toNm: 2e6, leftNm: 1e6, rightNm: 2e6 } },
    (a) => gradeAdvice(a.board, [{ kind: 'knot-sound', face: 'a', ...a.defect }]),
  ],
  piecesFrom: [{ fromNm: 8 * IN, pieceNm: IN, kerfNm: IN / 8 }, (a) => piecesFrom(a.fromNm, a.pieceNm, a.kerfNm)],
  readLengthNumber: [{ inches: 8 }, (a) => readLengthNumber(a.inches, 'in')],
  lengthText: [{ lengthNm: IN }, (a) => lengthText(a.lengthNm, { system: 'in', denominator: 16 })],
  lengthTextSpoken: [{ lengthNm: IN }, (a) => lengthTextSpoken(a.lengthNm, { system: 'mm', denominator: 16 })],
  readingTrust: [{ readingPercent: 12 }, (a) => meter.readingTrust(a.readingPercent, 'pin')],
  pinCorrectedPercent: [
    { readingPercent: 12, woodC: 30, calibrationC: 21 },
    (a) => meter.pinCorrectedPercent(a.readingPercent, a.woodC, a.calibrationC),
  ],
  pinFittedPercent: [
    { readingPercent: 12, woodC: 30, fit: { a: 1, b: 0 } },
    (a) => meter.pinFittedPercent(a.readingPercent, a.woodC, a.fit),
  ],
  emcPercent: [air, (a) => moisture.emcPercent(a)],
  relativeHumidityForEmc: [
    { emcPercent: 8, temperatureC: 20 },
    (a) => moisture.relativeHumidityForEmc(a.emcPercent, { temperatureC: a.temperatureC }),
  ],
  moistureByWeight: [{ wetKg: 30, ovenDryKg: 20 }, (a) => moisture.moistureByWeight(a)],
  ovenDryKg: [{ weighedKg: 1.5, moisturePercent: 25 }, (a) => moisture.ovenDryKg(a.weighedKg, a.moisturePercent)],
  dryBasisPercent: [{ wetBasisPercent: 30 }, (a) => moisture.dryBasisPercent(a.wetBasisPercent)],
  wetBasisPercent: [{ dryBasis: 30 }, (a) => moisture.wetBasisPercent(a.dryBasis)],
  moistureMaxPercent: [{ gravity: 0.5 }, (a) => moisture.moistureMaxPercent(a.gravity)],
  sinkingMoisturePercent: [{ gravity: 0.5 }, (a) => moisture.sinkingMoisturePercent(a.gravity)],
  evenYearPercents: [{ lowPercent: 4, highPercent: 13 }, (a) => year.evenYearPercents(a.lowPercent, a.highPercent)],
  airYearPercents: [{ airs: [air] }, (a) => year.airYearPercents(a.airs)],
  sizesThroughYear: [
    { sizeNm: IN, shrinkPercent: 8, made: { madePercent: 8, monthPercents: [4, 13] } },
    (a) => year.sizesThroughYear(a.sizeNm, a.shrinkPercent, a.made),
  ],
  seasonalMovement: [
    { sizeNm: IN, shrinkPercent: 8, season },
    (a) => movement.seasonalMovement(a.sizeNm, a.shrinkPercent, a.season),
  ],
  seasonalMovementOf: [
    { sizeNm: IN, species: woods, season },
    (a) => movement.seasonalMovementOf(a.sizeNm, { species: a.species, direction: 'tangential' }, a.season),
  ],
  panelFit: [
    { openingNm: 14 * IN, shrinkPercent: 8, season },
    (a) => movement.panelFit(a.openingNm, a.shrinkPercent, a.season),
  ],
  drawerHeightNm: [
    { openingNm: 8 * IN, shrinkPercent: 8, season },
    (a) => movement.drawerHeightNm(a.openingNm, a.shrinkPercent, a.season),
  ],
  slotLengthNm: [
    { fromNm: 8 * IN, screwNm: IN / 4, shrinkPercent: 8, season },
    (a) => movement.slotLengthNm(a.fromNm, a.screwNm, a.shrinkPercent, a.season),
  ],
  roughSize: [size, (a) => roughSize(a)],
  planedOffNm: [{ finishedNm: IN, thinNm: 1e6, thickNm: 2e6 }, (a) => planedOffNm(a.finishedNm, a)],
  shrinkPercentIn: [{ species: woods }, (a) => shrinkage.shrinkPercentIn('radial', a.species)],
  shrinkToPercent: [
    { shrinkPercent: 8, moisturePercent: 12, fsp: 30 },
    (a) => shrinkage.shrinkToPercent(a.shrinkPercent, a.moisturePercent, a.fsp),
  ],
  sizeAtShrink: [{ sizeNm: IN, shrinkPercent: 8, fromPercent: 12, toPercent: 8 }, (a) => shrinkage.sizeAtShrink(a)],
  sizeAtMoisture: [
    { sizeNm: IN, species: woods, fromPercent: 12, toPercent: 8 },
    (a) => shrinkage.sizeAtMoisture({ ...a, direction: 'tangential' }),
  ],
  coefficientOf: [{ shrinkPercent: 8 }, (a) => shrinkage.coefficientOf(a.shrinkPercent)],
  sizeByCoefficient: [
    { sizeNm: IN, coefficient: 0.003, fromPercent: 12, toPercent: 8 },
    (a) => shrinkage.sizeByCoefficient(a),
  ],
  shrinkAtRingAngle: [{ species: woods, degrees: 30 }, (a) => shrinkage.shrinkAtRingAngle(a.species, a.degrees)],
  facesDirections: [{ species: woods }, (a) => shrinkage.facesDirections('rift', a.species)],
  sizeBeforeDrying: [
    { finishedNm: IN, shrinkPercent: 8, fromPercent: 12, toPercent: 8 },
    (a) => shrinkage.sizeBeforeDrying(a),
  ],
  softwoodDressed: [{ thickness: 2, width: 4 }, (a) => softwoodDressed(a.thickness, a.width)],
  softwoodShrinkPercent: [{ moisturePercent: 15 }, (a) => softwoodShrinkPercent(a.moisturePercent)],
  callOf: [{ thicknessNm: IN }, (a) => callOf(a.thicknessNm)],
  callCovering: [{ thicknessNm: IN }, (a) => callCovering(a.thicknessNm)],
  nm: [{ lengthNm: IN }, (a) => nm(a.lengthNm)],
  nmFromMm: [{ mm: 25 }, (a) => nmFromMm(a.mm)],
  nmFromInch: [{ inches: 1 }, (a) => nmFromInch(a.inches)],
  boardFeet: [size, (a) => volume.boardFeet(a)],
  cubicMetres: [size, (a) => volume.cubicMetres(a)],
  tallyBoardFeet: [{ ...face, callRoughNm: IN }, (a) => volume.tallyBoardFeet(a)],
  boardFeetFromM3: [{ volume: 1 }, (a) => volume.boardFeetFromM3(a.volume)],
  m3FromBoardFeet: [{ volume: 1 }, (a) => volume.m3FromBoardFeet(a.volume)],
  surfaceMeasureUnrounded: [face, (a) => volume.surfaceMeasureUnrounded(a)],
  surfaceMeasures: [{ face }, (a) => volume.surfaceMeasures([a.face])],
  surfaceMeasure: [face, (a) => volume.surfaceMeasure(a)],
  bundleTally: [{ face, callRoughNm: IN }, (a) => volume.bundleTally([a.face], a.callRoughNm)],
  warpOver: [{ warp: bent, board: face, piece: face }, (a) => warp.warpOver(a.warp, a.board, a.piece)],
  flatThicknessNm: [
    { thicknessNm: IN, warp: bent, cleanupNm: 1e6 },
    (a) => warp.flatThicknessNm(a.thicknessNm, a.warp, a.cleanupNm),
  ],
  straightWidthNm: [
    { widthNm: 8 * IN, warp: bent, cleanupNm: 1e6 },
    (a) => warp.straightWidthNm(a.widthNm, a.warp, a.cleanupNm),
  ],
  arcSagittaNm: [
    { gapNm: IN, lengthNm: 96 * IN, pieceNm: 48 * IN },
    (a) => warp.arcSagittaNm(a.gapNm, a.lengthNm, a.pieceNm),
  ],
  kinkDepthNm: [
    { kink: { gapNm: IN / 2, atNm: 36 * IN }, boardNm: 96 * IN, piece: { fromNm: 12 * IN, toNm: 60 * IN } },
    (a) => warp.kinkDepthNm(a.kink, a.boardNm, a.piece),
  ],
  stationDepthNm: [
    { station: { atNm: 48 * IN, gapNm: IN }, piece: { fromNm: 12 * IN, toNm: 60 * IN } },
    (a) => warp.stationDepthNm([{ atNm: 0, gapNm: 0 }, a.station, { atNm: 96 * IN, gapNm: 0 }], a.piece),
  ],
  likelyCrookNm: [
    { crookNm: IN, nowPercent: 30, targetPercent: 8 },
    (a) => warp.likelyCrookNm(a.crookNm, a.nowPercent, a.targetPercent),
  ],
  shrinkVolumetricFromGravity: [{ gravity: 0.5 }, (a) => weight.shrinkVolumetricFromGravity(a.gravity)],
  specificGravityAt: [
    { wood: { specificGravityGreen: 0.5, shrinkVolumetricPercent: 12 }, moisturePercent: 12 },
    (a) => weight.specificGravityAt(a.wood, a.moisturePercent),
  ],
  densityKgPerM3: [
    { wood: { specificGravityGreen: 0.5, shrinkVolumetricPercent: 12 }, moisturePercent: 12 },
    (a) => weight.densityKgPerM3(a.wood, a.moisturePercent),
  ],
  weightKg: [
    { size, wood: { specificGravityGreen: 0.5, shrinkVolumetricPercent: 12 }, moisturePercent: 12 },
    (a) => weight.weightKg(a.size, a.wood, a.moisturePercent),
  ],
  poundsFromKg: [{ mass: 3 }, (a) => weight.poundsFromKg(a.mass)],
};

/** What takes only words or other functions' answers; the days throw for a text that is none. */
const withoutNumbers: Readonly<Record<string, string>> = {
  volumeNm3: 'whole numbers of any size and sign, exactly; it throws for any other',
  readyPercent: 'the shop’s figures, which the contract keeps in range',
  dryFor: 'compares a reading, which the contract keeps in range, with the shop’s figures',
  tooLargeHelp: 'words about a limit of the code itself',
  latestReading: 'compares days as texts',
  isWithin: 'compares places on a face that the contract has read',
  overlaps: 'compares places on a face that the contract has read',
  dayNumber: 'a text',
  daysBetween: 'two texts',
  dayText: 'a text',
  dayTextBeside: 'two texts',
  dayInYearText: 'a text',
  stretchesOf: 'a text',
  pieceName: 'names and counts',
  readLength: 'a text; tried in length.test.ts',
  readNumber: 'a text',
  plainLength: 'a text',
  editDistance: 'two texts',
  readThicknessCall: 'a text',
  readGrade: 'a text',
  gradeIsAtLeast: 'two grades',
  speciesByKey: 'a key',
  readSpecies: 'a text',
  readWoodName: 'a text',
  woodKeyOf: 'a text',
  ownWoodName: 'names',
  ownSpecies: 'the contract keeps its figures in range; tried in own-woods.test.ts',
  speciesBook: 'woods',
  woodBook: 'woods',
  woodNameBook: 'woods',
  bookWith: 'woods',
  isLarge: 'a face that gradeAdvice has checked',
  cuttingUnits: 'a rectangle that gradeAdvice has checked',
  totalUnits: 'rectangles that gradeAdvice has checked',
  bestCuttings: 'a face that gradeAdvice has checked',
  clearPlaces: 'a face that gradeAdvice has checked',
  answer: 'a value',
  refuse: 'words',
  within: 'it is the check itself',
  requireWithin: 'it is the check itself',
  requireSize: 'it is the check itself',
};

type Leaf = readonly (string | number)[];

function leavesOf(value: unknown, path: Leaf = []): Leaf[] {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => leavesOf(inner, [...path, key]));
}

function withLeaf(value: unknown, [key, ...rest]: Leaf, leaf: number): unknown {
  if (key === undefined) return leaf;
  if (Array.isArray(value)) return value.map((inner, at) => (at === Number(key) ? withLeaf(inner, rest, leaf) : inner));
  return { ...(value as object), [key]: withLeaf((value as Record<string, unknown>)[key], rest, leaf) };
}

/** Impossible for any quantity, and for those of this name. */
function impossible(name: string): number[] {
  const more = /humidity/i.test(name) ? [120, -5] : /percent/i.test(name) ? [400, -1] : [];
  const below = /nm$/i.test(name) ? [-1e6, 1e16] : [];
  return [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, ...below, ...more];
}

/** An S curve stands proud of the string: a gap of a station may be below zero. Waste may be less than nothing in a count. */
const ALLOWED = new Set([
  'stationDepthNm station gapNm -1000000',
  'piecesFrom fromNm -1000000',
  // Differences of lengths are shown and reckoned with.
  'nm lengthNm -1000000',
  'lengthText lengthNm -1000000',
  'lengthTextSpoken lengthNm -1000000',
]);

interface Refusal {
  readonly ok: false;
  readonly help?: string;
  readonly fault?: { readonly help: string };
}
const isRefusal = (given: unknown): given is Refusal =>
  typeof given === 'object' && given !== null && 'ok' in given && given.ok === false;

/** null stands for "not listed" where a function looks something up. */
function outcome(call: () => unknown): 'refused' | 'thrown' | 'answered' {
  try {
    const given = call();
    if (isRefusal(given)) expect(given.help ?? given.fault?.help).toMatch(/\w{3}/);
    return given === null || isRefusal(given) ? 'refused' : 'answered';
  } catch (fault) {
    expect(fault).toBeInstanceOf(RangeError);
    expect(String(fault)).toMatch(/\w{2}.* \w/);
    return 'thrown';
  }
}

describe.each(Object.entries(functions))('%s', (name, [given, call]) => {
  test('answers a good number', () => {
    expect(outcome(() => call(given))).toBe('answered');
  });

  test('refuses every impossible one with a reason', () => {
    const taken: string[] = [];
    for (const path of leavesOf(given)) {
      const leaf = String(path.findLast((step) => !/^\d+$/.test(String(step))));
      for (const value of impossible(leaf)) {
        const what = `${name} ${path.join(' ')} ${value}`;
        if (!ALLOWED.has(what) && outcome(() => call(withLeaf(given, path, value))) === 'answered') taken.push(what);
      }
    }
    expect(taken).toEqual([]);
  });
});

test('every public function of the arithmetic is tried here, or is named with the reason why not', () => {
  const folder = join(import.meta.dirname, '../../worker/wood');
  const ways = /^export (?:function (\w+)|const (\w+) = (?:<[^>]*>)?\([^()]*\)[^=;]*=>)/gm;
  const exported = readdirSync(folder).flatMap((file) =>
    [...readFileSync(join(folder, file), 'utf8').matchAll(ways)].map((found) => found[1] ?? found[2] ?? ''),
  );
  expect(exported.length).toBeGreaterThan(80);
  const known = new Set([...Object.keys(functions), ...Object.keys(withoutNumbers)]);
  expect(exported.filter((name) => !known.has(name))).toEqual([]);
  expect(daysBetween('2026-03-01', '2026-03-02')).toBe(1);
  for (const text of ['', '2026-02-30', 'yesterday']) expect(() => dayNumber(text)).toThrow(RangeError);
});
