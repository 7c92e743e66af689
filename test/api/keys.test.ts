/** Keys and feed links over HTTP: what is shown once, what a link shows, and what opens nothing. */
import fc from 'fast-check';
import { beforeEach, describe, expect, test } from 'vitest';
import { csvRow, csvText } from '../../worker/api/csv.ts';
import { board, type Client, openShop } from './shop.ts';

let shop: ReturnType<typeof openShop>;
let yard: Client;

beforeEach(async () => {
  shop = openShop();
  yard = await shop.foundYard('Juniper Bend');
});

const made = async (body: unknown, path = '/v1/keys') => {
  const answer = await yard.send('POST', path, body);
  expect(answer.status, answer.text).toBe(201);
  expect(answer.headers.get('cache-control')).toBe('no-store');
  return answer.json as { key: { id: string; role: string }; secret: string };
};
const as = (secret: string) => shop.client(yard.yardId, secret);
const rowsOf = (csv: string) => csv.trimEnd().split('\r\n');
const feedPath = (secret: string) => new URL(secret).pathname;
const read = (path: string, method = 'GET') => shop.request(method, path, undefined, {});

describe('keys', () => {
  test('a viewer looks, a hand works, and neither gives out keys', async () => {
    const viewer = as((await made({ label: 'Screen', role: 'viewer' })).secret);
    const hand = as((await made({ label: 'Ann', role: 'hand', days: 30 })).secret);
    expect((await viewer.send('GET', '/v1/boards')).status).toBe(200);
    expect((await viewer.send('POST', '/v1/boards', { boards: [board('A1')] })).json.type).toBe(
      '/problems/not-allowed',
    );
    expect((await hand.send('POST', '/v1/boards', { boards: [board('A1')] })).status).toBe(201);
    expect((await hand.send('POST', '/v1/keys', { label: 'x', role: 'owner' })).status).toBe(403);
    expect((await hand.send('GET', '/v1/keys')).status).toBe(403);
    shop.advanceMs(30 * 86_400_000);
    expect((await hand.send('GET', '/v1/boards')).json).toMatchObject({ status: 401, type: '/problems/key-expired' });
  });

  test('the secret is in the answer that made it and in no list, journal or table', async () => {
    const { secret } = await made({ label: 'Ann', role: 'hand' });
    const [last] = secret.split('_').slice(-1);
    await as(secret).send('GET', '/v1/yard');
    const seen = await Promise.all(['/v1/keys', '/v1/movements', '/v1/yard'].map((path) => yard.send('GET', path)));
    for (const answer of seen) expect(answer.text).not.toContain(last);
    const sql = [...shop.yards.values()][0]!.sql;
    for (const table of ['api_key', 'receipt', 'receipt_text', 'journal', 'journal_text']) {
      expect(JSON.stringify(sql.rows(`SELECT * FROM ${table}`))).not.toContain(last);
    }
  });

  test('the same request sent again after a lost answer gives the same key, and one key', async () => {
    const header = { 'idempotency-key': 'lost-answer-1' };
    const body = { label: 'Ann', role: 'hand' };
    const first = await yard.send('POST', '/v1/keys', body, header);
    const again = await yard.send('POST', '/v1/keys', body, header);
    expect(again.text).toBe(first.text);
    expect((await as(again.json.secret).send('GET', '/v1/yard')).status).toBe(200);
    expect((await yard.send('GET', '/v1/keys')).json.keys).toHaveLength(2);
    // The same Idempotency-Key from another owner's key makes another secret.
    const other = as((await made({ label: 'Partner', role: 'owner' })).secret);
    const theirs = await other.send('POST', '/v1/keys', body, header);
    expect(theirs.json.secret).not.toBe(first.json.secret);
  });

  test('taken back and renewed over HTTP', async () => {
    const { key, secret } = await made({ label: 'Ann', role: 'hand' });
    const renewed = await made({ oldHours: 0 }, `/v1/keys/${key.id}/rotate`);
    expect((await as(secret).send('GET', '/v1/yard')).status).toBe(401);
    expect((await as(renewed.secret).send('GET', '/v1/yard')).status).toBe(200);
    const revoked = await yard.send('POST', `/v1/keys/${renewed.key.id}/revoke`);
    expect(revoked.json).toMatchObject({ works: false, label: 'Ann' });
    expect((await as(renewed.secret).send('GET', '/v1/yard')).status).toBe(401);
  });

  test('a shop that lost its keys gets one from who runs the service', async () => {
    const ask = (yardId: string, key: string) =>
      shop.request('POST', `/v1/yards/${yardId}/owner-key`, undefined, { authorization: `Bearer ${key}` });
    expect((await ask(yard.yardId, 'admin-key-of-the-tesst')).status).toBe(401);
    expect((await ask(yard.yardId, yard.key)).status).toBe(401);
    expect((await ask('0000000000000000abcd', 'admin-key-of-the-tests')).status).toBe(404);
    const given = await ask(yard.yardId, 'admin-key-of-the-tests');
    expect(given.status).toBe(201);
    expect((await as(given.json.key).send('GET', '/v1/keys')).status).toBe(200);
  });
});

describe('feed links', () => {
  async function stocked() {
    await yard.send('POST', '/v1/boards', {
      boards: [board('A1', { note: '=HYPERLINK("http://x","y")', place: 'rack 2, top' }), board('A2')],
    });
    const job = (await yard.send('POST', '/v1/jobs', { name: '+Hall table' })).json;
    await yard.send('PUT', `/v1/jobs/${job.id}/cut-list`, {
      parts: [
        {
          key: 'r1',
          label: '@Rail',
          quantity: 2,
          species: 'white oak',
          lengthNm: '60 in',
          widthNm: '3 in',
          thicknessNm: '1 in',
        },
      ],
    });
    await yard.send('POST', '/v1/reservations', { jobId: job.id, boards: [{ tag: 'A2' }] });
    return job.id as string;
  }

  test('the stock, as numbers and guarded texts, without any header', async () => {
    await stocked();
    const { secret, key } = await made({ label: 'Price sheet', list: 'stock' }, '/v1/feeds');
    expect(key.role).toBe('feed');
    const answer = await read(feedPath(secret));
    expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8');
    expect(answer.headers.get('cache-control')).toBe('no-store');
    // 100.5 x 8.25 x 2 in / 144 = 11.516 board feet (a board foot is 144 cubic inches, NIST Handbook 130).
    expect(rowsOf(answer.text)).toEqual([
      'Tag,Species,Length (in),Width (in),Thickness (in),Called,Board feet,Grain,Grade,Moisture %,Read on,Place,Status,Held by,Received on,Note',
      `A1,white oak,100.5,8.25,2,8/4,11.516,unknown,,8.5,2026-11-01,"rack 2, top",free,,,"'=HYPERLINK(""http://x"",""y"")"`,
      "A2,white oak,100.5,8.25,2,8/4,11.516,unknown,,8.5,2026-11-01,,held: +Hall table,'+Hall table,,",
    ]);
  });

  test('who holds what, and where the parts of one job stand', async () => {
    const jobId = await stocked();
    const held = await made({ label: 'Holds', list: 'held' }, '/v1/feeds');
    expect(rowsOf((await read(feedPath(held.secret))).text)).toEqual([
      'Tag,Species,Job,From (in),To (in),Whole board,Held on',
      "A2,white oak,'+Hall table,0,100.5,yes,2026-11-20",
    ]);
    const list = await made({ label: 'Table', list: 'cut-list', jobId }, '/v1/feeds');
    expect(rowsOf((await read(feedPath(list.secret))).text)).toEqual([
      'Key,Part,Quantity,Species,Length (in),Width (in),Thickness (in),Wanted,Planned,Roughed,Passed,Glued up,Milled,Failed',
      "r1,'@Rail,2,white oak,60,3,1,2,0,0,0,0,0,0",
    ]);
    const strange = await yard.send('POST', '/v1/feeds', { label: 'x', list: 'cut-list', jobId: 'jb_000000000000' });
    expect(strange.status).toBe(404);
    expect((await yard.send('POST', '/v1/feeds', { label: 'x', list: 'cut-list' })).status).toBe(422);
  });

  test('a stock of more than one page of the yard comes whole', async () => {
    const boards = Array.from({ length: 1_500 }, (_, no) => board(`T-${no}`));
    await yard.send('POST', '/v1/boards', { boards });
    const { secret } = await made({ label: 'All', list: 'stock' }, '/v1/feeds');
    const tags = rowsOf((await read(feedPath(secret))).text)
      .slice(1)
      .map((row) => row.split(',')[0]);
    expect(new Set(tags).size).toBe(1_500);
  });

  test('opens one list and nothing else; no key opens a link', async () => {
    const { secret, key } = await made({ label: 'Price sheet', list: 'stock' }, '/v1/feeds');
    const token = feedPath(secret).replace('/feeds/', '').replace('.csv', '');
    expect((await as(token).send('GET', '/v1/boards')).status).toBe(401);
    expect((await as(token.replace('yf_', 'yk_')).send('GET', '/v1/boards')).json.type).toBe('/problems/not-allowed');
    expect((await read(`/feeds/${yard.key}.csv`)).status).toBe(404);
    expect((await read(`/feeds/${yard.key.replace('yk_', 'yf_')}.csv`)).status).toBe(404);
    expect((await read(feedPath(secret).replace('.csv', ''))).status).toBe(404);
    expect((await read(feedPath(secret), 'POST')).status).toBe(405);
    const head = await read(feedPath(secret), 'HEAD');
    expect([head.status, head.text, head.headers.get('content-type')]).toEqual([200, '', 'text/csv; charset=utf-8']);
    await yard.send('POST', `/v1/keys/${key.id}/revoke`);
    const gone = await read(feedPath(secret));
    expect(gone.json).toMatchObject({ status: 404, type: '/problems/not-found' });
    expect(gone.text).not.toContain(token);
  });
});

describe('cells of a feed', () => {
  test('no text begins as a formula, whatever stands before or in it', () => {
    const awkward = fc.array(
      fc.constantFrom('=', '+', '-', '@', '＝', '\t', '\r', '\n', '\0', ' ', '\u200b', '"', ',', "'", 'a', '1'),
    );
    fc.assert(
      fc.property(
        fc.oneof(
          awkward.map((parts) => parts.join('')),
          fc.string({ unit: 'binary' }),
        ),
        (text) => {
          const safe = csvText(text);
          expect(safe.trim()).not.toMatch(/^[=+\-@＝＋－＠]/u);
          expect(safe).not.toMatch(/[\p{Cc}]/u);
          expect(csvText(safe)).toBe(safe);
        },
      ),
      { numRuns: 2_000 },
    );
  });

  test('quotes and commas are read back by the rule of RFC 4180', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: fc.constantFrom('"', ',', ';', 'a', ' ', '1') }), { minLength: 1 }),
        (texts) => {
          expect(fieldsOf(csvRow(texts).replace(/\r\n$/, ''))).toEqual(texts.map(csvText));
        },
      ),
    );
    expect(csvRow([-1.5, 0, null, Number.NaN])).toBe('-1.5,0,,\r\n');
  });
});

/** A reader of its own, by the grammar of RFC 4180 section 2. */
function fieldsOf(line: string): string[] {
  const fields: string[] = [];
  let at = 0;
  for (;;) {
    let field = '';
    if (line[at] === '"') {
      at += 1;
      while (line[at] !== '"' || line[at + 1] === '"') {
        field += line[at];
        at += line[at] === '"' ? 2 : 1;
      }
      at += 1;
    } else {
      while (at < line.length && line[at] !== ',') field += line[at++];
    }
    fields.push(field);
    if (at >= line.length) return fields;
    at += 1;
  }
}

describe('the pepper is changed', () => {
  const digests = () =>
    [...shop.yards.values()][0]!.sql
      .rows<{ key_id: string; digest: string }>('SELECT key_id, digest FROM api_key ORDER BY key_id')
      .map((row) => row.digest);
  const look = async (client: Client) => (await client.send('GET', '/v1/yard')).status;

  /** As DEVELOPERS.md says. */
  function change(to: string) {
    shop.env.YARD_ID_PEPPER ??= shop.env.KEY_PEPPER;
    shop.env.KEY_PEPPER_PREVIOUS = shop.env.KEY_PEPPER;
    shop.env.KEY_PEPPER = to;
  }

  test('keys and links go on working, and each is kept under the new one from its next use on', async () => {
    const hand = as((await made({ label: 'Ann', role: 'hand' })).secret);
    const link = feedPath((await made({ label: 'Stock', list: 'stock', jobId: null }, '/v1/feeds')).secret);
    const before = digests();
    change('a-second-pepper-of-the-tests');
    expect([await look(yard), await look(hand), (await read(link)).status]).toEqual([200, 200, 200]);
    const after = digests();
    expect(after.filter((digest) => before.includes(digest))).toEqual([]);
    delete shop.env.KEY_PEPPER_PREVIOUS;
    expect([await look(yard), await look(hand), (await read(link)).status]).toEqual([200, 200, 200]);
    expect(digests()).toEqual(after);
    // A second time.
    change('a-third-pepper-of-the-tests');
    expect([await look(yard), await look(hand)]).toEqual([200, 200]);
    // New keys and yards are made under the new one.
    const late = as((await made({ label: 'Late', role: 'viewer' })).secret);
    const other = await shop.foundYard('Second yard');
    delete shop.env.KEY_PEPPER_PREVIOUS;
    expect([await look(late), await look(other)]).toEqual([200, 200]);
  });

  test('a key that was not used while both stood opens nothing; the owner makes another', async () => {
    const hand = as((await made({ label: 'Ann', role: 'hand' })).secret);
    change('a-second-pepper-of-the-tests');
    expect(await look(yard)).toBe(200);
    delete shop.env.KEY_PEPPER_PREVIOUS;
    expect(await look(hand)).toBe(401);
    expect(await look(as((await made({ label: 'Ann', role: 'hand' })).secret))).toBe(200);
  });

  test('a wrong or revoked key opens nothing under either, and is not renewed', async () => {
    const ann = await made({ label: 'Ann', role: 'hand' });
    await yard.send('POST', `/v1/keys/${ann.key.id}/revoke`, undefined);
    const before = digests();
    change('a-second-pepper-of-the-tests');
    const wrong = yard.key.replace(/.{4}$/, (end) => (end === '0000' ? '1111' : '0000'));
    expect([await look(as(ann.secret)), await look(as(wrong))]).toEqual([401, 401]);
    expect(digests()).toEqual(before);
  });

  test('a key asked for again after the change is not shown with a secret that does not open', async () => {
    const header = { 'idempotency-key': 'lost-answer-1' };
    const body = { label: 'Ann', role: 'hand' };
    await yard.send('POST', '/v1/keys', body, header);
    change('a-second-pepper-of-the-tests');
    const again = await yard.send('POST', '/v1/keys', body, header);
    expect([again.status, again.json.type]).toEqual([422, '/problems/idempotency-key-reused']);
  });
});
