/** What the whole panel shares: the tab in front, the one polite voice, and the count of changes that screens reload on. */
import { type ReadonlySignal, type Signal, signal } from '@preact/signals';

export const tabs = ['Stock', 'Job', 'Cuts', 'Held', 'Offcuts', 'Drying', 'Wood', 'Journal', 'Shop', 'Help'] as const;
export type Tab = (typeof tabs)[number];

export type FromSheet = 'boards' | 'parts' | 'prices';

export interface Shell {
  readonly tab: Signal<Tab>;
  /** Goes up when the tab in front is pressed again: views inside it lead back to its first. */
  readonly homes: ReadonlySignal<number>;
  pressTab(tab: Tab): void;
  /** Stock shows the boards of the sheet to be taken in, Job its cut list, or Shop its prices, instead of what the yard has. */
  readonly fromSheet: Signal<FromSheet | null>;
  /** Opens that: the whole table to begin with, or only the rows that are selected. */
  takeFromSheet(what: FromSheet, rows: 'table' | 'selected'): void;
  /** How the rows are to be read first. */
  readonly rowsFromSheet: ReadonlySignal<'table' | 'selected'>;
  /** Read out politely, and shown for a while at the foot. */
  readonly said: Signal<string>;
  say(words: string): void;
  /** Goes up whenever the yard was changed from here. */
  readonly changes: Signal<number>;
  changed(): void;
  /** Today as the shop's calendar has it, ISO. */
  today(): string;
  nowMs(): number;
}

const SAID_FOR_MS = 8_000;

export function makeShell(nowMs: () => number): Shell {
  const tab = signal<Tab>('Stock');
  const homes = signal(0);
  const fromSheet = signal<FromSheet | null>(null);
  const rowsFromSheet = signal<'table' | 'selected'>('table');
  const said = signal('');
  const changes = signal(0);
  let quiet: ReturnType<typeof setTimeout> | undefined;
  return {
    tab,
    homes,
    pressTab(pressed) {
      fromSheet.value = null;
      if (tab.value === pressed) homes.value += 1;
      tab.value = pressed;
    },
    fromSheet,
    rowsFromSheet,
    takeFromSheet(what, rows) {
      // Also where it is open already: then it is read anew.
      fromSheet.value = null;
      rowsFromSheet.value = rows;
      tab.value = { boards: 'Stock', parts: 'Job', prices: 'Shop' }[what] as Tab;
      fromSheet.value = what;
    },
    said,
    say(words) {
      said.value = words;
      clearTimeout(quiet);
      quiet = setTimeout(() => {
        said.value = '';
      }, SAID_FOR_MS);
    },
    changes,
    changed() {
      changes.value += 1;
    },
    nowMs,
    today() {
      const now = new Date(nowMs());
      const two = (value: number) => String(value).padStart(2, '0');
      return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    },
  };
}
