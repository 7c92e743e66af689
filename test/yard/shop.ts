/** A small shop to test in: a founded yard over node:sqlite, boards and parts in inches, plans cut end to end. */
import { expect } from 'vitest';
import { type Board, type BoardDraft, boardDraft } from '../../worker/contract/board.ts';
import { type Part, type PieceStep, part } from '../../worker/contract/job.ts';
import type { Movement } from '../../worker/contract/movement.ts';
import type { Layout, PlacedPiece, PlanBody } from '../../worker/contract/plan.ts';
import type {
  Asker,
  Command,
  CommandAnswer,
  NewKey,
  QuestionName,
  Questions,
  Refusal,
  Told,
} from '../../worker/yard/command.ts';
import { brokenRules } from '../../worker/yard/decide/rules.ts';
import { MemoryState, stateDifference } from '../../worker/yard/memory-state.ts';
import { replay } from '../../worker/yard/replay.ts';
import { emptyYard } from '../../worker/yard/schema.ts';
import { SqlState } from '../../worker/yard/sql-state.ts';
import type { NewId } from '../../worker/yard/yard-core.ts';
import { NodeYard } from './node-yard.ts';

export const INCH = 25_400_000;
export const KERF = INCH / 8;
export const TODAY = '2026-03-02';
export const NOW = Date.parse('2026-03-02T09:00:00Z');

export const owner: Asker = { keyId: 'owner', digest: 'a'.repeat(64), scope: 'admin' };
export const allScopes = ['read', 'stock', 'plan', 'hold', 'admin'];

export function boardOf(tag: string, over: Partial<BoardDraft> = {}): BoardDraft {
  return boardDraft.parse({
    tag,
    species: 'white-oak',
    lengthNm: 100 * INCH,
    widthNm: 8 * INCH,
    thicknessNm: 2 * INCH,
    ...over,
  });
}

export function partOf(key: string, over: Partial<Part> = {}): Part {
  return part.parse({
    key,
    label: `Part ${key}`,
    quantity: 2,
    species: 'white-oak',
    lengthNm: 29 * INCH,
    widthNm: 7 * INCH,
    thicknessNm: INCH,
    use: 'critical',
    ...over,
  });
}

export class Shop {
  readonly yard: NodeYard;
  #told = 0;
  today = TODAY;
  atMs = NOW;

  private constructor(yard: NodeYard) {
    this.yard = yard;
  }

  static async open(options: { path?: string; newId?: NewId } = {}): Promise<Shop> {
    const yard = new NodeYard({ ...options, now: () => NOW });
    await yard.found({
      yardId: 'oakyard',
      name: 'Oak yard',
      key: { keyId: owner.keyId, digest: owner.digest, label: 'Owner', scopes: allScopes },
    });
    return new Shop(yard);
  }

  /** The tables of a yard with nothing in them, for a copy that follows another yard's journal. */
  static async empty(): Promise<Shop> {
    const shop = await Shop.open();
    shop.yard.sql.once(() => {
      emptyYard(shop.yard.sql);
      return null;
    });
    return shop;
  }

  /** A yard that is there already, its owner's key among its keys. */
  static over(yard: NodeYard): Shop {
    return new Shop(yard);
  }

  send(command: Command, key = `write-${this.#told++}`, fingerprint = JSON.stringify(command)): CommandAnswer {
    const receipt = { idempotencyKey: key, fingerprint };
    return this.yard.core.command(owner, receipt, command, { atMs: this.atMs, today: this.today });
  }

  /** A further key of the yard. */
  giveKey(key: NewKey): void {
    const receipt = { idempotencyKey: `give-${key.keyId}`, fingerprint: key.keyId };
    const occasion = { atMs: this.atMs, today: this.today };
    expect(this.yard.core.command(owner, receipt, { do: 'make-key', key }, occasion).ok).toBe(true);
  }

  tell(command: Command): Told {
    const answer = this.send(command);
    if (!answer.ok) throw new Error(`refused: ${JSON.stringify(answer.refusal)}`);
    return answer.told;
  }

  /** The refusal; whatever was refused must have left the journal as it was. */
  refused(command: Command): Refusal {
    const before = this.seq();
    const answer = this.send(command);
    if (answer.ok) throw new Error(`not refused: ${JSON.stringify(answer.told)}`);
    expect(this.seq()).toBe(before);
    return answer.refusal;
  }

  ask<N extends QuestionName>(name: N, ask: Questions[N]['ask']): NonNullable<Questions[N]['answer']> {
    const answer = this.yard.core.ask(owner, name, ask);
    if (!answer.ok || answer.answer === null) throw new Error(`no answer to ${name}`);
    return answer.answer as NonNullable<Questions[N]['answer']>;
  }

  state(): SqlState {
    return new SqlState(this.yard.sql);
  }

  seq(): number {
    return this.state().seq();
  }

  takeIn(...drafts: readonly BoardDraft[]): readonly string[] {
    const rows = drafts.map((draft, row) => ({ row, draft }));
    const told = this.tell({ do: 'take-in-boards', rows, allOrNothing: true, faults: [] });
    return (told.taken ?? []).map((taken) => taken.id);
  }

  board(idOrTag: string): Board {
    const board = this.state().get('board', idOrTag) ?? this.state().boardsByTag(idOrTag)[0];
    if (!board) throw new Error(`no board ${idOrTag}`);
    return board;
  }

  job(name: string, ...parts: readonly Part[]): string {
    const { jobId } = this.tell({ do: 'open-job', draft: { name, dueOn: null, note: '' } });
    if (parts.length > 0) this.cutList(jobId ?? '', ...parts);
    return jobId ?? '';
  }

  cutList(jobId: string, ...parts: readonly Part[]): Told {
    return this.tell({ do: 'set-cut-list', jobId, parts, faults: [], allOrNothing: true, ifVersion: null });
  }

  pieces(jobId: string, key: string, element: number | null = null) {
    const found = this.ask('job', { jobId }).parts.find((each) => each.key === key);
    return (found?.pieces ?? []).filter((piece) => piece.element === element);
  }

  step(partKey: string, no: number, to: PieceStep['to'], element: number | null = null, why = ''): PieceStep {
    return { partKey, no, element, to, why };
  }

  reserve(jobId: string, ...tags: readonly string[]): readonly string[] {
    return this.tell({ do: 'reserve', jobId, boards: tags.map((tag) => ({ tag })) }).reservationIds ?? [];
  }

  /** Wanted pieces of these parts, cut one after the other from the tagged end, at 30 by 8 in unless said otherwise. */
  plan(jobId: string, boards: Readonly<Record<string, readonly Cutting[]>>): PlanBody {
    const job = this.ask('job', { jobId });
    const used = new Set<string>();
    const layouts = Object.entries(boards).map(([tag, cuttings]) => {
      const pieces = cuttings.flatMap(
        ({ key, element = null, count = 1, lengthNm = 30 * INCH, widthNm = 8 * INCH }) => {
          const found = job.parts.find((each) => each.key === key);
          const wanted = (found?.pieces ?? []).filter(
            (piece) =>
              piece.state === 'wanted' && piece.element === element && !used.has(`${key}/${element}/${piece.no}`),
          );
          return wanted.slice(0, count).map((piece) => {
            used.add(`${key}/${element}/${piece.no}`);
            return {
              partKey: key,
              label: found?.label ?? key,
              no: piece.no,
              element,
              what: element === null ? ('solid' as const) : ('ply' as const),
              showFace: null,
              attempt: piece.attempt,
              lengthNm,
              widthNm,
            };
          });
        },
      );
      return layoutOf(this.board(tag), pieces);
    });
    return planBodyOf(jobId, job.revision, layouts, (id) => this.board(id).version);
  }

  keep(plan: PlanBody): string {
    return this.tell({ do: 'keep-plan', plan }).planId ?? '';
  }

  /** Planned, held and at the saw. */
  atTheSaw(jobId: string, boards: Parameters<Shop['plan']>[1], how: 'whole' | 'runs' = 'whole') {
    const planId = this.keep(this.plan(jobId, boards));
    this.tell({ do: 'reserve-plan', planId, how });
    const sessionId = this.tell({ do: 'open-session', planId, boardIds: null }).sessionId ?? '';
    return { planId, sessionId };
  }

  journal(): readonly Movement[] {
    const movements: Movement[] = [];
    for (;;) {
      const page = this.ask('journal', { afterSeq: movements.at(-1)?.seq ?? 0, limit: 500 });
      if (page.length === 0) return movements;
      movements.push(...page);
    }
  }

  /** The journal alone gives the same yard, numbers have no gap, and every rule holds. */
  expectSound(): void {
    const journal = this.journal();
    expect(journal.map((movement) => movement.seq)).toEqual(journal.map((_, at) => at + 1));
    const replayed = replay(journal);
    expect(stateDifference(replayed, memoryCopy(this.yard))).toBeNull();
    const everything = replayed.ids('board').map((id) => ({ entity: 'board' as const, id, was: {}, now: {} }));
    const others = (['reservation', 'job', 'plan', 'part', 'session'] as const).flatMap((entity) =>
      replayed.ids(entity).map((id) => ({ entity, id, was: {}, now: {} })),
    );
    expect(brokenRules(replayed, [...everything, ...others])).toEqual([]);
    for (const balance of journal.flatMap((movement) => movement.balances)) {
      const out = [
        balance.partsNm3,
        balance.failedNm3,
        balance.offcutsNm3,
        balance.kerfNm3,
        balance.scrapNm3,
        balance.writeOffNm3,
      ];
      expect(out.reduce((sum, nm3) => sum + BigInt(nm3), 0n)).toBe(BigInt(balance.inNm3));
      expect(out.every((nm3) => BigInt(nm3) >= 0n)).toBe(true);
    }
  }
}

const tables = {
  settings: 'yard',
  board: 'board',
  job: 'job',
  part: 'part',
  plan: 'plan',
  reservation: 'reservation',
  session: 'session',
} as const;

/** Every thing of the database, put into maps. */
export function memoryCopy(yard: NodeYard): MemoryState {
  const copy = new MemoryState();
  const state = new SqlState(yard.sql);
  for (const kind of Object.keys(tables) as (keyof typeof tables)[]) {
    for (const { id } of yard.sql.rows<{ id: string }>(`SELECT id FROM ${tables[kind]}`)) {
      const entity = state.get(kind, id);
      if (entity) copy.put(kind, id, entity);
    }
  }
  return copy;
}

export interface Cutting {
  readonly key: string;
  readonly element?: number;
  readonly count?: number;
  readonly lengthNm?: number;
  readonly widthNm?: number;
}

type ToPlace = Omit<PlacedPiece, 'fromNm' | 'toNm' | 'leftNm' | 'rightNm'> & { lengthNm: number; widthNm: number };

function layoutOf(board: Board, toPlace: readonly ToPlace[]): Layout {
  const pieces: PlacedPiece[] = [];
  const cuts: Layout['cuts'] = [];
  const scrap: Layout['scrap'] = [];
  let fromNm = 0;
  const cut = (axis: 'rip' | 'crosscut', of: Layout['offcuts'][number], atNm: number) =>
    cuts.push({ no: cuts.length + 1, axis, of, atNm, kerfNm: KERF, words: `${axis} at ${atNm}` });
  for (const { lengthNm, widthNm, ...named } of toPlace) {
    const toNm = fromNm + lengthNm;
    const across = { leftNm: 0, rightNm: board.widthNm };
    if (toNm < board.lengthNm) cut('crosscut', { fromNm, toNm: board.lengthNm, ...across }, toNm);
    pieces.push({ ...named, fromNm, toNm, leftNm: 0, rightNm: widthNm });
    if (widthNm < board.widthNm) {
      cut('rip', { fromNm, toNm, ...across }, widthNm);
      if (widthNm + KERF < board.widthNm) scrap.push({ fromNm, toNm, leftNm: widthNm + KERF, rightNm: board.widthNm });
    }
    fromNm = toNm + KERF;
  }
  const rest = { fromNm, toNm: board.lengthNm, leftNm: 0, rightNm: board.widthNm };
  const isOffcut = board.lengthNm - fromNm >= 12 * INCH;
  if (!isOffcut && fromNm < board.lengthNm) scrap.push(rest);
  return {
    boardId: board.id,
    tag: board.tag,
    lengthNm: board.lengthNm,
    widthNm: board.widthNm,
    thicknessNm: board.thicknessNm,
    phase: 1,
    pieces,
    cuts,
    offcuts: isOffcut ? [rest] : [],
    scrap,
    reserves: [],
    unevenEdges: [],
    yieldPercent: 50,
    warnings: [],
    drawing: { title: board.tag, description: '', widthMm: 1, heightMm: 1, shapes: [], legend: [] },
  };
}

export function planBodyOf(
  jobId: string,
  jobRevision: number,
  layouts: Layout[],
  version: (boardId: string) => number,
): PlanBody {
  const placedCount = layouts.reduce((sum, layout) => sum + layout.pieces.length, 0);
  return {
    jobId,
    jobRevision,
    effort: 'normal',
    seed: 1,
    aim: 'least-cost',
    continues: null,
    changes: [],
    layouts,
    unplaced: [],
    kerf: { ripNm: KERF, crosscutNm: KERF },
    boardVersions: Object.fromEntries(layouts.map((layout) => [layout.boardId, version(layout.boardId)])),
    placedCount,
    wantedCount: placedCount,
    yieldPercent: 50,
    cutCount: 9,
    settingCount: 6,
    cost: null,
    stockUsedM3: 0,
    stockBoundM3: 0,
    gapPercent: 0,
    boundIs: 'not worked out here',
    notes: [],
  };
}
