/** Holding boards for a job, going to the saw, and writing down what really happened there. */
import * as z from 'zod';
import { defect } from './board.ts';
import { limits } from './limits.ts';
import * as s from './scalar.ts';

export const reservation = z.strictObject({
  id: s.reservationId,
  jobId: s.jobId,
  boardId: s.boardId,
  /** The run of the board's length that is held; 0 to its full length for the whole board. */
  fromNm: z.number().int(),
  toNm: z.number().int(),
  planId: s.planId.nullable(),
  madeAtMs: s.atMs,
  version: s.seq,
});
export type Reservation = z.output<typeof reservation>;
export const reservationView = reservation.extend({ tag: z.string(), jobName: z.string(), whole: z.boolean() });
export type ReservationView = z.output<typeof reservationView>;

/** Boards named by id or by tag; a run of the length, or the whole board when no run is given. All or nothing. */
export const reserveRequest = z.strictObject({
  jobId: s.jobId,
  boards: z
    .array(
      z.strictObject({
        boardId: s.boardId.optional(),
        tag: s.tag.optional(),
        fromNm: s.offsetNm.optional(),
        toNm: s.offsetNm.optional(),
      }),
    )
    .min(1, 'name at least one board')
    .max(limits.boardsPerReservation),
});
export type ReserveRequest = z.output<typeof reserveRequest>;

/** whole holds every board of the plan; runs holds only the length up to the last piece where a crosscut frees the rest. */
export const reservePlanRequest = z.strictObject({ how: z.enum(['whole', 'runs']).default('whole') });

export const session = z.strictObject({
  id: s.sessionId,
  jobId: s.jobId,
  planId: s.planId,
  boardIds: z.array(s.boardId),
  state: z.enum(['open', 'closed']),
  openedAtMs: s.atMs,
  /** Boards already reconciled. */
  doneBoardIds: z.array(s.boardId),
  version: s.seq,
});
export type Session = z.output<typeof session>;

/** Only these boards of the plan; all of its not yet cut boards when left out. */
export const openSessionRequest = z.strictObject({
  boardIds: z.array(s.boardId).min(1).max(limits.boardsPerPlan).optional(),
});

export const offcutDraft = z.strictObject({
  tag: s.tag,
  lengthNm: s.lengthNm,
  widthNm: s.widthNm,
  /** The parent's thickness when left out. */
  thicknessNm: s.thicknessNm.optional(),
  place: s.text.default(''),
  defects: z.array(defect).max(limits.defectsPerBoard).default([]),
  note: s.text.default(''),
});
export type OffcutDraft = z.output<typeof offcutDraft>;

/** Pieces of one part (or of one of its layers) that came out of a board. */
export const cutResult = z.strictObject({
  partKey: s.partKey,
  element: z.number().int().min(0).nullable().default(null),
  good: z.number().int().min(0).max(limits.piecesPerPart),
  failed: z.number().int().min(0).max(limits.piecesPerPart).default(0),
  why: s.text.default(''),
  /** Rough size where it differs from the plan's. */
  lengthNm: s.lengthNm.optional(),
  widthNm: s.widthNm.optional(),
});
export type CutResult = z.output<typeof cutResult>;

/** What became of one board. Kerf and scrap are worked out when left out: kerf as planned, scrap as the rest. */
export const boardOutcome = z.discriminatedUnion('as', [
  /** Everything came out as planned. tags names the planned offcuts in the plan's order; made from the board's tag when left out. */
  z.strictObject({
    as: z.literal('planned'),
    boardId: s.boardId,
    tags: z.array(s.tag).max(limits.piecesPerPart).optional(),
    place: s.text.default(''),
  }),
  /**
   * As planned, but for the strips that are the reserve of demanding parts: those lie whole, tagged as offcuts and held for
   * the job, and their own pieces are wanted again until a plan cuts them.
   */
  z.strictObject({ as: z.literal('reserve-kept'), boardId: s.boardId, place: s.text.default('') }),
  z.strictObject({ as: z.literal('untouched'), boardId: s.boardId, why: s.text.default('') }),
  z.strictObject({
    as: z.literal('cut'),
    boardId: s.boardId,
    parts: z.array(cutResult).max(200),
    offcuts: z.array(offcutDraft).max(50).default([]),
    /** Exact cubic nanometres as decimal digits, because they pass 2^53. */
    kerfNm3: z
      .string()
      .regex(/^\d{1,40}$/)
      .optional(),
    scrapNm3: z
      .string()
      .regex(/^\d{1,40}$/)
      .optional(),
    defectsFound: z.array(defect).max(limits.defectsPerBoard).default([]),
    note: s.text.default(''),
  }),
  z.strictObject({
    as: z.literal('written-off'),
    boardId: s.boardId,
    why: z.string().min(1, 'say why').max(limits.textChars),
  }),
]);
export type BoardOutcome = z.output<typeof boardOutcome>;

export const reconcileRequest = z.strictObject({
  /** Every open board of the session as planned; boards lists the exceptions. */
  restAsPlanned: z.boolean().default(false),
  boards: z.array(boardOutcome).max(limits.boardsPerReservation).default([]),
  /** Take more good pieces than are wanted as spares; refused with a warning otherwise. */
  allowExtra: z.boolean().default(false),
});
export type ReconcileRequest = z.output<typeof reconcileRequest>;

/** An offcut that came into the stock. An answer remembered from before sizes were told has none. */
export const offcutMade = z.strictObject({
  id: s.boardId,
  tag: z.string(),
  size: z
    .strictObject({ lengthNm: z.number().int(), widthNm: z.number().int(), thicknessNm: z.number().int() })
    .optional(),
});
export type OffcutMade = z.output<typeof offcutMade>;

const nm3 = z.string();
/** Where a board's wood went, exact cubic nanometres as digits: in = parts + failed + offcuts + kerf + scrap + writeOff. */
export const woodBalance = z.strictObject({
  boardId: s.boardId,
  tag: z.string(),
  inNm3: nm3,
  partsNm3: nm3,
  failedNm3: nm3,
  offcutsNm3: nm3,
  kerfNm3: nm3,
  scrapNm3: nm3,
  writeOffNm3: nm3,
});
export type WoodBalance = z.output<typeof woodBalance>;
