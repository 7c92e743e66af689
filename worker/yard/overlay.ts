/** The yard as it would be after some changes, without making them: what undo checks its rules on. */
import type { Board } from '../contract/board.ts';
import type { Change, EntityKind } from '../contract/movement.ts';
import type { Reservation, Session } from '../contract/session.ts';
import { entityAfter } from './apply.ts';
import type { Entities, PlanHead, StoredPart, YardReader } from './state.ts';
import { tagFold } from './tag.ts';

export class OverlayReader implements YardReader {
  readonly #base: YardReader;
  readonly #after: { readonly [K in EntityKind]: Map<string, Entities[K] | null> } = {
    settings: new Map(),
    board: new Map(),
    job: new Map(),
    part: new Map(),
    plan: new Map(),
    reservation: new Map(),
    session: new Map(),
  };

  /** Changed boards by their tag: a delivery changes two thousand at once. */
  readonly #boardsByFold = new Map<string, Board[]>();

  constructor(base: YardReader, changes: readonly Change[]) {
    this.#base = base;
    for (const change of changes) this.#fold(change.entity, change);
    for (const board of this.#after.board.values()) {
      if (!board) continue;
      const fold = tagFold(board.tag);
      this.#boardsByFold.set(fold, [...(this.#boardsByFold.get(fold) ?? []), board]);
    }
  }

  #fold<K extends EntityKind>(kind: K, change: Change): void {
    const after = entityAfter<K>(this.get(kind, change.id), { ...change, entity: kind }, this.#base.seq() + 1);
    this.#after[kind].set(change.id, after);
  }

  seq(): number {
    return this.#base.seq();
  }

  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null {
    const after = this.#after[kind].get(id);
    return after === undefined ? this.#base.get(kind, id) : after;
  }

  /** Those of the base that did not change, and of the changed ones those that now belong. */
  #list<K extends EntityKind, T extends { readonly id: string }>(
    kind: K,
    base: readonly T[],
    show: (entity: Entities[K]) => T | null,
  ): readonly T[] {
    const changed = this.#after[kind];
    const fresh = [...changed.values()].flatMap((entity) => (entity ? (show(entity) ?? []) : []));
    return [...base.filter((item) => !changed.has(item.id)), ...fresh];
  }

  boardsByTag(tag: string): readonly Board[] {
    const base = this.#base.boardsByTag(tag).filter((board) => !this.#after.board.has(board.id));
    return [...base, ...(this.#boardsByFold.get(tagFold(tag)) ?? [])];
  }

  partsOfJob(jobId: string): readonly StoredPart[] {
    const changed = this.#after.part;
    const base = this.#base.partsOfJob(jobId).filter((part) => !changed.has(`${jobId}/${part.key}`));
    const fresh = [...changed.values()].flatMap((part) => (part?.jobId === jobId ? [part] : []));
    return [...base, ...fresh].sort((a, b) => a.place - b.place);
  }

  plansOfJob(jobId: string): readonly PlanHead[] {
    return this.#list('plan', this.#base.plansOfJob(jobId), (plan) => (plan.jobId === jobId ? plan : null));
  }

  reservationsOnBoard(boardId: string): readonly Reservation[] {
    return this.#list('reservation', this.#base.reservationsOnBoard(boardId), (held) =>
      held.boardId === boardId ? held : null,
    );
  }

  reservationsAcross(boardId: string, fromNm: number, toNm: number): readonly Reservation[] {
    return this.#list('reservation', this.#base.reservationsAcross(boardId, fromNm, toNm), (held) =>
      held.boardId === boardId && held.fromNm < toNm && held.toNm > fromNm ? held : null,
    );
  }

  reservationsOfJob(jobId: string): readonly Reservation[] {
    return this.#list('reservation', this.#base.reservationsOfJob(jobId), (held) =>
      held.jobId === jobId ? held : null,
    );
  }

  reservationsOfPlan(planId: string): readonly Reservation[] {
    return this.#list('reservation', this.#base.reservationsOfPlan(planId), (held) =>
      held.planId === planId ? held : null,
    );
  }

  sessionsOfPlan(planId: string): readonly Session[] {
    return this.#list('session', this.#base.sessionsOfPlan(planId), (each) => (each.planId === planId ? each : null));
  }

  sessionsOfJob(jobId: string): readonly Session[] {
    return this.#list('session', this.#base.sessionsOfJob(jobId), (each) => (each.jobId === jobId ? each : null));
  }
}
