/** Body, query and answer of each route by its name in routes.ts. The API builds its routes and its OpenAPI document from these; the sidebar imports their types only. */
import * as z from 'zod';
import { restored } from './archive.ts';
import * as b from './board.ts';
import { doctorPage } from './doctor.ts';
import { drawing } from './drawing.ts';
import * as j from './job.ts';
import * as k from './key.ts';
import { limits } from './limits.ts';
import * as m from './movement.ts';
import * as p from './plan.ts';
import { fault } from './problem.ts';
import type { RouteName } from './routes.ts';
import * as s from './scalar.ts';
import * as c from './session.ts';
import { settings } from './settings.ts';
import { takeoff } from './takeoff.ts';
import { woodAnswers, woodBodies } from './wood.ts';

const pageQuery = {
  /** Opaque cursor from the page before. */
  after: z.string().max(200).optional(),
  limit: z.coerce.number().int().min(1).max(limits.pageMax).optional(),
};
const flag = z
  .enum(['true', 'false'])
  .transform((v) => v === 'true')
  .optional();

export const yardView = z.strictObject({
  /** See contractVersion in routes.ts. */
  contract: z.number().int().min(1),
  yardId: z.string(),
  name: z.string(),
  settings,
  /** Of the settings: seq of the movement that changed them last. */
  version: s.seq,
  boards: z.strictObject({ inStock: z.number().int(), held: z.number().int(), offcuts: z.number().int() }),
  openJobs: z.number().int(),
  seq: s.seq,
  /** The caller's own key: label and scopes. */
  you: z.strictObject({ label: z.string(), scopes: z.array(z.string()) }),
});

/** The state of one tag, for a row of the sheet. */
export const tagStatus = z.strictObject({
  tag: z.string(),
  found: z.boolean(),
  state: b.boardState.nullable(),
  boardId: s.boardId.nullable(),
  /** In words for a cell: "free", "held: Hall table", "cut", "written off", "unknown tag". */
  words: z.string(),
  heldBy: z.array(z.string()),
  moisturePercent: z.number().nullable(),
  /** Dry enough for seen parts (settings.moistureMax.visible) · drying towards it · never by the air where it stands · not known; null when it is not in stock. */
  ready: z.enum(['ready', 'drying', 'never', 'unknown']).nullable(),
  /** What its last reading is dry enough for: critical parts and so all, seen ones, hidden ones, none; null when it is not in stock. */
  dryFor: z.enum(['critical', 'visible', 'hidden', 'wet', 'unknown']).nullable(),
  /** Drying: the likely day on which it is ready, by the air of its stack; else null. */
  readyOn: s.day.nullable(),
  /** What the yard has of it, to be set beside what the row says. */
  facts: z
    .strictObject({
      species: z.string(),
      lengthNm: s.lengthNm,
      widthNm: s.widthNm,
      thicknessNm: s.thicknessNm,
      version: s.seq,
    })
    .nullable(),
});

/** Wood that a part still waits for: what boards of its species in its thickness leave its own blanks short of. */
export const partShort = z.strictObject({
  key: s.partKey,
  speciesName: z.string(),
  thicknessCall: z.string(),
  boardFeet: z.number(),
});

export const sessionWithLayouts = c.session.extend({ layouts: z.array(p.layout), jobName: z.string() });
export const planSummary = p.plan.omit({ layouts: true, unplaced: true, boardVersions: true, notes: true }).extend({
  boardCount: z.number().int(),
  unplacedCount: z.number().int(),
});

/** Bodies as they come in. Rows that carry user data are read one by one (z.unknown here), so that one bad row does not hide the others. */
export const bodies = {
  changeSettings: settings,
  makeKey: k.keyDraft,
  makeFeed: k.feedDraft,
  rotateKey: k.keyRotation,
  makeLinkCode: k.linkCodeDraft,
  takeInBoards: z.strictObject({
    boards: z.array(z.unknown()).min(1, 'no boards in the request').max(limits.boardsPerIntake),
    allOrNothing: z.boolean().default(false),
  }),
  correctBoard: b.boardPatch,
  readMoisture: z.strictObject({ readings: z.array(b.reading).min(1).max(limits.readingsPerBoard) }),
  writeOffBoard: z.strictObject({ why: z.string().trim().min(1, 'say why').max(limits.textChars) }),
  boardStatus: z.strictObject({ tags: z.array(z.string().max(limits.tagChars)).max(limits.statusTags) }),
  openJob: j.jobDraft,
  changeJob: j.jobPatch,
  setCutList: z.strictObject({
    parts: z.array(z.unknown()).max(limits.partsPerJob),
    allOrNothing: z.boolean().default(true),
  }),
  movePieces: z.strictObject({ steps: z.array(j.pieceStep).min(1).max(limits.piecesPerJob) }),
  takeoffParts: z.strictObject({
    parts: z.array(z.unknown()).min(1, 'no rows in the request').max(limits.partsPerJob),
  }),
  planJob: p.planRequest,
  planAlternatives: p.alternativesRequest,
  reserve: c.reserveRequest,
  release: z.strictObject({ ids: z.array(s.reservationId).min(1).max(limits.boardsPerReservation) }),
  reservePlan: c.reservePlanRequest,
  openSession: c.openSessionRequest,
  reconcile: c.reconcileRequest,
  offcutUses: p.usesQuestion,
  offcutHomes: p.homesQuestion,
  ...woodBodies,
} as const satisfies Partial<Record<RouteName, z.ZodType>>;

export const queries = {
  /** The yard as it was after this movement; left out, as it is now. */
  exportYard: z.strictObject({ upTo: z.coerce.number().int().min(1).optional() }),
  checkYard: z.strictObject({ after: z.string().max(400).optional() }),
  listBoards: z.strictObject({
    ...pageQuery,
    species: s.species.optional(),
    thicknessNmMin: z.coerce.number().int().optional(),
    thicknessNmMax: z.coerce.number().int().optional(),
    lengthNmMin: z.coerce.number().int().optional(),
    moisturePercentMax: z.coerce.number().optional(),
    state: b.boardState.optional(),
    /** Only boards with no run held. */
    free: flag,
    offcuts: flag,
    /** Part of a tag, place or note. */
    q: z.string().max(60).optional(),
  }),
  listJobs: z.strictObject({ ...pageQuery, state: j.job.shape.state.optional() }),
  listPlans: z.strictObject({ ...pageQuery }),
  listReservations: z.strictObject({ ...pageQuery, jobId: s.jobId.optional(), boardId: s.boardId.optional() }),
  listSessions: z.strictObject({ ...pageQuery, state: c.session.shape.state.optional(), jobId: s.jobId.optional() }),
  listMovements: z.strictObject({ ...pageQuery, boardId: s.boardId.optional(), jobId: s.jobId.optional() }),
} as const satisfies Partial<Record<RouteName, z.ZodType>>;

const page = <T extends z.ZodType>(item: T) => z.strictObject({ items: z.array(item), next: z.string().nullable() });

export const answers = {
  readYard: yardView,
  changeSettings: z.strictObject({ settings, version: s.seq, seq: s.seq }),
  exportYard: z.string(),
  checkYard: doctorPage,
  restoreYard: restored,
  listKeys: k.keyList,
  makeKey: k.keyMade,
  makeFeed: k.keyMade,
  rotateKey: k.keyMade,
  makeLinkCode: k.linkCodeMade,
  useLinkCode: k.keyMade,
  revokeKey: k.keyView,
  takeInBoards: z.strictObject({
    taken: z.array(z.strictObject({ row: z.number().int(), id: s.boardId, tag: z.string() })),
    faults: z.array(fault),
    seq: s.seq,
  }),
  listBoards: page(b.boardView),
  readBoard: b.boardView,
  drawBoard: drawing,
  correctBoard: b.boardView,
  readMoisture: b.boardView,
  writeOffBoard: b.boardView,
  boardStatus: z.strictObject({ rows: z.array(tagStatus), seq: s.seq }),
  openJob: j.jobView,
  listJobs: page(j.jobView),
  readJob: j.jobWithParts,
  changeJob: j.jobView,
  setCutList: z.strictObject({ job: j.jobWithParts, faults: z.array(fault), notes: z.array(z.string()) }),
  movePieces: j.jobWithParts,
  takeoffParts: takeoff,
  takeoffJob: takeoff,
  jobStatus: z.strictObject({ job: j.jobWithParts, short: z.array(partShort) }),
  planJob: p.plan,
  planAlternatives: p.alternativesAnswer,
  listPlans: page(planSummary),
  readPlan: p.plan,
  dropPlan: planSummary,
  reservePlan: z.strictObject({ plan: planSummary, reservations: z.array(c.reservationView) }),
  reserve: z.strictObject({ reservations: z.array(c.reservationView), seq: s.seq }),
  listReservations: page(c.reservationView),
  release: z.strictObject({ released: z.array(s.reservationId), seq: s.seq }),
  openSession: sessionWithLayouts,
  listSessions: page(c.session.extend({ jobName: z.string() })),
  readSession: sessionWithLayouts,
  readCutCards: z.string(),
  reconcile: z.strictObject({
    session: c.session,
    balances: z.array(c.woodBalance),
    offcuts: z.array(c.offcutMade),
    wantedAgain: z.array(
      z.strictObject({
        partKey: s.partKey,
        label: z.string(),
        element: z.number().int().nullable(),
        count: z.number().int(),
      }),
    ),
    notes: z.array(z.string()),
    seq: s.seq,
  }),
  offcutUses: p.usesAnswer,
  offcutHomes: p.homesAnswer,
  listMovements: page(m.movementView),
  undoMovement: m.movementView,
  ...woodAnswers,
} as const satisfies Record<RouteName, z.ZodType>;

export type Body<N extends RouteName> = N extends keyof typeof bodies ? z.input<(typeof bodies)[N]> : undefined;
export type Query<N extends RouteName> = N extends keyof typeof queries ? z.input<(typeof queries)[N]> : undefined;
export type Answer<N extends RouteName> = z.output<(typeof answers)[N]>;
