/** Reading from what was last known while the yard cannot be reached. */
import { beforeEach, describe, expect, test } from 'vitest';
import { withLastKnown } from '../../addon/panel/state/last-known.ts';
import { makeReach } from '../../addon/panel/state/reach.ts';
import { board } from '../api/shop.ts';
import { openBroken, type Shopful } from './broken-network.ts';

let at: Shopful;
beforeEach(async () => {
  at = await openBroken();
  await at.yard.send('POST', '/v1/boards', { boards: [board('WO-1'), board('WO-2')] });
});
/** The keeping goes on behind the answer. */
const settled = () => new Promise((resolve) => setTimeout(resolve, 5));

function sidebar() {
  const reach = makeReach();
  return { reach, api: withLastKnown(at.api(), at.texts, reach, () => at.clock.nowMs) };
}

describe('without a connection', () => {
  test('what was read before is read again, with its age, also by a sidebar opened anew', async () => {
    const seen = sidebar();
    const first = await seen.api.call('listBoards', { query: { state: 'in-stock' } });
    await settled();
    const readAtMs = at.clock.nowMs;
    at.clock.nowMs += 3_600_000;
    at.network.down = true;
    const { api, reach } = sidebar();
    expect(await api.call('listBoards', { query: { state: 'in-stock' } })).toEqual(first);
    expect(reach.unreached.value).toEqual({ asOfMs: readAtMs });
  });

  test('what was never read says so, and never shows another question’s answer', async () => {
    await sidebar().api.call('listBoards', { query: { state: 'in-stock' } });
    await settled();
    at.network.down = true;
    const { api, reach } = sidebar();
    expect(await api.call('listBoards', { query: { state: 'in-stock', q: 'WO-2' } })).toEqual({
      ok: false,
      offline: true,
    });
    expect(reach.unreached.value).toEqual({ asOfMs: null });
  });

  test('of several answers shown the oldest gives the age, and the first word of the yard ends it', async () => {
    const { api, reach } = sidebar();
    await api.call('readYard');
    await settled();
    const oldestMs = at.clock.nowMs;
    at.clock.nowMs += 60_000;
    await api.call('listJobs', { query: {} });
    await settled();
    at.network.down = true;
    await api.call('listJobs', { query: {} });
    expect(reach.unreached.value).toEqual({ asOfMs: oldestMs + 60_000 });
    await api.call('readYard');
    await api.call('listJobs', { query: {} });
    expect(reach.unreached.value).toEqual({ asOfMs: oldestMs });
    at.network.down = false;
    await api.call('readYard');
    expect(reach.unreached.value).toBeNull();
  });

  test('a refusal of the yard is its word, not a broken connection', async () => {
    const { api, reach } = sidebar();
    expect(await api.call('readBoard', { path: { id: 'bd_000000000000' } })).toMatchObject({
      ok: false,
      problem: { status: 404 },
    });
    expect(reach.unreached.value).toBeNull();
  });

  test('a write is never answered from memory', async () => {
    at.network.down = true;
    const { api } = sidebar();
    expect(await api.call('openJob', { body: { name: 'Stool', dueOn: null, note: '' } })).toEqual({
      ok: false,
      offline: true,
    });
  });

  test('what was used longest ago makes room; disconnecting leaves nothing', async () => {
    const { api } = sidebar();
    const names = Array.from({ length: 12 }, (_, index) => `part ${index} ${'x'.repeat(40)}`);
    for (const q of names) await api.call('listBoards', { query: { q } });
    await settled();
    const chars = () => [...at.kept.values()].reduce((sum, text) => sum + text.length, 0);
    expect(chars()).toBeLessThan(1_600_000);
    expect(at.kept.size).toBe(names.length + 1);
    await api.forget();
    expect(at.kept.size).toBe(0);
  });

  test('answers past the room for them push the oldest out', async () => {
    const rows = Array.from({ length: 200 }, (_, index) => board(`B-${index}`, { note: 'n'.repeat(400) }));
    await at.yard.send('POST', '/v1/boards', { boards: rows });
    const { api } = sidebar();
    await api.call('readYard');
    for (let q = 0; q < 12; q += 1)
      await api.call('listBoards', {
        query: { limit: 200, q: q === 0 ? 'B' : `B-${q}`.slice(0, 3), thicknessNmMin: q },
      });
    for (let more = 0; more < 12; more += 1)
      await api.call('listBoards', { query: { limit: 200, thicknessNmMin: more } });
    await settled();
    const chars = [...at.kept.values()].reduce((sum, text) => sum + text.length, 0);
    expect(chars).toBeGreaterThan(1_000_000);
    expect(chars).toBeLessThan(1_510_000);
    at.network.down = true;
    expect(await api.call('readYard')).toEqual({ ok: false, offline: true });
    expect(await api.call('listBoards', { query: { limit: 200, thicknessNmMin: 11 } })).toMatchObject({ ok: true });
  });
});
