/** Two screens on one yard: the second is told that the first changed it, reads it again, and can then go on. */
import { expect, test } from 'vitest';
import { makeClient } from '../../addon/panel/client.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { makeYardState } from '../../addon/panel/state/yard.ts';
import { openShop } from '../api/shop.ts';

test('figures that another screen changed are not written over; after reading again they can be', async () => {
  const shop = openShop();
  const client = await shop.foundYard('Oak');
  const screen = () => {
    const api = makeClient({
      address: 'https://yard.example.com',
      key: client.key,
      fetch: async (url, init) => {
        const path = String(url).replace('https://yard.example.com', '');
        const headers = init?.headers as Record<string, string>;
        const answer = await shop.request(init?.method ?? 'GET', path, (init?.body as string) ?? undefined, headers);
        return new Response(answer.text, { status: answer.status, headers: answer.headers });
      },
      newId: () => crypto.randomUUID(),
      wait: () => Promise.resolve(),
      random: () => 0,
    } as Parameters<typeof makeClient>[0]);
    const shell = makeShell(() => Date.UTC(2026, 10, 25, 10));
    const settings = { get: async () => null, set: async () => {}, forgetFile: async () => {} };
    return { shell, yard: makeYardState(api, shell, { settings }) };
  };
  const [one, other] = [screen(), screen()];
  await one.yard.load();
  await other.yard.load();
  const figures = one.yard.facts.value?.settings;
  if (!figures) throw new Error('no figures');
  expect(await one.yard.change({ ...figures, cureHours: 30 })).toBe(true);
  // A second change of the same screen needs no reading in between.
  expect(await one.yard.change({ ...figures, cureHours: 31 })).toBe(true);
  const changes = other.shell.changes.value;
  expect(await other.yard.change({ ...figures, cureHours: 40 })).toBe(false);
  expect(other.yard.changing.trouble.value).toMatchObject({ kind: 'problem', problem: { status: 412 } });
  // What is in front reads again, and then shows what the first wrote.
  expect(other.shell.changes.value).toBeGreaterThan(changes);
  await other.yard.load();
  expect(other.yard.facts.value?.settings.cureHours).toBe(31);
  expect(await other.yard.change({ ...figures, cureHours: 40 })).toBe(true);
});
