/**
 * Keeps journals of writes under tokens; each token works once. The last one is kept on the device too, where it is given:
 * a sidebar that was closed and opened again can still take the last write back.
 */
import type { DeviceSettings } from './device-settings.ts';
import type { WriteJournal } from './guarded-write.ts';
import { HostError } from './host.ts';

export interface WriteTokens {
  keep(journal: WriteJournal): string | null;
  /** Gives the journal out; a token not known is refused. */
  find(token: string): WriteJournal;
  forget(token: string): void;
}

const KEPT_AS = 'last-write';
/** A browser keeps some five million characters for a page; a longer journal lasts as long as the page. */
const CHARS_MAX = 500_000;

interface Kept {
  readonly token: string;
  readonly journal: WriteJournal;
}

export function writeTokens(device: DeviceSettings | null = null, nowMs: () => number = Date.now): WriteTokens {
  const journals = new Map<string, WriteJournal>();
  let count = 0;

  function keepOnDevice(kept: Kept | null): void {
    const text = kept === null ? null : JSON.stringify(kept);
    try {
      device?.set(KEPT_AS, text === null || text.length > CHARS_MAX ? null : text);
    } catch {
      // No room there: it lasts as long as the page.
    }
  }

  function keptOnDevice(): Kept | null {
    try {
      const kept: unknown = JSON.parse(device?.get(KEPT_AS) ?? 'null');
      return typeof kept === 'object' && kept !== null && 'token' in kept && 'journal' in kept ? (kept as Kept) : null;
    } catch {
      return null;
    }
  }

  return {
    keep(journal) {
      if (journal.cells.length === 0) return null;
      count += 1;
      const token = `write-${nowMs().toString(36)}-${count}`;
      journals.set(token, journal);
      keepOnDevice({ token, journal });
      return token;
    },
    find(token) {
      const kept = keptOnDevice();
      const journal = journals.get(token) ?? (kept?.token === token ? kept.journal : undefined);
      if (!journal) throw new HostError('gone', 'That change can no longer be undone from here.');
      return journal;
    },
    forget(token) {
      journals.delete(token);
      if (keptOnDevice()?.token === token) keepOnDevice(null);
    },
  };
}
