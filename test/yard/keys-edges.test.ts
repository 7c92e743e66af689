/** Keys at their edges: what a refused request leaves as it was, who stands in which list, link codes, a yard that lost its keys. */
import { expect, test } from 'vitest';
import type { Asker, CommandAnswer, KeyCommand, NewKey, Refusal } from '../../worker/yard/command.ts';
import { KnownKeys, keyRow } from '../../worker/yard/keys.ts';
import { NodeYard } from './node-yard.ts';
import { boardOf, NOW, owner, partOf, Shop, TODAY } from './shop.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
/** All but when it was last used, which coming in writes down. */
const EACH_KEY =
  'SELECT key_id, digest, label, scopes, made_at_ms, revoked_at_ms, expires_at_ms, feed FROM api_key ORDER BY key_id';
let sends = 0;

const digestOf = (keyId: string) => keyId.padEnd(64, '0');
const askerOf = (keyId: string, scope: Asker['scope'] = 'read'): Asker => ({ keyId, digest: digestOf(keyId), scope });
const keyOf = (keyId: string, over: Partial<NewKey> = {}): NewKey => ({
  keyId,
  digest: digestOf(keyId),
  label: keyId,
  scopes: ['read'],
  ...over,
});
const next = (keyId: string) => ({ keyId, digest: digestOf(keyId) });

async function openShop() {
  const shop = await Shop.open();
  const tell = (command: KeyCommand, asker: Asker = owner): CommandAnswer => {
    sends += 1;
    const receipt = { idempotencyKey: `edge-${sends}`, fingerprint: JSON.stringify(command) };
    return shop.yard.core.command(asker, receipt, command, { atMs: shop.atMs, today: TODAY });
  };
  const make = (keyId: string, over: Partial<NewKey> = {}) => tell({ do: 'make-key', key: keyOf(keyId, over) });
  /** The refusal, after which keys and journal are as they were. */
  const refused = (command: KeyCommand, asker: Asker = owner): Refusal => {
    const rows = () => JSON.stringify(shop.yard.sql.rows(EACH_KEY));
    const [before, seq] = [rows(), shop.seq()];
    const answer = tell(command, asker);
    if (answer.ok) throw new Error(`not refused: ${JSON.stringify(answer.told)}`);
    expect([rows(), shop.seq()]).toEqual([before, seq]);
    return answer.refusal;
  };
  const listed = () => shop.ask('keys', {});
  return { shop, tell, make, refused, listed };
}

test('a key’s id is given once, to a key that is made, renewed or comes of a link code', async () => {
  const { tell, make, refused } = await openShop();
  expect(make('first000').ok).toBe(true);
  expect(make('second00').ok).toBe(true);
  expect(make('code0000', { scopes: ['link', 'hand'] }).ok).toBe(true);
  expect(refused({ do: 'make-key', key: keyOf('first000') }).why).toBe('idempotency-key-reused');
  expect(refused({ do: 'rotate-key', keyId: 'first000', next: next('second00'), oldHours: 0 }).why).toBe(
    'idempotency-key-reused',
  );
  const code = askerOf('code0000', 'link');
  expect(refused({ do: 'use-link', next: next('second00') }, code).why).toBe('idempotency-key-reused');
  expect(tell({ do: 'use-link', next: next('third000') }, code).ok).toBe(true);
});

test('a key that is gone or never was is not renewed; one that ran out is told so', async () => {
  const { shop, tell, make, refused } = await openShop();
  const renew = (keyId: string) => ({ do: 'rotate-key', keyId, next: next('next0000'), oldHours: 0 }) as const;
  expect(refused(renew('nobody00')).detail).toBe('There is no key nobody00 in this yard.');
  make('tablet00', { label: 'Bench tablet', expiresAtMs: NOW + HOUR });
  shop.atMs = NOW + HOUR;
  expect(refused(renew('tablet00')).detail).toBe(
    'The key "Bench tablet" does not work any more. Make a new one instead.',
  );
  make('screen00');
  tell({ do: 'revoke-key', keyId: 'screen00' });
  expect(refused(renew('screen00')).why).toBe('not-found');
});

test('a feed of a cut list needs its job; one of the stock needs none', async () => {
  const { shop, make, refused, listed } = await openShop();
  const feed = (jobId: string) => ({ scopes: ['feed'], feed: { list: 'cut-list' as const, jobId } });
  expect(refused({ do: 'make-key', key: keyOf('feed0000', feed('jb_nothing1')) }).detail).toBe(
    'There is no job jb_nothing1 in this yard.',
  );
  const jobId = shop.job('Hall table', partOf('leg'));
  expect(make('feed0000', feed(jobId)).ok).toBe(true);
  expect(make('feed0001', { scopes: ['feed'], feed: { list: 'stock', jobId: null } }).ok).toBe(true);
  expect(listed().flatMap(({ feed: of }) => (of ? [of] : []))).toEqual([
    { list: 'cut-list', jobId },
    { list: 'stock', jobId: null },
  ]);
  const read = (keyId: string) =>
    shop.yard.core.ask(askerOf(keyId, 'feed'), 'feed', { page: { after: null, limit: 9 } });
  shop.takeIn(boardOf('Q-1'));
  expect(read('feed0000')).toMatchObject({ answer: { list: 'cut-list', job: { id: jobId } } });
  expect(read('feed0001')).toMatchObject({ answer: { list: 'stock', page: { items: [{ tag: 'Q-1' }] } } });
  const stockMark = shop.yard.core.ask(askerOf('feed0001', 'feed'), 'feed', {
    page: { after: 'bd_nothing1', limit: 9 },
  });
  expect(stockMark).toEqual({ ok: true, answer: null });
  // A key that is no feed has nothing to show as one.
  make('both0000', { scopes: ['feed'] });
  expect(read('both0000')).toEqual({ ok: true, answer: null });
});

test('the role in the list is the most that a key may: of scopes of before there were roles too', async () => {
  const { make, listed } = await openShop();
  const roles: readonly (readonly [string, readonly string[], string])[] = [
    ['a0000000', ['link', 'hand'], 'link'],
    ['b0000000', ['feed'], 'feed'],
    ['c0000000', ['read', 'admin'], 'owner'],
    ['d0000000', ['stock'], 'hand'],
    ['e0000000', ['read', 'plan'], 'hand'],
    ['f0000000', ['hold'], 'hand'],
    ['g0000000', ['read'], 'viewer'],
    ['h0000000', [], 'viewer'],
  ];
  for (const [keyId, scopes] of roles) make(keyId, { scopes });
  const role = new Map(listed().map((key) => [key.id, key.role]));
  for (const [keyId, , expected] of roles) expect(role.get(keyId), keyId).toBe(expected);
});

test('a key that ended stays in the list for ninety days, and then no longer', async () => {
  const { tell, make, shop } = await openShop();
  make('short000', { expiresAtMs: NOW + HOUR });
  make('taken000');
  tell({ do: 'revoke-key', keyId: 'taken000' });
  const idsAt = (atMs: number) => {
    const later = new NodeYard({ sql: shop.yard.sql, now: () => atMs });
    const answer = later.core.ask(owner, 'keys', {});
    return answer.ok ? (answer.answer ?? []).map(({ id, works }) => [id, works]).sort() : [];
  };
  expect(idsAt(NOW)).toEqual([
    ['owner', true],
    ['short000', true],
    ['taken000', false],
  ]);
  expect(idsAt(NOW + 90 * DAY)).toEqual([
    ['owner', true],
    ['short000', false],
    ['taken000', false],
  ]);
  expect(idsAt(NOW + 90 * DAY + 1)).toEqual([
    ['owner', true],
    ['short000', false],
  ]);
  expect(idsAt(NOW + 90 * DAY + HOUR + 1)).toEqual([['owner', true]]);
});

test('a link code becomes a key of its role once; it is told as used, works no more, and is not spent by another key', async () => {
  const { shop, tell, make, refused, listed } = await openShop();
  make('code0000', { scopes: ['link', 'viewer'], label: 'Screen', expiresAtMs: NOW + HOUR });
  const code = askerOf('code0000', 'link');
  expect(listed().find(({ id }) => id === 'code0000')).toMatchObject({ role: 'link', works: true });
  const used = tell({ do: 'use-link', next: next('screen00') }, code);
  expect(used).toMatchObject({
    ok: true,
    told: { key: { id: 'screen00', role: 'viewer', label: 'Screen', expiresAtMs: null } },
  });
  expect(listed().find(({ id }) => id === 'code0000')).toMatchObject({ role: 'link', works: false, revokedAtMs: null });
  expect(refused({ do: 'use-link', next: next('screen01') }, code)).toMatchObject({ why: 'key-expired' });
  for (const scopes of [['link'], ['link', 'baron']]) {
    make(`odd${scopes.length}0000`, { scopes });
    const odd = askerOf(`odd${scopes.length}0000`, 'link');
    expect(refused({ do: 'use-link', next: next('screen02') }, odd)).toMatchObject({ why: 'key-expired' });
  }
  const summaries = shop.journal().map(({ summary }) => summary);
  expect(summaries).toContain('Connected "Screen" by a link code');
  expect(summaries).toContain('Made the link code for "Screen", until 2 Mar 2026');
});

test('the journal says of what was taken back whether it was a key, a link or a code', async () => {
  const { shop, tell, make } = await openShop();
  make('key00000');
  make('feed0000', { scopes: ['feed'], feed: { list: 'held', jobId: null } });
  make('code0000', { scopes: ['link', 'hand'] });
  for (const keyId of ['key00000', 'feed0000', 'code0000']) tell({ do: 'revoke-key', keyId });
  expect(
    shop
      .journal()
      .slice(-3)
      .map(({ kind, summary }) => [kind, summary]),
  ).toEqual([
    ['key-revoked', 'Took back the key "key00000"'],
    ['key-revoked', 'Took back the link "feed0000"'],
    ['key-revoked', 'Took back the link code for "code0000"'],
  ]);
});

test('what a key may not is told with what it needs and has; the use of a refused key is not noted', async () => {
  const { shop, make } = await openShop();
  make('viewer00', { label: 'Screen' });
  make('nothing0', { label: 'Nothing', scopes: [] });
  const ask = (keyId: string, scope: Asker['scope']) => shop.yard.core.ask(askerOf(keyId, scope), 'yard-facts', {});
  const used = (keyId: string) => keyRow(shop.yard.sql, keyId)?.last_used_at_ms;
  expect(ask('viewer00', 'plan')).toMatchObject({
    refusal: { detail: 'The key "Screen" may not do this: it needs "plan", and has read.' },
  });
  expect(ask('nothing0', 'read')).toMatchObject({
    refusal: { detail: 'The key "Nothing" may not do this: it needs "read", and has nothing.' },
  });
  expect([used('viewer00'), used('nothing0')]).toEqual([null, null]);
  expect(ask('viewer00', 'read').ok).toBe(true);
  expect(used('viewer00')).toBe(NOW);
});

test('keys that were read are known until they are forgotten; unknown ones are looked for each time', async () => {
  const { shop, make } = await openShop();
  const known = new KnownKeys(shop.yard.sql);
  expect(known.row('later000')).toBeNull();
  make('later000');
  const row = known.row('later000');
  expect(row?.label).toBe('later000');
  shop.yard.sql.run("UPDATE api_key SET label = ? WHERE key_id = 'later000'", 'renamed');
  expect(known.row('later000')).toBe(row);
  known.forget();
  expect(known.row('later000')?.label).toBe('renamed');
});

test('a yard that was never founded is given no owner’s key; a founded one is not founded again, and one key of an id', async () => {
  const yard = new NodeYard({ now: () => NOW });
  expect(await yard.giveOwnerKey(keyOf('given000'))).toEqual({ given: false });
  expect(yard.sql.rows('SELECT name FROM sqlite_master')).toEqual([]);
  const founding = { yardId: 'oakyard', name: 'Oak yard', key: keyOf('owner000', { scopes: ['read', 'admin'] }) };
  expect(await yard.found(founding)).toEqual({ founded: true });
  expect(await yard.found({ ...founding, name: 'Elm yard' })).toEqual({ founded: false });
  expect(await yard.giveOwnerKey(keyOf('owner000', { digest: 'e'.repeat(64) }))).toEqual({ given: false });
  expect(keyRow(yard.sql, 'owner000')?.digest).toBe(digestOf('owner000'));
  expect(yard.sql.row<{ n: number }>('SELECT count(*) AS n FROM journal')?.n).toBe(1);
  expect(await yard.giveOwnerKey(keyOf('given000', { scopes: ['read', 'admin'] }))).toEqual({ given: true });
  const facts = await yard.ask(askerOf('given000', 'admin'), 'yard-facts', {});
  expect(facts).toMatchObject({ ok: true, answer: { name: 'Oak yard', seq: 2 } });
});

test('at the limit of keys a yard is given none by the service either, and a renewal at once needs no room', async () => {
  const { shop, tell, make } = await openShop();
  for (let no = 1; no < 100; no++) make(`key${String(no).padStart(5, '0')}`);
  expect(await shop.yard.giveOwnerKey(keyOf('given000'))).toEqual({ given: false });
  expect(keyRow(shop.yard.sql, 'given000')).toBeNull();
  expect(tell({ do: 'rotate-key', keyId: 'key00001', next: next('next0000'), oldHours: 0 }).ok).toBe(true);
  tell({ do: 'revoke-key', keyId: 'next0000' });
  expect(await shop.yard.giveOwnerKey(keyOf('given000'))).toEqual({ given: true });
});
