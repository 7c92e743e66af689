/**
 * Boards and jobs as the object last read or wrote them: of every hold asked for they are read anew, and seldom change.
 * It is true while only this object writes and nothing is taken back; then all of it is forgotten.
 */
import type { Board } from '../contract/board.ts';
import type { Job } from '../contract/job.ts';
import type { EntityKind } from '../contract/movement.ts';
import type { Entities } from './state.ts';

/** So many of each; then all are forgotten, and the next calls read what they need. */
const KEPT = 1_000;

export class KeptThings {
  readonly #board = new Map<string, Board>();
  readonly #job = new Map<string, Job>();
  /** Boards that bear or bore a tag, by its fold: true while no board changes. */
  readonly #byFold = new Map<string, readonly Board[]>();

  /** Null where it is not kept, which says nothing of whether it is there. */
  get<K extends EntityKind>(kind: K, id: string): Entities[K] | null {
    return (this.#shelf(kind)?.get(id) as Entities[K] | undefined) ?? null;
  }

  #shelf(kind: EntityKind): Map<string, unknown> | null {
    if (kind === 'board') return this.#board;
    return kind === 'job' ? this.#job : null;
  }

  /** thing: null for one that is gone or never was. */
  keep<K extends EntityKind>(kind: K, id: string, thing: Entities[K] | null): void {
    const shelf = this.#shelf(kind);
    if (!shelf) return;
    if (shelf.size >= KEPT) shelf.clear();
    if (thing === null) shelf.delete(id);
    else shelf.set(id, thing);
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
    this.#board.clear();
    this.#job.clear();
    this.#byFold.clear();
  }
}
