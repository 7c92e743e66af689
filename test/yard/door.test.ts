/** The yard's door: who may come in, and the same write sent twice. */
import { expect, test } from 'vitest';
import type { Asker, Command } from '../../worker/yard/command.ts';
import { digestsEqual } from '../../worker/yard/keys.ts';
import { textPieces } from '../../worker/yard/long-text.ts';
import { migrate, SCHEMA_VERSION, schemaVersion } from '../../worker/yard/schema.ts';
import { NodeSql } from './node-sql.ts';
import { countedIds, NodeYard } from './node-yard.ts';
import { boardOf, NOW, owner, Shop, TODAY } from './shop.ts';

const occasion = { atMs: NOW, today: TODAY };
const open = (name: string): Command => ({ do: 'open-job', draft: { name, dueOn: null, note: '' } });
const receipt = (idempotencyKey: string, fingerprint = 'same') => ({ idempotencyKey, fingerprint });

test('a yard that was never founded knows nobody, and stays unwritten', async () => {
  const yard = new NodeYard();
  const answer = await yard.command(owner, receipt('k-1'), open('Bench'), occasion);
  expect(answer.ok ? null : answer.refusal.why).toBe('wrong-key');
  const asked = await yard.ask(owner, 'yard-facts', {});
  expect(asked.ok ? null : asked.refusal.why).toBe('wrong-key');
  expect(yard.sql.rows('SELECT name FROM sqlite_master')).toEqual([]);
});

test('an unknown key, a wrong secret and a revoked key are answered alike', async () => {
  const shop = await Shop.open();
  const ask = async (asker: Asker) => {
    const answer = await shop.yard.ask(asker, 'yard-facts', {});
    return answer.ok ? 'in' : answer.refusal;
  };
  const unknown = await ask({ ...owner, keyId: 'stranger' });
  expect(unknown).toMatchObject({ why: 'wrong-key' });
  expect(await ask({ ...owner, digest: `${'a'.repeat(63)}b` })).toEqual(unknown);
  expect(await ask({ ...owner, digest: '' })).toEqual(unknown);
  expect(await ask(owner)).toBe('in');
  shop.yard.sql.run('UPDATE api_key SET revoked_at_ms = ?', NOW);
  // Behind the yard's back: it looks anew when it is opened anew.
  const opened = await new NodeYard({ sql: shop.yard.sql }).ask(owner, 'yard-facts', {});
  expect(opened).toEqual({ ok: false, refusal: unknown });
});

test('digests are equal only when every character is', () => {
  expect(digestsEqual('abcd', 'abcd')).toBe(true);
  for (const other of ['bbcd', 'abce', 'abc', 'abcde', '']) expect(digestsEqual('abcd', other)).toBe(false);
});

test('a key does only what it may; a second key is the owner’s to give', async () => {
  const shop = await Shop.open();
  const viewer: Asker = { keyId: 'viewer00', digest: 'b'.repeat(64), scope: 'read' };
  const key = { keyId: viewer.keyId, digest: viewer.digest, label: 'Screen in the shop', scopes: ['read'] };
  const make = (asker: Asker, made = key) =>
    shop.yard.command(asker, receipt(`make-${made.keyId}`, asker.keyId), { do: 'make-key', key: made }, occasion);
  expect((await make(owner)).ok).toBe(true);
  const facts = await shop.yard.ask(viewer, 'yard-facts', {});
  expect(facts.ok && facts.answer?.you).toEqual({ label: 'Screen in the shop', scopes: ['read'] });
  const answer = await shop.yard.command({ ...viewer, scope: 'plan' }, receipt('k-1'), open('Bench'), occasion);
  expect(answer.ok ? null : answer.refusal.why).toBe('not-allowed');
  const friend = await make({ ...viewer, scope: 'admin' }, { ...key, keyId: 'friend00' });
  expect(friend.ok ? null : friend.refusal.why).toBe('not-allowed');
});

test('the same write sent again has the same answer and no second effect', async () => {
  const shop = await Shop.open();
  const first = shop.send(open('Bench'), 'k-1', 'one');
  const second = shop.send(open('Bench'), 'k-1', 'one');
  expect(second).toEqual({ ...first, replayed: true });
  expect(shop.seq()).toBe(2);
});

test('a write that breaks off halfway leaves nothing behind, on disk or in memory', async () => {
  const ids = countedIds();
  let stuck: string | null = null;
  const shop = await Shop.open({ newId: (prefix) => stuck ?? ids(prefix) });
  const jobId = shop.job('Hall table');
  stuck = 'bd_000000000001';
  // The second board gets the id of the first, which the yard takes for what it is: a fault of its own.
  expect(() => shop.takeIn(boardOf('Q-1'), boardOf('Q-2'))).toThrow('is there already');
  stuck = null;
  expect(shop.seq()).toBe(2);
  const hold = { do: 'reserve', jobId, boards: [{ tag: 'Q-1' }] } as const;
  expect(shop.refused(hold).why).toBe('not-found');
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  expect(shop.tell(hold).seq).toBe(4);
  shop.expectSound();
});

test('what a write finds is what the write before it left: tags and names as they are now', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const [table, bench] = [shop.job('Hall table'), shop.job('Bench')];
  const ids = shop.reserve(table, 'Q-1');
  const hold = (tag: string) => shop.refused({ do: 'reserve', jobId: bench, boards: [{ tag }] });
  expect(hold('Q-1').conflicts?.[0]?.jobName).toBe('Hall table');
  const ifVersion = shop.state().get('job', table)?.version ?? 0;
  shop.tell({ do: 'change-job', jobId: table, ifVersion, patch: { name: 'Console table' } });
  expect(hold('Q-1').conflicts?.[0]?.jobName).toBe('Console table');
  const board = shop.board('Q-1');
  shop.tell({ do: 'correct-board', boardId: board.id, ifVersion: board.version, patch: { tag: 'Q-9' } });
  expect([hold('Q-1').why, hold('Q-9').why]).toEqual(['not-found', 'board-held']);
  shop.tell({ do: 'release', ids });
  shop.tell({ do: 'undo', seq: shop.seq() - 1 });
  expect(hold('Q-9').why).toBe('not-found');
  expect(shop.tell({ do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1' }] }).shown?.reservations?.[0]).toMatchObject({
    tag: 'Q-1',
    jobName: 'Bench',
    whole: true,
  });
});

test('the same key with another request is refused', async () => {
  const shop = await Shop.open();
  shop.send(open('Bench'), 'k-1', 'one');
  const other = shop.send(open('Stool'), 'k-1', 'two');
  expect(other.ok ? null : other.refusal.why).toBe('idempotency-key-reused');
  expect(shop.seq()).toBe(2);
});

test('a refusal is remembered under its key, even when the way is free by now', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'));
  const [table, bench] = [shop.job('Hall table'), shop.job('Bench')];
  const ids = shop.reserve(table, 'Q-1');
  const reach: Command = { do: 'reserve', jobId: bench, boards: [{ tag: 'Q-1' }] };
  const first = shop.send(reach, 'k-1');
  shop.tell({ do: 'release', ids });
  expect(shop.send(reach, 'k-1')).toEqual({ ...first, replayed: true });
  expect(shop.send(reach, 'k-2').ok).toBe(true);
});

test('the receipts of two keys do not meet', async () => {
  const shop = await Shop.open();
  const hand: Asker = { keyId: 'hand', digest: 'c'.repeat(64), scope: 'plan' };
  shop.giveKey({ keyId: 'hand', digest: hand.digest, label: 'Hand', scopes: ['read', 'plan'] });
  shop.send(open('Bench'), 'k-1', 'one');
  const answer = await shop.yard.command(hand, receipt('k-1', 'two'), open('Stool'), occasion);
  expect(answer).toMatchObject({ ok: true, replayed: false });
  expect(shop.ask('movement', { seq: 4 }).by).toBe('Hand');
});

test('an answer is kept for seven days', async () => {
  const shop = await Shop.open();
  shop.send(open('Bench'), 'k-1', 'one');
  shop.atMs += 7 * 24 * 3_600_000;
  expect(shop.send(open('Bench'), 'k-1', 'one').replayed).toBe(true);
  shop.atMs += 60_000; // Looked for once a minute.
  expect(shop.send(open('Bench'), 'k-1', 'one').replayed).toBe(false);
});

test('the journal cannot be changed, not even by the code that wrote it', async () => {
  const shop = await Shop.open();
  shop.takeIn(...Array.from({ length: 600 }, (_, no) => boardOf(`Q-${no}`)));
  for (const table of ['journal', 'journal_text', 'journal_touch', 'journal_board']) {
    expect(shop.yard.sql.row(`SELECT * FROM ${table} LIMIT 1`)).not.toBe(null);
    expect(() => shop.yard.sql.run(`DELETE FROM ${table}`)).toThrow('the journal is append-only');
  }
  expect(() => shop.yard.sql.run("UPDATE journal SET by = 'nobody'")).toThrow('the journal is append-only');
});

test('a database of a newer version is left alone', () => {
  const sql = new NodeSql();
  expect(schemaVersion(sql)).toBe(0);
  migrate(sql);
  migrate(sql);
  expect(schemaVersion(sql)).toBe(SCHEMA_VERSION);
  sql.run('INSERT INTO schema_version (version) VALUES (?)', SCHEMA_VERSION + 1);
  expect(() => migrate(sql)).toThrow('newer version');
});

test('a page mark of another list is refused', async () => {
  const shop = await Shop.open();
  for (const after of ['bd_nothing123', '7; DROP TABLE board', '']) {
    for (const name of ['boards', 'jobs', 'reservations', 'sessions', 'movements'] as const) {
      const answer = await shop.yard.ask(owner, name, { filter: {}, page: { after, limit: 5 } });
      expect(answer.ok ? null : answer.refusal.why, name).toBe('bad-request');
    }
  }
});

test('a long text is cut between characters, never through one', () => {
  const text = 'ab🪵cd🪚';
  for (let chars = 2; chars < 9; chars++) {
    const pieces = textPieces(text, chars);
    expect(pieces.join('')).toBe(text);
    for (const piece of pieces) expect(new TextDecoder().decode(new TextEncoder().encode(piece))).toBe(piece);
  }
  expect(textPieces('', 5)).toEqual(['']);
});
