/** What is written down: movements and what they touch, answers and how long they are known, the lines of the yard's file. */
import { expect, test } from 'vitest';
import { readLongText, writeLongText } from '../../worker/yard/long-text.ts';
import { forgetOldReceipts, recall, remember } from '../../worker/yard/receipts.ts';
import { undoneBy } from '../../worker/yard/undone.ts';
import { boardOf, INCH, NOW, owner, partOf, Shop } from './shop.ts';
import { fileOf, restore } from './yard-file.ts';

const DAY = 24 * 3_600_000;

test('a board is found by what was done to its holds and at the saw, not by what was done to others', async () => {
  const shop = await Shop.open();
  const [first = '', second = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 2 }));
  const kinds = (boardId: string) =>
    shop
      .ask('movements', { boardId, page: { limit: 20, after: null } })
      .items.map(({ kind, boardTags }) => [kind, boardTags]);
  const hold = (fromIn: number, toIn: number) =>
    shop.tell({ do: 'reserve', jobId, boards: [{ tag: 'Q-2', fromNm: fromIn * INCH, toNm: toIn * INCH }] });
  hold(0, 20);
  // Longer, not moved: the hold itself says on which board.
  hold(10, 30);
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }] });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect(kinds(first)).toEqual([
    ['reconciled', ['Q-1', 'Q-1-1']],
    ['session-opened', ['Q-1']],
    ['reserved', ['Q-1']],
    ['boards-received', ['Q-1', 'Q-2']],
  ]);
  expect(kinds(second)).toEqual([
    ['reserved', ['Q-2']],
    ['reserved', ['Q-2']],
    ['boards-received', ['Q-1', 'Q-2']],
  ]);
  expect(kinds('bd_nothing1')).toEqual([]);
});

test('whether a movement is undone now is said with it, undo by undo', async () => {
  const shop = await Shop.open();
  shop.job('Hall table');
  const of = (seq: number) => {
    const { undoneBy: by, undoes } = shop.ask('movement', { seq });
    expect(undoneBy(shop.state(), seq)).toBe(by);
    return [by, undoes];
  };
  expect(of(2)).toEqual([null, null]);
  shop.tell({ do: 'undo', seq: 2 });
  expect([of(2), of(3)]).toEqual([
    [3, null],
    [null, 2],
  ]);
  expect(shop.refused({ do: 'undo', seq: 2 }).why).toBe('already-undone');
  shop.tell({ do: 'undo', seq: 3 });
  expect([of(2), of(3), of(4)]).toEqual([
    [null, null],
    [4, 2],
    [null, 3],
  ]);
  shop.tell({ do: 'undo', seq: 2 });
  expect([of(2), of(4)]).toEqual([
    [5, null],
    [null, 3],
  ]);
  expect(shop.refused({ do: 'undo', seq: 1 }).detail).toBe('The founding of the yard cannot be undone.');
  expect(shop.refused({ do: 'undo', seq: 99 }).why).toBe('not-found');
});

test('long texts lie in pieces, each under its own id, and come back whole', async () => {
  const { yard } = await Shop.open();
  const text = 'oak '.repeat(150_001);
  writeLongText(yard.sql, 'plan_text', 'pl_long', text);
  writeLongText(yard.sql, 'plan_text', 'pl_next', 'short');
  expect(readLongText(yard.sql, 'plan_text', 'pl_long')).toBe(text);
  expect(readLongText(yard.sql, 'plan_text', 'pl_next')).toBe('short');
  expect(readLongText(yard.sql, 'plan_text', 'pl_none')).toBeNull();
  const pieces = yard.sql.rows<{ n: number }>(
    "SELECT length(text) AS n FROM plan_text WHERE id = 'pl_long' ORDER BY no",
  );
  expect(pieces.map(({ n }) => n)).toEqual([300_000, 300_000, 4]);
});

test('answers are forgotten past their week, long ones with their pieces, and the oldest of too many', async () => {
  const { yard } = await Shop.open();
  const { sql } = yard;
  const receipt = (idempotencyKey: string) => ({ idempotencyKey, fingerprint: 'same' });
  const keep = (key: string, atMs: number, detail = key) =>
    remember(sql, 'owner', receipt(key), { ok: false, refusal: { why: 'not-found', detail } }, atMs);
  const known = (...keys: readonly string[]) => keys.filter((key) => recall(sql, 'owner', receipt(key)) !== null);
  const long = 'x'.repeat(120_000);
  keep('long-old', NOW - 7 * DAY - 1, long);
  keep('short-old', NOW - 7 * DAY - 1);
  keep('long-new', NOW, long);
  keep('just-a-week', NOW - 7 * DAY);
  const texts = () => sql.rows<{ id: string }>('SELECT DISTINCT id FROM receipt_text ORDER BY id').map(({ id }) => id);
  expect(texts()).toEqual(['owner/long-new', 'owner/long-old']);
  expect(recall(sql, 'owner', receipt('long-old'))).toEqual({
    ok: false,
    refusal: { why: 'not-found', detail: long },
    replayed: true,
  });
  expect(recall(sql, 'other', receipt('long-old'))).toBeNull();
  expect(forgetOldReceipts(sql, NOW)).toBe(false);
  expect(known('long-old', 'short-old', 'long-new', 'just-a-week')).toEqual(['long-new', 'just-a-week']);
  expect(texts()).toEqual(['owner/long-new']);
  // Of three the two newest may stay.
  keep('newest', NOW + 1);
  expect(forgetOldReceipts(sql, NOW, 3)).toBe(false);
  expect(known('just-a-week', 'long-new', 'newest')).toEqual(['just-a-week', 'long-new', 'newest']);
  forgetOldReceipts(sql, NOW, 2);
  expect(known('just-a-week', 'long-new', 'newest')).toEqual(['long-new', 'newest']);
  sql.run('DELETE FROM receipt_text');
  expect(() => recall(sql, 'owner', receipt('long-new'))).toThrow('has lost its answer');
});

test('a thousand answers at most are forgotten at once, the oldest first, and it is said that more are left', async () => {
  const { yard } = await Shop.open();
  const { sql } = yard;
  for (let no = 0; no < 1_001; no++) {
    const receipt = { idempotencyKey: `k-${no}`, fingerprint: '' };
    remember(sql, 'owner', receipt, { ok: true, told: { seq: 1 } }, NOW - 8 * DAY + no);
  }
  expect(forgetOldReceipts(sql, NOW)).toBe(true);
  expect(sql.rows<{ id: string }>('SELECT idempotency_key AS id FROM receipt').map(({ id }) => id)).toEqual(['k-1000']);
  expect(forgetOldReceipts(sql, NOW)).toBe(false);
  expect(sql.rows('SELECT 1 FROM receipt')).toEqual([]);
  expect(forgetOldReceipts(sql, NOW)).toBe(false);
});

test('old answers are looked for once a minute, and at once again where more were left', async () => {
  const shop = await Shop.open();
  const job = { do: 'open-job', draft: { name: 'Bench', dueOn: null, note: '' } } as const;
  const count = () => shop.yard.sql.row<{ n: number }>('SELECT count(*) AS n FROM receipt')?.n;
  shop.send(job, 'first-000');
  for (let no = 0; no < 1_500; no++) {
    const receipt = { idempotencyKey: `k-${no}`, fingerprint: '' };
    remember(shop.yard.sql, 'owner', receipt, { ok: true, told: { seq: 1 } }, NOW - 8 * DAY);
  }
  shop.atMs = NOW + 59_999;
  shop.send(job, 'second-00');
  expect(count()).toBe(1_502);
  shop.atMs = NOW + 60_000;
  shop.send(job, 'third-000');
  expect(count()).toBe(503);
  shop.send(job, 'fourth-00');
  expect(count()).toBe(4);
});

test('a page of the file ends with the movement that fills it, and has one at least', async () => {
  const shop = await Shop.open();
  for (const name of ['A', 'B', 'C']) shop.job(name);
  const page = (chars: number, afterSeq = 0, upToSeq = 4) => shop.ask('archive-page', { afterSeq, upToSeq, chars });
  const first = page(1);
  expect([first.lastSeq, first.text.split('\n').length]).toEqual([1, 2]);
  expect(page(first.text.length).lastSeq).toBe(1);
  expect(page(first.text.length + 1).lastSeq).toBe(2);
  expect(page(1e9).lastSeq).toBe(4);
  expect(page(1e9, 0, 3).lastSeq).toBe(3);
  expect(page(1e9, 2).text).toBe(page(1e9).text.split('\n').slice(2).join('\n'));
  expect(page(1e9, 4)).toEqual({ text: '', lastSeq: 4 });
  expect(JSON.parse(page(1, 1).text).movement).toEqual(shop.journal()[1]);
  for (const [upToSeq, movements] of [
    [undefined, 4],
    [2, 2],
    [9, 4],
  ] as const) {
    expect(shop.ask('archive-head', upToSeq === undefined ? {} : { upToSeq }).movements).toBe(movements);
  }
});

test('a movement whose changes are long lies in pieces, is read whole, and goes out and in with the file', async () => {
  const shop = await Shop.open();
  shop.takeIn(...Array.from({ length: 250 }, (_, no) => boardOf(`Q-${no}`)));
  const beside = shop.yard.sql.row<{ n: number }>('SELECT count(*) AS n FROM journal WHERE changes IS NULL')?.n;
  expect(beside).toBe(1);
  const file = fileOf(shop);
  const other = await Shop.open();
  expect(restore(other, file)).toMatchObject({ ok: true });
  expect(other.journal()).toEqual(shop.journal());
  for (const each of ['journal_text_delete', 'journal_text_update']) shop.yard.sql.run(`DROP TRIGGER ${each}`);
  shop.yard.sql.run('DELETE FROM journal_text');
  expect(() => shop.state().movement(2)).toThrow('movement 2 has lost its changes');
});

test('a bad line is named by its number among all that were sent, and its part leaves nothing behind', async () => {
  const shop = await Shop.open();
  for (const name of ['A', 'B', 'C', 'D']) shop.job(name);
  const file = fileOf(shop);
  const other = await Shop.open();
  const { core } = other.yard;
  expect(core.restore(owner, 1, file.slice(0, 4))).toMatchObject({ restored: { seq: 2, movements: 5, done: false } });
  const bad = core.restore(owner, 5, [file[4] ?? '', '{"movement":{"seq":9}}']);
  expect(bad.ok ? '' : bad.refusal.detail).toMatch(/^Line 6 of what was sent: not a movement/);
  expect(other.seq()).toBe(2);
  // The last line alone, before the others came.
  const early = core.restore(owner, 5, file.slice(-1));
  expect(early.ok ? '' : early.refusal.detail).toBe(
    'Line 5 of what was sent: the file should have 5 movements, and 2 came',
  );
  const nothing = (await Shop.open()).yard.core;
  for (const lines of [file.slice(-1), [], file.slice(1, 2)]) {
    const answer = nothing.restore(owner, 1, lines);
    expect(answer.ok ? '' : answer.refusal.detail).toContain('Line 1 of what was sent: the first line of the file');
  }
  expect(core.restore(owner, 5, file.slice(4))).toMatchObject({ restored: { seq: 5, movements: 5, done: true } });
  expect(other.journal()).toEqual(shop.journal());
});
