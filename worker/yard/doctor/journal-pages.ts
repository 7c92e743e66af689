/** Movements read while checking, each once, with what they did to each thing; let go again when they grow long. */
import type { Change, EntityKind, Movement } from '../../contract/movement.ts';
import { entityAfter } from '../apply.ts';
import type { Sql } from '../sql.ts';
import { readMovement } from '../sql-journal.ts';
import type { Entities } from '../state.ts';

const CHANGES_KEPT = 20_000;
const LIFE = 'SELECT seq FROM journal_touch WHERE entity = ? AND id = ? ORDER BY seq';

interface Page {
  readonly movement: Movement;
  readonly byThing: ReadonlyMap<string, readonly Change[]>;
}

export function thingName(entity: EntityKind, id: string): string {
  return `${entity} ${id}`;
}

export class JournalPages {
  readonly #sql: Sql;
  readonly #pages = new Map<number, Page>();
  #changes = 0;

  constructor(sql: Sql) {
    this.#sql = sql;
  }

  /** Throws when the movement cannot be read. */
  page(seq: number): Page | null {
    const kept = this.#pages.get(seq);
    if (kept) return kept;
    const movement = readMovement(this.#sql, seq);
    if (!movement) return null;
    const byThing = new Map<string, Change[]>();
    for (const change of movement.changes) {
      const name = thingName(change.entity, change.id);
      const list = byThing.get(name);
      if (list) list.push(change);
      else byThing.set(name, [change]);
    }
    if (this.#changes > CHANGES_KEPT) {
      this.#pages.clear();
      this.#changes = 0;
    }
    this.#changes += movement.changes.length;
    const page = { movement, byThing };
    this.#pages.set(seq, page);
    return page;
  }

  /** The movements that touched it, oldest first. */
  lifeOf(entity: EntityKind, id: string): readonly number[] {
    return this.#sql.rows<{ seq: number }>(LIFE, entity, id).map((row) => row.seq);
  }

  /** The thing as these movements make it; throws where one does not follow from the others. */
  folded<K extends EntityKind>(entity: K, id: string, life: readonly number[]): Entities[K] | null {
    let thing: Entities[K] | null = null;
    for (const seq of life) {
      for (const change of this.page(seq)?.byThing.get(thingName(entity, id)) ?? []) {
        thing = entityAfter<K>(thing, { ...change, entity }, seq);
      }
    }
    return thing;
  }
}
