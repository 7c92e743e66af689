/** A small yard to look at the panel with: boards, a job, a plan, as the wire would bring them. */
import type { BoardView } from '../../worker/contract/board.ts';
import type { JobWithParts, PartWithPieces, Piece, PieceState } from '../../worker/contract/job.ts';
import type { Alternative, Cut, Layout, Plan, PlanProgress } from '../../worker/contract/plan.ts';
import type { Answer } from '../../worker/contract/wire.ts';
import { drawBoard, drawLayout } from '../../worker/planner/drawing.ts';

export const inch = (value: number) => Math.round(value * 25_400_000);

export function sampleBoard(
  no: number,
  given: Partial<BoardView> & {
    readonly lengthIn?: number;
    readonly widthIn?: number;
    readonly thicknessIn?: number;
  } = {},
): BoardView {
  const { lengthIn = 100.5, widthIn = 7.25, thicknessIn = 1, ...rest } = given;
  return {
    id: `bd_${String(no).padStart(12, '0')}`,
    tag: `WO-${no}`,
    species: 'white-oak',
    lengthNm: inch(lengthIn),
    widthNm: inch(widthIn),
    thicknessNm: inch(thicknessIn),
    thicknessCall: '4/4',
    grain: 'flat',
    grade: null,
    defects: [],
    warp: null,
    readings: [{ moisturePercent: 8.4, on: '2026-10-12', meter: 'pin' }],
    place: 'long rack',
    costMinor: null,
    delivery: '',
    receivedOn: '2026-09-01',
    measuredIn: 'in',
    note: '',
    state: 'in-stock',
    origin: { kind: 'received' },
    version: no,
    held: [],
    ...rest,
  };
}

export const hallTable = 'jb_00000000hall';
export const planId = 'pl_0000000plan1';
export const sessionId = 'cs_0000000sess1';

export const sampleBoards: BoardView[] = [
  sampleBoard(14, {
    lengthIn: 100.5,
    widthIn: 9.25,
    thicknessIn: 2,
    thicknessCall: '8/4',
    defects: [
      { kind: 'knot-sound', face: 'a', fromNm: inch(22), toNm: inch(24.5), leftNm: inch(2), rightNm: inch(4) },
      { kind: 'split', face: 'through', fromNm: 0, toNm: inch(5), leftNm: inch(4), rightNm: inch(5) },
      { kind: 'wane', face: 'b', fromNm: inch(60), toNm: inch(100.5), leftNm: 0, rightNm: inch(0.75) },
    ],
    warp: { bowNm: 0, crookNm: inch(3 / 16), cupNm: inch(1 / 16), twistNm: 0 },
    held: [
      {
        reservationId: 'rs_000000000001',
        jobId: hallTable,
        jobName: 'Hall table for the Lindqvist house',
        fromNm: 0,
        toNm: inch(62),
        planId,
      },
    ],
  }),
  sampleBoard(15, {
    lengthIn: 62,
    widthIn: 6.5,
    readings: [{ moisturePercent: 12.6, on: '2026-10-12', meter: 'pin' }],
  }),
  sampleBoard(16, { species: 'black-walnut', lengthIn: 84.0625, widthIn: 10, readings: [], note: 'from the old barn' }),
  sampleBoard(17, {
    lengthIn: 30,
    widthIn: 5,
    origin: { kind: 'offcut', parentId: 'bd_000000000014', sessionId: null },
    tag: 'WO-9/1',
  }),
  sampleBoard(18, {
    lengthNm: 2_550_000_000,
    widthNm: 185_500_000,
    thicknessNm: 27_000_000,
    measuredIn: 'mm',
    thicknessCall: null,
    tag: 'A board with a very long tag, chalked on',
  }),
  sampleBoard(19, { species: 'white-ash', readings: [{ moisturePercent: 18, on: '2026-11-12', meter: 'pin' }] }),
];

function piece(no: number, state: PieceState, given: Partial<Piece> = {}): Piece {
  return {
    no,
    element: null,
    attempt: 1,
    state,
    boardId: null,
    planId: null,
    sessionId: null,
    restingUntil: null,
    curingUntilMs: null,
    why: '',
    ...given,
  };
}

function part(
  key: string,
  label: string,
  sizeIn: readonly [number, number, number],
  pieces: Piece[],
  given: Partial<PartWithPieces> = {},
): PartWithPieces {
  return {
    key,
    label,
    quantity: pieces.filter((p) => p.state !== 'failed').length,
    species: 'white-oak',
    lengthNm: inch(sizeIn[0]),
    widthNm: inch(sizeIn[1]),
    thicknessNm: inch(sizeIn[2]),
    use: 'visible',
    faces: 'clear-one',
    grain: 'unknown',
    lamination: null,
    moisturePercentMax: null,
    matchGroup: null,
    shapeNote: '',
    measuredIn: 'in',
    pieces,
    version: 3,
    ...given,
  };
}

export const sampleJob: JobWithParts = {
  id: hallTable,
  name: 'Hall table for the Lindqvist house',
  dueOn: '2026-12-18',
  note: '',
  state: 'open',
  revision: 2,
  version: 9,
  heldBoards: 2,
  standing: {
    pieces: { wanted: 4, planned: 6, roughed: 3, passed: 2, 'glued-up': 1, milled: 2, failed: 1 },
    layers: { wanted: 4, passed: 4 },
  },
  parts: [
    part(
      'RB4K',
      'Long rail',
      [58, 3.5, 0.875],
      [
        piece(1, 'roughed', { restingUntil: '2026-11-28' }),
        piece(2, 'roughed', { restingUntil: '2026-11-20' }),
        piece(2, 'failed', { attempt: 1, why: 'warped in the rest' }),
      ],
      { use: 'critical' },
    ),
    part('RB5M', 'Apron, front', [23.625, 4, 0.8125], [piece(1, 'planned'), piece(2, 'passed')]),
    part(
      'RB6N',
      'Post',
      [29, 2.5, 2.5],
      [
        piece(1, 'wanted'),
        piece(1, 'passed', { element: 0 }),
        piece(1, 'passed', { element: 1 }),
        piece(2, 'wanted'),
        piece(2, 'passed', { element: 0 }),
        piece(2, 'wanted', { element: 1 }),
      ],
      {
        lamination: {
          kind: 'plies',
          plies: [
            { thicknessNm: inch(1.25), widthNm: inch(2.5), offsetNm: 0 },
            { thicknessNm: inch(1.25), widthNm: inch(2.5), offsetNm: 0 },
          ],
        },
      },
    ),
    part(
      'RB7P',
      'Shelf slat',
      [20, 2.25, 0.5],
      [piece(1, 'milled'), piece(2, 'milled'), piece(3, 'planned'), piece(4, 'wanted')],
      { use: 'hidden' },
    ),
    part('RB8Q', 'Top', [62, 16, 0.9375], [piece(1, 'glued-up', { curingUntilMs: Date.UTC(2026, 10, 26, 9) })]),
  ],
};

const cutsOf14: Cut[] = [
  {
    no: 1,
    axis: 'crosscut',
    of: { fromNm: 0, toNm: inch(100.5), leftNm: 0, rightNm: inch(9.25) },
    atNm: inch(6),
    kerfNm: inch(0.125),
    words: 'Crosscut 6" from the tagged end: trim the split away.',
  },
  {
    no: 2,
    axis: 'crosscut',
    of: { fromNm: inch(6.125), toNm: inch(100.5), leftNm: 0, rightNm: inch(9.25) },
    atNm: inch(66),
    kerfNm: inch(0.125),
    words: 'Stop at 59 7/8".',
  },
  {
    no: 3,
    axis: 'rip',
    of: { fromNm: inch(6.125), toNm: inch(66), leftNm: 0, rightNm: inch(9.25) },
    atNm: inch(4),
    kerfNm: inch(0.125),
    words: 'Fence 4": one Long rail.',
  },
  {
    no: 4,
    axis: 'rip',
    of: { fromNm: inch(6.125), toNm: inch(66), leftNm: inch(4.125), rightNm: inch(9.25) },
    atNm: inch(8.125),
    kerfNm: inch(0.125),
    words: 'Fence 4": one Long rail.',
  },
];

const board14 = sampleBoards[0]!;
const shown = { shown: 'in' as const, denominator: 16 as const };

const layoutOf14 = {
  boardId: 'bd_000000000014',
  tag: 'WO-14',
  lengthNm: inch(100.5),
  widthNm: inch(9.25),
  thicknessNm: inch(1),
  phase: 1,
  pieces: [
    {
      partKey: 'RB4K',
      label: 'Long rail',
      no: 1,
      element: null,
      what: 'solid' as const,
      showFace: null,
      attempt: 1,
      fromNm: inch(6.125),
      toNm: inch(66),
      leftNm: 0,
      rightNm: inch(4),
    },
    {
      partKey: 'RB4K',
      label: 'Long rail',
      no: 2,
      element: null,
      what: 'solid' as const,
      showFace: null,
      attempt: 2,
      fromNm: inch(6.125),
      toNm: inch(66),
      leftNm: inch(4.125),
      rightNm: inch(8.125),
    },
  ],
  cuts: cutsOf14,
  offcuts: [{ fromNm: inch(66.125), toNm: inch(100.5), leftNm: 0, rightNm: inch(9.25) }],
  reserves: [],
  unevenEdges: [],
  scrap: [
    { fromNm: 0, toNm: inch(6), leftNm: 0, rightNm: inch(9.25) },
    { fromNm: inch(6.125), toNm: inch(66), leftNm: inch(8.25), rightNm: inch(9.25) },
  ],
  yieldPercent: 51.5,
  warnings: ['Cut long rails first; they rest 7 days before the short parts are cut.'],
};

export const sampleLayout: Layout = { ...layoutOf14, drawing: drawLayout(board14, layoutOf14, shown) };
export const boardDrawing = drawBoard(board14, board14.held, shown);

const secondLayout: Layout = {
  ...sampleLayout,
  boardId: 'bd_000000000015',
  tag: 'WO-15',
  phase: 2,
  warnings: [],
};

export const samplePlan: Plan = {
  id: planId,
  jobId: hallTable,
  jobRevision: 2,
  effort: 'normal',
  seed: 1,
  layouts: [sampleLayout, secondLayout],
  unplaced: [
    {
      partKey: 'RB8Q',
      label: 'Top stave',
      element: 2,
      count: 1,
      why: 'No free board is long and straight enough.',
      nearest: { boardId: 'bd_000000000016', tag: 'WO-16', failsBy: ['1 3/4" too short', '1/8" too much crook left'] },
    },
  ],
  kerf: { ripNm: inch(0.125), crosscutNm: inch(0.125) },
  boardVersions: {},
  placedCount: 14,
  wantedCount: 15,
  yieldPercent: 63.4,
  cutCount: 9,
  settingCount: 6,
  cost: { minor: 12_450, unpricedCount: 1, shopPricedCount: 0 },
  stockUsedM3: 0.0612,
  stockBoundM3: 0.0571,
  gapPercent: 6.7,
  boundIs: 'Any plan that cuts these pieces opens at least 0.057 m³ (24.2 bf) of stock.',
  aim: 'least-cost',
  continues: null,
  changes: [],
  notes: ['A board above 12 % was left out for the long rails.'],
  state: 'draft',
  madeAtMs: Date.UTC(2026, 10, 25, 9),
  version: 20,
};

export const sampleTakeoff: Answer<'takeoffJob'> = {
  jobId: hallTable,
  rows: [],
  groups: [
    {
      species: 'white-oak',
      speciesName: 'White oak',
      thicknessCall: '4/4',
      net: { m3: 0.041, boardFeet: 17.4 },
      rough: { m3: 0.052, boardFeet: 22.1 },
      gross: { m3: 0.068, boardFeet: 28.7 },
      inStock: { m3: 0.05, boardFeet: 21.2 },
      inStockThicker: { m3: 0, boardFeet: 0 },
      inStockWet: { m3: 0.01, boardFeet: 4.2 },
      short: { m3: 0.018, boardFeet: 7.5 },
      mayStillFit: false,
      toBuy: { m3: 0.018, boardFeet: 8 },
      costMinor: 34_440,
      buyMinor: 9_600,
      longestBlankNm: inch(63),
      longestBoardNm: inch(62),
      widestBlankNm: inch(5.25),
      widestBlankAtPercent: 12,
      widestBlankDryNm: inch(5.1875),
      widestBoardNm: inch(9),
      warnings: ['The longest blank is 63"; the longest free board is 62".'],
    },
    {
      species: 'white-oak',
      speciesName: 'White oak',
      thicknessCall: '8/4',
      net: { m3: 0.012, boardFeet: 5 },
      rough: { m3: 0.016, boardFeet: 6.9 },
      gross: { m3: 0.02, boardFeet: 8.9 },
      inStock: { m3: 0.03, boardFeet: 12.9 },
      inStockThicker: { m3: 0, boardFeet: 0 },
      inStockWet: { m3: 0, boardFeet: 0 },
      short: { m3: 0, boardFeet: 0 },
      mayStillFit: false,
      toBuy: { m3: 0, boardFeet: 0 },
      costMinor: null,
      buyMinor: 0,
      longestBlankNm: inch(30),
      longestBoardNm: inch(100.5),
      widestBlankNm: inch(2.75),
      widestBlankAtPercent: 12,
      widestBlankDryNm: inch(2.75),
      widestBoardNm: inch(9.25),
      warnings: [],
    },
  ],
  total: {
    net: { m3: 0.053, boardFeet: 22.4 },
    rough: { m3: 0.068, boardFeet: 29 },
    gross: { m3: 0.088, boardFeet: 37.6 },
    toBuy: { m3: 0.018, boardFeet: 8 },
    weightKg: 38.2,
    costMinor: 34_440,
    buyMinor: 9_600,
    unpriced: ['White oak 8/4'],
  },
  assumptions: ['Waste factor 1.3 (common practice, no source).', 'Target moisture 8 % (Wood Handbook, Ch. 13).'],
};

export const progressAt = (share: number): PlanProgress => ({
  share,
  placedCount: 14,
  wantedCount: 15,
  boardCount: 2,
  stockUsedM3: 0.0612 + 0.004 * (1 - share),
  stockBoundM3: 0.0571 - 0.01 * (1 - share),
  best: [{ boardId: 'bd_000000000014', pieces: [{ partKey: 'RB8Q', element: null, from: 0, left: 0 }] }],
});

const alternativeOf = (aim: Alternative['aim'], more: Partial<Alternative>): Alternative => ({
  aim,
  effort: 'quick',
  seed: 1,
  placedCount: 14,
  wantedCount: 15,
  yieldPercent: 63.4,
  cutCount: 31,
  settingCount: 17,
  stockUsedM3: 0.0612,
  stockBoundM3: 0.0571,
  gapPercent: 6.7,
  boardCount: 3,
  tags: ['WO-14', 'WO-15', 'WO-21'],
  cost: { minor: 31_240, unpricedCount: 0, shopPricedCount: 1 },
  bestAt: [aim],
  trades: 'Takes 1 more board and 6 more cuts than it could.',
  ...more,
});
export const sampleAlternatives: Alternative[] = [
  alternativeOf('least-cost', {}),
  alternativeOf('fewest-boards', {
    boardCount: 2,
    tags: ['WO-14', 'WO-15'],
    stockUsedM3: 0.0702,
    yieldPercent: 55.2,
    trades: 'Takes 3.8 bf more wood and 2 more cuts than it could.',
  }),
  alternativeOf('fewest-cuts', {
    cutCount: 25,
    settingCount: 11,
    stockUsedM3: 0.0688,
    yieldPercent: 56.4,
    trades: 'Takes 3.2 bf more wood and 1 more board than it could.',
  }),
];
