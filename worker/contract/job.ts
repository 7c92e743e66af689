/** A commission, the rows of its cut list, and the pieces that each row asks for. */
import * as z from 'zod';
import { grain } from './board.ts';
import { limits } from './limits.ts';
import * as s from './scalar.ts';

/**
 * What a part is used for; it decides what the wood must be (design page, "How wood decides").
 * critical: long, straight, visible; dry stock, a rest after roughing. visible: seen, but forgiving.
 * hidden: casework that takes sound defects.
 */
export const useClass = z.enum(['critical', 'visible', 'hidden']);
export type UseClass = z.output<typeof useClass>;

/** What a part asks of its faces. sound-knots takes sound knots and stain; hidden also saw marks, worm and small checks. */
export const faces = z.enum(['clear-both', 'clear-one', 'sound-knots', 'hidden']);
export type Faces = z.output<typeof faces>;

/**
 * How a part is made of more than one piece of wood. plies: layers face to face, listed from face to face; a ply narrower
 * than the part, with its offset from the part's left edge, leaves a groove. staves: edge to edge across the width, equal widths.
 */
export const lamination = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('plies'),
    plies: z
      .array(z.strictObject({ thicknessNm: s.thicknessNm, widthNm: s.widthNm, offsetNm: s.offsetNm.default(0) }))
      .min(2)
      .max(limits.pliesPerPart),
  }),
  z.strictObject({ kind: z.literal('staves'), count: z.number().int().min(2).max(limits.stavesPerPart) }),
]);
export type Lamination = z.output<typeof lamination>;

/** A row of the cut list: finished sizes, what it is for, what it asks of the wood. */
export const part = z.strictObject({
  key: s.partKey,
  label: z.string().trim().min(1, 'a part needs a name').max(120),
  quantity: z.number().int('a whole number of pieces').min(1, 'at least one').max(limits.piecesPerPart),
  species: s.species,
  lengthNm: s.lengthNm,
  widthNm: s.widthNm,
  thicknessNm: s.thicknessNm,
  use: useClass.default('visible'),
  faces: faces.default('clear-one'),
  grain: grain.default('unknown'),
  lamination: lamination.nullable().default(null),
  /** Highest moisture content it may be cut at; null takes the shop's figure for its use. */
  moisturePercentMax: z.number().min(0).max(250).nullable().default(null),
  /** Parts with the same group should come from one board, for colour and grain. */
  matchGroup: z.string().max(40).nullable().default(null),
  shapeNote: s.text.default(''),
  measuredIn: z.enum(['in', 'mm']).default('in'),
});
export type Part = z.output<typeof part>;

export const pieceState = z.enum(['wanted', 'planned', 'roughed', 'passed', 'failed', 'glued-up', 'milled']);
export type PieceState = z.output<typeof pieceState>;

/**
 * One physical copy on its way. no counts the copies of a part from 1. element is null for the piece itself and the
 * index of the ply or stave for its layers; a solid part has only the piece itself. A failed piece stays, and a new one
 * with the next attempt is wanted in its place.
 */
export const piece = z.strictObject({
  no: z.number().int().min(1),
  element: z.number().int().min(0).nullable(),
  attempt: z.number().int().min(1),
  state: pieceState,
  boardId: s.boardId.nullable(),
  planId: s.planId.nullable(),
  sessionId: s.sessionId.nullable(),
  restingUntil: s.day.nullable(),
  curingUntilMs: s.atMs.nullable(),
  why: s.text,
});
export type Piece = z.output<typeof piece>;

export const partWithPieces = part.extend({ pieces: z.array(piece), version: s.seq });
export type PartWithPieces = z.output<typeof partWithPieces>;

export const jobDraft = z.strictObject({
  name: z.string().trim().min(1, 'a job needs a name').max(120),
  dueOn: s.day.nullable().default(null),
  note: s.text.default(''),
});
export type JobDraft = z.output<typeof jobDraft>;

export const job = jobDraft.extend({
  id: s.jobId,
  state: z.enum(['open', 'done', 'cancelled']),
  /** Counts the times that its cut list was set. */
  revision: z.number().int().min(0),
  version: s.seq,
});
export type Job = z.output<typeof job>;

export const jobPatch = z.strictObject({
  name: z.string().trim().min(1).max(120).optional(),
  dueOn: s.day.nullable().optional(),
  note: s.text.optional(),
  state: z.enum(['open', 'done', 'cancelled']).optional(),
});
export type JobPatch = z.output<typeof jobPatch>;

/** How many pieces of a job stand where; plies and staves are counted apart from whole pieces. */
export const standing = z.strictObject({
  pieces: z.partialRecord(pieceState, z.number().int()),
  layers: z.partialRecord(pieceState, z.number().int()),
});
export type Standing = z.output<typeof standing>;
export const jobView = job.extend({ standing, heldBoards: z.number().int() });
export type JobView = z.output<typeof jobView>;
export const jobWithParts = jobView.extend({ parts: z.array(partWithPieces) });
export type JobWithParts = z.output<typeof jobWithParts>;

/** One thing that can be done with a piece by hand, outside a cutting session. */
export const pieceStep = z.strictObject({
  partKey: s.partKey,
  no: z.number().int().min(1),
  element: z.number().int().min(0).nullable().default(null),
  /** wanted puts a planned or roughed piece back; glued-up needs all its layers passed. */
  to: z.enum(['wanted', 'passed', 'failed', 'glued-up', 'milled']),
  why: s.text.default(''),
});
export type PieceStep = z.output<typeof pieceStep>;
