/** Ids of the actions that the ribbon's menu calls, as both manifests and the pane name them. */
import type { HostCommand } from './host.ts';

export const actionOf = (command: HostCommand): string => `heartside-${command}`;

/** Excel's own name for a pane that may open with a file: of the setting in the file, and of the pane in the manifest. */
export const OPENS_WITH_FILE = 'Office.AutoShowTaskpaneWithDocument';
