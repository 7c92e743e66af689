/** Bodies and answers about moisture: the air's EMC, weighing, meters, shrinkage, movement through the year. */
import * as z from 'zod';
import { grain } from './board.ts';
import { drawing } from './drawing.ts';
import * as s from './scalar.ts';
import {
  air,
  airTemperatureC,
  airTemperatureF,
  lengthOut,
  moistureInUsePercent,
  moisturePercent,
  onlyOne,
  plot,
  relativeHumidityPercent,
  trust,
} from './wood-figure.ts';

export const emcBody = z
  .strictObject({
    temperatureC: airTemperatureC.optional(),
    temperatureF: airTemperatureF.optional(),
    relativeHumidityPercent: relativeHumidityPercent.optional(),
    emcPercent: moistureInUsePercent.optional(),
  })
  .refine((b) => onlyOne(b.temperatureC, b.temperatureF), {
    path: ['temperatureC'],
    message: 'send temperatureC or temperatureF, one of the two',
  })
  .refine((b) => onlyOne(b.relativeHumidityPercent, b.emcPercent), {
    path: ['relativeHumidityPercent'],
    message: 'send relativeHumidityPercent to learn the EMC, or emcPercent to learn the humidity it needs',
  });
export const emcAnswer = z.strictObject({
  emcPercent: z.number(),
  relativeHumidityPercent: z.number(),
  /** What interior wood settles at, by region. */
  interiorTargets: z.array(z.strictObject({ region: z.string(), moisturePercent: z.number() })),
  ...trust,
});

const kg = z.number().positive('a weight is more than zero').max(100_000);
export const weighingBody = z
  .strictObject({
    wetKg: kg.optional(),
    ovenDryKg: kg.optional(),
    /** A board weighed when a section of it was oven-dried, and weighed again now. */
    sample: z.strictObject({ weighedKg: kg, moisturePercent, nowKg: kg }).optional(),
    /** As firewood and chips are sold. */
    wetBasisPercent: z.number().min(0, 'zero or more').lt(100, 'on the wet basis moisture is under 100 %').optional(),
    /** For the most water that it can hold, and at what moisture it sinks. */
    species: s.species.optional(),
  })
  .refine((b) => (b.wetKg === undefined) === (b.ovenDryKg === undefined), {
    path: ['ovenDryKg'],
    message: 'wetKg and ovenDryKg go together',
  })
  .refine((b) => b.wetKg === undefined || b.ovenDryKg === undefined || b.wetKg >= b.ovenDryKg, {
    path: ['wetKg'],
    message: 'wet wood weighs no less than oven-dry',
  })
  .refine((b) => Object.values(b).some((value) => value !== undefined), {
    path: ['wetKg'],
    message: 'send wetKg and ovenDryKg, a sample, wetBasisPercent or a species',
  });
export const weighingAnswer = z.strictObject({
  moisturePercent: z.number().nullable(),
  sample: z.strictObject({ ovenDryKg: z.number(), moisturePercent: z.number() }).nullable(),
  dryBasisPercent: z.number().nullable(),
  moistureMaxPercent: z.number().nullable(),
  sinkingMoisturePercent: z.number().nullable(),
  ...trust,
});

const FIT_A = 'the fit’s slope is from 0.1 to 10, 1 for Douglas-fir';
const FIT_B = 'the fit’s offset is from −20 to 20, 0 for Douglas-fir';
const WOOD_TEMPERATURE = 'the wood’s temperature, from −40 to 100 °C (−40 to 212 °F)';
export const meterBody = z
  .strictObject({
    readingPercent: moisturePercent,
    meter: z.enum(['pin', 'pinless', 'oven', 'unknown']).default('pin'),
    woodTemperatureC: z.number().min(-40, WOOD_TEMPERATURE).max(100, WOOD_TEMPERATURE).optional(),
    woodTemperatureF: z.number().min(-40, WOOD_TEMPERATURE).max(212, WOOD_TEMPERATURE).optional(),
    /** From the meter's own sheet; near 21 °C (70 °F) for most. */
    calibrationC: z.number().min(-40, WOOD_TEMPERATURE).max(100, WOOD_TEMPERATURE).optional(),
    /** Constants of the wood in the published fit, from the meter's or the standard's table. */
    fit: z
      .strictObject({ a: z.number().min(0.1, FIT_A).max(10, FIT_A), b: z.number().min(-20, FIT_B).max(20, FIT_B) })
      .optional(),
  })
  .refine((b) => b.meter === 'oven' || b.readingPercent <= 100, {
    path: ['readingPercent'],
    message: 'a meter shows 0 to 100 %',
  })
  .refine((b) => b.woodTemperatureC === undefined || b.woodTemperatureF === undefined, {
    path: ['woodTemperatureC'],
    message: 'send woodTemperatureC or woodTemperatureF, not both',
  });
export const meterAnswer = z.strictObject({
  readingPercent: z.number(),
  trust: z.enum(['measured', 'qualitative-wet', 'qualitative-dry']),
  trustWords: z.string(),
  /** By the rule of thumb; null where there is nothing to correct. */
  correctedPercent: z.number().nullable(),
  /** By the published fit; null as above. */
  fittedPercent: z.number().nullable(),
  ...trust,
});

export const shrinkageBody = z
  .strictObject({
    species: s.species,
    grain: grain.default('unknown'),
    /** Growth rings to the wide face, 0 flat-sawn to 90 quarter-sawn: closer than `grain`, which it replaces. */
    ringDegrees: z.number().min(0, 'from 0 to 90 degrees').max(90, 'from 0 to 90 degrees').optional(),
    axis: z.enum(['length', 'width', 'thickness']).default('width'),
    fromPercent: moisturePercent,
    toPercent: moisturePercent,
    /** The size at fromPercent… */
    nowNm: s.lengthNm.optional(),
    /** …or the size that it shall have at toPercent. */
    laterNm: s.lengthNm.optional(),
  })
  .refine((b) => onlyOne(b.nowNm, b.laterNm), {
    path: ['nowNm'],
    message: 'send nowNm to learn the size later, or laterNm to learn what to cut now',
  });
export const shrinkageAnswer = z.strictObject({
  nowNm: lengthOut,
  laterNm: lengthOut,
  /** Later less now. */
  changeNm: lengthOut,
  shrinkPercent: z.number(),
  /** By the dimensional change coefficient: only from 6 to 14 %, for flat-sawn and quarter-sawn wood. */
  laterByCoefficientNm: lengthOut.nullable(),
  ...trust,
});

export const movementBody = z
  .strictObject({
    species: s.species,
    grain: grain.default('unknown'),
    madePercent: moistureInUsePercent,
    /** Lowest and highest of the year in the place; the country's interiors when left out. */
    lowPercent: moistureInUsePercent.optional(),
    highPercent: moistureInUsePercent.optional(),
    /** Or its air, month by month from January. */
    monthAirs: z.array(air).length(12, 'the air of twelve months, from January').optional(),
    /** A solid panel or top across the grain. */
    widthNm: s.widthNm.optional(),
    /** Between the stiles of a frame, for a floating panel. */
    panelOpeningNm: s.widthNm.optional(),
    /** Height of a drawer's opening. */
    drawerOpeningNm: s.widthNm.optional(),
    /** A screw through a slot that lets a top move. */
    slot: z.strictObject({ fromFixedNm: s.widthNm, screwNm: s.thicknessNm }).optional(),
  })
  .refine((b) => (b.lowPercent === undefined) === (b.highPercent === undefined), {
    path: ['lowPercent'],
    message: 'lowPercent and highPercent go together',
  })
  .refine((b) => b.lowPercent === undefined || b.highPercent === undefined || b.lowPercent <= b.highPercent, {
    path: ['lowPercent'],
    message: 'the lowest of the year is not above the highest',
  })
  .refine((b) => b.lowPercent === undefined || b.monthAirs === undefined, {
    path: ['monthAirs'],
    message: 'send lowPercent and highPercent, or monthAirs',
  })
  .refine((b) => [b.widthNm, b.panelOpeningNm, b.drawerOpeningNm, b.slot].some((value) => value !== undefined), {
    path: ['widthNm'],
    message: 'send widthNm, panelOpeningNm, drawerOpeningNm or slot',
  });
const moves = z.strictObject({
  smallestNm: lengthOut,
  largestNm: lengthOut,
  shrinksNm: lengthOut,
  growsNm: lengthOut,
});
export const movementAnswer = z.strictObject({
  season: z.strictObject({ madePercent: z.number(), lowPercent: z.number(), highPercent: z.number() }),
  shrinkPercent: z.number(),
  width: moves.nullable(),
  panel: z.strictObject({ panelNm: lengthOut, grooveDepthNm: lengthOut, gapWhenMadeNm: lengthOut, moves }).nullable(),
  drawer: z.strictObject({ heightNm: lengthOut, gapWhenMadeNm: lengthOut }).nullable(),
  slotLengthNm: lengthOut.nullable(),
  /** The size through the year, of the width, the panel or the drawer. */
  year: plot.nullable(),
  /** The same drawn. */
  drawing: drawing.nullable(),
  ...trust,
});
