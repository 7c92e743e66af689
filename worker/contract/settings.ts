/**
 * The shop's own figures. Every default is common practice without a source unless a source stands beside it;
 * the shop edits them and each answer says which were used.
 */
import * as z from 'zod';
import { allowances } from '../wood/rough.ts';
import { ownWoods } from './own-wood.ts';
import * as s from './scalar.ts';
import { stackAirs } from './stack-air.ts';

const IN = 25_400_000;
const allowance = (nm: number) => s.offsetNm.default(nm);

export const settings = z.strictObject({
  currency: z.string().length(3).default('USD'),
  shown: z.enum(['in', 'mm']).default('in'),
  /** Smallest fraction of an inch that the shop reads on its tape. */
  denominator: z.union([z.literal(8), z.literal(16), z.literal(32), z.literal(64)]).default(16),
  /** Rough allowances, added to the finished size. Common practice, no source. */
  allowances: z
    .strictObject({
      lengthNm: allowance(allowances.squareToLength.addNm),
      widthNm: allowance(allowances.finalRip.addNm),
      /** Planed off both faces together, up to 6/4 rough: 3/16 in, the difference of the grading S2S table. */
      thicknessNm: allowance(allowances.planeTwoFaces.addNm),
      /** As above for 8/4 and thicker: 1/4 in. */
      thicknessThickNm: allowance(allowances.planeTwoFacesThick.addNm),
      /** Added to a ply's or stave's thickness and width on top of nothing: they are planed to final size before the glue-up. */
      glueJointWidthNm: allowance(allowances.glueJoint.addNm),
      endTrimNm: allowance(allowances.endTrim.addNm),
    })
    .prefault({}),
  kerf: z.strictObject({ ripNm: s.offsetNm.default(IN / 8), crosscutNm: s.offsetNm.default(IN / 8) }).prefault({}),
  /** What the finished furniture will settle at, per cent. Wood Handbook FPL-GTR-190 Ch. 13: 8 % for most of the US, interior. */
  targetMoisturePercent: z.number().min(2).max(25).default(8),
  /** Highest moisture content at the saw by use. Common practice, no source. */
  moistureMax: z
    .strictObject({
      critical: s.moisturePercent.default(10),
      visible: s.moisturePercent.default(12),
      hidden: s.moisturePercent.default(15),
      layer: s.moisturePercent.default(10),
    })
    .prefault({}),
  /** Days stickered between roughing and final milling, by use. Common practice, no source. */
  restDays: z
    .strictObject({
      critical: z.number().int().min(0).max(365).default(7),
      visible: z.number().int().min(0).max(365).default(2),
      hidden: z.number().int().min(0).max(365).default(1),
    })
    .prefault({}),
  /** Hours in and after the clamps before a glue-up is milled. Common practice, no source: read the glue maker's sheet. */
  cureHours: z.number().min(0).max(1000).default(24),
  /** Smallest piece worth keeping and tagging. Common practice, no source. */
  offcutMin: z
    .strictObject({ lengthNm: s.offsetNm.default(IN * 12), widthNm: s.offsetNm.default(IN * 2) })
    .prefault({}),
  /** Price of stock to buy, in minor units a board foot, by species and thickness call; species alone is the fallback. */
  prices: z
    .array(
      z.strictObject({
        species: s.species,
        thicknessCall: z.string().max(10).nullable().default(null),
        minorPerBoardFoot: s.minorPerBoardFoot,
      }),
    )
    .max(500)
    .default([]),
  /** Gross wood for each rough board foot of blanks, at the called thickness. Common practice, no source: 1.3 for clear grades. */
  wasteFactor: z.number().min(1).max(5).default(1.3),
  /** Woods beside those of the table, or in place of them. */
  ownWoods,
  /** The air that stacks and racks stand in, for forecasts of drying. */
  stackAirs,
});
export type Settings = z.output<typeof settings>;
/** As a client sends it: what is left out takes the default. */
export type SettingsInput = z.input<typeof settings>;
