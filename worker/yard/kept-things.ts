/**
 * Boards and jobs as the object last read or wrote them: of every hold asked for they are read anew, and seldom change.
 * It is true while only this object writes and nothing is taken back; then all of it is forgotten.
 */
import type { Board } from '../contract/board.ts';
import type { EntityKind } from '../contract/movement.ts';
import { Kept } from './kept.ts';
import type { Entities } from './state.ts';

/** So many of each. */
const MOST = 1_000;

type Shelf = { readonly [K in EntityKind]?: Kept<Entities[K]> };

export class KeptThings {
  readonly #shelves: Shelf = { board: new Kept(MOST), job: new Kept(MOST) };
  /** Boards that bear or bore a tag, by its fold: true while no board changes. */
  readonly #byFold = new Kept<readonly Board[]>(MOST);

  /** Null where it is not kept, which says nothing of whether it is there. */
  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null {
    return this.#shelves[kind]?.get(id) ?? null;
  }

  /** thing: null for one that is gone or never was. */
  keep<K extends EntityKind>(kind: K, id: string, thing: Entities[K] | null): void {
    if (thing === null) this.#shelves[kind]?.drop(id);
    else this.#shelves[kind]?.keep(id, thing);
  }

  boardsByFold(fold: string): readonly Board[] | null {
    return this.#byFold.get(fold);
  }

  keepFold(fold: string, boards: readonly Board[]): void {
    this.#byFold.keep(fold, boards);
  }

  forgetFolds(): void {
    this.#byFold.forget();
  }

  forget(): void {
    for (const shelf of Object.values(this.#shelves)) shelf.forget();
    this.#byFold.forget();
  }
}
