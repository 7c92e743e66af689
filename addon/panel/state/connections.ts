/** Address and key of the yard: asked once, kept with the user's settings and never in the sheet, forgotten on request. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { SheetHost } from '../../host/host.ts';
import type { YardApi } from '../api.ts';
import { makeTask, type Task, taken } from './task.ts';

export type Connection =
  | { readonly kind: 'looking' }
  | { readonly kind: 'none' }
  | { readonly kind: 'connected'; readonly api: YardApi };

export interface Connections {
  readonly now: ReadonlySignal<Connection>;
  readonly task: Task;
  connect(address: string, key: string): Promise<boolean>;
  disconnect(): Promise<void>;
}

/** Under this name the host keeps the connection for the user. */
export const CONNECTION_KEPT_AS = 'yard-connection';

export function makeConnections(host: SheetHost, client: (address: string, key: string) => YardApi): Connections {
  const now = signal<Connection>({ kind: 'looking' });
  const task = makeTask();
  host.settings.get(CONNECTION_KEPT_AS, 'user').then(
    (kept) => {
      const found = kept === null ? null : connectionOf(kept);
      now.value = found === null ? { kind: 'none' } : { kind: 'connected', api: client(found.address, found.key) };
    },
    () => {
      now.value = { kind: 'none' };
    },
  );
  return {
    now,
    task,
    connect: (address, key) =>
      task.run('Asking the yard', async () => {
        const fault = addressFault(address) ?? (key.trim() === '' ? 'Paste the key that the yard gave you.' : null);
        if (fault !== null) return { kind: 'told', help: fault };
        const api = client(address.trim(), key.trim());
        return taken(await api.call('readYard'), async () => {
          await host.settings.set(
            CONNECTION_KEPT_AS,
            JSON.stringify({ address: address.trim(), key: key.trim() }),
            'user',
          );
          now.value = { kind: 'connected', api };
        });
      }),
    async disconnect() {
      await host.settings.set(CONNECTION_KEPT_AS, null, 'user');
      now.value = { kind: 'none' };
    },
  };
}

/** A key is only sent over https, or to this very machine. */
export function addressFault(address: string): string | null {
  let url: URL;
  try {
    url = new URL(address.trim());
  } catch {
    return 'Write the whole address, like https://yard.example.com';
  }
  const here = url.hostname === 'localhost' || url.hostname === '127.0.0.1' || url.hostname === '[::1]';
  if (url.protocol === 'https:' || (url.protocol === 'http:' && here)) return null;
  return 'The address must begin with https://, so that nobody on the way can read the key.';
}

/** What is kept, read back; null where it is none of ours. */
export function connectionOf(kept: string): { address: string; key: string } | null {
  try {
    const value: unknown = JSON.parse(kept);
    if (typeof value !== 'object' || value === null || !('address' in value) || !('key' in value)) return null;
    return typeof value.address === 'string' && typeof value.key === 'string'
      ? { address: value.address, key: value.key }
      : null;
  } catch {
    return null;
  }
}
