/** Folding a movement into the state. A mismatch between what a change says was there and what is there is a bug, so it throws. */
import type { Change, EntityKind, Movement } from '../contract/movement.ts';
import { inTodaysForm } from './earlier-forms.ts';
import { sameValue } from './same-value.ts';
import type { Entities, YardState } from './state.ts';

function fail(change: Change, seq: number, what: string): never {
  throw new Error(`movement ${seq} does not fit the state: ${change.entity} ${change.id} ${what}`);
}

/** The thing after the change; null when the change ends it. */
export function entityAfter<K extends EntityKind>(
  present: Entities[K] | null,
  change: Change & { readonly entity: K },
  seq: number,
): Entities[K] | null {
  if (change.was === null) {
    if (present !== null) fail(change, seq, 'is there already');
  } else {
    if (present === null) return fail(change, seq, 'is not there');
    const fields: Readonly<Record<string, unknown>> = { ...present };
    // A thing that ends is written down whole, in the form of its time.
    const was = change.now === null ? { ...inTodaysForm<K>(change.entity, change.was as Entities[K]) } : change.was;
    for (const [name, value] of Object.entries(was)) {
      const is = fields[name] ?? null;
      if (!sameValue(is, value ?? null)) fail(change, seq, `has another ${name} than the movement says`);
    }
  }
  if (change.now === null) return null;
  const after = { ...present, ...change.now, version: seq } as Entities[K];
  return inTodaysForm<K>(change.entity, after);
}

export function apply(state: YardState, movement: Movement): void {
  if (movement.seq !== state.seq() + 1) {
    throw new Error(`movement ${movement.seq} does not follow ${state.seq()}`);
  }
  for (const change of movement.changes) {
    if (change.was === null && change.now !== null) {
      const made = entityAfter(null, change, movement.seq);
      if (made !== null) state.add(change.entity, change.id, made);
      continue;
    }
    const after = entityAfter(state.get(change.entity, change.id), change, movement.seq);
    if (after === null) state.remove(change.entity, change.id);
    else state.put(change.entity, change.id, after);
  }
  state.append(movement);
}
