/**
 * Turning a movement round by a counter-movement. It is refused where a later movement built on the same thing, or where
 * the yard as it would then be breaks a rule (a board that another job holds since).
 */
import type { Change, EntityKind, Movement } from '../../contract/movement.ts';
import { removed } from '../change.ts';
import { type CommandOf, type Decision, moved, notThere, refused } from '../decision.ts';
import { OverlayReader } from '../overlay.ts';
import type { JournalReader, Known, YardReader } from '../state.ts';
import { undoneBy } from '../undone.ts';
import { brokenRules } from './rules.ts';

/** Movements read while looking back, each once: a delivery touches two thousand boards. */
class LookingBack {
  readonly #journal: JournalReader;
  readonly #read = new Map<number, Movement | null>();

  constructor(journal: JournalReader) {
    this.#journal = journal;
  }

  movement(seq: number): Movement | null {
    let movement = this.#read.get(seq);
    if (movement === undefined) {
      movement = this.#journal.movement(seq);
      this.#read.set(seq, movement);
    }
    return movement;
  }

  /**
   * Whether this movement made the thing what it is now. A later undo takes the thing back to what it was before the
   * movement undone, so the search goes on from there.
   */
  isLast(
    kind: EntityKind,
    id: string,
    wanted: number,
  ): { readonly last: true } | { readonly last: false; readonly later: number | null } {
    let seq = this.#journal.touchBefore(kind, id, Number.MAX_SAFE_INTEGER);
    while (seq !== null && seq > wanted) {
      const undoes = this.movement(seq)?.undoes ?? null;
      if (undoes === null) return { last: false, later: seq };
      seq = this.#journal.touchBefore(kind, id, undoes);
    }
    return seq === wanted ? { last: true } : { last: false, later: seq };
  }
}

/** A revision is never given out twice, so that no old plan can pass for one of a new cut list. */
function turned(state: YardReader, change: Change): Change {
  const present = state.get(change.entity, change.id);
  if (present === null) return { entity: change.entity, id: change.id, was: null, now: change.was };
  if (change.was === null) return removed(change.entity, change.id, present);
  const fields: Readonly<Record<string, unknown>> = { ...present };
  const was: Record<string, unknown> = {};
  for (const name in change.was) was[name] = fields[name] ?? null;
  const now = { ...change.was };
  const { revision } = was;
  if (change.entity === 'job' && typeof revision === 'number') now.revision = revision + 1;
  return { entity: change.entity, id: change.id, was, now };
}

export function undo(state: Known, command: CommandOf<'undo'>): Decision {
  const movement = state.movement(command.seq);
  if (!movement) return notThere('movement', String(command.seq));
  if (movement.kind === 'yard-founded') return refused('cannot-undo', 'The founding of the yard cannot be undone.');
  if (movement.kind.startsWith('key-'))
    return refused('cannot-undo', 'Keys are made, renewed and taken back under Shop; the journal only names it.');
  const before = undoneBy(state, movement.seq);
  if (before !== null)
    return refused('already-undone', `Movement ${movement.seq} was undone already, by movement ${before}.`);
  const back = new LookingBack(state);
  for (const change of movement.changes) {
    const found = back.isLast(change.entity, change.id, movement.seq);
    if (found.last) continue;
    const later = found.later === null ? null : back.movement(found.later);
    const words = later ? `movement ${later.seq} ("${later.summary}")` : 'a later movement';
    return refused('cannot-undo', `Since then ${words} changed the same ${change.entity}. Undo that one first.`);
  }
  const changes = movement.changes.map((change) => turned(state, change)).reverse();
  const broken = brokenRules(new OverlayReader(state, changes), changes);
  const [first] = broken;
  if (first) {
    const conflicts = broken.flatMap((each) => each.conflict ?? []);
    const detail = `This cannot be undone now: ${first.words}.`;
    return refused('cannot-undo', detail, conflicts.length > 0 ? { conflicts } : {});
  }
  const { jobId, seq } = movement;
  const summary = `No. ${seq} turned round: ${movement.summary}`;
  return moved({ kind: 'undone', jobId, summary, changes, undoes: seq }, { undoneSeq: seq });
}
