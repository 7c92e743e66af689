/** What we changed in this file, kept with it; and whether the file may be written at all. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { SheetHost } from '../../host/host.ts';

export interface Written {
  readonly atMs: number;
  readonly what: string;
  readonly sheet: string;
  readonly cells: number;
  /** Headings of our columns that were written into; empty for cells of the user's own. */
  readonly columns: readonly string[];
  readonly undoToken: string | null;
  readonly undone: boolean;
}

export interface WriteLog {
  /** Newest first. */
  readonly entries: ReadonlySignal<readonly Written[]>;
  readonly readOnly: ReadonlySignal<boolean>;
  load(): Promise<void>;
  add(entry: Written): Promise<void>;
  markUndone(undoToken: string): Promise<void>;
  setReadOnly(on: boolean): Promise<void>;
  /** Forgets all that was kept of this file: the log, how columns were read, which columns are ours. Cells stay. */
  forgetFile(): Promise<void>;
}

const LOG_KEPT_AS = 'writes';
const READ_ONLY_KEPT_AS = 'read only';
/** Google keeps at most 9 kB under one name. */
const ENTRIES_MAX = 20;

export const READ_ONLY_HELP =
  'This file is set to be read only. Let Heartside write into it again under Help, This file.';

export function makeWriteLog(host: Pick<SheetHost, 'settings'>): WriteLog {
  const entries = signal<readonly Written[]>([]);
  const readOnly = signal(false);

  async function keep(list: readonly Written[]): Promise<void> {
    entries.value = list.slice(0, ENTRIES_MAX);
    await host.settings.set(LOG_KEPT_AS, JSON.stringify(entries.value), 'file').catch(() => {
      // A file that takes no settings keeps the list as long as the sidebar is open.
    });
  }

  return {
    entries,
    readOnly,
    async load() {
      readOnly.value = (await host.settings.get(READ_ONLY_KEPT_AS, 'file')) === 'yes';
      entries.value = entriesOf(await host.settings.get(LOG_KEPT_AS, 'file'));
    },
    add: (entry) => keep([entry, ...entries.value]),
    markUndone: (undoToken) =>
      keep(entries.value.map((entry) => (entry.undoToken === undoToken ? { ...entry, undone: true } : entry))),
    async setReadOnly(on) {
      await host.settings.set(READ_ONLY_KEPT_AS, on ? 'yes' : null, 'file');
      readOnly.value = on;
    },
    async forgetFile() {
      await host.settings.forgetFile();
      entries.value = [];
      readOnly.value = false;
    },
  };
}

function entriesOf(kept: string | null): readonly Written[] {
  try {
    const list: unknown = JSON.parse(kept ?? '[]');
    return Array.isArray(list) ? list.filter(isWritten) : [];
  } catch {
    return [];
  }
}

function isWritten(value: unknown): value is Written {
  const entry: Partial<Record<keyof Written, unknown>> = Object(value);
  return typeof entry.what === 'string' && typeof entry.atMs === 'number' && Array.isArray(entry.columns);
}
