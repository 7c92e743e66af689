/** A plan that tells how far it is, line by line, and the best so far taken when somebody stops it. */
import { beforeAll, describe, expect, test } from 'vitest';
import { alternativesAnswer, planProgress } from '../../worker/contract/plan.ts';
import { board, type Client, openShop } from './shop.ts';

const rail = {
  key: 'rail',
  label: 'Rail',
  quantity: 7,
  species: 'white oak',
  lengthNm: '37 in',
  widthNm: '2 1/2 in',
  thicknessNm: '1 3/8 in',
};
const panel = {
  ...rail,
  key: 'panel',
  label: 'Panel',
  quantity: 5,
  lengthNm: '22 in',
  widthNm: '5 1/4 in',
  matchGroup: 'A',
};

let yard: Client;
let path: string;
const lines = { accept: 'application/x-ndjson' };
const parsed = (text: string) =>
  text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));

beforeAll(async () => {
  yard = await openShop().foundYard('Oak');
  const boards = ['P-1', 'P-2', 'P-3', 'P-4', 'P-5'].map((tag, at) => board(tag, { lengthNm: `${70 + 9 * at} in` }));
  await yard.send('POST', '/v1/boards', { boards });
  const job = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json;
  await yard.send('PUT', `/v1/jobs/${job.id}/cut-list`, { parts: [rail, panel] });
  path = `/v1/jobs/${job.id}`;
});

describe('a plan in lines', () => {
  test('gets no worse, its share only grows, and its end is the plan that a plain request gets', async () => {
    const answer = await yard.send('POST', `${path}/plans`, { effort: 'quick' }, lines);
    expect(answer.headers.get('content-type')).toBe('application/x-ndjson');
    const all = parsed(answer.text);
    const told = all.slice(0, -1).map((line) => planProgress.parse(line.progress));
    expect(told.length).toBeGreaterThan(2);
    for (const [at, now] of told.entries()) {
      const before = told[at - 1];
      if (!before) continue;
      expect(now.share).toBeGreaterThan(before.share);
      expect(now.placedCount).toBeGreaterThanOrEqual(before.placedCount);
      expect(now.stockBoundM3).toBeLessThanOrEqual(now.stockUsedM3 + 1e-12);
    }
    // The draft in hand would be where the next search starts from.
    await yard.send('POST', `/v1/plans/${all.at(-1).answer.id}/drop`, {});
    const plain = (await yard.send('POST', `${path}/plans`, { effort: 'quick' })).json;
    expect(all.at(-1).answer.layouts).toEqual(plain.layouts);
    expect(all.at(-1).answer.gapPercent).toBe(plain.gapPercent);
  });

  test('stopped, its best so far is taken: checked, kept, and said to be so', async () => {
    const told = parsed((await yard.send('POST', `${path}/plans`, { effort: 'quick' }, lines)).text);
    const { best, placedCount, stockUsedM3 } = told[0].progress;
    const kept = await yard.send('POST', `${path}/plans`, { effort: 'quick', taken: best });
    expect(kept.status).toBe(201);
    expect([kept.json.placedCount, kept.json.stockUsedM3]).toEqual([placedCount, stockUsedM3]);
    expect(kept.json.notes).toContain('The search was stopped; this is the best it had found by then.');
    expect((await yard.send('POST', `/v1/plans/${kept.json.id}/reserve`, {})).status).toBe(201);
    expect((await yard.send('POST', `/v1/plans/${kept.json.id}/drop`, {})).status).toBe(201);
  });

  test('what is sent back is not believed: a piece beyond the end, too many, a board that is not there', async () => {
    const told = parsed((await yard.send('POST', `${path}/plans`, { effort: 'quick' }, lines)).text);
    const [first, ...others] = told.at(-2).progress.best;
    const [piece, ...rest] = first.pieces;
    const tries = [
      [{ ...first, pieces: [piece, piece, ...rest] }, ...others],
      [{ ...first, pieces: [{ ...piece, from: 100_000 }, ...rest] }, ...others],
      [first, first, ...others],
      [{ ...first, boardId: 'bd_nowhere0' }, ...others],
      [{ ...first, pieces: [{ ...piece, partKey: 'no such' }] }],
    ];
    for (const taken of tries) {
      const answer = await yard.send('POST', `${path}/plans`, { effort: 'quick', taken });
      expect(answer.json).toMatchObject({ type: '/problems/boards-changed' });
    }
  });

  test('a refusal before anything was told has its own status', async () => {
    const answer = await yard.send('POST', '/v1/jobs/jb_nowhere0/plans', {}, lines);
    expect([answer.status, answer.json.type]).toEqual([404, '/problems/not-found']);
  });
});

test('plans side by side are answered and none is kept', async () => {
  const before = (await yard.send('GET', `${path}/plans`)).json.items.length;
  const answer = await yard.send('POST', `${path}/alternatives`, {});
  expect(answer.status).toBe(200);
  const { alternatives } = alternativesAnswer.parse(answer.json);
  expect((await yard.send('GET', `${path}/plans`)).json.items).toHaveLength(before);
  const [one] = alternatives;
  if (!one) throw new Error('no plan');
  const { aim, effort, seed } = one;
  const taken = (await yard.send('POST', `${path}/plans`, { aim, effort, seed })).json;
  expect([taken.aim, taken.cutCount, taken.placedCount]).toEqual([one.aim, one.cutCount, one.placedCount]);
});
