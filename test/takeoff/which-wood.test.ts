import { expect, test } from 'vitest';
import { groupLots, type Lot } from '../../worker/takeoff/group.ts';
import { type Wood, woodReader } from '../../worker/takeoff/which-wood.ts';
import { inch, shopSettings } from './shop-cases.ts';

const woodOf = woodReader(shopSettings());

test('one wood has one key, however it is written', () => {
  for (const written of ['white-oak', 'White oak', 'WHITE OAK', ' white oak '])
    expect(woodOf(written)).toMatchObject({ key: 'white-oak', name: 'white oak', help: '' });
});

test('a wood with a name and no published figures is known, and says that its figures are missing', () => {
  const wenge = woodOf('Wenge');
  expect(wenge).toMatchObject({ key: 'wenge', species: null });
  expect(wenge.help).not.toBe('');
});

test('a wood that no list knows keeps its name and matches only itself, spaces and capitals aside', () => {
  expect(woodOf(' Moonwood ')).toMatchObject({ key: 'moonwood', name: 'Moonwood', species: null });
  expect(woodOf('moonwood').key).toBe(woodOf('MOONWOOD').key);
});

test('a name is looked up once, however many boards bear it', () => {
  expect(woodOf('white oak')).toBe(woodOf('white oak'));
});

test('the list of what to buy goes by name of the wood, then thin before thick', () => {
  const wood = (name: string): Wood => ({ key: name, name, species: null, help: '' });
  const lot = (call: string, roughIn: number): Lot => ({
    finished: { lengthNm: inch(20), widthNm: inch(4), thicknessNm: inch(0.75) },
    rough: { lengthNm: inch(21), widthNm: inch(4.25), thicknessNm: inch(roughIn) },
    grain: 'unknown',
    quality: 1,
    tier: 2,
    count: 1,
    call: { call, roughNm: inch(roughIn), beyondCalls: false },
    limitPercent: 12,
    takesUnread: true,
    netM3: 1,
    roughM3: 1,
    grossM3: 1,
    dryWidthNm: inch(4.25),
  });
  const groups = groupLots([
    { wood: wood('walnut'), lots: [lot('8/4', 2), lot('4/4', 1)] },
    { wood: wood('ash'), lots: [lot('6/4', 1.5)] },
    { wood: wood('cherry'), lots: [lot('4/4', 1)] },
    { wood: wood('walnut'), lots: [lot('4/4', 1)] },
  ]);
  expect(groups.map((group) => `${group.wood.name} ${group.call.call} × ${group.lots.length}`)).toEqual([
    'ash 6/4 × 1',
    'cherry 4/4 × 1',
    'walnut 4/4 × 2',
    'walnut 8/4 × 1',
  ]);
});
