/** Puts the sidebar beside the sheet, connected to the yard that served this page, or asking for one. */
import type { SheetHost } from '../../host/host.ts';
import { pageClient } from '../../panel/client.ts';
import { mountPanel } from '../../panel/main.tsx';

/** What the local server says of its yard: /bench/connection.json. */
export interface BenchConnection {
  /** null while that yard is still being filled. */
  readonly key: string | null;
}

export function openPanel(root: HTMLElement, host: SheetHost, key: string | null): void {
  mountPanel(root, { host, api: key === null ? null : pageClient(location.origin, key) });
}
