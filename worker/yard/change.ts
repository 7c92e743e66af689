/** Making the changes of a movement. was and now carry only the fields that differ; version is never among them. */
import type { Change, EntityKind } from '../contract/movement.ts';
import { sameValue } from './same-value.ts';
import type { Entities } from './state.ts';

type Fresh<K extends EntityKind> = Omit<Entities[K], 'version'>;
/** A field left out or undefined stays as it is. */
type Patch<K extends EntityKind> = { readonly [F in keyof Fresh<K>]?: Fresh<K>[F] | undefined };

function fieldsOf(entity: object): Record<string, unknown> {
  const fields: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(entity)) {
    if (name !== 'version' && value !== undefined) fields[name] = value;
  }
  return fields;
}

export function created<K extends EntityKind>(entity: K, id: string, now: Fresh<K>): Change {
  return { entity, id, was: null, now: fieldsOf(now) };
}

export function removed<K extends EntityKind>(entity: K, id: string, was: Entities[K]): Change {
  return { entity, id, was: fieldsOf(was), now: null };
}

/** No change at all gives an empty list, so that nothing is touched that stays as it was. */
export function changed<K extends EntityKind>(
  entity: K,
  id: string,
  was: Entities[K],
  patch: Patch<K>,
): readonly Change[] {
  const before: Record<string, unknown> = {};
  const after: Record<string, unknown> = {};
  const present = fieldsOf(was);
  for (const [name, value] of Object.entries(patch)) {
    if (value === undefined || sameValue(present[name], value)) continue;
    before[name] = present[name] ?? null;
    after[name] = value;
  }
  return Object.keys(after).length === 0 ? [] : [{ entity, id, was: before, now: after }];
}
