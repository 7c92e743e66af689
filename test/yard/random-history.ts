/** A yard lived in at random: every command, sensible and senseless, from one seed, so that a failure can be repeated. */
import type { BoardOutcome } from '../../worker/contract/session.ts';
import type { Command } from '../../worker/yard/command.ts';
import { boardOf, INCH, KERF, partOf, type Shop } from './shop.ts';

export type Random = () => number;

/** mulberry32: 32 bits of state are plenty to choose commands by. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export class RandomHistory {
  readonly #shop: Shop;
  readonly #random: Random;
  #tags = 0;
  readonly counts = new Map<string, { done: number; refused: number }>();

  /** Tags are counted from firstTag, so that a later history of the same yard has tags of its own. */
  constructor(shop: Shop, seed: number, firstTag = 0) {
    this.#shop = shop;
    this.#random = randomFrom(seed);
    this.#tags = firstTag;
  }

  #upTo(count: number): number {
    return Math.floor(this.#random() * count);
  }

  #one<T>(items: readonly T[]): T | undefined {
    return items[this.#upTo(items.length)];
  }

  #some<T>(items: readonly T[], most: number): readonly T[] {
    const count = 1 + this.#upTo(most);
    return [...items].sort(() => this.#random() - 0.5).slice(0, count);
  }

  #ids(table: 'board' | 'job' | 'reservation' | 'plan' | 'session', where = '1 = 1'): readonly string[] {
    const rows = this.#shop.yard.sql.rows<{ id: string }>(`SELECT id FROM ${table} WHERE ${where} ORDER BY id`);
    return rows.map((row) => row.id);
  }

  #inStock(): readonly string[] {
    return this.#ids('board', "state = 'in-stock'");
  }

  #job(): string {
    const open = this.#ids('job', "state = 'open'");
    return this.#one(this.#random() < 0.95 && open.length > 0 ? open : this.#ids('job')) ?? '';
  }

  #cutList(jobId: string): Command {
    const keys = this.#some(['leg', 'rail', 'post', 'top'], 3);
    const parts = keys.map((key) => {
      const plies = {
        kind: 'plies' as const,
        plies: [0, 1].map(() => ({ thicknessNm: INCH, widthNm: 3 * INCH, offsetNm: 0 })),
      };
      return partOf(key, {
        quantity: 1 + this.#upTo(6),
        lengthNm: (this.#random() < 0.9 ? 29 : 27) * INCH,
        lamination: key === 'post' ? plies : null,
        use: this.#random() < 0.5 ? 'critical' : 'hidden',
      });
    });
    return { do: 'set-cut-list', jobId, parts, faults: [], allOrNothing: this.#random() < 0.7, ifVersion: null };
  }

  #plan(jobId: string): Command {
    const job = this.#shop.ask('job', { jobId });
    const tags = this.#some(this.#inStock(), 3).map((id) => this.#shop.board(id).tag);
    const layouts = tags.map((tag) => {
      let room = Math.floor((this.#shop.board(tag).lengthNm + KERF) / (20 * INCH + KERF));
      const cuttings = this.#some(job.parts, 2).map((part) => {
        const count = Math.min(room, 1 + this.#upTo(2));
        room -= count;
        return {
          key: part.key,
          ...(part.lamination === null ? {} : { element: this.#upTo(2) }),
          count,
          lengthNm: 20 * INCH,
          widthNm: (1 + this.#upTo(3)) * INCH,
        };
      });
      return [tag, cuttings] as const;
    });
    return { do: 'keep-plan', plan: this.#shop.plan(jobId, Object.fromEntries(layouts)) };
  }

  #outcome(boardId: string): BoardOutcome {
    const board = this.#shop.board(boardId);
    const roll = this.#random();
    if (roll < 0.55) return { as: 'planned', boardId, place: '' };
    if (roll < 0.65) return { as: 'untouched', boardId, why: 'the blade was blunt' };
    if (roll < 0.72) return { as: 'written-off', boardId, why: 'it split from end to end' };
    const keys = this.#some(['leg', 'rail', 'top'], 2);
    const parts = keys.map((partKey) => ({
      partKey,
      element: null,
      good: this.#upTo(3),
      failed: this.#upTo(2),
      why: 'it cupped',
      lengthNm: 15 * INCH,
      widthNm: 2 * INCH,
    }));
    const lengthNm = Math.max(INCH, Math.floor(board.lengthNm * this.#random() * 0.6));
    const offcuts =
      this.#random() < 0.6
        ? [{ tag: `O-${this.#tags++}`, lengthNm, widthNm: board.widthNm, place: '', defects: [], note: '' }]
        : [];
    return { as: 'cut', boardId, parts, offcuts, defectsFound: [], note: '' };
  }

  #reconcile(): Command {
    const sessionId = this.#one(this.#ids('session', "state = 'open'")) ?? 'cs_none';
    const session = this.#shop.state().get('session', sessionId);
    const open = (session?.boardIds ?? []).filter((id) => !session?.doneBoardIds.includes(id));
    const boards = (open.length > 0 ? this.#some(open, 2) : []).map((id) => this.#outcome(id));
    return {
      do: 'reconcile',
      sessionId,
      restAsPlanned: this.#random() < 0.5,
      boards,
      allowExtra: this.#random() < 0.3,
    };
  }

  #movePieces(jobId: string): Command {
    const job = this.#shop.ask('job', { jobId });
    const steps = this.#some(
      job.parts.flatMap((part) => part.pieces.map((piece) => ({ part, piece }))),
      3,
    ).map(({ part, piece }) => {
      const to = this.#one(['wanted', 'passed', 'failed', 'glued-up', 'milled'] as const) ?? 'passed';
      return this.#shop.step(part.key, piece.no, to, piece.element, this.#random() < 0.7 ? 'by eye' : '');
    });
    return { do: 'move-pieces', jobId, steps };
  }

  #reserve(jobId: string): Command {
    const boards = this.#some(this.#inStock(), 3).map((boardId) => {
      if (this.#random() < 0.4) return { boardId };
      const fromNm = this.#upTo(60) * INCH;
      return { boardId, fromNm, toNm: fromNm + (1 + this.#upTo(40)) * INCH };
    });
    return { do: 'reserve', jobId, boards };
  }

  #correct(): Command {
    const boardId = this.#one(this.#inStock()) ?? 'bd_none';
    const board = this.#shop.state().get('board', boardId);
    const patch = this.#one([
      { place: `rack ${this.#upTo(9)}` },
      { lengthNm: (60 + this.#upTo(60)) * INCH },
      { tag: `T-${this.#upTo(this.#tags + 5)}` },
      { costMinor: null },
    ]);
    return { do: 'correct-board', boardId, ifVersion: board?.version ?? 0, patch: patch ?? {} };
  }

  #takeIn(): Command {
    const rows = Array.from({ length: 1 + this.#upTo(4) }, (_, row) => ({
      row,
      draft: boardOf(`T-${this.#random() < 0.1 ? this.#upTo(this.#tags + 1) : this.#tags++}`, {
        lengthNm: (70 + this.#upTo(50)) * INCH,
        costMinor: 5_000,
      }),
    }));
    return { do: 'take-in-boards', rows, allOrNothing: this.#random() < 0.3, faults: [] };
  }

  #changeJob(jobId: string): Command {
    const job = this.#shop.state().get('job', jobId);
    const state = this.#one(['open', 'open', 'done', 'cancelled'] as const) ?? 'open';
    const ifVersion = this.#random() < 0.9 ? (job?.version ?? 0) : 1;
    return { do: 'change-job', jobId, ifVersion, patch: { state, note: `note ${this.#upTo(100)}` } };
  }

  next(): Command {
    const jobId = this.#job();
    const roll = this.#random() * 100;
    if (this.#inStock().length < 12 || roll < 5) return this.#takeIn();
    if (jobId === '' || this.#ids('job', "state = 'open'").length < 3 || roll < 6)
      return { do: 'open-job', draft: { name: `Job ${this.#upTo(1000)}`, dueOn: null, note: '' } };
    if (roll < 13) return this.#cutList(jobId);
    if (roll < 27) return this.#plan(jobId);
    if (roll < 38) {
      const planId = this.#one(this.#ids('plan', "state = 'draft'")) ?? 'pl_none';
      return { do: 'reserve-plan', planId, how: this.#random() < 0.5 ? 'runs' : 'whole' };
    }
    if (roll < 40) return { do: 'drop-plan', planId: this.#one(this.#ids('plan')) ?? 'pl_none' };
    if (roll < 48) {
      const planId = this.#one(this.#ids('plan', "state IN ('reserved', 'cutting')")) ?? 'pl_none';
      return { do: 'open-session', planId, boardIds: null };
    }
    if (roll < 57) return this.#reconcile();
    if (roll < 65) return this.#reserve(jobId);
    if (roll < 70) return { do: 'release', ids: this.#some(this.#ids('reservation'), 2) };
    if (roll < 74) return this.#correct();
    if (roll < 77)
      return {
        do: 'read-moisture',
        boardId: this.#one(this.#inStock()) ?? 'bd_none',
        readings: [{ moisturePercent: 8, on: '2026-02-01', meter: 'pin' }],
      };
    if (roll < 79) return { do: 'write-off-board', boardId: this.#one(this.#inStock()) ?? 'bd_none', why: 'rot' };
    if (roll < 81) return this.#changeJob(jobId);
    if (roll < 89) return this.#movePieces(jobId);
    const seq = Math.max(2, this.#shop.seq() - Math.floor(this.#random() ** 3 * 30));
    return { do: 'undo', seq };
  }

  step(): void {
    if (this.#random() < 0.05) {
      this.#shop.atMs += 86_400_000;
      this.#shop.today = new Date(this.#shop.atMs).toISOString().slice(0, 10);
    }
    const command = this.next();
    const answer = this.#shop.send(command);
    const count = this.counts.get(command.do) ?? { done: 0, refused: 0 };
    if (answer.ok) count.done += 1;
    else count.refused += 1;
    this.counts.set(command.do, count);
  }
}
