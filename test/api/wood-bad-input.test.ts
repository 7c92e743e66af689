/** Wood that cannot be: each impossible figure is refused by the name of its field, with what would be right. */
import { beforeAll, describe, expect, test } from 'vitest';
import { type Client, openShop } from './shop.ts';

let shop: ReturnType<typeof openShop>;
let yard: Client;
beforeAll(async () => {
  shop = openShop();
  yard = await shop.foundYard('Juniper Bend');
});

const board = { lengthNm: '96 in', widthNm: '6 in', thicknessNm: '1 in' };
const air = { temperatureF: 70, relativeHumidityPercent: 40 };
const piece = { ...board, species: 'white oak', moisturePercent: 8 };
const cut = { species: 'white oak', nowNm: '8 in', fromPercent: 12, toPercent: 8 };
const top = { species: 'white oak', madePercent: 8, widthNm: '20 in' };
const dry = { species: 'white oak', thicknessNm: '1 in', air, stackedOn: '2026-03-01', targetPercent: 9 };
const glued = { species: 'maple, hard', ...board, staves: 4 };

describe.each([
  [
    'volume',
    [
      [{ boards: [{ ...board, widthNm: -8 }] }, '/boards/0/widthNm', /more than zero/],
      [{ boards: [{ ...board, lengthNm: '-8 in' }] }, '/boards/0/lengthNm', /minus sign/],
      [{ boards: [board, { ...board, thicknessNm: 0 }] }, '/boards/1/thicknessNm', /more than zero/],
      [{ boards: [{ ...board, thicknessCall: 'thick' }] }, '/boards/0/thicknessCall', /8\/4/],
      [{ boards: [{ ...board, count: 0 }] }, '/boards/0/count', /at least one/],
      [{ boards: [{ ...board, lengthNm: `400'` }] }, '/boards/0/lengthNm', /more than 98 ft/],
      [{}, '/boards', /no boards/],
      [
        { softwood: [{ nominalThicknessInch: 2, nominalWidthInch: 7, lengthNm: `8'` }] },
        '/softwood/0/nominalWidthInch',
        /nominal size/,
      ],
      [
        { softwood: [{ nominalThicknessInch: -2, nominalWidthInch: 4, lengthNm: `8'` }] },
        '/softwood/0/nominalThicknessInch',
        /nominal size/,
      ],
      [{ boards: [board], colour: 'brown' }, '/colour', /no such field/],
    ],
  ],
  [
    'delivery',
    [
      [
        { boards: [{ lengthNm: `8'`, widthNm: '6 in', thicknessCall: '9' }], statedBf: 10 },
        '/boards/0/thicknessCall',
        /4\/4/,
      ],
      [
        { boards: [{ lengthNm: `8'`, widthNm: '6 in', thicknessCall: '4/4' }], statedBf: -1 },
        '/statedBf',
        /zero or more/,
      ],
      [{ boards: [], statedBf: 1 }, '/boards', /no boards/],
    ],
  ],
  [
    'weight',
    [
      [{ pieces: [{ ...piece, moisturePercent: 400 }] }, '/pieces/0/moisturePercent', /250 %/],
      [{ pieces: [{ ...piece, moisturePercent: -1 }] }, '/pieces/0/moisturePercent', /zero or more/],
      [{ pieces: [{ ...piece, species: 'wlanut' }] }, '/pieces/0/species', /walnut/],
      [{ pieces: [piece], payloadKg: 0 }, '/payloadKg', /more than zero/],
    ],
  ],
  [
    'emc',
    [
      [{ ...air, relativeHumidityPercent: 120 }, '/relativeHumidityPercent', /0 to 100/],
      [{ ...air, relativeHumidityPercent: -5 }, '/relativeHumidityPercent', /0 to 100/],
      [{ ...air, temperatureF: 500 }, '/temperatureF', /212/],
      [{ ...air, temperatureC: 20 }, '/temperatureC', /one of the two/],
      [{ temperatureF: 200, emcPercent: 30 }, '/emcPercent', /air can only hold/],
      [{ ...air, emcPercent: 8 }, '/relativeHumidityPercent', /emcPercent to learn/],
      [{ relativeHumidityPercent: '40', temperatureF: 70 }, '/relativeHumidityPercent', /number/],
    ],
  ],
  [
    'moisture',
    [
      [{ wetKg: 10, ovenDryKg: 20 }, '/wetKg', /no less/],
      [{ wetKg: 10 }, '/ovenDryKg', /together/],
      [{ wetBasisPercent: 100 }, '/wetBasisPercent', /under 100/],
      [{ sample: { weighedKg: 1.5, moisturePercent: 25, nowKg: 1 } }, '/sample/nowKg', /oven-dry/],
      [{ wetKg: -1, ovenDryKg: -2 }, '/wetKg', /more than zero/],
      [{}, '/wetKg', /send/],
    ],
  ],
  [
    'meter',
    [
      [{ readingPercent: 120 }, '/readingPercent', /0 to 100/],
      [{ readingPercent: 12, woodTemperatureC: 200 }, '/woodTemperatureC', /−40 to 100/],
      [{ readingPercent: 12, woodTemperatureC: 20, woodTemperatureF: 70 }, '/woodTemperatureC', /not both/],
      [{ readingPercent: 12, fit: { a: 0, b: 0 } }, '/fit/a', /0.1 to 10/],
    ],
  ],
  [
    'shrinkage',
    [
      [{ ...cut, fromPercent: 400 }, '/fromPercent', /250 %/],
      [{ ...cut, toPercent: -3 }, '/toPercent', /zero or more/],
      [{ ...cut, nowNm: '0 in' }, '/nowNm', /more than zero/],
      [{ ...cut, laterNm: '8 in' }, '/nowNm', /send nowNm/],
      [{ ...cut, ringDegrees: 120 }, '/ringDegrees', /90/],
      [{ ...cut, species: 'oak' }, '/species', /several woods/],
    ],
  ],
  [
    'movement',
    [
      [{ ...top, lowPercent: 12, highPercent: 6 }, '/lowPercent', /not above/],
      [{ ...top, lowPercent: 6 }, '/lowPercent', /together/],
      [{ ...top, madePercent: 400 }, '/madePercent', /below 30/],
      [{ ...top, monthAirs: [air] }, '/monthAirs', /twelve months/],
      [
        {
          ...top,
          monthAirs: Array.from({ length: 12 }, () => ({ ...air, relativeHumidityPercent: 120 })).slice(0, 12),
        },
        '/monthAirs/0/relativeHumidityPercent',
        /0 to 100/,
      ],
      [{ ...top, drawerOpeningNm: '1/64 in' }, '/drawerOpeningNm', /too low/],
      [{ species: 'white oak', madePercent: 8 }, '/widthNm', /send widthNm/],
    ],
  ],
  [
    'drying',
    [
      [{ ...dry, air: { ...air, relativeHumidityPercent: 120 } }, '/air/relativeHumidityPercent', /0 to 100/],
      [{ ...dry, targetPercent: 60 }, '/targetPercent', /2 to 30/],
      [{ ...dry, readings: [{ moisturePercent: 400, on: '2026-03-01' }] }, '/readings/0/moisturePercent', /250/],
      [{ ...dry, readings: [{ moisturePercent: 20, on: '2026-02-30' }] }, '/readings/0/on', /date/i],
      [{ ...dry, stackedOn: null }, '/stackedOn', /stacked/],
      [{ ...dry, species: 'teak' }, '/species', /no drying times/],
      [
        {
          ...dry,
          readings: [
            { moisturePercent: 14, on: '2026-01-01' },
            { moisturePercent: 18, on: '2026-02-01' },
          ],
        },
        '/readings',
        /do not fall/,
      ],
      [{ ...dry, thicknessNm: -1 }, '/thicknessNm', /more than zero/],
    ],
  ],
  [
    'warp',
    [
      [{ ...board, warp: { bowNm: -1 } }, '/warp/bowNm', /zero or more/],
      [{ ...board, pieces: [{ lengthNm: '120 in', widthNm: '4 in' }] }, '/pieces/0/lengthNm', /beyond the board/],
      [{ ...board, pieces: [{ lengthNm: '48 in', widthNm: '8 in' }] }, '/pieces/0/widthNm', /beyond the board/],
      [{ ...board, kink: { gapNm: '1/2 in', atNm: '96 in' } }, '/kink/atNm', /beyond the board/],
      [{ ...board, stations: { form: 'bow', places: [{ atNm: 0, gapNm: 0 }] } }, '/stations/places', /two places/],
      [{ ...board, drying: { nowPercent: 400, targetPercent: 8 } }, '/drying/nowPercent', /250/],
    ],
  ],
  [
    'grade',
    [
      [
        {
          lengthNm: `8'`,
          widthNm: '6 in',
          defects: [{ kind: 'rot', face: 'a', fromNm: `7'`, toNm: `9'`, leftNm: 0, rightNm: '1 in' }],
        },
        '/defects/0/toNm',
        /beyond the board/,
      ],
      [
        {
          lengthNm: `8'`,
          widthNm: '6 in',
          defects: [{ kind: 'rot', face: 'a', fromNm: 0, toNm: '9 in', leftNm: 0, rightNm: '7 in' }],
        },
        '/defects/0/rightNm',
        /beyond the board/,
      ],
      [{ lengthNm: `8'`, widthNm: '6 in', gradePaid: 'AAA' }, '/gradePaid', /FAS/],
      [{ lengthNm: `8'`, widthNm: '-6 in' }, '/widthNm', /minus sign/],
    ],
  ],
  [
    'glue-up',
    [
      [{ ...glued, staves: 1 }, '/staves', /two boards/],
      [{ ...glued, plyThicknessNmMax: '3/4 in' }, '/plyThicknessNmMax', /staves/],
      [{ ...glued, moisturePercents: [8, 400] }, '/moisturePercents/1', /250/],
      [{ ...glued, clampsAtHand: -3 }, '/clampsAtHand', /^clamps at hand: a whole number, from 1/],
      [{ ...glued, clampsAtHand: 2.5 }, '/clampsAtHand', /^clamps at hand: a whole number, from 1/],
      [{ ...glued, clampForceN: 0 }, '/clampForceN', /presses/],
      [{ ...glued, clampForceN: 1000, clampForceLbf: 300 }, '/clampForceN', /not both/],
      [{ ...glued, spreadGPerM2: -200 }, '/spreadGPerM2', /more than zero/],
      [{ ...glued, species: 'plastic' }, '/species', /not a wood/],
      [{ ...glued, staves: undefined, plyThicknessNmMax: 1000 }, '/plyThicknessNmMax', /0.5 mm/],
    ],
  ],
  ['allowances', [[{ finished: { ...board, lengthNm: 0 } }, '/finished/lengthNm', /more than zero/]]],
] as const)('%s', (what, rows) => {
  test.each(rows.map(([body, pointer, help]) => ({ body, pointer, help })))(
    '$pointer',
    async ({ body, pointer, help }) => {
      const answer = await yard.send('POST', `/v1/wood/${what}`, body);
      expect(answer.status, answer.text).toBe(422);
      expect(answer.headers.get('content-type')).toBe('application/problem+json');
      const fault = answer.json.faults.find((one: { pointer: string }) => one.pointer === pointer);
      expect(fault, answer.text).toBeDefined();
      expect(fault.help).toMatch(help);
    },
  );
});

test('a stranger with a forged key gets no figure, and no word of what is wrong with the body', async () => {
  const forged = shop.client(yard.yardId, yard.key.slice(0, -4) + (yard.key.endsWith('0000') ? '1111' : '0000'));
  const weighed = { pieces: [piece] };
  expect((await yard.send('POST', '/v1/wood/weight', weighed)).status).toBe(200);
  for (const [method, path, body] of [
    ['GET', '/v1/species', undefined],
    ['POST', '/v1/wood/weight', weighed],
    ['POST', '/v1/wood/weight', { pieces: [] }],
    ['POST', '/v1/drying/ready', { by: '2026-12-01' }],
  ] as const) {
    expect((await forged.send(method, path, body)).json.type).toBe('/problems/wrong-key');
  }
});

test('asking changes nothing: the journal stands where it stood', async () => {
  const before = (await yard.send('GET', '/v1/yard')).json.seq;
  await yard.send('POST', '/v1/wood/emc', air);
  await yard.send('POST', '/v1/drying/ready', { by: '2026-12-01', otherAir: air });
  expect((await yard.send('GET', '/v1/yard')).json.seq).toBe(before);
});
