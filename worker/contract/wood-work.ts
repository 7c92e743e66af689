/** Bodies and answers about working the wood: what a warped board still gives, its grade, the glue-up. */
import * as z from 'zod';
import { defect, grain, warp } from './board.ts';
import { drawing } from './drawing.ts';
import { limits } from './limits.ts';
import { rect } from './plan.ts';
import * as s from './scalar.ts';
import { defectsOn, face, lengthOut, moisturePercent, range, size, targetPercent, trust } from './wood-figure.ts';

/** Where the board stands proud of the string, as in an S curve: whole nanometres below zero. */
const proudNm = z.number().int().min(-limits.thicknessNmMax).max(-1);

const beyond = (what: string) => `${what} lies beyond the board`;

export const warpBody = z
  .strictObject({
    ...size,
    warp: warp.prefault({}),
    /** Crosscut and ripped roughly from the board; fromNm matters for a kink and for stations. */
    pieces: z
      .array(z.strictObject({ ...face, fromNm: s.offsetNm.default(0) }))
      .max(200)
      .default([]),
    /** A sharp bend of the edge. */
    kink: z.strictObject({ gapNm: s.offsetNm, atNm: s.lengthNm }).optional(),
    /** Gaps to a string along the edge (crook) or the face (bow), in place of the one figure. */
    stations: z
      .strictObject({
        form: z.enum(['bow', 'crook']),
        places: z
          .array(z.strictObject({ atNm: s.offsetNm, gapNm: s.offsetNm.or(proudNm) }))
          .min(2, 'at least two places along the board')
          .max(50),
      })
      .optional(),
    /** What a piece must still have once flat and straight. */
    need: z.strictObject({ thicknessNm: s.thicknessNm, widthNm: s.widthNm.optional() }).optional(),
    cleanupFacesNm: s.offsetNm.optional(),
    cleanupEdgeNm: s.offsetNm.optional(),
    /** For stock that still dries: how its crook will likely grow. */
    drying: z.strictObject({ nowPercent: moisturePercent, targetPercent }).optional(),
  })
  .superRefine((b, context) => {
    const issue = (path: PropertyKey[], message: string) => context.addIssue({ code: 'custom', path, message });
    b.pieces.forEach((piece, at) => {
      if (piece.fromNm + piece.lengthNm > b.lengthNm) issue(['pieces', at, 'lengthNm'], beyond('the piece'));
      if (piece.widthNm > b.widthNm) issue(['pieces', at, 'widthNm'], beyond('the piece'));
    });
    if (b.kink && b.kink.atNm >= b.lengthNm) issue(['kink', 'atNm'], beyond('the kink'));
    b.stations?.places.forEach((place, at) => {
      if (place.atNm > b.lengthNm) issue(['stations', 'places', at, 'atNm'], beyond('the place'));
    });
  });

const gives = {
  lengthNm: lengthOut,
  /** Once flat and straight. */
  thicknessNm: lengthOut,
  widthNm: lengthOut,
  lostThicknessNm: lengthOut,
  lostWidthNm: lengthOut,
  /** Whether it keeps what is needed; null where no need was sent. */
  enough: z.boolean().nullable(),
};
const warpOut = z.strictObject({ bowNm: z.number(), crookNm: z.number(), cupNm: z.number(), twistNm: z.number() });
export const warpAnswer = z.strictObject({
  whole: z.strictObject(gives),
  pieces: z.array(z.strictObject({ ...gives, fromNm: lengthOut, warp: warpOut })),
  /** The board crosscut into so many equal lengths at its full width, the worst of them. */
  crosscut: z.array(z.strictObject({ count: z.number().int(), ...gives })),
  /** The longest length at full width that still gives what is needed; null without a need, or where none does. */
  longestNm: lengthOut.nullable(),
  /** Likely at the target; null where it is not asked, or at 50 % and wetter. */
  likelyCrookNm: lengthOut.nullable(),
  ...trust,
});

export const hardwoodGrade = z.enum(['FAS', 'F1F', 'Selects', 'No.1C', 'No.2A', 'No.3A', 'below No.3A']);
export const gradeBody = z
  .strictObject({
    tag: s.tag.default('board'),
    ...face,
    defects: z.array(defect).max(limits.defectsPerBoard).default([]),
    /** The grade on the bill. */
    gradePaid: hardwoodGrade.optional(),
  })
  .superRefine((b, context) => {
    const off = defectsOn(b);
    if (off) context.addIssue({ code: 'custom', ...off });
  });
/** A board of the yard; the grade on the bill is its own where none is sent. */
export const gradeBoardBody = z.strictObject({ gradePaid: hardwoodGrade.optional() });

const faceAdvice = z.strictObject({
  face: z.enum(['a', 'b']),
  grade: z.enum(['FAS', 'No.1C', 'No.2A', 'No.3A']).nullable(),
  units: z.number(),
  need: z.strictObject({ cuttings: z.number().int(), units: z.number(), fullWidth: z.boolean() }).nullable(),
  cuttings: z.array(rect.extend({ units: z.number() })),
  drawing,
});
export const gradeAnswer = z.strictObject({
  grade: hardwoodGrade,
  surfaceMeasureFt2: z.number().int(),
  better: faceAdvice,
  poorer: faceAdvice,
  paid: z.strictObject({ grade: hardwoodGrade, reached: z.boolean() }).nullable(),
  ...trust,
});

const SHOP_TEMPERATURE = 'the temperature of room and wood, from −30 to 60 °C';
const CLAMPS = 'clamps at hand: a whole number, from 1 to 1000';
const minutes = z.number().positive('minutes are more than zero').max(1000);
/** What a shop knows of its glue, clamps and wood before a glue-up. Figures of the glue maker's sheet replace ours. */
const gluing = {
  adhesive: z.enum(['pva', 'polyurethane', 'urea-formaldehyde', 'epoxy', 'resorcinol']).default('pva'),
  spreadGPerM2: z.number().positive('a spread is more than zero').max(2000).optional(),
  pressureKPa: z.number().positive('a pressure is more than zero').max(10_000).optional(),
  openMinutes: minutes.optional(),
  spreadMinutesPerJoint: z.number().min(0.01, 'a joint takes at least 0.01 minutes to spread').max(1000).optional(),
  /** To set all clamps once the last joint is spread. */
  clampMinutes: minutes.optional(),
  bottleMl: z.number().positive('a bottle holds more than nothing').max(1_000_000).optional(),
  /** One clamp, measured on the shop's own. */
  clampForceN: z.number().min(1, 'a clamp presses').max(1_000_000).optional(),
  clampForceLbf: z.number().min(1, 'a clamp presses').max(200_000).optional(),
  clampsAtHand: z.number().int(CLAMPS).min(1, CLAMPS).max(1000, CLAMPS).optional(),
  /** Between the clamp's pad and the wood. */
  caulNm: s.offsetNm.default(0),
  temperatureC: z.number().min(-30, SHOP_TEMPERATURE).max(60, SHOP_TEMPERATURE).optional(),
  hoursSincePlaned: z.number().min(0, 'hours are zero or more').max(100_000).optional(),
};
const oneForce = (b: { clampForceN?: number | undefined; clampForceLbf?: number | undefined }) =>
  b.clampForceN === undefined || b.clampForceLbf === undefined;
const twoForces = { path: ['clampForceN'], message: 'send clampForceN or clampForceLbf, not both' };

export const glueUpBody = z
  .strictObject({
    ...gluing,
    species: s.species,
    ...size,
    copies: z.number().int().min(1).max(limits.piecesPerPart).default(1),
    /** Face to face, out of stock that planes to this at most… */
    plyThicknessNmMax: s.thicknessNm.optional(),
    /** …or edge to edge, so many boards wide. */
    staves: z.number().int().min(2, 'two boards at least').max(limits.stavesPerPart).optional(),
    /** Of each piece, corrected. */
    moisturePercents: z.array(moisturePercent).max(100).default([]),
  })
  .refine((b) => (b.plyThicknessNmMax === undefined) !== (b.staves === undefined), {
    path: ['plyThicknessNmMax'],
    message: 'send plyThicknessNmMax (face to face) or staves (edge to edge)',
  })
  .refine((b) => b.plyThicknessNmMax === undefined || b.plyThicknessNmMax >= 500_000, {
    path: ['plyThicknessNmMax'],
    message: 'a ply is at least 0.5 mm',
  })
  .refine((b) => b.plyThicknessNmMax === undefined || b.thicknessNm <= 100 * b.plyThicknessNmMax, {
    path: ['plyThicknessNmMax'],
    message: 'that is over 100 plies; is the unit right?',
  })
  .refine(oneForce, twoForces);

const clampCount = z.strictObject({
  count: z.number().int(),
  byForce: z.number().int(),
  bySpacing: z.number().int(),
  forceN: z.number(),
  reachedKPa: z.number(),
});
/** What the glue-up of one part needs, all its copies together. */
const needs = {
  copies: z.number().int(),
  elements: z.array(z.strictObject({ thicknessNm: lengthOut, widthNm: lengthOut })),
  glueLinesPerPiece: z.number().int(),
  glueLineAreaM2: z.number(),
  spreadGPerM2: range,
  glueG: range,
  glueMl: range,
  bottles: z.number().int().nullable(),
  /** For one piece, at the least and the most pressure; null where contact is enough or the clamps are not known. */
  pressureKPa: range.nullable(),
  clamps: z.strictObject({ least: clampCount, most: clampCount }).nullable(),
  /** What the clamps at hand reach on one piece. */
  reachedKPa: z.number().nullable(),
  clampHours: range,
  batches: z
    .strictObject({
      count: z.number().int(),
      /** Glue lines to close at once, batch by batch, within the open time. */
      glueLines: z.array(z.number().int()),
      /** Pieces that the clamps at hand hold at once. */
      piecesAtOnce: z.number().int().nullable(),
    })
    .nullable(),
  /** Why there are no batches to tell. */
  batchesWhy: z.string().nullable(),
  /** Of its layers; with several copies, of the one whose layers read furthest apart. */
  moisture: z
    .strictObject({ driestPercent: z.number(), wettestPercent: z.number(), apartPoints: z.number() })
    .nullable(),
};
const checklist = z.array(
  z.strictObject({ check: z.string(), met: z.boolean().nullable(), detail: z.string(), source: z.string() }),
);
export const glueUpAnswer = z.strictObject({ ...needs, checklist, cautions: z.array(z.string()), ...trust });

export const glueUpJobBody = z.strictObject(gluing).refine(oneForce, twoForces);
export const glueUpJobAnswer = z.strictObject({
  parts: z.array(
    z.strictObject({
      partKey: s.partKey,
      label: z.string(),
      kind: z.enum(['plies', 'staves']),
      ...needs,
      /** Pieces whose wood is known, with how far apart its layers' boards are. */
      pieces: z.array(
        z.strictObject({
          no: z.number().int(),
          boards: z.array(z.strictObject({ tag: z.string(), moisturePercent: z.number().nullable(), grain })),
          apartPoints: z.number().nullable(),
        }),
      ),
      /** The end of one piece: its plies or staves with the way their rings may run. */
      drawing,
      checklist,
    }),
  ),
  glueMl: range,
  bottles: z.number().int().nullable(),
  cautions: z.array(z.string()),
  ...trust,
});
