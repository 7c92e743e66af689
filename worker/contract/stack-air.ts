/** The air of the places where stock stands, as the shop wrote it down: what stickered stacks dry towards. */
import * as z from 'zod';
import * as s from './scalar.ts';

const HUMIDITY = 'relative humidity is from 0 to 100 %';
const TEMPERATURE = 'an air temperature from −30 to 100 °C';

export const stackAirs = z
  .array(
    z.strictObject({
      /** What a board's own place begins with; empty for every other place. */
      place: z.string().trim().max(80).default(''),
      relativeHumidityPercent: z.number({ error: HUMIDITY }).min(0, HUMIDITY).max(100, HUMIDITY),
      temperatureC: z.number({ error: TEMPERATURE }).min(-30, TEMPERATURE).max(100, TEMPERATURE),
      /** When it was measured. */
      on: s.day.nullable().default(null),
    }),
  )
  .max(100, '100 places at most')
  .default([])
  .superRefine((airs, context) => {
    airs.forEach((air, at) => {
      const first = airs.findIndex((other) => other.place.toLowerCase() === air.place.toLowerCase());
      if (first !== at) {
        context.addIssue({ code: 'custom', path: [at, 'place'], message: 'this place stands twice' });
      }
    });
  });
export type StackAir = z.output<typeof stackAirs>[number];
