/** A shop's own woods on the wire, with the ranges that wood keeps to. */
import * as z from 'zod';
import type { OwnWood } from '../wood/own-wood.ts';
import { woodKeyOf } from '../wood/species-naming.ts';

const name = z
  .string()
  .trim()
  .min(1, 'name the wood')
  .max(60)
  .refine((text) => woodKeyOf(text) !== '', 'name the wood in Latin letters');
const shrinks = (way: string) =>
  z
    .number({ error: `${way} shrinkage, per cent from green to oven-dry` })
    .min(0.5, `${way} shrinkage is from 0.5 to 25 %`)
    .max(25, `${way} shrinkage is from 0.5 to 25 %`);

const GRAVITY = 'specific gravity (oven-dry mass / green volume) is from 0.1 to 1.3';

const ownWood = z
  .strictObject({
    name,
    botanical: z.string().trim().max(80).default(''),
    alsoCalled: z.array(name).max(20).default([]),
    shrinkRadialPercent: shrinks('radial'),
    shrinkTangentialPercent: shrinks('tangential'),
    specificGravityGreen: z.number({ error: GRAVITY }).min(0.1, GRAVITY).max(1.3, GRAVITY),
  })
  .refine((wood) => wood.shrinkRadialPercent <= wood.shrinkTangentialPercent, {
    path: ['shrinkRadialPercent'],
    message: 'wood shrinks less across the growth rings (radial) than along them (tangential); swap the two',
  });

/** Two woods of one name could not be told apart. */
export const ownWoods = z
  .array(ownWood)
  .max(100, '100 own woods at most')
  .default([])
  .superRefine((woods: readonly OwnWood[], context) => {
    const seen = new Set<string>();
    woods.forEach((wood, at) => {
      const key = woodKeyOf(wood.name);
      if (seen.has(key)) {
        context.addIssue({ code: 'custom', path: [at, 'name'], message: `“${wood.name}” stands twice` });
      }
      seen.add(key);
    });
  });
