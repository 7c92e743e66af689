/** Bad input of every kind that a shop or a stranger sends: each a clear error that names what was wrong, and nothing changed. */
import { beforeEach, describe, expect, test } from 'vitest';
import { board, type Client, openShop } from './shop.ts';

let shop: ReturnType<typeof openShop>;
let yard: Client;

beforeEach(async () => {
  shop = openShop();
  yard = await shop.foundYard('Juniper Bend');
});

const seqOf = async (client: Client): Promise<number> => (await client.send('GET', '/v1/yard')).json.seq;

/** Takes in one board and gives back the faults of its row. */
async function faultsOfBoard(over: Record<string, unknown>, status = 422) {
  const before = await seqOf(yard);
  const answer = await yard.send('POST', '/v1/boards', { boards: [board('A1', over)], allOrNothing: true });
  expect(answer.status).toBe(status);
  expect(answer.headers.get('content-type')).toBe('application/problem+json');
  expect(await seqOf(yard)).toBe(before);
  return answer.json.faults as { pointer: string; field?: string; read?: string; help: string; row?: number }[];
}

describe('boards that cannot be', () => {
  test('an unknown species is named, with what it may have meant', async () => {
    const faults = await faultsOfBoard({ species: 'walnutt' });
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ row: 0, field: 'species', read: 'walnutt', pointer: '/boards/0/species' });
    expect(faults[0]?.help).toMatch(/walnut/i);
  });

  test.each([
    ['zero', '0 mm', /more than zero/],
    ['zero in nanometres', 0, /more than zero/],
    ['negative', '-8 in', /minus sign/],
    ['negative in nanometres', -25_400_000, /more than zero/],
    ['a fraction over nothing', '3 5/0', /zero|0/],
    ['words', 'about eight', /tape/],
    ['no unit', '100', /unit/],
    ['half a nanometre', 100.5, /whole number of nanometres/],
    ['longer than any board', "400'", /more than 98 ft; is it really/],
    ['a list', ['8'], /nanometres|tape|text/i],
    ['nothing', null, /nanometres|tape|text|missing/i],
  ])('a length that is %s', async (_what, lengthNm, help) => {
    const faults = await faultsOfBoard({ lengthNm });
    expect(faults).toHaveLength(1);
    expect(faults[0]?.field).toBe('lengthNm');
    expect(faults[0]?.help).toMatch(help);
  });

  test('every fault of every row at once, and the good rows are not lost', async () => {
    const answer = await yard.send('POST', '/v1/boards', {
      boards: [board('A1'), board('A2', { widthNm: '0 in', species: 'oak' }), board('A1'), board('A4')],
    });
    expect(answer.status).toBe(201);
    expect(answer.json.taken.map((taken: { tag: string }) => taken.tag)).toEqual(['A1', 'A4']);
    expect(answer.json.faults.map((fault: { row: number; field: string }) => [fault.row, fault.field])).toEqual(
      expect.arrayContaining([
        [1, 'widthNm'],
        [1, 'species'],
        [2, 'tag'],
      ]),
    );
  });

  test('a tag that is in the yard already is refused by name', async () => {
    await yard.send('POST', '/v1/boards', { boards: [board('A1')] });
    const faults = await faultsOfBoard({ tag: 'a1' }, 409);
    expect(faults[0]).toMatchObject({ field: 'tag', read: 'a1' });
  });

  test('moisture of 400 per cent, a board without a tag, a field that is none', async () => {
    expect((await faultsOfBoard({ readings: [{ moisturePercent: 400, on: '2026-11-01' }] }))[0]?.help).toMatch(/250/);
    expect((await faultsOfBoard({ tag: '  ' }))[0]?.field).toBe('tag');
    expect((await faultsOfBoard({ colour: 'brown' }))[0]).toMatchObject({ field: 'colour' });
  });

  test('a billion boards are refused before they are read', async () => {
    const answer = await yard.send('POST', '/v1/boards', { boards: Array.from({ length: 2001 }, () => 1) });
    expect(answer.status).toBe(422);
    expect(answer.json.detail).toMatch(/not right/);
  });
});

describe('parts that cannot be', () => {
  test('a billion pieces of a part, and none', async () => {
    const job = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json;
    const row = {
      key: 'r1',
      label: 'Rail',
      species: 'white oak',
      lengthNm: '60 in',
      widthNm: '3 in',
      thicknessNm: '1 in',
    };
    for (const quantity of [1e9, 0, -1, 1.5]) {
      const answer = await yard.send('PUT', `/v1/jobs/${job.id}/cut-list`, { parts: [{ ...row, quantity }] });
      expect(answer.status).toBe(422);
      expect(answer.json.faults[0]).toMatchObject({ field: 'quantity', row: 0 });
    }
    expect((await yard.send('GET', `/v1/jobs/${job.id}`)).json.parts).toEqual([]);
  });

  test('a part longer than any board is taken off with a warning and stays unplaced with the reason', async () => {
    await yard.send('POST', '/v1/boards', { boards: [board('A1')] });
    const job = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json;
    await yard.send('PUT', `/v1/jobs/${job.id}/cut-list`, {
      parts: [
        {
          key: 'r1',
          label: 'Long rail',
          quantity: 1,
          species: 'white oak',
          lengthNm: `12'`,
          widthNm: '3 in',
          thicknessNm: '1 1/2 in',
        },
      ],
    });
    const takeoff = await yard.send('POST', `/v1/jobs/${job.id}/takeoff`);
    expect(takeoff.status).toBe(200);
    expect(takeoff.json.rows[0].warnings).toContain(`needs 12' 1" rough; the longest free white oak 8/4 is 8' 4 1/2"`);
    const plan = await yard.send('POST', `/v1/jobs/${job.id}/plans`, {});
    expect(plan.json.layouts).toEqual([]);
    expect(plan.json.unplaced[0]).toMatchObject({
      label: 'Long rail',
      count: 1,
      nearest: { tag: 'A1', failsBy: [`3' 10 1/2" too short: trimmed 8' 2 1/2", needs 12' 1"`] },
    });
  });
});

describe('requests that cannot be', () => {
  test('a body of 10 MB', async () => {
    const answer = await yard.send('POST', '/v1/boards', `{"boards":["${'x'.repeat(10_000_000)}"]}`);
    expect(answer.status).toBe(413);
    expect(answer.json.detail).toMatch(/2 MB/);
  });

  test('not JSON, and another media type', async () => {
    expect((await yard.send('POST', '/v1/boards', '{"boards":')).json).toMatchObject({
      status: 400,
      type: '/problems/not-json',
    });
    const answer = await yard.send('POST', '/v1/boards', 'tag=A1', { 'content-type': 'text/plain' });
    expect(answer.json).toMatchObject({ status: 415, type: '/problems/wrong-media-type' });
  });

  test('no key, a wrong key, a key of another yard', async () => {
    const other = await shop.foundYard('Somebody else');
    await yard.send('POST', '/v1/boards', { boards: [board('A1')] });
    const boardId = (await yard.send('GET', '/v1/boards')).json.items[0].id;

    expect((await shop.request('GET', '/v1/boards', undefined, {})).json.type).toBe('/problems/no-key');
    expect((await shop.request('GET', '/v1/boards', undefined, { authorization: 'Bearer nonsense' })).status).toBe(401);
    const forged = yard.key.slice(0, -4) + (yard.key.endsWith('0000') ? '1111' : '0000');
    expect((await shop.client(yard.yardId, forged).send('GET', '/v1/boards')).json.type).toBe('/problems/wrong-key');
    const crossed = yard.key.replace(yard.yardId, other.yardId);
    expect((await shop.client(other.yardId, crossed).send('GET', '/v1/boards')).status).toBe(401);
    expect((await other.send('GET', `/v1/boards/${boardId}`)).status).toBe(404);
    expect((await other.send('POST', `/v1/boards/${boardId}/write-off`, { why: 'gone' })).status).toBe(404);
    expect((await yard.send('GET', `/v1/boards/${boardId}`)).json.state).toBe('in-stock');
  });

  test('a yard that nobody founded makes no object', async () => {
    const before = shop.yards.size;
    const invented = yard.key.replace(yard.yardId, '0000000000000000abcd');
    expect((await shop.client('', invented).send('GET', '/v1/yard')).status).toBe(401);
    expect(shop.yards.size).toBe(before);
  });

  test('a stranger with bad input learns only that the key is wrong', async () => {
    const forged = shop.client(yard.yardId, yard.key.slice(0, -4) + (yard.key.endsWith('0000') ? '1111' : '0000'));
    expect((await forged.send('POST', '/v1/boards', { boards: [] })).json.type).toBe('/problems/wrong-key');
  });

  test('an address that is none, and a method that is none there', async () => {
    expect((await yard.send('GET', '/v1/planks')).json).toMatchObject({ status: 404, type: '/problems/not-found' });
    const answer = await yard.send('DELETE', '/v1/boards');
    expect(answer.json).toMatchObject({ status: 405 });
    expect(answer.headers.get('allow')).toMatch(/GET/);
  });

  test('every error carries the number that stands in the log', async () => {
    const answer = await yard.send('GET', '/v1/planks');
    expect(answer.json.instance).toMatch(/^rq_[0-9a-f]{16}$/);
    expect(answer.headers.get('x-request-id')).toBe(answer.json.instance);
  });
});

describe('things said twice', () => {
  test('a write without an Idempotency-Key is refused', async () => {
    const answer = await yard.send('POST', '/v1/jobs', { name: 'Hall table' }, { 'idempotency-key': '' });
    expect(answer.json).toMatchObject({ status: 400, type: '/problems/idempotency-key-missing' });
  });

  test('the same request under the same key is done once and answered alike; another body is refused', async () => {
    const key = { 'idempotency-key': 'one-and-the-same' };
    const first = await yard.send('POST', '/v1/jobs', { name: 'Hall table' }, key);
    const again = await yard.send('POST', '/v1/jobs', { name: 'Hall table' }, key);
    expect(again.text).toBe(first.text);
    expect((await yard.send('GET', '/v1/jobs')).json.items).toHaveLength(1);
    const other = await yard.send('POST', '/v1/jobs', { name: 'Bench' }, key);
    expect(other.json).toMatchObject({ status: 422, type: '/problems/idempotency-key-reused' });
  });

  test('an edit needs the version that was read, and a stale one changes nothing', async () => {
    await yard.send('POST', '/v1/boards', { boards: [board('A1')] });
    const read = (await yard.send('GET', '/v1/boards')).json.items[0];
    expect((await yard.send('PATCH', `/v1/boards/${read.id}`, { place: 'rack 2' })).status).toBe(428);
    const stale = await yard.send('PATCH', `/v1/boards/${read.id}`, { place: 'rack 2' }, { 'if-match': '"s0"' });
    expect(stale.json).toMatchObject({ status: 412, type: '/problems/version-stale' });
    const good = await yard.send(
      'PATCH',
      `/v1/boards/${read.id}`,
      { place: 'rack 2' },
      { 'if-match': `"s${read.version}"` },
    );
    expect(good.status).toBe(200);
    expect(good.json.place).toBe('rack 2');
    expect(good.headers.get('etag')).toBe(`"s${good.json.version}"`);
  });
});

test('a board that narrows is taken in with what is missing as wane, and one that widens is told to be turned', async () => {
  const yard = await openShop().foundYard('Oak');
  const taken = await yard.send('POST', '/v1/boards', {
    boards: [
      board('T-1', { widthNm: '8 in', widthFarNm: '6 in' }),
      board('T-2', { widthNm: '8 in', widthFarNm: '9 in' }),
    ],
  });
  expect(taken.json.taken).toHaveLength(1);
  expect(taken.json.faults[0]).toMatchObject({ row: 1, field: 'widthFarNm' });
  const one = (await yard.send('GET', '/v1/boards?q=T-1')).json.items[0];
  expect(one.widthFarNm).toBeUndefined();
  expect(one.defects).toHaveLength(16);
  expect(
    one.defects.every((bad: { kind: string; face: string }) => bad.kind === 'wane' && bad.face === 'through'),
  ).toBe(true);
  expect(one.defects.at(-1)).toMatchObject({ toNm: one.lengthNm, leftNm: 6 * 25_400_000, rightNm: 8 * 25_400_000 });
});
