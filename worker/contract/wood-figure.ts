/** The small values that the trade's arithmetic shares on the wire: sources, air, moisture, plots. */
import * as z from 'zod';
import type { Air } from '../wood/moisture.ts';
import type { SourceFlag } from '../wood/source.ts';
import type { defect } from './board.ts';
import * as s from './scalar.ts';

/** How far a figure may be trusted, and where it stands. A figure from memory or common practice names no document. */
export const source = z.strictObject({
  /** The figure that this is about: "shrinkage of white oak". */
  of: z.string(),
  flag: z.enum([
    'read',
    'second-hand',
    'reproduced',
    'group',
    'computed',
    'from-memory',
    'common-practice',
    'own',
  ] satisfies SourceFlag[]),
  words: z.string(),
  document: z.string().nullable(),
});
export type Source = z.output<typeof source>;

/** Beside every answer: where its figures come from, and what to know before relying on it. */
export const trust = { sources: z.array(source), notes: z.array(z.string()) };

export const moisturePercent = z
  .number()
  .min(0, 'moisture content is zero or more')
  .max(250, 'moisture content over 250 % is not wood');
/** In use, or as a target: below fibre saturation. */
export const moistureInUsePercent = z
  .number()
  .min(0, 'moisture content is zero or more')
  .max(30, 'wood in use stays below 30 %');
/** What drying stock shall come to. */
export const targetPercent = z.number().min(2, 'a target is from 2 to 30 %').max(30, 'a target is from 2 to 30 %');
export const relativeHumidityPercent = z
  .number()
  .min(0, 'relative humidity is from 0 to 100 %')
  .max(100, 'relative humidity is from 0 to 100 %');
const AIR_HELP = 'an air temperature from −30 to 100 °C (−22 to 212 °F)';
export const airTemperatureC = z.number().min(-30, AIR_HELP).max(100, AIR_HELP);
export const airTemperatureF = z.number().min(-22, AIR_HELP).max(212, AIR_HELP);

/** True where one of two fields is given, and not both. */
export const onlyOne = (one: unknown, other: unknown): boolean => (one === undefined) !== (other === undefined);

/** The air of a place: relative humidity, and temperature in one of the two scales. */
export const air = z
  .strictObject({
    relativeHumidityPercent,
    temperatureC: airTemperatureC.optional(),
    temperatureF: airTemperatureF.optional(),
  })
  .refine((a) => onlyOne(a.temperatureC, a.temperatureF), {
    path: ['temperatureC'],
    message: 'send temperatureC or temperatureF, one of the two',
  })
  .transform(
    (a): Air =>
      a.temperatureC === undefined
        ? { relativeHumidityPercent: a.relativeHumidityPercent, temperatureF: a.temperatureF ?? Number.NaN }
        : { relativeHumidityPercent: a.relativeHumidityPercent, temperatureC: a.temperatureC },
  );

/** How many alike. */
export const count = z.number().int('a whole number').min(1, 'at least one').max(500, '500 alike at most');
export const face = { lengthNm: s.lengthNm, widthNm: s.widthNm };
export const size = { ...face, thicknessNm: s.thicknessNm };
export const lengthOut = z.number().int();
/** The least and the most of a figure that comes as a range. */
export const range = z.tuple([z.number(), z.number()]);

/** Defects that lie on a board of these sizes; the first that does not is named. */
export function defectsOn(board: { lengthNm: number; widthNm: number; defects: readonly z.output<typeof defect>[] }) {
  const at = board.defects.findIndex((d) => d.toNm > board.lengthNm || d.rightNm > board.widthNm);
  const off = board.defects[at];
  if (!off) return null;
  return { path: ['defects', at, off.toNm > board.lengthNm ? 'toNm' : 'rightNm'], message: 'lies beyond the board' };
}

/**
 * A plot as data: whoever draws it chooses paper and ink. x counts days from `startsOn`, or months of a year where that
 * is null. A band is the likely range, a line a level (target, the air's EMC), a mark one measurement.
 */
export const plot = z.strictObject({
  title: z.string(),
  /** The same in words, for a screen reader. */
  description: z.string(),
  x: z.strictObject({
    label: z.string(),
    from: z.number(),
    to: z.number(),
    startsOn: s.day.nullable(),
    ticks: z.array(z.strictObject({ x: z.number(), text: z.string() })),
  }),
  y: z.strictObject({ label: z.string(), unit: z.enum(['%', 'nm']), from: z.number(), to: z.number() }),
  bands: z.array(
    z.strictObject({
      text: z.string(),
      points: z.array(z.strictObject({ x: z.number(), low: z.number(), high: z.number() })),
    }),
  ),
  curves: z.array(
    z.strictObject({ text: z.string(), points: z.array(z.strictObject({ x: z.number(), y: z.number() })) }),
  ),
  lines: z.array(z.strictObject({ text: z.string(), y: z.number() })),
  marks: z.array(z.strictObject({ text: z.string(), x: z.number(), y: z.number() })),
});
export type Plot = z.output<typeof plot>;
