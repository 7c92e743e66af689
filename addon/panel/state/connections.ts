/** Address and key of the yard: asked once, kept with the user's settings and never in the sheet, forgotten on request. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { SheetHost } from '../../host/host.ts';
import type { YardApi } from '../api.ts';
import { codeBearer, entered } from './link-code.ts';
import { makeTask, type Task, type Trouble, taken } from './task.ts';

export type Connection =
  | { readonly kind: 'looking' }
  | { readonly kind: 'none' }
  | { readonly kind: 'connected'; readonly api: YardApi };

/** A yard that this user has connected: what is kept of it, with the user's own settings. */
export interface KeptYard {
  readonly address: string;
  readonly key: string;
  readonly name: string;
}

export interface Connections {
  readonly now: ReadonlySignal<Connection>;
  /** Yards connected before, the one in front too. */
  readonly yards: ReadonlySignal<readonly KeptYard[]>;
  readonly inFront: ReadonlySignal<KeptYard | null>;
  readonly task: Task;
  /** With a key, or with a link code and its address. */
  connect(address: string, secret: string): Promise<boolean>;
  /** Opens a yard connected before; works without a connection, from what was last known. */
  choose(yard: KeptYard): Promise<void>;
  /** Asks for another yard; the one in front stays kept. */
  another(): void;
  /** Forgets the yard in front. */
  disconnect(): Promise<void>;
}

/** Under this name the host keeps the connection in front for the user; under the other, all of them. */
export const CONNECTION_KEPT_AS = 'yard-connection';
const YARDS_KEPT_AS = 'yards';

export function makeConnections(host: SheetHost, client: (address: string, key: string) => YardApi): Connections {
  const now = signal<Connection>({ kind: 'looking' });
  const yards = signal<readonly KeptYard[]>([]);
  const inFront = signal<KeptYard | null>(null);
  const task = makeTask();
  const same = (a: KeptYard, b: KeptYard) => a.address === b.address && a.key === b.key;

  async function look(): Promise<void> {
    const kept = await host.settings.get(CONNECTION_KEPT_AS, 'user');
    yards.value = yardsOf(await host.settings.get(YARDS_KEPT_AS, 'user'));
    const found = kept === null ? null : connectionOf(kept);
    if (found === null) now.value = { kind: 'none' };
    else open({ ...found, name: yards.value.find((one) => one.key === found.key)?.name ?? 'Yard' });
  }

  function open(yard: KeptYard): void {
    inFront.value = yard;
    now.value = { kind: 'connected', api: client(yard.address, yard.key) };
  }

  async function keep(list: readonly KeptYard[], front: KeptYard | null): Promise<void> {
    yards.value = list;
    await host.settings.set(YARDS_KEPT_AS, list.length === 0 ? null : JSON.stringify(list), 'user');
    const connection = front === null ? null : JSON.stringify({ address: front.address, key: front.key });
    await host.settings.set(CONNECTION_KEPT_AS, connection, 'user');
  }

  async function connectWith(address: string, key: string): Promise<Trouble | null> {
    const api = client(address, key);
    return taken(await api.call('readYard'), async (answer) => {
      const yard = { address, key, name: answer.name ?? 'Yard' };
      await keep([...yards.value.filter((one) => !same(one, yard)), yard], yard);
      inFront.value = yard;
      now.value = { kind: 'connected', api };
    });
  }

  /** The same client for the same code, so that a second try bears the Idempotency-Key of the first. */
  const changing = new Map<string, YardApi>();
  /** The code is used up; should the yard not be reached right after, its key is not lost. */
  const keyOf = new Map<string, string>();
  async function changeCode(address: string, yardId: string, code: string): Promise<Trouble | null> {
    const bearer = codeBearer(yardId, code);
    const api = changing.get(`${address} ${bearer}`) ?? client(address, bearer);
    changing.set(`${address} ${bearer}`, api);
    const had = keyOf.get(bearer);
    if (had !== undefined) return connectWith(address, had);
    const changed = await api.call('useLinkCode');
    if (!changed.ok && 'problem' in changed && changed.problem.status === 401)
      return { kind: 'told', help: WRONG_CODE };
    if (!changed.ok) return taken(changed, () => {});
    keyOf.set(bearer, changed.answer.secret);
    return connectWith(address, changed.answer.secret);
  }

  look().catch(() => {
    now.value = { kind: 'none' };
  });
  return {
    now,
    yards,
    inFront,
    task,
    connect: (addressTyped, secretTyped) =>
      task.run('Asking the yard', async () => {
        const typed = entered(addressTyped, secretTyped);
        if ('fault' in typed) return { kind: 'told', help: addressFault(addressTyped.trim()) ?? typed.fault };
        const fault = addressFault(typed.address);
        if (fault !== null) return { kind: 'told', help: fault };
        return 'key' in typed.with
          ? connectWith(typed.address, typed.with.key)
          : changeCode(typed.address, typed.with.yardId, typed.with.code);
      }),
    async choose(yard) {
      await keep(yards.value, yard);
      open(yard);
    },
    another() {
      task.clear();
      now.value = { kind: 'none' };
    },
    async disconnect() {
      const gone = inFront.value;
      await keep(gone === null ? yards.value : yards.value.filter((one) => !same(one, gone)), null);
      inFront.value = null;
      now.value = { kind: 'none' };
    },
  };
}

const WRONG_CODE = 'This code is not right, or its ten minutes are over. Ask the owner for a new one.';

function yardsOf(kept: string | null): KeptYard[] {
  try {
    const list: unknown = JSON.parse(kept ?? '[]');
    return Array.isArray(list) ? list.filter(isKeptYard) : [];
  } catch {
    return [];
  }
}

function isKeptYard(value: unknown): value is KeptYard {
  const yard: Partial<Record<keyof KeptYard, unknown>> = Object(value);
  return typeof yard.address === 'string' && typeof yard.key === 'string' && typeof yard.name === 'string';
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
