/** What the whole panel shares: the tab in front, the one polite voice, and the count of changes that screens reload on. */
import { type Signal, signal } from '@preact/signals';

export const tabs = ['Stock', 'Job', 'Cuts', 'Held', 'Offcuts', 'Drying', 'Wood', 'Journal', 'Shop', 'Help'] as const;
export type Tab = (typeof tabs)[number];

export interface Shell {
  readonly tab: Signal<Tab>;
  /** Stock shows the boards of the sheet to be taken in, or Job its cut list, instead of what the yard has. */
  readonly fromSheet: Signal<'boards' | 'parts' | null>;
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
  const said = signal('');
  const changes = signal(0);
  let quiet: ReturnType<typeof setTimeout> | undefined;
  return {
    tab: signal<Tab>('Stock'),
    fromSheet: signal<'boards' | 'parts' | null>(null),
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
