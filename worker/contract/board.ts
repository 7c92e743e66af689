/** A board and what is known of it. Faces are a and b; positions run along the length from the tagged end, and across from the left edge seen on face a. */
import * as z from 'zod';
import { limits } from './limits.ts';
import * as s from './scalar.ts';

/** shake: wood parted between or across its rings. gum: a streak or pocket of gum or pitch. sapwood: where it shows in a wood used for its heartwood. */
export const defectKind = z.enum([
  'knot-sound',
  'knot-loose',
  'split',
  'check',
  'wane',
  'saw-mark',
  'stain',
  'pith',
  'rot',
  'worm',
  'shake',
  'bark-pocket',
  'gum',
  'sapwood',
]);
export type DefectKind = z.output<typeof defectKind>;

/** A rectangle on one face, or through the board. */
export const defect = z
  .strictObject({
    kind: defectKind,
    face: z.enum(['a', 'b', 'through']),
    fromNm: s.offsetNm,
    toNm: s.offsetNm,
    leftNm: s.offsetNm,
    rightNm: s.offsetNm,
    note: s.text.optional(),
  })
  .refine((d) => d.fromNm < d.toNm && d.leftNm < d.rightNm, {
    message: 'a defect ends after it begins, along and across the board',
  });
export type Defect = z.output<typeof defect>;

/** Each figure is the deviation measured over the whole board. */
export const warp = z.strictObject({
  bowNm: s.offsetNm.default(0),
  crookNm: s.offsetNm.default(0),
  cupNm: s.offsetNm.default(0),
  twistNm: s.offsetNm.default(0),
  on: s.day.optional(),
});
export type Warp = z.output<typeof warp>;

/** One moisture reading. moisturePercent is the corrected value; rawPercent what the meter showed. */
export const reading = z.strictObject({
  moisturePercent: s.moisturePercent,
  rawPercent: s.moisturePercent.optional(),
  on: s.day,
  woodTemperatureC: z.number().min(-40).max(100).optional(),
  meter: z.enum(['pin', 'pinless', 'oven', 'unknown']).default('unknown'),
});
export type Reading = z.output<typeof reading>;

export const grain = z.enum(['flat', 'rift', 'quarter', 'unknown']);
export type Grain = z.output<typeof grain>;

/** What a person says of a board when it comes in. */
export const boardDraft = z.strictObject({
  tag: s.tag,
  species: s.species,
  lengthNm: s.lengthNm,
  widthNm: s.widthNm,
  thicknessNm: s.thicknessNm,
  /** The call in quarters as written ("8/4"), kept beside the measured thickness; taken from the thickness where that is written as a call. */
  thicknessCall: z.string().max(10).nullable().default(null),
  grain: grain.default('unknown'),
  grade: z.string().max(30).nullable().default(null),
  defects: z.array(defect).max(limits.defectsPerBoard).default([]),
  warp: warp.nullable().default(null),
  readings: z.array(reading).max(limits.readingsPerBoard).default([]),
  place: s.text.default(''),
  costMinor: s.minor.nullable().default(null),
  delivery: s.text.default(''),
  receivedOn: s.day.nullable().default(null),
  /** The unit the person measured in; sizes are shown back in it. */
  measuredIn: z.enum(['in', 'mm']).default('in'),
  note: s.text.default(''),
});
export type BoardDraft = z.output<typeof boardDraft>;

/**
 * A board as it is taken in. widthFarNm is the width at the far end of one that narrows, its left edge straight: what is
 * missing is kept as wane, which no part takes. offcut: it was cut off another board before the yard knew of either, so its
 * ends are sawn and it is used up first.
 */
export const boardRow = boardDraft
  .extend({ widthFarNm: s.widthNm.nullable().default(null), offcut: z.boolean().default(false) })
  .refine((row) => row.widthFarNm === null || row.widthFarNm <= row.widthNm, {
    path: ['widthFarNm'],
    message: 'no wider than the board: tag it at its wide end',
  });

export const boardOrigin = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('received') }),
  /** parentId: null where the board that it was cut from never was in this yard. */
  z.strictObject({ kind: z.literal('offcut'), parentId: s.boardId.nullable(), sessionId: s.sessionId.nullable() }),
  z.strictObject({ kind: z.literal('glued-up'), parentIds: z.array(s.boardId) }),
]);

export const boardState = z.enum(['in-stock', 'cut-up', 'written-off']);

/** A board as the yard holds it. version is the seq of the last movement that touched it. */
export const board = boardDraft.extend({
  id: s.boardId,
  state: boardState,
  origin: boardOrigin,
  version: s.seq,
});
export type Board = z.output<typeof board>;

/**
 * What may be corrected on a board afterwards. Only the fields given are changed. offcut: whether it is one that the yard did
 * not see being cut; what came off a board of the yard, or was glued up, stays what it is.
 */
export const boardPatch = z.strictObject({
  tag: s.tag.optional(),
  species: s.species.optional(),
  lengthNm: s.lengthNm.optional(),
  widthNm: s.widthNm.optional(),
  thicknessNm: s.thicknessNm.optional(),
  thicknessCall: z.string().max(10).nullable().optional(),
  grain: grain.optional(),
  grade: z.string().max(30).nullable().optional(),
  defects: z.array(defect).max(limits.defectsPerBoard).optional(),
  warp: warp.nullable().optional(),
  place: s.text.optional(),
  costMinor: s.minor.nullable().optional(),
  note: s.text.optional(),
  offcut: z.boolean().optional(),
});
export type BoardPatch = z.output<typeof boardPatch>;

/** A held run of a board, as shown beside it. */
export const held = z.strictObject({
  reservationId: s.reservationId,
  jobId: s.jobId,
  jobName: z.string(),
  fromNm: z.number().int(),
  toNm: z.number().int(),
  planId: s.planId.nullable(),
});
export type Held = z.output<typeof held>;

/** A board with who holds it: what lists and panels show. */
export const boardView = board.extend({ held: z.array(held) });
export type BoardView = z.output<typeof boardView>;
