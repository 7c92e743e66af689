/** A yard that answers from a few samples, for looking at the panel and for its tests: same language as the real one, no rules of its own. */

import type { CallInput, CallResult, YardApi } from '../../addon/panel/api.ts';
import type { Problem } from '../../worker/contract/problem.ts';
import type { RouteName } from '../../worker/contract/routes.ts';
import { contractVersion } from '../../worker/contract/routes.ts';
import type { Answer } from '../../worker/contract/wire.ts';
import * as sample from './sample.ts';
import { sampleKeys } from './sample-keys.ts';

type Answers = { [N in RouteName]?: (input: CallInput<N>) => Answer<N> | Problem };

export interface FakeYard extends YardApi {
  /** Every call so far: name and what was sent. */
  readonly calls: { readonly name: RouteName; readonly input: unknown }[];
}

export const settings: Answer<'readYard'>['settings'] = {
  currency: 'USD',
  shown: 'in',
  denominator: 16,
  allowances: { lengthNm: 0, widthNm: 0, thicknessNm: 0, thicknessThickNm: 0, glueJointWidthNm: 0, endTrimNm: 0 },
  kerf: { ripNm: sample.inch(0.125), crosscutNm: sample.inch(0.125) },
  targetMoisturePercent: 8,
  moistureMax: { critical: 10, visible: 12, hidden: 15, layer: 10 },
  restDays: { critical: 7, visible: 2, hidden: 1 },
  cureHours: 24,
  offcutMin: { lengthNm: sample.inch(12), widthNm: sample.inch(2) },
  prices: [],
  wasteFactor: 1.3,
  ownWoods: [],
  stackAirs: [{ place: '', relativeHumidityPercent: 45, temperatureC: 20, on: null }],
};

export function fakeYard(over: Answers = {}, delayMs = 0): FakeYard {
  const calls: { name: RouteName; input: unknown }[] = [];
  let plan: Answer<'readPlan'> | null = null;
  const answers: Answers = {
    ...standing,
    planJob: () => {
      plan = sample.samplePlan;
      return plan;
    },
    listPlans: () => ({ items: plan === null ? [] : [{ ...summaryOfPlan, state: plan.state }], next: null }),
    planAlternatives: () => ({ alternatives: sample.sampleAlternatives }),
    readPlan: () => plan ?? sample.samplePlan,
    reservePlan: () => {
      plan = { ...sample.samplePlan, state: 'reserved' };
      return { plan: summaryOfPlan, reservations: [] };
    },
    openSession: () => {
      plan = { ...sample.samplePlan, state: 'cutting' };
      return sampleSession;
    },
    ...over,
  };
  const fake: FakeYard = {
    calls,
    name: 'yk_sampleyard_samplekey',
    async followPlan(input, onProgress, stop) {
      for (let line = 1; line <= 4 && delayMs > 0; line++) {
        onProgress(sample.progressAt(line / 5));
        await new Promise((resolve) => setTimeout(resolve, delayMs));
        if (stop.aborted) return null;
      }
      return fake.call('planJob', input);
    },
    async call<N extends RouteName>(name: N, input: CallInput<N> = {}): Promise<CallResult<N>> {
      const { stop: _stop, ...sent } = input;
      calls.push({ name, input: sent });
      if (delayMs > 0) await new Promise((resolve) => setTimeout(resolve, delayMs));
      const answer = answers[name];
      if (answer === undefined) return { ok: false, offline: true };
      const said = answer(input);
      return isProblem(said) ? { ok: false, problem: said } : { ok: true, answer: said };
    },
  };
  return fake;
}

function isProblem(said: unknown): said is Problem {
  return typeof said === 'object' && said !== null && 'type' in said && 'title' in said && 'status' in said;
}

const standing: Answers = {
  readYard: () => ({
    contract: contractVersion,
    yardId: 'yd_demo',
    name: 'Juniper Bend',
    settings,
    version: 1,
    boards: { inStock: sample.sampleBoards.length, held: 1, offcuts: 1 },
    openJobs: 1,
    seq: 40,
    you: { label: 'bench', scopes: ['read', 'stock', 'plan', 'hold', 'admin'] },
  }),
  listKeys: () => ({ keys: sampleKeys }),
  makeKey: () => ({ key: sampleKeys[1]!, secret: 'the-secret-of-a-key-as-it-is-shown-once' }),
  makeFeed: () => ({ key: sampleKeys[2]!, secret: 'https://yard.example.com/feeds/token.csv' }),
  rotateKey: () => ({ key: sampleKeys[1]!, secret: 'the-next-secret' }),
  revokeKey: () => ({ ...sampleKeys[1]!, works: false }),
  listBoards: ({ query }) => ({
    items: sample.sampleBoards.filter(
      (board) =>
        (query?.q === undefined || board.tag.toLowerCase().includes(query.q.toLowerCase())) &&
        (query?.species === undefined || board.species === query.species) &&
        (query?.free !== 'true' || board.held.length === 0) &&
        (query?.offcuts !== 'true' || board.origin.kind === 'offcut'),
    ),
    next: null,
  }),
  readBoard: ({ path }) => sample.sampleBoards.find((board) => board.id === path?.id) ?? sample.sampleBoards[0]!,
  drawBoard: () => sample.boardDrawing,
  dryingReady: () => ({
    by: '2026-12-02',
    targetPercent: 12,
    boards: [],
    counts: { ready: 0, byThen: 0, later: 0, never: 0, unknown: 0 },
    sources: [],
    notes: [],
  }),
  correctBoard: () => sample.sampleBoards[0]!,
  readMoisture: () => sample.sampleBoards[0]!,
  boardStatus: ({ body }) => ({
    seq: 40,
    rows: (body?.tags ?? []).map((tag) => ({
      tag,
      found: true,
      state: 'in-stock' as const,
      boardId: null,
      words: tag === 'WO-14' ? 'held: Hall table' : 'free',
      heldBy: [],
      moisturePercent: 8.4,
      ready: 'ready' as const,
      readyOn: null,
      dryFor: null,
      facts: null,
    })),
  }),
  takeInBoards: ({ body }) => ({
    taken: (body?.boards ?? []).map((_, row) => ({ row, id: `bd_${String(row).padStart(12, '0')}`, tag: `WO-${row}` })),
    faults: [],
    seq: 41,
  }),
  listJobs: () => ({ items: [sample.sampleJob], next: null }),
  readJob: () => sample.sampleJob,
  jobStatus: () => ({ job: sample.sampleJob, short: [] }),
  movePieces: () => sample.sampleJob,
  setCutList: () => ({ job: sample.sampleJob, faults: [], notes: [] }),
  takeoffJob: () => sample.sampleTakeoff,
  takeoffParts: () => sample.sampleTakeoff,
  dropPlan: () => summaryOfPlan,
  listSessions: () => ({ items: [sampleSession], next: null }),
  readSession: () => sampleSession,
  readCutCards: () => '<!doctype html><title>Cut cards</title>',
  reconcile: () => ({
    session: { ...sampleSession, state: 'closed' as const },
    balances: [
      {
        boardId: 'bd_000000000014',
        tag: 'WO-14',
        inNm3: String(BigInt(sample.inch(100.5)) * BigInt(sample.inch(9.25)) * BigInt(sample.inch(1))),
        partsNm3: String(2n * BigInt(sample.inch(59.875)) * BigInt(sample.inch(4)) * BigInt(sample.inch(1))),
        failedNm3: '0',
        offcutsNm3: String(BigInt(sample.inch(34.375)) * BigInt(sample.inch(9.25)) * BigInt(sample.inch(1))),
        kerfNm3: '50000000000000000000000',
        scrapNm3: String(
          BigInt(sample.inch(100.5)) * BigInt(sample.inch(9.25)) * BigInt(sample.inch(1)) -
            2n * BigInt(sample.inch(59.875)) * BigInt(sample.inch(4)) * BigInt(sample.inch(1)) -
            BigInt(sample.inch(34.375)) * BigInt(sample.inch(9.25)) * BigInt(sample.inch(1)) -
            50000000000000000000000n,
        ),
        writeOffNm3: '0',
      },
    ],
    offcuts: [{ id: 'bd_000000000099', tag: 'WO-14-1' }],
    wantedAgain: [{ partKey: 'RB4K', label: 'Long rail', element: null, count: 1 }],
    notes: [],
    seq: 44,
  }),
  reserve: () => ({
    type: '/problems/board-held',
    title: 'A board is held for another job',
    status: 409,
    detail: 'Nothing was held. One of the boards belongs to another job.',
    instance: 'req_1',
    conflicts: [
      {
        boardId: 'bd_000000000014',
        tag: 'WO-14',
        jobId: sample.hallTable,
        jobName: 'Bookcase',
        fromNm: 0,
        toNm: sample.inch(62),
        wayOut: 'Take the free run from 62" on, choose WO-16, or release it in the job Bookcase.',
      },
    ],
  }),
  listReservations: () => ({
    items: [
      {
        id: 'rs_000000000001',
        jobId: sample.hallTable,
        boardId: 'bd_000000000014',
        fromNm: 0,
        toNm: sample.inch(62),
        planId: sample.planId,
        madeAtMs: Date.UTC(2026, 10, 24),
        version: 30,
        tag: 'WO-14',
        jobName: sample.sampleJob.name,
        whole: false,
      },
      {
        id: 'rs_000000000002',
        jobId: sample.hallTable,
        boardId: 'bd_000000000015',
        fromNm: 0,
        toNm: sample.inch(62),
        planId: null,
        madeAtMs: Date.UTC(2026, 10, 24),
        version: 31,
        tag: 'WO-15',
        jobName: sample.sampleJob.name,
        whole: true,
      },
    ],
    next: null,
  }),
  release: ({ body }) => ({ released: [...(body?.ids ?? [])], seq: 42 }),
  offcutUses: () => ({
    parts: [
      {
        jobId: sample.hallTable,
        jobName: sample.sampleJob.name,
        partKey: 'RB7P',
        label: 'Shelf slat',
        element: null,
        wanted: 4,
        count: 2,
        drawing: sample.boardDrawing,
      },
    ],
    best: { layout: sample.sampleLayout, worthPercent: 71 },
    not: [{ jobName: sample.sampleJob.name, label: 'Long rail', why: '28" too short' }],
  }),
  offcutHomes: () => ({
    rough: { lengthNm: sample.inch(59), widthNm: sample.inch(3.75), thicknessNm: sample.inch(1.0625) },
    homes: [
      {
        boardId: 'bd_000000000015',
        tag: 'WO-15',
        isOffcut: false,
        place: 'long rack',
        needs: { lengthNm: sample.inch(59), widthNm: sample.inch(3.6875) },
        wasteM2: 0.012,
        why: 'a near fit, 3" longer than needed; leaves nothing to keep',
        drawing: sample.boardDrawing,
      },
    ],
    not: [{ tag: 'WO-9/1', why: '29" too short' }],
  }),
  listMovements: () => ({
    items: [
      {
        seq: 40,
        atMs: Date.UTC(2026, 10, 25, 8, 30),
        by: 'bench',
        kind: 'reserved',
        jobId: sample.hallTable,
        summary: 'WO-14 and WO-15 held for Hall table.',
        balances: [],
        undoes: null,
        undoneBy: null,
        boardTags: ['WO-14', 'WO-15'],
      },
      {
        seq: 39,
        atMs: Date.UTC(2026, 10, 24, 15, 2),
        by: 'bench',
        kind: 'boards-received',
        jobId: null,
        summary: '26 boards received from the sheet.',
        balances: [],
        undoes: null,
        undoneBy: 40,
        boardTags: ['WO-14', 'WO-15', 'WO-16', 'WO-17', 'WO-18'],
      },
    ],
    next: null,
  }),
  undoMovement: () => ({
    seq: 41,
    atMs: Date.UTC(2026, 10, 25, 9),
    by: 'bench',
    kind: 'undone',
    jobId: null,
    summary: 'Hold of WO-14 turned round.',
    balances: [],
    undoes: 40,
    undoneBy: null,
    boardTags: ['WO-14'],
  }),
};

const { layouts: _l, unplaced: _u, boardVersions: _b, notes: _n, ...planFacts } = sample.samplePlan;
const summaryOfPlan: Answer<'dropPlan'> = { ...planFacts, boardCount: 2, unplacedCount: 1 };

export const sampleSession: Answer<'readSession'> = {
  id: sample.sessionId,
  jobId: sample.hallTable,
  planId: sample.planId,
  boardIds: sample.samplePlan.layouts.map((layout) => layout.boardId),
  state: 'open',
  openedAtMs: Date.UTC(2026, 10, 25, 9),
  doneBoardIds: [],
  version: 33,
  layouts: [...sample.samplePlan.layouts],
  jobName: sample.sampleJob.name,
};
