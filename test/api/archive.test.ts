/** The yard's file over HTTP: saved from one service, restored in another, by curl's way. */
import { expect, test } from 'vitest';
import { limits } from '../../worker/contract/limits.ts';
import { board, openShop } from './shop.ts';

async function yardWithStock(tags: number) {
  const shop = openShop();
  const yard = await shop.foundYard('Oak & Söhne');
  const boards = Array.from({ length: tags }, (_, no) => board(`Q-${no}`, { note: 'Käfer – ½ in deep' }));
  expect((await yard.send('POST', '/v1/boards', { boards })).status).toBe(201);
  const job = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json;
  await yard.send('POST', '/v1/reservations', { jobId: job.id, boards: [{ tag: 'Q-1' }] });
  return { shop, yard };
}

const sendFile = { 'content-type': 'application/x-ndjson' };

test('saved, restored and saved again', async () => {
  const { yard } = await yardWithStock(40);
  const saved = await yard.send('GET', '/v1/yard/archive');
  expect(saved.status).toBe(200);
  expect(saved.headers.get('content-type')).toBe('application/x-ndjson');
  expect(saved.headers.get('content-disposition')).toContain('heartside-yard.ndjson');
  const lines = saved.text.trimEnd().split('\n');
  expect(JSON.parse(lines[0] ?? '')).toEqual({ heartside: 'yard', format: 1, name: 'Oak & Söhne', movements: 4 });
  expect(JSON.parse(lines.at(-1) ?? '').end.movements).toBe(4);

  const there = openShop();
  const other = await there.foundYard('Somewhere else');
  const put = await other.send('PUT', '/v1/yard/archive', saved.text, sendFile);
  expect([put.status, put.json]).toEqual([200, { seq: 4, movements: 4, done: true }]);
  const facts = (await other.send('GET', '/v1/yard')).json;
  expect(facts).toMatchObject({ yardId: other.yardId, name: 'Oak & Söhne', boards: { inStock: 40, held: 1 } });
  const again = await other.send('GET', '/v1/yard/archive');
  const movements = (text: string) => text.split('\n').filter((line) => !line.startsWith('{"key"'));
  expect(movements(again.text)).toEqual(movements(saved.text));
  const twice = await other.send('PUT', '/v1/yard/archive', saved.text, sendFile);
  expect(twice.json).toEqual(put.json);
});

test('a file of many pages, put in through many parts', async () => {
  const { yard } = await yardWithStock(2_000);
  for (let no = 0; no < 20; no++) {
    const boards = Array.from({ length: 60 }, (_, at) => board(`N-${no}-${at}`, { note: 'x'.repeat(450) }));
    expect((await yard.send('POST', '/v1/boards', { boards })).status).toBe(201);
  }
  const saved = await yard.send('GET', '/v1/yard/archive');
  expect(saved.text.length).toBeGreaterThan(2 * limits.archivePageChars);
  const other = await openShop().foundYard('Somewhere else');
  const put = await other.send('PUT', '/v1/yard/archive', saved.text, sendFile);
  expect(put.json).toMatchObject({ seq: 24, done: true });
});

test('what is no file of a yard is refused, and the line is named', async () => {
  const { yard } = await yardWithStock(3);
  const saved = await yard.send('GET', '/v1/yard/archive');
  const put = async (text: string) =>
    (await openShop().foundYard('Empty')).send('PUT', '/v1/yard/archive', text, sendFile);
  expect((await put('')).json.type).toBe('/problems/bad-request');
  expect((await put('{"a":1}')).json).toMatchObject({ type: '/problems/archive-broken', status: 422 });
  const broken = await put(saved.text.replace('"jobId":null', '"jobId":nul'));
  expect(broken.json.detail).toContain('Line 3');
  const long = await put(`${saved.text.split('\n')[0]}\n${'x'.repeat(limits.archiveLineChars + 1)}`);
  expect([long.status, long.json.type]).toEqual([413, '/problems/too-large']);
  const full = await yard.send('PUT', '/v1/yard/archive', saved.text, sendFile);
  expect([full.status, full.json.type]).toEqual([409, '/problems/yard-not-empty']);
});

test('the yard as it was: a file up to any movement restores to that moment', async () => {
  const { yard } = await yardWithStock(5);
  await yard.send('POST', '/v1/boards', { boards: [board('Late-1')] });
  const then = await yard.send('GET', '/v1/yard/archive?upTo=4');
  const other = await openShop().foundYard('As it was');
  expect((await other.send('PUT', '/v1/yard/archive', then.text, sendFile)).json).toMatchObject({ seq: 4, done: true });
  expect((await other.send('GET', '/v1/yard')).json).toMatchObject({ boards: { inStock: 5, held: 1 } });
  // A number beyond the last movement means all of them; one below the first is not read.
  const all = await yard.send('GET', '/v1/yard/archive?upTo=900');
  expect(all.text).toBe((await yard.send('GET', '/v1/yard/archive')).text);
  expect((await yard.send('GET', '/v1/yard/archive?upTo=0')).status).toBe(422);
});
