/** Bodies and answers about how much wood there is: species, volume and tally, a delivery, weight, rough allowances. */
import * as z from 'zod';
import { limits } from './limits.ts';
import * as s from './scalar.ts';
import { count, face, lengthOut, moisturePercent, size, source, trust } from './wood-figure.ts';

const callText = z.string().trim().min(1, 'the call, such as 8/4').max(10);
/** Alike boards are measured one by one, so all of a request are few enough to do so. */
const PIECES_MAX = 20_000;
const notTooMany = (rows: readonly { count: number }[]) => rows.reduce((sum, r) => sum + r.count, 0) <= PIECES_MAX;
const tooMany = `${PIECES_MAX} pieces in one request at most`;

const wood = z.strictObject({
  key: z.string(),
  name: z.string(),
  botanical: z.string(),
  alsoCalled: z.array(z.string()),
  figuresFrom: z.enum(['wood-handbook', 'genus-means', 'own']),
  shrinkRadialPercent: z.number(),
  shrinkTangentialPercent: z.number(),
  /** null where none is published: taken as 26.5 × the gravity of green wood. */
  shrinkVolumetricPercent: z.number().nullable(),
  coefficientRadial: z.number(),
  coefficientTangential: z.number(),
  specificGravityGreen: z.number(),
  specificGravity12: z.number().nullable(),
  greenMoisturePercent: z.number().nullable(),
  /** Days for 1 in stock, green to 20 %, fewest and most; null where none are listed. */
  airDryingDays: z.tuple([z.number(), z.number()]).nullable(),
  sources: z.array(source),
});
export const speciesAnswer = z.strictObject({
  species: z.array(wood),
  /** Woods with a name and no figures that were found published: stock of them can be kept, and nothing reckoned. */
  withoutFigures: z.array(
    z.strictObject({ key: z.string(), name: z.string(), botanical: z.string(), alsoCalled: z.array(z.string()) }),
  ),
  notes: z.array(z.string()),
});

export const volumeBody = z
  .strictObject({
    boards: z
      .array(z.strictObject({ ...size, thicknessCall: callText.optional(), count: count.default(1) }))
      .max(limits.boardsPerIntake)
      .refine(notTooMany, tooMany)
      .default([]),
    softwood: z
      .array(
        z.strictObject({
          nominalThicknessInch: z.number(),
          nominalWidthInch: z.number(),
          surfaced: z.enum(['dry', 'green']).default('dry'),
          lengthNm: s.lengthNm,
          count: count.default(1),
        }),
      )
      .max(limits.boardsPerIntake)
      .refine(notTooMany, tooMany)
      .default([]),
  })
  .refine((b) => b.boards.length + b.softwood.length > 0, { path: ['boards'], message: 'no boards in the request' });

const volumes = {
  /** Wood really there. */
  volumeBf: z.number(),
  volumeM3: z.number(),
  /** As bought and sold. */
  tallyBf: z.number(),
};
export const volumeAnswer = z.strictObject({
  boards: z.array(
    z.strictObject({
      call: z.string(),
      dressedTwoSidesNm: lengthOut.nullable(),
      surfaceMeasureFt2: z.number().int(),
      count: z.number().int(),
      ...volumes,
    }),
  ),
  /** Boards of one call tallied together: surface measures added, times thickness, rounded to whole board feet. */
  bundles: z.array(
    z.strictObject({
      call: z.string(),
      count: z.number().int(),
      surfaceMeasureFt2: z.number().int(),
      tallyBf: z.number().int(),
    }),
  ),
  softwood: z.array(
    z.strictObject({ thicknessNm: lengthOut, widthNm: lengthOut, count: z.number().int(), ...volumes }),
  ),
  total: z.strictObject(volumes),
  ...trust,
});

export const deliveryBody = z.strictObject({
  boards: z
    .array(z.strictObject({ ...face, thicknessCall: callText, count: count.default(1) }))
    .min(1, 'no boards in the request')
    .max(limits.boardsPerIntake)
    .refine(notTooMany, tooMany),
  statedBf: z.number().min(0, 'board feet are zero or more').max(1_000_000),
  minorPerBoardFoot: s.minorPerBoardFoot.nullable().default(null),
});
export const deliveryAnswer = z.strictObject({
  tallyBf: z.number(),
  exactBf: z.number(),
  statedBf: z.number(),
  overstatedBf: z.number(),
  overstatedPercent: z.number(),
  overstatedMinor: z.number().int().nullable(),
  currency: z.string(),
  words: z.string(),
  ...trust,
});

/** The boards of one delivery as they stand in the yard. */
export const checkDeliveryBody = z.strictObject({
  delivery: z.string().trim().min(1, 'name the delivery as it stands on its boards').max(limits.textChars),
  statedBf: z.number().min(0, 'board feet are zero or more').max(1_000_000).optional(),
  minorPerBoardFoot: s.minorPerBoardFoot.nullable().default(null),
});
const gradeRow = z.strictObject({
  boardId: s.boardId,
  tag: z.string(),
  call: z.string(),
  surfaceMeasureFt2: z.number().int(),
  /** As written on the board; null where nothing is, or nothing that is a grade. */
  paid: z.string().nullable(),
  /** By its measured defects. */
  made: z.string(),
  /** null where no grade was paid for, or no defect was measured. */
  reached: z.boolean().nullable(),
  why: z.string(),
});
export const checkDeliveryAnswer = z.strictObject({
  delivery: z.string(),
  boards: z.number().int(),
  /** null where the bill's board feet were not sent. */
  tally: z
    .strictObject({
      tallyBf: z.number(),
      exactBf: z.number(),
      statedBf: z.number(),
      overstatedBf: z.number(),
      overstatedPercent: z.number(),
      overstatedMinor: z.number().int().nullable(),
      currency: z.string(),
      words: z.string(),
    })
    .nullable(),
  tallyBf: z.number(),
  grades: z.array(gradeRow),
  /** Boards that fall short of their paid grade, and what they tally. */
  short: z.strictObject({ boards: z.number().int(), tallyBf: z.number() }),
  gradeWords: z.string(),
  ...trust,
});

export const weightBody = z.strictObject({
  pieces: z
    .array(
      z.strictObject({
        label: s.text.default(''),
        species: s.species,
        moisturePercent,
        ...size,
        count: count.default(1),
      }),
    )
    .min(1, 'no pieces in the request')
    .max(limits.partsPerJob),
  /** What the van or trailer may carry. */
  payloadKg: z.number().positive('a payload is more than zero').max(100_000).optional(),
});
export const weightAnswer = z.strictObject({
  pieces: z.array(
    z.strictObject({
      label: z.string(),
      species: z.string(),
      densityKgPerM3: z.number(),
      pieceKg: z.number(),
      pieceLb: z.number(),
      totalKg: z.number(),
      /** One person lifts no more than 23 kg. */
      liftAlone: z.boolean(),
    }),
  ),
  totalKg: z.number(),
  totalLb: z.number(),
  /** Loads for the payload given: at least so many; null without one, or where one piece is too heavy. */
  loads: z.number().int().nullable(),
  ...trust,
});

export const allowancesBody = z.strictObject({ finished: z.strictObject(size).optional() });
export const allowancesAnswer = z.strictObject({
  allowances: z.array(
    z.strictObject({
      operation: z.string(),
      axis: z.enum(['length', 'width', 'thickness']),
      per: z.string(),
      addNm: lengthOut,
      rangeNm: z.tuple([lengthOut, lengthOut]).nullable(),
      source,
    }),
  ),
  kerfs: z.array(
    z.strictObject({
      saw: z.string(),
      kerfNm: lengthOut,
      rangeNm: z.tuple([lengthOut, lengthOut]).nullable(),
      source,
    }),
  ),
  /** What this shop adds and its blades take: its own figures, or the defaults it left as they are. */
  shop: z.strictObject({
    lengthNm: lengthOut,
    widthNm: lengthOut,
    thicknessNm: lengthOut,
    thicknessThickNm: lengthOut,
    glueJointWidthNm: lengthOut,
    endTrimNm: lengthOut,
    ripKerfNm: lengthOut,
    crosscutKerfNm: lengthOut,
  }),
  /** The finished size with the common-practice allowances; null where none was sent. */
  roughByDefault: z.strictObject({ lengthNm: lengthOut, widthNm: lengthOut, thicknessNm: lengthOut }).nullable(),
  ...trust,
});
