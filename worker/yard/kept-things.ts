/**
 * Boards and jobs as the object last read or wrote them: of every hold asked for they are read anew, and seldom change.
 * It is true while only this object writes and nothing is taken back; then all of it is forgotten.
 */
import type { Board } from '../contract/board.ts';
import type { EntityKind } from '../contract/movement.ts';
import type { Entities } from './state.ts';

/** So many of each; then all are forgotten, and the next calls read what they need. */
const KEPT = 1_000;

type Shelf = { readonly [K in EntityKind]?: Map<string, Entities[K]> };

export class KeptThings {
  readonly #shelves: Shelf = { board: new Map(), job: new Map() };
  /** Boards that bear or bore a tag, by its fold: true while no board changes. */
  readonly #byFold = new Map<string, readonly Board[]>();

  /** Null where it is not kept, which says nothing of whether it is there. */
  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null {
    return this.#shelves[kind]?.get(id) ?? null;
  }

  /** thing: null for one that is gone or never was. */
  keep<K extends EntityKind>(kind: K, id: string, thing: Entities[K] | null): void {
    const shelf = this.#shelves[kind];
    if (shelf && shelf.size >= KEPT) shelf.clear();
    if (thing === null) shelf?.delete(id);
    else shelf?.set(id, thing);
  }

  boardsByFold(fold: string): readonly Board[] | null {
    return this.#byFold.get(fold) ?? null;
  }

  keepFold(fold: string, boards: readonly Board[]): void {
    if (this.#byFold.size >= KEPT) this.#byFold.clear();
    this.#byFold.set(fold, boards);
  }

  forgetFolds(): void {
    this.#byFold.clear();
  }

  forget(): void {
    for (const shelf of Object.values(this.#shelves)) shelf.clear();
    this.#byFold.clear();
  }
}
