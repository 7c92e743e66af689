/** Whether a movement is undone now: an undo may itself have been undone, and then the movement stands again. */
import type { JournalReader } from './state.ts';

export function undoneBy(journal: JournalReader, seq: number): number | null {
  const undo = journal.undoOf(seq);
  if (undo === null) return null;
  return undoneBy(journal, undo) === null ? undo : null;
}
