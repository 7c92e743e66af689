/** Ids of the actions that the ribbon's menu calls, as both manifests and the pane name them. */
import type { HostCommand } from './host.ts';

export const actionOf = (command: HostCommand): string => `heartside-${command}`;
