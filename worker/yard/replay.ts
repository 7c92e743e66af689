/** Rebuilding a yard from its journal alone. */
import type { Movement } from '../contract/movement.ts';
import { apply } from './apply.ts';
import { MemoryState } from './memory-state.ts';

export function replay(journal: Iterable<Movement>): MemoryState {
  const state = new MemoryState();
  for (const movement of journal) apply(state, movement);
  return state;
}
