/** The yard's state in maps: what replaying a journal gives, and what tests compare the database with. */
import type { Board } from '../contract/board.ts';
import type { EntityKind, Movement } from '../contract/movement.ts';
import type { Reservation, Session } from '../contract/session.ts';
import { sameValue } from './same-value.ts';
import type { Entities, PlanHead, StoredPart, YardState } from './state.ts';
import { tagFold } from './tag.ts';

type Shelves = { readonly [K in EntityKind]: Map<string, Entities[K]> };

export const entityKinds = ['settings', 'board', 'job', 'part', 'plan', 'reservation', 'session'] as const;

export class MemoryState implements YardState {
  readonly #shelves: Shelves = {
    settings: new Map(),
    board: new Map(),
    job: new Map(),
    part: new Map(),
    plan: new Map(),
    reservation: new Map(),
    session: new Map(),
  };
  readonly #journal: Movement[] = [];

  seq(): number {
    return this.#journal.length;
  }

  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null {
    return this.#shelves[kind].get(id) ?? null;
  }

  ids(kind: EntityKind): readonly string[] {
    return [...this.#shelves[kind].keys()].sort();
  }

  boardsByTag(tag: string): readonly Board[] {
    const fold = tagFold(tag);
    return [...this.#shelves.board.values()].filter((board) => tagFold(board.tag) === fold);
  }

  partsOfJob(jobId: string): readonly StoredPart[] {
    const parts = [...this.#shelves.part.values()].filter((part) => part.jobId === jobId);
    return parts.sort((a, b) => a.place - b.place || (a.key < b.key ? -1 : 1));
  }

  plansOfJob(jobId: string): readonly PlanHead[] {
    const plans = [...this.#shelves.plan.values()].filter((plan) => plan.jobId === jobId);
    return plans.map(({ id, jobRevision, state }) => ({ id, jobId, jobRevision, state }));
  }

  #reservations(keep: (reservation: Reservation) => boolean): readonly Reservation[] {
    const found = [...this.#shelves.reservation.values()].filter(keep);
    return found.sort((a, b) => (a.boardId === b.boardId ? a.fromNm - b.fromNm : a.boardId < b.boardId ? -1 : 1));
  }

  reservationsOnBoard(boardId: string): readonly Reservation[] {
    return this.#reservations((reservation) => reservation.boardId === boardId);
  }

  reservationsAcross(boardId: string, fromNm: number, toNm: number): readonly Reservation[] {
    return this.reservationsOnBoard(boardId).filter((held) => held.fromNm < toNm && held.toNm > fromNm);
  }

  reservationsOfJob(jobId: string): readonly Reservation[] {
    return this.#reservations((reservation) => reservation.jobId === jobId);
  }

  reservationsOfPlan(planId: string): readonly Reservation[] {
    return this.#reservations((reservation) => reservation.planId === planId);
  }

  sessionsOfPlan(planId: string): readonly Session[] {
    return [...this.#shelves.session.values()].filter((session) => session.planId === planId);
  }

  sessionsOfJob(jobId: string): readonly Session[] {
    return [...this.#shelves.session.values()].filter((session) => session.jobId === jobId);
  }

  movement(seq: number): Movement | null {
    return this.#journal[seq - 1] ?? null;
  }

  touchBefore(kind: EntityKind, id: string, seq: number): number | null {
    for (let at = Math.min(seq - 1, this.#journal.length); at >= 1; at--) {
      if (this.#journal[at - 1]?.changes.some((change) => change.entity === kind && change.id === id)) return at;
    }
    return null;
  }

  undoOf(seq: number): number | null {
    for (let at = this.#journal.length; at > seq; at--) if (this.#journal[at - 1]?.undoes === seq) return at;
    return null;
  }

  add<K extends EntityKind>(kind: K, id: string, entity: Entities[K]): void {
    if (this.#shelves[kind].has(id)) throw new Error(`${kind} ${id} is there already`);
    this.#shelves[kind].set(id, entity);
  }

  put<K extends EntityKind>(kind: K, id: string, entity: Entities[K]): void {
    this.#shelves[kind].set(id, entity);
  }

  remove(kind: EntityKind, id: string): void {
    this.#shelves[kind].delete(id);
  }

  append(movement: Movement): void {
    this.#journal.push(movement);
  }
}

/** The first difference in words, or null when both hold the same things in the same state. */
export function stateDifference(a: MemoryState, b: MemoryState): string | null {
  for (const kind of entityKinds) {
    const ids = a.ids(kind);
    if (!sameValue(ids, b.ids(kind))) return `not the same ${kind}s: ${ids.length} and ${b.ids(kind).length}`;
    for (const id of ids) {
      const [one, other] = [a.get(kind, id), b.get(kind, id)];
      if (!sameValue(one, other)) return `${kind} ${id}: ${JSON.stringify(one)} and ${JSON.stringify(other)}`;
    }
  }
  return null;
}

export function statesEqual(a: MemoryState, b: MemoryState): boolean {
  return stateDifference(a, b) === null;
}
