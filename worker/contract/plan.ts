/** A cut plan: which blanks come from which boards, every cut in the order of the saw, what is left, and how good it provably is. All positions in nanometres on the board. */
import * as z from 'zod';
import { drawing } from './drawing.ts';
import * as s from './scalar.ts';

/** A rectangle on the board's face: from/to along the length, left/right across. */
export const rect = z.strictObject({
  fromNm: z.number().int(),
  toNm: z.number().int(),
  leftNm: z.number().int(),
  rightNm: z.number().int(),
});
export type RectNm = z.output<typeof rect>;

export const placedPiece = rect.extend({
  partKey: s.partKey,
  label: z.string(),
  no: z.number().int(),
  element: z.number().int().nullable(),
  /** What it is of its part. */
  what: z.enum(['solid', 'ply', 'stave']),
  /** The face that is to show, where only one of the two is as clear as the part asks. */
  showFace: z.enum(['a', 'b']).nullable(),
  attempt: z.number().int(),
});
export type PlacedPiece = z.output<typeof placedPiece>;

/**
 * One cut, edge to edge through the piece of stock `of`. A crosscut's blade takes atNm..atNm+kerfNm along the length, a
 * rip's across the width; what lies outside the stock is air. stop or fence settings are measured from the stock's own end or edge.
 */
export const cut = z.strictObject({
  no: z.number().int(),
  axis: z.enum(['rip', 'crosscut']),
  of: rect,
  atNm: z.number().int(),
  kerfNm: z.number().int(),
  /** The step in words with the setting as a tape shows it. */
  words: z.string(),
});
export type Cut = z.output<typeof cut>;

/**
 * A strip that is left whole until the parts that it could replace have rested and passed. The cuts from afterCut + 1 to
 * the last of its parts come then, and make its own pieces.
 */
export const reserve = rect.extend({
  /** The last cut before the rest. */
  afterCut: z.number().int(),
  /** Rows of the list that it could still give. */
  standsFor: z.array(z.strictObject({ partKey: s.partKey, label: z.string() })),
  words: z.string(),
});
export type Reserve = z.output<typeof reserve>;

/** A stretch of a long edge that cannot lie against a fence: crooked, or waney. */
export const unevenEdge = z.strictObject({
  side: z.enum(['left', 'right']),
  fromNm: z.number().int(),
  toNm: z.number().int(),
});
export type UnevenEdgeNm = z.output<typeof unevenEdge>;

export const layout = z.strictObject({
  boardId: s.boardId,
  tag: z.string(),
  lengthNm: z.number().int(),
  widthNm: z.number().int(),
  thicknessNm: z.number().int(),
  /** 1 first: the parts that would be hardest to replace; a rest lies between phases. */
  phase: z.number().int(),
  pieces: z.array(placedPiece),
  cuts: z.array(cut),
  offcuts: z.array(rect),
  scrap: z.array(rect),
  reserves: z.array(reserve),
  /** Of the board as it lies in the rack; a rip leaves a straight edge. */
  unevenEdges: z.array(unevenEdge),
  yieldPercent: z.number(),
  warnings: z.array(z.string()),
  drawing,
});
export type Layout = z.output<typeof layout>;

/** Why a blank was not placed, with the board that came nearest and by how much it failed. */
export const unplaced = z.strictObject({
  partKey: s.partKey,
  label: z.string(),
  element: z.number().int().nullable(),
  count: z.number().int(),
  why: z.string(),
  nearest: z
    .strictObject({
      boardId: s.boardId,
      tag: z.string(),
      /** Each thing it fails on, in words with the figure ("1 3/4 in too short"). */
      failsBy: z.array(z.string()),
    })
    .nullable(),
});
export type Unplaced = z.output<typeof unplaced>;

/**
 * What is saved first once every piece that finds wood has its place. least-cost: wood, by what it cost where that is known.
 * fewest-boards: boards to carry, flatten and put back. fewest-cuts: cuts and settings of fence and stop.
 */
export const planAim = z.enum(['least-cost', 'fewest-boards', 'fewest-cuts']);
export type PlanAim = z.output<typeof planAim>;

/** Pieces on one board by their near corner, in steps of the planner's grid: enough to take a search's best so far. */
export const takenBoard = z.strictObject({
  boardId: z.string().max(60),
  pieces: z
    .array(
      z.strictObject({
        partKey: s.partKey,
        element: z.number().int().min(0).nullable(),
        from: z.number().int().min(0),
        left: z.number().int().min(0),
      }),
    )
    .min(1)
    .max(1000),
});
export type TakenBoard = z.output<typeof takenBoard>;

/**
 * One line of a plan under way, for whoever asks with Accept: application/x-ndjson. The last line is the plan as
 * `{"answer": …}`, or `{"problem": …}`.
 */
export const planProgress = z.strictObject({
  /** 0 to 1: work done of the work allowed; a search may end sooner. */
  share: z.number(),
  placedCount: z.number().int(),
  wantedCount: z.number().int(),
  boardCount: z.number().int(),
  stockUsedM3: z.number(),
  /** Proven: no plan that cuts these same pieces opens less. */
  stockBoundM3: z.number(),
  /** To be sent back as `taken` when the search is stopped here. */
  best: z.array(takenBoard),
});
export type PlanProgress = z.output<typeof planProgress>;

export const planRequest = z.strictObject({
  effort: z.enum(['quick', 'normal', 'long']).default('normal'),
  seed: z.number().int().min(0).max(4_294_967_295).default(1),
  aim: planAim.default('least-cost'),
  /** Only these rows; all wanted rows when left out. */
  partKeys: z.array(s.partKey).max(2000).optional(),
  /** Only these boards; all free stock when left out. */
  boardIds: z.array(s.boardId).max(2000).optional(),
  /** The plan of this job that is continued with the least change: what of it still holds stays as it is. */
  continues: s.planId.optional(),
  /** The best so far of this same request, stopped: it is checked and kept without any search. */
  taken: z.array(takenBoard).max(2000).optional(),
});
export type PlanRequest = z.output<typeof planRequest>;

/**
 * What the boards opened cost, minor units: what was paid for them, or where that is not known, what the shop's prices
 * make of them. How many of them are so priced, and how many have no price at all and are left out of the sum.
 */
export const woodCost = z.strictObject({
  minor: z.number().int(),
  unpricedCount: z.number().int(),
  shopPricedCount: z.number().int(),
});
export type WoodCost = z.output<typeof woodCost>;

export const planBody = z.strictObject({
  jobId: s.jobId,
  jobRevision: z.number().int(),
  effort: planRequest.shape.effort,
  seed: z.number().int(),
  aim: planAim,
  /** The plan that it takes the place of once it is held; null for a fresh one. */
  continues: s.planId.nullable(),
  /** What changed against that plan and what stayed, in words. */
  changes: z.array(z.string()),
  layouts: z.array(layout),
  unplaced: z.array(unplaced),
  kerf: z.strictObject({ ripNm: z.number().int(), crosscutNm: z.number().int() }),
  /** Versions of the boards used, as planned on. */
  boardVersions: z.record(z.string(), z.number().int()),
  placedCount: z.number().int(),
  wantedCount: z.number().int(),
  /** Parts' blanks over the boards opened, per cent of area. */
  yieldPercent: z.number(),
  cutCount: z.number().int(),
  /** How often fence or stop is set anew, board after board in the plan's order; cuts to a mark are not counted. */
  settingCount: z.number().int(),
  /** null for a plan of before it was reckoned. */
  cost: woodCost.nullable(),
  stockUsedM3: z.number(),
  /** Proven: no plan that cuts the same pieces opens less stock than this. */
  stockBoundM3: z.number(),
  /** At most this far from the best possible, per cent of stock used; 0 means proven best. */
  gapPercent: z.number(),
  boundIs: z.string(),
  /** Everything that a user should know about how it was planned, in words. */
  notes: z.array(z.string()),
});
export type PlanBody = z.output<typeof planBody>;

/** Plans to choose from, without keeping any: ask for a plan with the same aim, effort and seed to have one. */
export const alternativesRequest = planRequest.omit({ aim: true, continues: true, taken: true }).extend({
  effort: planRequest.shape.effort.default('quick'),
});
export const alternative = planBody
  .pick({
    aim: true,
    effort: true,
    seed: true,
    placedCount: true,
    wantedCount: true,
    yieldPercent: true,
    cutCount: true,
    settingCount: true,
    stockUsedM3: true,
    stockBoundM3: true,
    gapPercent: true,
  })
  .extend({
    boardCount: z.number().int(),
    tags: z.array(z.string()),
    cost: woodCost,
    /** What no other plan of these is better at; its `aim` is only what it was searched for. Not empty. */
    bestAt: z.array(planAim),
    /** What it gives up against the others, in one line. */
    trades: z.string(),
  });
export type Alternative = z.output<typeof alternative>;
/** At most three, each best at something; one where no other is better at anything. */
export const alternativesAnswer = z.strictObject({ alternatives: z.array(alternative) });

export const plan = planBody.extend({
  id: s.planId,
  state: z.enum(['draft', 'reserved', 'cutting', 'done', 'dropped']),
  madeAtMs: s.atMs,
  version: s.seq,
});
export type Plan = z.output<typeof plan>;

/** "What can this piece of wood still make": an offcut in the yard, or a size typed in. */
export const usesQuestion = z.strictObject({
  boardId: s.boardId.optional(),
  size: z
    .strictObject({
      species: s.species,
      lengthNm: s.lengthNm,
      widthNm: s.widthNm,
      thicknessNm: s.thicknessNm,
      moisturePercent: s.moisturePercent.nullable().default(null),
    })
    .optional(),
  /** Only these jobs; every open job when left out. */
  jobIds: z.array(s.jobId).max(200).optional(),
});
export type UsesQuestion = z.output<typeof usesQuestion>;

export const usesAnswer = z.strictObject({
  /** Each open part that it can give on its own, most worth first. */
  parts: z.array(
    z.strictObject({
      jobId: s.jobId,
      jobName: z.string(),
      partKey: s.partKey,
      label: z.string(),
      element: z.number().int().nullable(),
      wanted: z.number().int(),
      /** How many of this part alone the piece gives, at most what is wanted. */
      count: z.number().int(),
      drawing,
    }),
  ),
  /** The best mixture over all open demand. */
  best: z.strictObject({ layout: layout.nullable(), worthPercent: z.number() }),
  /** Open parts that it cannot give and why, nearest first; at most ten. */
  not: z.array(z.strictObject({ jobName: z.string(), label: z.string(), why: z.string() })),
});
export type UsesAnswer = z.output<typeof usesAnswer>;

/** "Which board is the best home for this part." */
export const homesQuestion = z.strictObject({
  jobId: s.jobId.optional(),
  partKey: s.partKey.optional(),
  element: z.number().int().min(0).nullable().default(null),
  size: z
    .strictObject({ species: s.species, lengthNm: s.lengthNm, widthNm: s.widthNm, thicknessNm: s.thicknessNm })
    .optional(),
});
export type HomesQuestion = z.output<typeof homesQuestion>;

export const homesAnswer = z.strictObject({
  /** The rough size in the wettest wood allowed. */
  rough: z.strictObject({ lengthNm: z.number().int(), widthNm: z.number().int(), thicknessNm: z.number().int() }),
  /** Best first: offcuts before whole boards, near-exact fits before long stock. At most twenty. */
  homes: z.array(
    z.strictObject({
      boardId: s.boardId,
      tag: z.string(),
      isOffcut: z.boolean(),
      place: z.string(),
      /** The piece as it is cut from this board, which is as wet as it is. */
      needs: z.strictObject({ lengthNm: z.number().int(), widthNm: z.number().int() }),
      /** Wood that the choice would leave unusable, square metres of face. */
      wasteM2: z.number(),
      why: z.string(),
      drawing,
    }),
  ),
  not: z.array(z.strictObject({ tag: z.string(), why: z.string() })),
});
export type HomesAnswer = z.output<typeof homesAnswer>;
