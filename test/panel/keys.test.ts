/** The owner's keys in the panel: a secret is there once, until it is put away. */
import { expect, test } from 'vitest';
import { makeKeys } from '../../addon/panel/state/keys.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { fakeYard } from './fake-yard.ts';
import { sampleKeys } from './sample-keys.ts';

test('a new key is shown until it is put away, and the list is read again', async () => {
  const yard = fakeYard();
  const keys = makeKeys(
    yard,
    makeShell(() => 0),
  );
  expect(await keys.makeKey({ label: 'Ann', role: 'hand', days: 30 })).toBe(true);
  expect(yard.calls.map((call) => call.name)).toEqual(['makeKey', 'listKeys']);
  expect(yard.calls[0]?.input).toEqual({ body: { label: 'Ann', role: 'hand', days: 30 } });
  expect(keys.made.value?.secret).toMatch(/shown-once/);
  expect(keys.keys.value).toEqual(sampleKeys);
  keys.putAway();
  expect(keys.made.value).toBe(null);
});

test('a refusal shows its words and no secret', async () => {
  const problem = {
    type: '/problems/too-many-keys',
    title: 'Too many keys',
    status: 409,
    detail: 'x',
    instance: 'rq_1',
  };
  const keys = makeKeys(
    fakeYard({ makeFeed: () => problem }),
    makeShell(() => 0),
  );
  expect(await keys.makeFeed({ label: 'Prices', list: 'stock' })).toBe(false);
  expect(keys.task.trouble.value).toMatchObject({ kind: 'problem', problem: { title: 'Too many keys' } });
  expect(keys.made.value).toBe(null);
});
