/** Planning again with the least change, over HTTP: a bad board, a failed part, new demand, a board at the saw. */
import { beforeEach, describe, expect, test } from 'vitest';
import type { Answer } from '../../worker/contract/wire.ts';
import { board, type Client, openShop } from './shop.ts';

type Plan = Answer<'readPlan'>;
const inch = 25_400_000;

const leg = {
  key: 'leg',
  label: 'Leg',
  quantity: 4,
  species: 'white oak',
  lengthNm: '29 in',
  widthNm: '3 1/4 in',
  thicknessNm: '1 3/8 in',
  use: 'critical',
};
const rail = {
  key: 'rail',
  label: 'Rail',
  quantity: 4,
  species: 'white oak',
  lengthNm: '50 in',
  widthNm: '3 1/2 in',
  thicknessNm: '1 3/8 in',
};
const slat = {
  key: 'slat',
  label: 'Slat',
  quantity: 3,
  species: 'white oak',
  lengthNm: '14 in',
  widthNm: '2 in',
  thicknessNm: '1 3/8 in',
  use: 'hidden',
  faces: 'hidden',
};

let yard: Client;
let jobId: string;
let otherId: string;
let plan: Plan;

const planBy = async (body: Record<string, unknown>) =>
  (await yard.send('POST', `/v1/jobs/${jobId}/plans`, { effort: 'quick', ...body })).json as Plan;
const hold = async (one: Plan, how = 'whole') => yard.send('POST', `/v1/plans/${one.id}/reserve`, { how });
const planNow = async (id: string) => (await yard.send('GET', `/v1/plans/${id}`)).json as Plan;
const heldNow = async () =>
  (await yard.send('GET', '/v1/reservations?limit=200')).json.items as Answer<'listReservations'>['items'];
const layoutOn = (one: Plan, boardId: string) => one.layouts.find((layout) => layout.boardId === boardId);
const namesOn = (one: Plan) =>
  one.layouts.flatMap((l) => l.pieces.map((p) => `${p.label} ${p.no}/${p.attempt}`)).sort();

async function spoil(boardId: string, at: { fromNm: number; toNm: number }) {
  const now = (await yard.send('GET', `/v1/boards/${boardId}`)).json;
  const defects = [{ kind: 'split', face: 'through', ...at, leftNm: 0, rightNm: now.widthNm }];
  const answer = await yard.send('PATCH', `/v1/boards/${boardId}`, { defects }, { 'if-match': `"s${now.version}"` });
  expect(answer.status).toBe(200);
}

/** No two holds of a board overlap, and the other job holds what it held. */
async function expectHoldsSound() {
  const held = await heldNow();
  for (const a of held)
    for (const b of held)
      if (a.id !== b.id && a.boardId === b.boardId) expect(a.toNm <= b.fromNm || b.toNm <= a.fromNm).toBe(true);
  expect(held.filter((one) => one.jobId === otherId)).toMatchObject([{ tag: 'W-9', fromNm: 0 }]);
}

beforeEach(async () => {
  yard = await openShop().foundYard('Oak');
  const boards = [
    board('W-1'),
    board('W-2', { lengthNm: '78 in', widthNm: '7 1/2 in' }),
    board('W-3', { lengthNm: '66 in', widthNm: '9 in' }),
    board('W-4', { lengthNm: '90 in', widthNm: '5 in' }),
    board('W-5', { lengthNm: '58 in', widthNm: '4 1/2 in' }),
    board('W-9', { lengthNm: '120 in', widthNm: '10 in' }),
  ];
  expect((await yard.send('POST', '/v1/boards', { boards })).json.faults).toEqual([]);
  jobId = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json.id;
  otherId = (await yard.send('POST', '/v1/jobs', { name: 'Bench' })).json.id;
  await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts: [leg, rail] });
  expect((await yard.send('POST', '/v1/reservations', { jobId: otherId, boards: [{ tag: 'W-9' }] })).status).toBe(201);
  plan = await planBy({});
  expect(plan.unplaced).toEqual([]);
  expect(plan.layouts.length).toBeGreaterThan(1);
  expect((await hold(plan)).status).toBe(201);
});

describe('a board found bad after it was held', () => {
  test('only that board is planned anew; the others stay to the cut, and so do holds of others', async () => {
    const bad = plan.layouts.find((layout) => layout.pieces.some((piece) => piece.partKey === 'rail'));
    const piece = bad?.pieces.find((one) => one.partKey === 'rail');
    if (!bad || !piece) throw new Error('no rail planned');
    await spoil(bad.boardId, { fromNm: piece.fromNm + 8 * inch, toNm: piece.toNm - 8 * inch });
    const again = await planBy({ continues: plan.id });
    expect(again.continues).toBe(plan.id);
    const others = plan.layouts.filter((layout) => layout !== bad);
    for (const layout of others) {
      const now = layoutOn(again, layout.boardId);
      const touched = again.changes.some((change) => change.startsWith(`${layout.tag}: as it was, and`));
      if (touched) expect(now?.pieces).toEqual(expect.arrayContaining(layout.pieces));
      else expect(now).toEqual(layout);
    }
    expect(again.changes.join(' ')).toMatch(
      new RegExp(`${bad.tag} is (cut otherwise|out)[:\\s(]+(bad wood was found|Rail \\d: .* longest clear run)`),
    );
    expect(namesOn(again)).toEqual(namesOn(plan));
    const blocked = again.layouts.filter((layout) => layout.boardId === bad.boardId).flatMap((layout) => layout.pieces);
    for (const one of blocked)
      expect(one.toNm <= piece.fromNm + 8 * inch || one.fromNm >= piece.toNm - 8 * inch).toBe(true);

    expect((await hold(again)).status).toBe(201);
    expect((await planNow(plan.id)).state).toBe('dropped');
    const mine = (await heldNow()).filter((one) => one.jobId === jobId);
    expect(mine.map((one) => one.boardId).sort()).toEqual(again.layouts.map((layout) => layout.boardId).sort());
    expect(new Set(mine.map((one) => one.planId))).toEqual(new Set([again.id]));
    await expectHoldsSound();
  });
});

describe('after the saw', () => {
  async function sawFirst(spoiledCount: number) {
    const [first] = plan.layouts;
    if (!first) throw new Error('no board');
    const session = (await yard.send('POST', `/v1/plans/${plan.id}/sessions`, { boardIds: [first.boardId] })).json;
    const keys = [...new Set(first.pieces.map((piece) => piece.partKey))];
    const parts = keys.map((partKey, at) => {
      const count = first.pieces.filter((piece) => piece.partKey === partKey).length;
      const failed = at === 0 ? spoiledCount : 0;
      return { partKey, good: count - failed, failed, why: failed > 0 ? 'split' : '' };
    });
    const done = await yard.send('POST', `/v1/sessions/${session.id}/reconcile`, {
      boards: [{ as: 'cut', boardId: first.boardId, parts, offcuts: [] }],
    });
    expect(done.status).toBe(201);
    return first;
  }

  test('a failed part is made again and what waits uncut stays', async () => {
    const first = await sawFirst(1);
    const again = await planBy({ continues: plan.id });
    expect(again.unplaced).toEqual([]);
    for (const layout of plan.layouts.filter((one) => one.boardId !== first.boardId)) {
      const now = layoutOn(again, layout.boardId);
      expect(now?.pieces).toEqual(expect.arrayContaining(layout.pieces));
    }
    expect(again.layouts.flatMap((layout) => layout.pieces).filter((piece) => piece.attempt === 2)).toHaveLength(1);
    expect(again.layouts.every((layout) => layout.boardId !== first.boardId)).toBe(true);
    expect((await hold(again)).status).toBe(201);
    expect((await planNow(plan.id)).state).toBe('done');
    await expectHoldsSound();
    const session = await yard.send('POST', `/v1/plans/${again.id}/sessions`, {});
    expect(session.status).toBe(201);
    const all = await yard.send('POST', `/v1/sessions/${session.json.id}/reconcile`, { restAsPlanned: true });
    expect(all.json.session.state).toBe('closed');
    expect((await yard.send('GET', `/v1/jobs/${jobId}`)).json.standing.pieces).toEqual({ roughed: 8, failed: 1 });
  });

  test('nothing failed, nothing new: nothing to plan', async () => {
    await sawFirst(0);
    const answer = await yard.send('POST', `/v1/jobs/${jobId}/plans`, { continues: plan.id });
    expect(answer.json).toMatchObject({ type: '/problems/nothing-to-cut' });
    expect(answer.json.detail).toContain('keeps its place');
  });
});

test('new rows of the list come from what the boards would have left over', async () => {
  await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts: [leg, rail, { ...slat, quantity: 1 }] });
  const again = await planBy({ continues: plan.id });
  expect(again.unplaced).toEqual([]);
  expect(again.changes.join(' ')).toMatch(/as it was, and from what it would have left over Slat 1/);
  expect(again.layouts.map((layout) => layout.boardId).sort()).toEqual(plan.layouts.map((l) => l.boardId).sort());
  expect(again.layouts.flatMap((l) => l.cuts).every((cut) => cut.words.length > 10)).toBe(true);
  expect((await hold(again)).status).toBe(201);
  await expectHoldsSound();
});

test('a draft that continues a plan is itself continued as that plan would be', async () => {
  await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts: [leg, rail, slat] });
  const first = await planBy({ continues: plan.id });
  const second = await planBy({ continues: first.id });
  expect(second.continues).toBe(plan.id);
  expect(namesOn(second)).toEqual(namesOn(first));
  expect((await hold(second)).status).toBe(201);
  expect((await planNow(plan.id)).state).toBe('dropped');
});

test('a board at the saw stays with its session', async () => {
  const [first] = plan.layouts;
  if (!first) throw new Error('no board');
  const session = (await yard.send('POST', `/v1/plans/${plan.id}/sessions`, { boardIds: [first.boardId] })).json;
  await yard.send('PUT', `/v1/jobs/${jobId}/cut-list`, { parts: [leg, rail, slat] });
  const again = await planBy({ continues: plan.id });
  expect(layoutOn(again, first.boardId)).toBeUndefined();
  expect(again.changes).toContain(`At the saw, left to its session: ${first.tag}.`);
  expect((await hold(again)).status).toBe(201);
  expect((await planNow(plan.id)).state).toBe('cutting');
  await expectHoldsSound();
  const done = await yard.send('POST', `/v1/sessions/${session.id}/reconcile`, { restAsPlanned: true });
  expect(done.json.session.state).toBe('closed');
  expect((await planNow(plan.id)).state).toBe('done');
  expect((await yard.send('GET', `/v1/jobs/${jobId}`)).json.standing.pieces).toEqual({
    roughed: first.pieces.length,
    planned: 11 - first.pieces.length,
  });
});

test('a plan of another job is not continued', async () => {
  await yard.send('PUT', `/v1/jobs/${otherId}/cut-list`, { parts: [slat] });
  const answer = await yard.send('POST', `/v1/jobs/${otherId}/plans`, { continues: plan.id });
  expect(answer.json).toMatchObject({ status: 404, detail: 'The plan to continue belongs to another job.' });
});
