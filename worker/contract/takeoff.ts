/** What a cut list needs of the wood, and what the yard has of it. Volumes are cubic metres and board feet, derived from exact sizes. */
import * as z from 'zod';
import * as s from './scalar.ts';

export const volume = z.strictObject({ m3: z.number(), boardFeet: z.number() });
export type Volume = z.output<typeof volume>;

/** The rough size that one layer or piece is cut to, before resting and planing. */
export const blankSize = z.strictObject({
  lengthNm: z.number().int(),
  widthNm: z.number().int(),
  thicknessNm: z.number().int(),
});

/** One kind of rough piece of a part: the part itself, a ply, or a stave. */
export const blankRow = z.strictObject({
  element: z.number().int().nullable(),
  what: z.enum(['solid', 'ply', 'stave']),
  count: z.number().int(),
  finished: blankSize,
  rough: blankSize,
  /** The rough thickness to look for, as it is called ("8/4"). */
  thicknessCall: z.string(),
  /** How many of them found no place on a free board. */
  missing: z.number().int(),
  /** Their gross wood. */
  short: volume,
  /** Where a part too wide for the stock could be glued up from it: so many staves for one copy, each of this rough width. */
  staves: z.strictObject({ count: z.number().int(), roughWidthNm: z.number().int() }).nullable(),
});
export type BlankRow = z.output<typeof blankRow>;

export const takeoffRow = z.strictObject({
  key: s.partKey,
  label: z.string(),
  quantity: z.number().int(),
  species: z.string(),
  blanks: z.array(blankRow),
  /** Finished wood. */
  net: volume,
  /** Blanks at their rough size. */
  rough: volume,
  /** Rough size with the shop's waste factor: what to have or buy. */
  gross: volume,
  /** Finished parts of this row, all copies, at the target moisture. */
  weightKg: z.number(),
  /** Gross wood of this row at the shop's price; null where no price is entered. */
  costMinor: z.number().int().nullable(),
  warnings: z.array(z.string()),
});
export type TakeoffRow = z.output<typeof takeoffRow>;

/** One line of the buying list: a species in one rough thickness. */
export const takeoffGroup = z.strictObject({
  species: z.string(),
  speciesName: z.string(),
  thicknessCall: z.string(),
  net: volume,
  rough: volume,
  gross: volume,
  /** Free stock of this species and thickness or thicker in boards that can give a blank of the group: long, wide, thick and flat enough for it, and dry enough. */
  inStock: volume,
  /** Of `inStock`: what stands in boards of a thicker call, planed down to this one. */
  inStockThicker: volume,
  /** As `inStock`, but not yet dry enough. */
  inStockWet: volume,
  /** Gross wood of the blanks that found no place. */
  short: volume,
  /** Whether a plan may still find room for what is short: nothing proves that it cannot. */
  mayStillFit: z.boolean(),
  toBuy: volume,
  /** All gross wood at the shop's price, whether it is in stock or not; null where no price is entered. */
  costMinor: z.number().int().nullable(),
  /** What is to buy at the shop's price: 0 where nothing is, null where the price is missing. */
  buyMinor: z.number().int().nullable(),
  longestBlankNm: z.number().int(),
  longestBoardNm: z.number().int().nullable(),
  widestBlankNm: z.number().int(),
  /** Moisture that it is sized for: the wettest that its part may be cut at. */
  widestBlankAtPercent: z.number(),
  /** Its width in wood that is at the shop's target moisture: what a plan may find enough. */
  widestBlankDryNm: z.number().int(),
  widestBoardNm: z.number().int().nullable(),
  warnings: z.array(z.string()),
});
export type TakeoffGroup = z.output<typeof takeoffGroup>;

export const takeoff = z.strictObject({
  jobId: s.jobId.nullable(),
  rows: z.array(takeoffRow),
  groups: z.array(takeoffGroup),
  total: z.strictObject({
    net: volume,
    rough: volume,
    gross: volume,
    toBuy: volume,
    weightKg: z.number(),
    /** The sum of what has a price; null where nothing has. */
    costMinor: z.number().int().nullable(),
    /** The same of what is to buy; 0 where nothing is. */
    buyMinor: z.number().int().nullable(),
    /** What both sums leave out, as it is bought ("black cherry 4/4"). */
    unpriced: z.array(z.string()),
  }),
  /** Every assumption that shaped the figures, in words, with its source or "common practice". */
  assumptions: z.array(z.string()),
});
export type Takeoff = z.output<typeof takeoff>;
