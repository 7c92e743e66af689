/** Keys and feed links of the yard, for its owner. A new secret stands here until it is put away, and nowhere else. */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Answer, Body } from '../../../worker/contract/wire.ts';
import type { YardApi } from '../api.ts';
import type { Shell } from './shell.ts';
import { makeTask, type Task, taken } from './task.ts';

export type Key = Answer<'listKeys'>['keys'][number];
type Made = Answer<'makeKey'>;
type LinkCode = Answer<'makeLinkCode'>;

export interface KeysState {
  readonly keys: ReadonlySignal<readonly Key[]>;
  /** Just made, to be copied; null once put away. */
  readonly made: ReadonlySignal<Made | null>;
  /** A link code just made, to be read out or copied. */
  readonly code: ReadonlySignal<LinkCode | null>;
  readonly task: Task;
  load(): Promise<boolean>;
  makeKey(body: Body<'makeKey'>): Promise<boolean>;
  makeLinkCode(body: Body<'makeLinkCode'>): Promise<boolean>;
  makeFeed(body: Body<'makeFeed'>): Promise<boolean>;
  renew(key: Key): Promise<boolean>;
  revoke(key: Key): Promise<boolean>;
  putAway(): void;
}

export function makeKeys(api: YardApi, shell: Shell): KeysState {
  const keys = signal<readonly Key[]>([]);
  const made = signal<Made | null>(null);
  const code = signal<LinkCode | null>(null);
  const task = makeTask();
  const read = async () =>
    taken(await api.call('listKeys'), (answer) => {
      keys.value = answer.keys;
    });
  const take = async (answer: Made) => {
    made.value = answer;
    await read();
  };
  return {
    keys,
    made,
    code,
    task,
    load: () => task.run('Reading the keys', read),
    makeKey: (body) => task.run('Making the key', async () => taken(await api.call('makeKey', { body }), take)),
    makeLinkCode: (body) =>
      task.run('Making the code', async () =>
        taken(await api.call('makeLinkCode', { body }), async (answer) => {
          code.value = answer;
          await read();
        }),
      ),
    makeFeed: (body) => task.run('Making the link', async () => taken(await api.call('makeFeed', { body }), take)),
    renew: ({ id }) =>
      task.run('Renewing', async () => taken(await api.call('rotateKey', { path: { id }, body: {} }), take)),
    revoke: ({ id, label }) =>
      task.run('Taking it back', async () =>
        taken(await api.call('revokeKey', { path: { id } }), async () => {
          shell.say(`“${label}” no longer works.`);
          await read();
        }),
      ),
    putAway() {
      made.value = null;
      code.value = null;
    },
  };
}
