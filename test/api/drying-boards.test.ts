/** The forecast of boards as they stand in the yard, by the air that the shop keeps of its stacks, drawn. */
import { beforeEach, describe, expect, test } from 'vitest';
import { answers } from '../../worker/contract/wire.ts';
import { relativeHumidityForEmc } from '../../worker/wood/moisture.ts';
import { board, type Client, openShop } from './shop.ts';

let yard: Client;
const ids = new Map<string, string>();
const read = (on: string, moisturePercent: number) => ({ on, moisturePercent, meter: 'pin' });

beforeEach(async () => {
  yard = await openShop().foundYard('Juniper Bend');
  const sevenPercent = relativeHumidityForEmc(7, { temperatureC: 20 });
  const humidity = sevenPercent.ok ? sevenPercent.value : Number.NaN;
  const { settings } = (await yard.send('GET', '/v1/yard')).json;
  const stackAirs = [
    { place: '', relativeHumidityPercent: 70, temperatureC: 15 },
    { place: 'barn', relativeHumidityPercent: 55, temperatureC: 15 },
    { place: 'kiln room', relativeHumidityPercent: humidity, temperatureC: 20 },
  ];
  await yard.send('PUT', '/v1/yard/settings', { ...settings, stackAirs });
  const taken = await yard.send('POST', '/v1/boards', {
    boards: [
      board('K1', { place: 'Kiln room 2', readings: [read('2026-10-01', 13.5), read('2026-10-22', 10)] }),
      board('K2', { place: 'Kiln room 2', readings: [read('2026-10-01', 14.5), read('2026-10-22', 11)] }),
      board('S1', { place: 'shed', readings: [read('2026-10-01', 18)] }),
      board('B1', { place: 'barn', readings: [read('2026-11-20', 18)] }),
      board('W1', { place: 'Kiln room 2', species: 'walnut', readings: [] }),
    ],
  });
  for (const { tag, id } of taken.json.taken) ids.set(tag, id);
});

const ask = (...tags: string[]) =>
  yard.send('POST', '/v1/drying/boards', { boardIds: tags.map((tag) => ids.get(tag)) });

test('several boards of a stack dry by the mean of each day, τ as the worked value of two readings has it', async () => {
  const answer = await ask('K1', 'K2');
  expect(answers.boardsDrying.safeParse(answer.json).error).toBeUndefined();
  expect(answer.json.readings).toEqual([
    { on: '2026-10-01', moisturePercent: 14, boards: 2 },
    { on: '2026-10-22', moisturePercent: 10.5, boards: 2 },
  ]);
  expect(answer.json.emcPercent).toBeCloseTo(7, 1);
  // Handbook check value 72: 14 to 10.5 % in 21 days, E = 7, to 8 %: 37.95 days more (model from memory).
  expect(answer.json.forecast).toMatchObject({ kind: 'range', basis: 'readings', likelyOn: '2026-11-29' });
  // Dry enough for seen parts already, 12 % (common practice, no source).
  expect(answer.json.ready).toMatchObject({ percent: 12, forecast: { kind: 'ready', on: '2026-10-22' } });
});

test('the plot holds its readings, its curve within its range, its levels by name, and the same in words', async () => {
  const { drawing, words } = (await ask('K1')).json;
  const count = (role: string) => drawing.shapes.filter((shape: { role: string }) => shape.role === role).length;
  expect(count('reading')).toBe(2);
  expect(count('curve')).toBe(1);
  expect(count('band')).toBe(1);
  const texts = drawing.shapes.flatMap((shape: { text?: string }) => shape.text ?? []);
  expect(texts).toContain('target 8.0 %');
  expect(texts).toContain('air brings it to 7.0 %');
  expect(drawing.description).toBe(`10.0 % on 22 Oct 2026. ${words}`);
  for (const shape of drawing.shapes) {
    const numbers = (shape.d ?? `${shape.x ?? shape.x1} ${shape.y ?? shape.y1}`).match(/-?\d+(?:\.\d+)?/g).map(Number);
    for (const number of numbers) expect(number).toBeLessThanOrEqual(100);
  }
});

test('in air too damp for the target it never gets there, and says what would do', async () => {
  const answer = await ask('S1');
  expect(answer.json.forecast).toMatchObject({ kind: 'never' });
  expect(answer.json.words).toMatch(/heated room under \d+ % relative humidity/);
});

test('where only what seen parts ask for is reached, the way there is drawn, and the words count the readings', async () => {
  // 55 % at 15 °C brings wood to 10.2 % (Wood Handbook eq. 4-5): above the furniture's 8 %, under the 12 % of seen parts.
  const { forecast, ready, drawing } = (await ask('B1')).json;
  expect([forecast.kind, ready.forecast.kind, ready.forecast.basis]).toEqual(['never', 'range', 'species-table']);
  expect(ready.forecast.note).toMatch(/^one reading does not tell how fast it dries: a wide range/);
  const roles = drawing.shapes.map((shape: { role: string }) => shape.role);
  expect([roles.includes('curve'), roles.includes('band')]).toEqual([true, true]);
  const texts = drawing.shapes.flatMap((shape: { text?: string }) => shape.text ?? []);
  expect(texts).toContain('target 12.0 %');
  expect(drawing.description).toBe(`18.0 % on 20 Nov 2026. ${ready.words}`);
});

test('what is ready by a day takes the airs that the shop keeps', async () => {
  const answer = await yard.send('POST', '/v1/drying/ready', { by: '2026-12-15', targetPercent: 8 });
  const stands = Object.fromEntries(
    answer.json.boards.map((row: { tag: string; stands: string }) => [row.tag, row.stands]),
  );
  expect(stands).toEqual({ K1: 'surely', K2: 'likely', S1: 'never', B1: 'never', W1: 'unknown' });
});

describe('is refused with the reason', () => {
  test.each([
    [['K1', 'W1'], 422, /boards of one species/],
    [['K1', 'S1'], 422, /several places/],
  ])('%s', async (tags, status, help) => {
    const answer = await ask(...tags);
    expect(answer.status).toBe(status);
    expect(answer.json.faults[0].help).toMatch(help);
  });

  test('a board that is not there', async () => {
    const answer = await yard.send('POST', '/v1/drying/boards', { boardIds: ['bd_00000000'] });
    expect(answer.status).toBe(404);
  });
});
