/** The draft in front is never bettered by a worse plan: asked for again, after boards came in, after the list grew. */
import { beforeEach, expect, test } from 'vitest';
import type { Plan } from '../../worker/contract/plan.ts';
import { board, type Client, openShop } from './shop.ts';

const KEPT = 'Nothing better was found: this is the plan that you had.';

const rail = {
  key: 'rail',
  label: 'Rail',
  quantity: 4,
  species: 'white oak',
  lengthNm: '37 in',
  widthNm: '2 1/2 in',
  thicknessNm: '1 3/8 in',
};
const panel = { ...rail, key: 'panel', label: 'Panel', quantity: 3, lengthNm: '22 in', widthNm: '5 1/4 in' };

let yard: Client;
let jobId: string;

beforeEach(async () => {
  yard = await openShop().foundYard('Oak');
  await yard.send('POST', '/v1/boards', {
    boards: ['P-1', 'P-2', 'P-3'].map((tag, at) => board(tag, { lengthNm: `${70 + 9 * at} in` })),
  });
  jobId = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json.id;
  await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts: [rail, panel] });
});

async function planned(body: unknown = { effort: 'quick' }): Promise<Plan> {
  const answer = await yard.send('POST', `/v1/jobs/${jobId}/plans`, body);
  expect(answer.status).toBe(201);
  return answer.json;
}
const placesOf = ({ layouts }: Plan) =>
  layouts.map(({ tag, pieces, cuts }) => [tag, pieces, cuts.map(({ words }) => words)]);

/** Asked for again and again until nothing more is found. */
async function settled(): Promise<Plan> {
  let now = await planned();
  for (let turn = 0; turn < 5 && !now.changes.includes(KEPT); turn++) now = await planned();
  expect(now.changes).toContain(KEPT);
  return now;
}

test('again, and with boards that do not help: the same plan under a new number, and it says so', async () => {
  const before = await settled();
  await yard.send('POST', '/v1/boards', { boards: [board('Long', { lengthNm: '200 in', widthNm: '12 in' })] });
  const now = await planned({ effort: 'quick', seed: 3 });
  expect(now.changes[0]).toBe(KEPT);
  expect(placesOf(now)).toEqual(placesOf(before));
  expect(now.id).not.toBe(before.id);
  expect((await yard.send('GET', `/v1/plans/${before.id}`)).json.state).toBe('dropped');
  expect((await yard.send('POST', `/v1/plans/${now.id}/reserve`, {})).status).toBe(201);
});

test('what another job holds by now is out of it', async () => {
  const before = await settled();
  const [first] = before.layouts;
  if (!first) throw new Error('no board');
  const otherId = (await yard.send('POST', '/v1/jobs', { name: 'Desk' })).json.id;
  const held = await yard.send('POST', '/v1/reservations', { jobId: otherId, boards: [{ boardId: first.boardId }] });
  expect(held.status).toBe(201);
  const now = await planned();
  expect(now.layouts.map(({ boardId }) => boardId)).not.toContain(first.boardId);
  expect(now.changes).not.toContain(KEPT);
});

test('a longer list: as much of it as before is placed, and more', async () => {
  const before = await settled();
  const slat = { ...rail, key: 'slat', label: 'Slat', quantity: 1, lengthNm: '14 in' };
  await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts: [rail, panel, slat] });
  const now = await planned();
  expect(now.placedCount).toBe(before.placedCount + 1);
});

test('a draft for another aim is another plan', async () => {
  const first = await planned({ effort: 'quick', aim: 'fewest-cuts' });
  const now = await planned();
  expect(now.changes).not.toContain(KEPT);
  expect([first.aim, now.aim]).toEqual(['fewest-cuts', 'least-cost']);
});

test('plans side by side start from the draft too, so taking one gives that very plan', async () => {
  await settled();
  const { alternatives } = (await yard.send('POST', `/v1/jobs/${jobId}/alternatives`, {})).json;
  const [one] = alternatives;
  const taken = await planned({ aim: one.aim, effort: one.effort, seed: one.seed });
  const { cutCount, settingCount, stockUsedM3, layouts } = taken;
  expect([cutCount, settingCount, stockUsedM3]).toEqual([one.cutCount, one.settingCount, one.stockUsedM3]);
  expect(layouts.map(({ tag }) => tag)).toEqual(one.tags);
});

test('a plan that is continued twice: the second draft is no worse than the first', async () => {
  const held = await settled();
  await yard.send('POST', `/v1/plans/${held.id}/reserve`, {});
  await yard.send('POST', '/v1/boards', { boards: [board('P-9', { lengthNm: '90 in' })] });
  await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, {
    parts: [
      { ...rail, quantity: 7 },
      { ...panel, quantity: 6 },
    ],
  });
  const first = await planned({ effort: 'quick', continues: held.id });
  const second = await planned({ effort: 'quick', continues: first.id, seed: 5 });
  expect(second.continues).toBe(held.id);
  expect(second.placedCount).toBeGreaterThanOrEqual(first.placedCount);
  if (second.placedCount === first.placedCount)
    expect(second.stockUsedM3).toBeLessThanOrEqual(first.stockUsedM3 + 1e-12);
  expect((await yard.send('POST', `/v1/plans/${second.id}/reserve`, {})).status).toBe(201);
});
