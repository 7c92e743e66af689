/** Two jobs on one board: what one job holds of it stays its own while the other plans, holds and cuts the rest. */
import { describe, expect, test } from 'vitest';
import type { Answer } from '../../worker/contract/wire.ts';
import { board, openShop } from './shop.ts';

const INCH = 25_400_000;

async function yardWithSharedBoard(heldFrom: number, heldTo: number) {
  const yard = await openShop().foundYard('Two jobs');
  await yard.send('POST', '/v1/boards', { boards: [board('W-1')] });
  const bench = (await yard.send('POST', '/v1/jobs', { name: 'Library bench' })).json;
  const held = await yard.send('POST', '/v1/reservations', {
    jobId: bench.id,
    boards: [{ tag: 'W-1', fromNm: heldFrom * INCH, toNm: heldTo * INCH }],
  });
  expect(held.status).toBe(201);
  const table = (await yard.send('POST', '/v1/jobs', { name: 'Hall table' })).json;
  const rail = { lengthNm: '30 in', widthNm: '3 in', thicknessNm: '1 1/2 in', species: 'white oak' };
  const set = await yard.send('PUT', `/v1/jobs/${table.id}/cut-list`, {
    parts: [{ key: 'rail', label: 'Rail', quantity: 2, ...rail }],
  });
  expect(set.status).toBe(200);
  const plan: Answer<'readPlan'> = (await yard.send('POST', `/v1/jobs/${table.id}/plans`, { effort: 'quick' })).json;
  return { yard, bench, table, plan };
}

type Shared = Awaited<ReturnType<typeof yardWithSharedBoard>>;

const heldRuns = async ({ yard }: Shared, tag: string) =>
  (await yard.send('GET', `/v1/boards?q=${tag}`)).json.items[0].held.map(
    (held: { jobName: string; fromNm: number; toNm: number }) => [held.jobName, held.fromNm / INCH, held.toNm / INCH],
  );

describe.each([
  { end: 'the tagged end', from: 0, to: 40, rest: [40, 100.5] },
  { end: 'the far end', from: 60, to: 100.5, rest: [0, 60] },
])('one job holds 40 in at $end', ({ from, to, rest }) => {
  test.each(['whole', 'runs'] as const)(
    'a plan on the rest is held (%s), cut, and the held run comes off as an offcut',
    async (how) => {
      const shared = await yardWithSharedBoard(from, to);
      const { yard, plan } = shared;
      expect(plan.placedCount).toBe(2);
      expect(plan.layouts[0]?.warnings.join(' ')).toContain('Library bench holds');
      const reserved = await yard.send('POST', `/v1/plans/${plan.id}/reserve`, { how });
      expect(reserved.status, reserved.text).toBe(201);
      const runs = await heldRuns(shared, 'W-1');
      expect(runs).toContainEqual(['Library bench', from, to]);
      const [own] = runs.filter((run: [string]) => run[0] === 'Hall table');
      if (how === 'whole') expect(own).toEqual(['Hall table', ...rest]);
      expect(own[1]).toBeGreaterThanOrEqual(rest[0] ?? 0);
      expect(own[2]).toBeLessThanOrEqual(rest[1] ?? 0);

      const session = (await yard.send('POST', `/v1/plans/${plan.id}/sessions`, {})).json;
      const done = await yard.send('POST', `/v1/sessions/${session.id}/reconcile`, { restAsPlanned: true });
      expect(done.status, done.text).toBe(201);
      const held = (await yard.send('GET', '/v1/boards?limit=50')).json.items.filter(
        (one: { held: { jobName: string }[] }) => one.held.some((each) => each.jobName === 'Library bench'),
      );
      expect(held).toHaveLength(1);
      expect(held[0].origin).toMatchObject({ kind: 'offcut' });
      expect(held[0].lengthNm).toBeGreaterThanOrEqual((to - from) * INCH);
    },
  );
});
