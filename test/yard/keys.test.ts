/** Keys in the yard: made, renewed, taken back, run out; and what the journal and the tables say of it. */
import { describe, expect, test } from 'vitest';
import { limits } from '../../worker/contract/limits.ts';
import type { Asker, KeyCommand } from '../../worker/yard/command.ts';
import { replay } from '../../worker/yard/replay.ts';
import { NodeYard } from './node-yard.ts';
import { boardOf, INCH, NOW, owner, Shop, TODAY } from './shop.ts';

const HOUR = 3_600_000;
let sends = 0;

function keysOf(shop: Shop) {
  const tell = (command: KeyCommand, asker: Asker = owner) => {
    sends += 1;
    const receipt = { idempotencyKey: `keys-${sends}`, fingerprint: JSON.stringify(command) };
    return shop.yard.core.command(asker, receipt, command, { atMs: shop.atMs, today: TODAY });
  };
  const make = (keyId: string, over: Partial<Extract<KeyCommand, { do: 'make-key' }>['key']> = {}) =>
    tell({ do: 'make-key', key: { keyId, digest: keyId.padEnd(64, '0'), label: keyId, scopes: ['read'], ...over } });
  const asker = (keyId: string): Asker => ({ keyId, digest: keyId.padEnd(64, '0'), scope: 'read' });
  const why = (keyId: string) => {
    sends += 1;
    const receipt = { idempotencyKey: `try-${sends}`, fingerprint: '' };
    const job = { do: 'open-job', draft: { name: 'x', dueOn: null, note: '' } } as const;
    const answer = shop.yard.core.command(asker(keyId), receipt, job, { atMs: shop.atMs, today: TODAY });
    return answer.ok ? 'in' : answer.refusal.why;
  };
  return { tell, make, asker, why };
}
const whyNot = (answer: { readonly ok: boolean; readonly refusal?: { readonly why: string } }) => answer.refusal?.why;

describe('a key', () => {
  test('runs out to the millisecond, and says when', async () => {
    const shop = await Shop.open();
    const { make, why } = keysOf(shop);
    make('tablet00', { expiresAtMs: NOW + 1_000 });
    shop.atMs = NOW + 999;
    expect(why('tablet00')).toBe('in');
    shop.atMs = NOW + 1_000;
    expect(why('tablet00')).toBe('key-expired');
  });

  test('taken back stops at once, and is answered like one that never was', async () => {
    const shop = await Shop.open();
    const { make, tell, why } = keysOf(shop);
    make('tablet00');
    expect(why('tablet00')).toBe('in');
    expect(tell({ do: 'revoke-key', keyId: 'tablet00' }).ok).toBe(true);
    expect(why('tablet00')).toBe('wrong-key');
    expect(whyNot(tell({ do: 'revoke-key', keyId: 'tablet00' }))).toBe('not-found');
    expect(whyNot(tell({ do: 'revoke-key', keyId: 'nobody00' }))).toBe('not-found');
  });

  test('renewed has a new secret; the one before works on for as long as was said, and no longer', async () => {
    const shop = await Shop.open();
    const { make, tell, why } = keysOf(shop);
    make('before00', { scopes: ['read', 'stock'] });
    const next = { keyId: 'after000', digest: 'after000'.padEnd(64, '0') };
    const renewed = tell({ do: 'rotate-key', keyId: 'before00', next, oldHours: 2 });
    expect(renewed.ok && renewed.told.key).toMatchObject({ label: 'before00', role: 'hand' });
    shop.atMs = NOW + 2 * HOUR - 1;
    expect([why('before00'), why('after000')]).toEqual(['in', 'in']);
    shop.atMs = NOW + 2 * HOUR;
    expect([why('before00'), why('after000')]).toEqual(['key-expired', 'in']);
    expect(whyNot(tell({ do: 'rotate-key', keyId: 'before00', next, oldHours: 0 }))).toBe('not-found');
  });

  test('renewed at once leaves no moment for the one before', async () => {
    const shop = await Shop.open();
    const { make, tell, why } = keysOf(shop);
    make('before00');
    const next = { keyId: 'after000', digest: 'after000'.padEnd(64, '0') };
    tell({ do: 'rotate-key', keyId: 'before00', next, oldHours: 0 });
    expect([why('before00'), why('after000')]).toEqual(['wrong-key', 'in']);
  });

  test('an end that was nearer stays: renewing never lengthens the life of the one before', async () => {
    const shop = await Shop.open();
    const { make, tell, why } = keysOf(shop);
    make('before00', { expiresAtMs: NOW + HOUR });
    const next = { keyId: 'after000', digest: 'after000'.padEnd(64, '0') };
    tell({ do: 'rotate-key', keyId: 'before00', next, oldHours: 24 });
    shop.atMs = NOW + HOUR;
    expect([why('before00'), why('after000')]).toEqual(['key-expired', 'key-expired']);
  });

  test('the last owner’s key without an end cannot be taken back', async () => {
    const shop = await Shop.open();
    const { make, tell } = keysOf(shop);
    expect(whyNot(tell({ do: 'revoke-key', keyId: owner.keyId }))).toBe('last-owner-key');
    make('second00', { scopes: ['read', 'admin'], expiresAtMs: NOW + HOUR });
    expect(whyNot(tell({ do: 'revoke-key', keyId: owner.keyId }))).toBe('last-owner-key');
    make('third000', { scopes: ['read', 'admin'] });
    expect(tell({ do: 'revoke-key', keyId: owner.keyId }).ok).toBe(true);
  });

  test('the service gives a shop that lost its keys another, and the journal says so', async () => {
    const shop = await Shop.open();
    const key = { keyId: 'given000', digest: 'f'.repeat(64), label: 'given', scopes: ['read', 'admin'] };
    expect(await shop.yard.giveOwnerKey(key)).toEqual({ given: true });
    expect(await shop.yard.giveOwnerKey(key)).toEqual({ given: false });
    expect(shop.ask('movement', { seq: 2 })).toMatchObject({ kind: 'key-made', by: 'the service' });
    expect((await shop.yard.ask({ ...key, scope: 'admin' }, 'keys', {})).ok).toBe(true);
  });

  test(`${limits.keysPerYard} work at the same time, one more is refused, and one taken back makes room`, async () => {
    const shop = await Shop.open();
    const { make, tell } = keysOf(shop);
    for (let no = 1; no < limits.keysPerYard; no++) expect(make(`key${String(no).padStart(5, '0')}`).ok).toBe(true);
    expect(whyNot(make('onemore0'))).toBe('too-many-keys');
    const next = { keyId: 'onemore0', digest: 'e'.repeat(64) };
    expect(whyNot(tell({ do: 'rotate-key', keyId: 'key00001', next, oldHours: 1 }))).toBe('too-many-keys');
    tell({ do: 'revoke-key', keyId: 'key00001' });
    expect(make('onemore0').ok).toBe(true);
  });
});

test('a key that only fits the pepper before is kept under the new one from its first use on', async () => {
  const shop = await Shop.open();
  const { make } = keysOf(shop);
  make('tablet00', { scopes: ['read', 'stock'], label: 'Bench tablet' });
  const [before, now] = ['tablet00'.padEnd(64, '0'), 'b'.repeat(64)];
  const ask = (asker: Partial<Asker>, yard = shop.yard) =>
    yard.core.ask({ keyId: 'tablet00', digest: now, scope: 'stock', ...asker }, 'yard-facts', {}).ok;
  expect(ask({})).toBe(false);
  expect(ask({ formerDigest: before })).toBe(true);
  expect(ask({})).toBe(true);
  expect(ask({ digest: before })).toBe(false);
  // Not only in memory: an object woken anew knows it as well.
  const woken = new NodeYard({ sql: shop.yard.sql });
  expect([ask({}, woken), ask({ digest: before }, woken)]).toEqual([true, false]);
  expect(shop.ask('keys', {}).find((key) => key.id === 'tablet00')).toMatchObject({
    label: 'Bench tablet',
    role: 'hand',
    works: true,
  });
});

test('a feed link is listed as one, with the list that it reads', async () => {
  const shop = await Shop.open();
  const { make, tell } = keysOf(shop);
  const feed = { list: 'stock' as const, jobId: null };
  make('feed0000', { scopes: ['feed'], feed });
  expect(shop.ask('keys', {}).find((key) => key.id === 'feed0000')).toMatchObject({ role: 'feed', feed });
  // Renewed it reads the same list; the one before goes on for as long as was said.
  const next = (keyId: string) => ({ keyId, digest: keyId.padEnd(64, '0') });
  tell({ do: 'rotate-key', keyId: 'feed0000', next: next('feed0001'), oldHours: 24 });
  tell({ do: 'rotate-key', keyId: 'feed0001', next: next('feed0002'), oldHours: 0 });
  expect(shop.ask('keys', {}).find((key) => key.id === 'feed0002')).toMatchObject({ role: 'feed', feed });
  const renewed = shop.journal().flatMap(({ kind, summary }) => (kind === 'key-rotated' ? [summary] : []));
  expect(renewed).toEqual([
    'Renewed the link "feed0000"; the one before stops in 24 hours',
    'Renewed the link "feed0000"; the one before stops at once',
  ]);
});

test('a feed of what is held shows each hold with its board’s wood and length, and no other list’s mark', async () => {
  const shop = await Shop.open();
  const { make } = keysOf(shop);
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  shop.reserve(shop.job('Hall table'), 'Q-1');
  make('feed0000', { scopes: ['feed'], feed: { list: 'held', jobId: null } });
  const asker: Asker = { keyId: 'feed0000', digest: 'feed0000'.padEnd(64, '0'), scope: 'feed' };
  const read = (after: string | null) => shop.yard.core.ask(asker, 'feed', { page: { after, limit: 10 } });
  expect(read(null)).toMatchObject({
    ok: true,
    answer: {
      list: 'held',
      page: { items: [{ tag: 'Q-1', jobName: 'Hall table', species: 'white-oak', lengthNm: 100 * INCH }], next: null },
    },
  });
  expect(read('jb_nothing1')).toEqual({ ok: true, answer: null });
});

describe('what is kept of a key', () => {
  test('the list says who, what, until when and when last used; never a digest', async () => {
    const shop = await Shop.open();
    const { make, tell, why } = keysOf(shop);
    make('tablet00', { scopes: ['read', 'stock', 'plan', 'hold'], expiresAtMs: NOW + 5 * HOUR });
    make('screen00');
    tell({ do: 'revoke-key', keyId: 'screen00' });
    why('tablet00');
    const keys = shop.ask('keys', {});
    expect(keys.map(({ id, role, works, yours }) => [id, role, works, yours]).sort()).toEqual([
      ['owner', 'owner', true, true],
      ['screen00', 'viewer', false, false],
      ['tablet00', 'hand', true, false],
    ]);
    expect(keys.find((key) => key.id === 'tablet00')).toMatchObject({
      lastUsedAtMs: NOW,
      expiresAtMs: NOW + 5 * HOUR,
      revokedAtMs: null,
    });
    expect(JSON.stringify(keys)).not.toMatch(/0{40}|a{64}/);
  });

  test('last use is noted once an hour', async () => {
    const shop = await Shop.open();
    const { make, why } = keysOf(shop);
    make('tablet00');
    const used = () => shop.ask('keys', {}).find((key) => key.id === 'tablet00')?.lastUsedAtMs;
    expect(used()).toBe(null);
    why('tablet00');
    shop.atMs = NOW + HOUR - 1;
    why('tablet00');
    expect(used()).toBe(NOW);
    shop.atMs = NOW + HOUR;
    why('tablet00');
    expect(used()).toBe(NOW + HOUR);
  });

  test('the journal names what was done and to whose key, holds no digest, and still gives the yard', async () => {
    const shop = await Shop.open();
    const { make, tell } = keysOf(shop);
    make('tablet00', { label: 'Bench tablet' });
    tell({ do: 'revoke-key', keyId: 'tablet00' });
    const journal = shop.journal();
    expect(journal.map((movement) => movement.summary).slice(1)).toEqual([
      'Made the key "Bench tablet"',
      'Took back the key "Bench tablet"',
    ]);
    expect(JSON.stringify(journal)).not.toContain('tablet00');
    expect(replay(journal).seq()).toBe(shop.seq());
    const undone = shop.refused({ do: 'undo', seq: 3 });
    expect(undone.why).toBe('cannot-undo');
  });

  test('a refusal changes nothing', async () => {
    const shop = await Shop.open();
    const { make, tell } = keysOf(shop);
    make('tablet00');
    const before = JSON.stringify(shop.yard.sql.rows('SELECT * FROM api_key ORDER BY key_id'));
    const seq = shop.seq();
    make('tablet00');
    tell({ do: 'revoke-key', keyId: owner.keyId });
    tell({
      do: 'make-key',
      key: {
        keyId: 'feed0000',
        digest: '',
        label: 'x',
        scopes: ['feed'],
        feed: { list: 'cut-list', jobId: 'jb_none00000' },
      },
    });
    expect(JSON.stringify(shop.yard.sql.rows('SELECT * FROM api_key ORDER BY key_id'))).toBe(before);
    expect(shop.seq()).toBe(seq);
  });
});
