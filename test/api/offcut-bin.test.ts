/** Wood that lay in the offcut bin before the yard knew of it is an offcut like those that came back from the saw. */
import { expect, test } from 'vitest';
import { board, openShop } from './shop.ts';

test('a row that is said to be an offcut counts as one: in lists, in the count, in the questions', async () => {
  const yard = await openShop().foundYard('Oak');
  const short = { lengthNm: '30 in', widthNm: '6 in', thicknessNm: '4/4' };
  const taken = await yard.send('POST', '/v1/boards', {
    boards: [board('B-1', { ...short }), board('BIN-1', { ...short, offcut: true }), board('BIN-2', { offcut: 'yes' })],
  });
  expect(taken.json.faults).toMatchObject([{ row: 2, field: 'offcut' }]);
  const offcuts = (await yard.send('GET', '/v1/boards?offcuts=true')).json.items;
  expect(offcuts).toMatchObject([{ tag: 'BIN-1', origin: { kind: 'offcut', parentId: null, sessionId: null } }]);
  expect(offcuts[0].offcut).toBeUndefined();
  expect((await yard.send('GET', '/v1/yard')).json.boards).toMatchObject({ inStock: 2, offcuts: 1 });

  const job = (await yard.send('POST', '/v1/jobs', { name: 'Box' })).json.id;
  const part = { key: 'p1', label: 'End', quantity: 1, species: 'white oak', use: 'hidden' };
  const parts = [{ ...part, lengthNm: '20 in', widthNm: '4 in', thicknessNm: '3/4 in' }];
  expect((await yard.send('PUT', `/v1/jobs/${job}/cut-list`, { parts })).status).toBe(200);
  const asked = await yard.send('POST', '/v1/offcuts/homes', { jobId: job, partKey: 'p1' });
  const homes = asked.json.homes;
  expect(homes.map((home: { tag: string }) => home.tag)).toEqual(['BIN-1', 'B-1']);
  const plan = await yard.send('POST', `/v1/jobs/${job}/plans`, { effort: 'quick' });
  expect(plan.json.layouts.map((layout: { tag: string }) => layout.tag)).toEqual(['BIN-1']);
});

test('its journal folds, is checked and comes back from the file of the yard', async () => {
  const shop = openShop();
  const yard = await shop.foundYard('Oak');
  await yard.send('POST', '/v1/boards', { boards: [board('BIN-1', { offcut: true })] });
  expect((await yard.send('GET', '/v1/yard/check')).json.findings).toEqual([]);
  const [movement] = (await yard.send('GET', '/v1/movements?limit=1')).json.items;
  expect(movement.kind).toBe('boards-received');
  expect((await yard.send('POST', `/v1/movements/${movement.seq}/undo`, {})).status).toBe(201);
  expect((await yard.send('GET', '/v1/boards?offcuts=true')).json.items).toEqual([]);
  expect((await yard.send('GET', '/v1/yard/check')).json.findings).toEqual([]);
});

test('a size of a wood that is mistyped asks for the one meant; a wood that is near to none is taken as it is written', async () => {
  const yard = await openShop().foundYard('Oak');
  const size = { lengthNm: '30 in', widthNm: '6 in', thicknessNm: '4/4' };
  for (const path of ['/v1/offcuts/uses', '/v1/offcuts/homes']) {
    const asked = await yard.send('POST', path, { size: { ...size, species: 'wite oak' } });
    expect([asked.status, asked.json.faults?.[0]], path).toMatchObject([
      422,
      { pointer: '/size/species', field: 'species', help: expect.stringContaining('did you mean white oak') },
    ]);
    expect((await yard.send('POST', path, { size: { ...size, species: 'zzyzzyx' } })).status, path).toBe(200);
  }
  const wet = await yard.send('POST', '/v1/offcuts/uses', { size: { ...size, species: 'oak', moisturePercent: 900 } });
  expect(wet.status).toBe(422);
});
