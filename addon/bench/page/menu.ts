/** The bench's menu over the sidebar: the same items as in the menus of the spreadsheet programs. */
import { BENCH_COMMAND } from '../../host/bench-command.ts';
import type { HostCommand } from '../../host/host.ts';

const items: readonly (readonly [command: HostCommand, words: string])[] = [
  ['use-selection', 'Use selection'],
  ['refresh', 'Refresh statuses'],
  ['undo', 'Undo last write'],
  ['help', 'Help'],
];

export function openMenu(bar: HTMLElement): EventTarget {
  const picks = new EventTarget();
  for (const [command, words] of items) {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = words;
    button.addEventListener('click', () => picks.dispatchEvent(new CustomEvent(BENCH_COMMAND, { detail: command })));
    bar.append(button);
  }
  return picks;
}
