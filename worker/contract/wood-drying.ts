/** Bodies and answers about drying stock: one board's forecast, and what of the yard is ready by a day. */
import * as z from 'zod';
import { reading } from './board.ts';
import { drawing } from './drawing.ts';
import { limits } from './limits.ts';
import * as s from './scalar.ts';
import { air, plot, targetPercent, trust } from './wood-figure.ts';

export const dryingBody = z.strictObject({
  species: s.species.nullable().default(null),
  thicknessNm: s.thicknessNm,
  air,
  /** The shop's own when left out. */
  targetPercent: targetPercent.optional(),
  readings: z.array(reading).max(limits.readingsPerBoard).default([]),
  /** When it was stacked green; needed where there is no reading. */
  stackedOn: s.day.nullable().default(null),
});

/** Always a span of days, or ready, or never in this air. */
export const forecast = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('ready'), on: s.day, emcPercent: z.number() }),
  z.strictObject({
    kind: z.literal('range'),
    earliestOn: s.day,
    likelyOn: s.day,
    latestOn: s.day,
    emcPercent: z.number(),
    basis: z.enum(['readings', 'species-table']),
    from: z.strictObject({ moisturePercent: z.number(), on: s.day }),
    note: z.string(),
  }),
  z.strictObject({
    kind: z.literal('never'),
    emcPercent: z.number(),
    relativeHumidityBelowPercent: z.number(),
    note: z.string(),
  }),
]);
export type Forecast = z.output<typeof forecast>;

export const dryingAnswer = z.strictObject({
  targetPercent: z.number(),
  forecast,
  /** Readings, curve, likely range and target; null where there is neither a reading nor a forecast to draw. */
  plot: plot.nullable(),
  /** The plot drawn. */
  drawing: drawing.nullable(),
  ...trust,
});

export const dryingReadyBody = z.strictObject({
  by: s.day,
  /** What counts as ready, per cent; when left out, what the shop cuts seen parts at (settings.moistureMax.visible). */
  targetPercent: targetPercent.optional(),
  /** The air of each place, before those that the shop keeps; a board takes that of the longest place its own begins with. */
  airs: z
    .array(z.strictObject({ place: z.string().trim().min(1, 'name the place').max(limits.textChars), air }))
    .max(100)
    .default([]),
  /** The air of every other place. */
  otherAir: air.optional(),
});
/** One board's forecast, or that of boards of one wood and thickness that stand together. */
export const boardsDryingBody = z.strictObject({
  boardIds: z.array(s.boardId).min(1, 'name a board').max(limits.boardsPerReservation),
  /** The shop's own when left out. */
  targetPercent: targetPercent.optional(),
  /** That of their place, as the shop keeps it, when left out. */
  air: air.optional(),
});
export const boardsDryingAnswer = z.strictObject({
  targetPercent: z.number(),
  /** null where none is kept for the place: then there is no forecast either. */
  air: z.strictObject({ place: z.string(), relativeHumidityPercent: z.number(), temperatureC: z.number() }).nullable(),
  emcPercent: z.number().nullable(),
  forecast: forecast.nullable(),
  /** The forecast in words, or why there is none. */
  words: z.string(),
  /** The same for what counts as ready: dry enough for seen parts. */
  ready: z.strictObject({ percent: z.number(), forecast: forecast.nullable(), words: z.string() }),
  /** What the forecast rests on: of several boards, the mean of those read on a day. */
  readings: z.array(z.strictObject({ on: s.day, moisturePercent: z.number(), boards: z.number().int() })),
  drawing: drawing.nullable(),
  ...trust,
});

export const dryingReadyAnswer = z.strictObject({
  by: s.day,
  targetPercent: z.number(),
  boards: z.array(
    z.strictObject({
      boardId: s.boardId,
      tag: z.string(),
      species: z.string(),
      thicknessNm: z.number().int(),
      place: z.string(),
      lastPercent: z.number().nullable(),
      lastOn: s.day.nullable(),
      /** The most demanding parts that its last reading allows by the shop's figures: critical ones (anything), seen ones, hidden ones, none. */
      dryFor: z.enum(['critical', 'visible', 'hidden', 'wet', 'unknown']),
      /** ready now · surely, likely or possibly by the day · later · never in its air · unknown */
      stands: z.enum(['ready', 'surely', 'likely', 'possibly', 'later', 'never', 'unknown']),
      forecast: forecast.nullable(),
      why: z.string(),
    }),
  ),
  counts: z.strictObject({
    ready: z.number().int(),
    byThen: z.number().int(),
    later: z.number().int(),
    never: z.number().int(),
    unknown: z.number().int(),
  }),
  ...trust,
});
