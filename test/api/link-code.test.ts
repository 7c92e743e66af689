/** Link codes over HTTP: eight characters that stand for a key once, for ten minutes, and for nothing else. */
import { beforeEach, describe, expect, test } from 'vitest';
import { rates } from '../../worker/api/limiter.ts';
import { type Client, openShop } from './shop.ts';

let shop: ReturnType<typeof openShop>;
let yard: Client;

beforeEach(async () => {
  shop = openShop(undefined, { limited: true });
  yard = await shop.foundYard('Juniper Bend');
});

async function code(role = 'hand', label = 'Bench tablet') {
  const answer = await yard.send('POST', '/v1/link-codes', { label, role });
  expect(answer.status, answer.text).toBe(201);
  return answer.json as { code: string; address: string; endsAtMs: number; key: { role: string; works: boolean } };
}
const holder = (typed: string, yardId = yard.yardId) => shop.client(yardId, `yl_${yardId}_${typed}`);
const use = (typed: string, headers: Record<string, string> = {}) =>
  holder(typed).send('POST', '/v1/link', undefined, headers);

describe('a link code', () => {
  test('is changed once for a key of its role and label, and its address names the yard', async () => {
    const made = await code();
    expect(made.code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/);
    expect(made.address).toBe(`http://localhost/yard/${yard.yardId}`);
    expect(made.key).toMatchObject({ role: 'link', works: true });
    const used = await use(made.code);
    expect(used.json).toMatchObject({ key: { label: 'Bench tablet', role: 'hand', expiresAtMs: null } });
    const hand = shop.client(yard.yardId, used.json.secret);
    expect((await hand.send('GET', '/v1/yard')).json.you).toMatchObject({ label: 'Bench tablet' });
    expect((await hand.send('GET', '/v1/keys')).status).toBe(403);
    expect((await use(made.code)).json).toMatchObject({ type: '/problems/key-expired' });
    const list = (await yard.send('GET', '/v1/keys')).json.keys as { role: string; works: boolean }[];
    expect(list.filter(({ role }) => role === 'link').map(({ works }) => works)).toEqual([false]);
  });

  test('asked again with the same Idempotency-Key after a lost answer, the key is the same', async () => {
    const made = await code();
    const header = { 'idempotency-key': 'lost-link-answer' };
    const first = await use(made.code, header);
    const again = await use(made.code, header);
    expect(again.text).toBe(first.text);
    expect((await shop.client(yard.yardId, again.json.secret).send('GET', '/v1/yard')).status).toBe(200);
    const keys = (await yard.send('GET', '/v1/keys')).json.keys as { role: string }[];
    expect(keys.filter(({ role }) => role === 'hand')).toHaveLength(1);
  });

  test('is typed in any case, with or without its dash, O for 0 and l for 1', async () => {
    const made = await code();
    const typed = made.code.toLowerCase().replace('-', '').replaceAll('0', 'o').replaceAll('1', 'l');
    expect((await use(typed)).status).toBe(201);
  });

  test('ends after ten minutes, and when it is taken back', async () => {
    const late = await code();
    shop.advanceMs(10 * 60_000);
    expect((await use(late.code)).json).toMatchObject({ status: 401, type: '/problems/key-expired' });
    const taken = (await code()) as unknown as { code: string; key: { id: string } };
    await yard.send('POST', `/v1/keys/${taken.key.id}/revoke`);
    expect((await use(taken.code)).json).toMatchObject({ status: 401, type: '/problems/wrong-key' });
  });

  test('opens nothing else, at no other yard, and only an owner makes one', async () => {
    const made = await code('owner');
    for (const path of ['/v1/yard', '/v1/boards', '/v1/keys']) {
      expect((await holder(made.code).send('GET', path)).status).toBe(403);
    }
    const other = await shop.foundYard('Ash Street');
    expect((await holder(made.code, other.yardId).send('POST', '/v1/link')).status).toBe(401);
    shop.advanceMs(60_000);
    const { secret } = (await use(made.code)).json;
    const hand = (await yard.send('POST', '/v1/keys', { label: 'Ann', role: 'hand' })).json.secret;
    const asked = { label: 'x', role: 'owner' };
    expect((await shop.client(yard.yardId, hand).send('POST', '/v1/link-codes', asked)).status).toBe(403);
    expect((await shop.client(yard.yardId, secret).send('POST', '/v1/link-codes', asked)).status).toBe(201);
  });

  test('guessing is held to a few tries a yard, from wherever they come', async () => {
    const made = await code();
    for (let no = 0; no < rates.link; no += 1) expect((await use(`2222-222${no}`)).status).toBe(401);
    expect((await use('2222-2229')).status).toBe(429);
    expect((await use(made.code)).status).toBe(429);
    shop.advanceMs(10_000);
    expect((await use(made.code)).status).toBe(201);
  });

  test('stands in no table, list or journal, nor does the key that comes of it', async () => {
    const made = await code();
    const { secret } = (await use(made.code)).json;
    const hidden = [made.code, made.code.replace('-', '').toLowerCase(), String(secret).split('_').at(-1) ?? '?'];
    const seen = await Promise.all(['/v1/keys', '/v1/movements', '/v1/yard'].map((path) => yard.send('GET', path)));
    const sql = [...shop.yards.values()][0]!.sql;
    const tables = ['api_key', 'receipt', 'receipt_text', 'journal', 'journal_text'];
    const all = [...seen.map(({ text }) => text), ...tables.map((t) => JSON.stringify(sql.rows(`SELECT * FROM ${t}`)))];
    for (const text of all) for (const word of hidden) expect(text).not.toContain(word);
    expect(seen[1]?.text).toContain('Connected \\"Bench tablet\\" by a link code');
  });
});
