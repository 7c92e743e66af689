/** Keeps journals of writes under tokens while the sidebar is open; each token works once. */
import type { WriteJournal } from './guarded-write.ts';
import { HostError } from './host.ts';

export interface WriteTokens {
  keep(journal: WriteJournal): string | null;
  /** Gives the journal out; a token not known is refused. */
  find(token: string): WriteJournal;
  forget(token: string): void;
}

export function writeTokens(): WriteTokens {
  const journals = new Map<string, WriteJournal>();
  let count = 0;
  return {
    keep(journal) {
      if (journal.cells.length === 0) return null;
      count += 1;
      const token = `write-${count}`;
      journals.set(token, journal);
      return token;
    },
    find(token) {
      const journal = journals.get(token);
      if (!journal) throw new HostError('gone', 'That change can no longer be undone from here.');
      return journal;
    },
    forget: (token) => void journals.delete(token),
  };
}
