/** Puts the sidebar beside the sheet, connected to the yard that served this page, or asking for one. */
import type { SheetHost } from '../../host/host.ts';
import { pageClient } from '../../panel/client.ts';
import { mountPanel } from '../../panel/main.tsx';

/** What the local server says of its yard: /bench/connection.json. */
export interface BenchConnection {
  readonly key: string;
}

export function openPanel(root: HTMLElement, host: SheetHost, connection: BenchConnection | null): void {
  mountPanel(root, { host, api: connection ? pageClient(location.origin, connection.key) : null });
}
