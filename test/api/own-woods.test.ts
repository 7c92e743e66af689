/** A shop's own woods: written down once in its settings, then known to the stock, the takeoff and the arithmetic. */
import { beforeEach, expect, test } from 'vitest';
import { board, type Client, openShop } from './shop.ts';

let yard: Client;
beforeEach(async () => {
  yard = await openShop().foundYard('Juniper Bend');
});

const bogOak = {
  name: 'Bog oak',
  botanical: 'Quercus robur, subfossil',
  alsoCalled: ['moor oak'],
  shrinkRadialPercent: 6,
  shrinkTangentialPercent: 12,
  specificGravityGreen: 0.55,
};

async function settle(over: object) {
  const { settings } = (await yard.send('GET', '/v1/yard')).json;
  return yard.send('PUT', '/v1/yard/settings', { ...settings, ...over });
}
const part = (species: string) => ({
  key: 'p1',
  label: 'Top',
  quantity: 1,
  species,
  lengthNm: '30 in',
  widthNm: '10 in',
  thicknessNm: '3/4 in',
});

test('is taken into stock by any of its names, and the list gives its figures as the shop’s own', async () => {
  expect((await settle({ ownWoods: [bogOak] })).status).toBe(200);
  const taken = await yard.send('POST', '/v1/boards', { boards: [board('A', { species: 'moor oak' })] });
  expect(taken.json.faults).toEqual([]);
  const listed = await yard.send('GET', '/v1/boards?species=bog%20oak');
  expect(listed.json.items).toMatchObject([{ tag: 'A', species: 'bog-oak' }]);
  const feed = (await yard.send('POST', '/v1/feeds', { label: 'Stock sheet', list: 'stock' })).json;
  const csv = await yard.send('GET', new URL(feed.secret).pathname);
  expect(csv.text.split('\r\n')[1]).toContain('A,Bog oak,');
  const { species } = (await yard.send('GET', '/v1/species')).json;
  const own = species.find((wood: { key: string }) => wood.key === 'bog-oak');
  expect(own).toMatchObject({ ...bogOak, figuresFrom: 'own', shrinkVolumetricPercent: null });
  expect(own.sources.map((source: { words: string }) => source.words)).toContain('your own figure');
});

test('moves and weighs by its own figures, with the formulas of every other wood', async () => {
  await settle({ ownWoods: [bogOak] });
  const moved = await yard.send('POST', '/v1/wood/shrinkage', {
    species: 'bog oak',
    grain: 'flat',
    nowNm: '10 in',
    fromPercent: 30,
    toPercent: 0,
  });
  // 12 % from green to oven-dry, by definition of the figure.
  expect(moved.json.laterNm).toBe(Math.round(8.8 * 25_400_000));
  expect(moved.json.sources[0]).toMatchObject({ flag: 'own', document: null });
  const weighed = await yard.send('POST', '/v1/wood/weight', {
    pieces: [{ species: 'bog oak', moisturePercent: 30, lengthNm: '1 m', widthNm: '1 m', thicknessNm: '100 mm' }],
  });
  // FPL-GTR-282 eq. 4-14: 0.55 × 1000 × 1.30 × 0.1 m³.
  expect(weighed.json.pieces[0].pieceKg).toBeCloseTo(71.5, 6);
});

test('the takeoff counts its stock, and sizes blanks for its movement', async () => {
  const plain = await yard.send('POST', '/v1/takeoff', { parts: [part('bog oak')] });
  expect(plain.json.faults[0].help).toMatch(/not a wood in the list/);
  await settle({ ownWoods: [bogOak] });
  await yard.send('POST', '/v1/boards', {
    boards: [board('A', { species: 'bog oak', thicknessNm: '1 in', widthNm: '12 in' })],
  });
  const own = (await yard.send('POST', '/v1/takeoff', { parts: [part('moor oak')] })).json;
  expect(own.groups).toMatchObject([{ species: 'bog-oak' }]);
  const oak = (await yard.send('POST', '/v1/takeoff', { parts: [part('white oak')] })).json;
  expect(own.rows[0].weightKg).toBeGreaterThan(0);
  expect(own.rows[0].weightKg).not.toBe(oak.rows[0].weightKg);
});

test('stands in place of a wood of the table that has its name', async () => {
  await settle({ ownWoods: [{ ...bogOak, name: 'White Oak', alsoCalled: [] }] });
  const { species } = (await yard.send('GET', '/v1/species')).json;
  const whites = species.filter((wood: { key: string }) => wood.key === 'white-oak');
  expect(whites).toMatchObject([{ figuresFrom: 'own', shrinkTangentialPercent: 12 }]);
});

test.each([
  ['shrinkTangentialPercent', { shrinkTangentialPercent: 60 }, /from 0.5 to 25/],
  ['shrinkRadialPercent', { shrinkRadialPercent: 13 }, /swap the two/],
  ['specificGravityGreen', { specificGravityGreen: 7 }, /from 0.1 to 1.3/],
  ['name', { name: '木' }, /Latin letters/],
])('%s that no wood has is refused with the reason', async (field, over, help) => {
  const answer = await settle({ ownWoods: [{ ...bogOak, ...over }] });
  expect(answer.status).toBe(422);
  expect(answer.json.faults[0]).toMatchObject({ pointer: `/ownWoods/0/${field}` });
  expect(answer.json.faults[0].help).toMatch(help);
});

test('two woods of one name, and two airs of one place, are refused', async () => {
  const woods = await settle({ ownWoods: [bogOak, { ...bogOak, name: 'bog  oak' }] });
  expect(woods.json.faults[0].help).toBe('“bog  oak” stands twice');
  const air = { place: 'shed', relativeHumidityPercent: 60, temperatureC: 12 };
  const airs = await settle({ stackAirs: [air, { ...air, place: 'Shed' }] });
  expect(airs.json.faults[0]).toMatchObject({ pointer: '/stackAirs/1/place', help: 'this place stands twice' });
});

test('a wood without published figures can be kept, and what needs a figure says that there is none', async () => {
  const taken = await yard.send('POST', '/v1/boards', { boards: [board('H', { species: 'Carpinus betulus' })] });
  expect(taken.json.taken).toHaveLength(1);
  const moved = await yard.send('POST', '/v1/wood/movement', { species: 'hornbeam', madePercent: 8, widthNm: '10 in' });
  expect(moved.status).toBe(422);
  expect(moved.json.faults[0].help).toMatch(/^no published figure was found for hornbeam \(Carpinus betulus\)/);
  const { withoutFigures } = (await yard.send('GET', '/v1/species')).json;
  expect(withoutFigures.map((wood: { key: string }) => wood.key)).toContain('hornbeam');
});
