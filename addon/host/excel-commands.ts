/**
 * The items of the ribbon's menu. Pane and ribbon share one page, which runs before the pane is shown: an item picked then
 * waits until the panel listens.
 */
import { actionOf } from './command-actions.ts';
import { type HostCommand, hostCommands } from './host.ts';

let listening: ((command: HostCommand) => void) | null = null;
let waiting: HostCommand | null = null;

/** Called once, when the page starts. */
export function associateCommands(): void {
  for (const command of hostCommands) {
    Office.actions.associate(actionOf(command), async (event: { completed(): void }) => {
      if (listening === null) waiting = command;
      else listening(command);
      // An Excel without this shows the pane by its own button.
      await Office.addin.showAsTaskpane().catch(() => undefined);
      event.completed();
    });
  }
}

export function listenToCommands(listener: (command: HostCommand) => void): () => void {
  listening = listener;
  const before = waiting;
  waiting = null;
  if (before !== null) listener(before);
  return () => {
    if (listening === listener) listening = null;
  };
}
