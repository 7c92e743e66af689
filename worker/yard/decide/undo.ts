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
   * The movements after `wanted` that the thing still stands on. A later undo takes the thing back to what it was before the
   * movement undone, so the search goes on from there. last: whether `wanted` made what they built on.
   */
  after(kind: EntityKind, id: string, wanted: number): { readonly later: readonly Movement[]; readonly last: boolean } {
    const later: Movement[] = [];
    let seq = this.#journal.touchBefore(kind, id, Number.MAX_SAFE_INTEGER);
    while (seq !== null && seq > wanted) {
      const movement = this.movement(seq);
      const undoes = movement?.undoes ?? null;
      if (movement !== null && undoes === null) later.push(movement);
      seq = this.#journal.touchBefore(kind, id, undoes ?? seq);
    }
    return { later, last: seq === wanted };
  }

  /** All that must be undone before this movement can be, newest first: what built on it, and what built on that. */
  inTheWay(first: Movement): {
    readonly movements: readonly Movement[];
    readonly more: boolean;
    readonly lost: boolean;
  } {
    const found = new Map<number, Movement>();
    const look: Movement[] = [first];
    let lost = false;
    for (const movement of look) {
      for (const { entity, id } of movement.changes) {
        const { later, last } = this.after(entity, id, movement.seq);
        if (!last && movement === first) lost = true;
        for (const one of later) {
          if (found.has(one.seq)) continue;
          found.set(one.seq, one);
          look.push(one);
        }
        // A delivery has two thousand boards; nobody reads so many names.
        if (found.size > NAMED_MAX) return { movements: newestFirst(found), more: true, lost };
      }
    }
    return { movements: newestFirst(found), more: false, lost };
  }
}

const NAMED_MAX = 12;
const newestFirst = (found: ReadonlyMap<number, Movement>) => [...found.values()].sort((a, b) => b.seq - a.seq);

/** "First undo no. 24 ("Held Q-1 for Stool"), then no. 23 (...)." */
function firstUndo(movements: readonly Movement[], more: boolean): string {
  const named = movements.slice(0, NAMED_MAX).map(({ seq, summary }) => `no. ${seq} ("${summary}")`);
  const one = movements.length === 1;
  const rest = more ? ', and then what is still in the way' : '';
  return `First undo ${named.join(', then ')}${rest}: ${one ? 'it came after and builds' : 'they came after and build'} on this one.`;
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
  const { movements, more, lost } = new LookingBack(state).inTheWay(movement);
  if (movements.length > 0) return refused('cannot-undo', firstUndo(movements, more));
  if (lost) return refused('cannot-undo', 'What it changed has been changed again since.');
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
