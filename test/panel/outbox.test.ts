/** Writes over a connection that breaks: the real service in memory, the real client, the real outbox. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Outbox, PatientRoute, Waiting } from '../../addon/panel/state/outbox.ts';
import { board } from '../api/shop.ts';
import { type Break, openBroken, type Shopful } from './broken-network.ts';

type Thing<N extends PatientRoute> = Pick<Waiting<N>, 'route' | 'pathId' | 'body' | 'what' | 'about'>;

async function shopWithBoards(tags: readonly string[]): Promise<{ at: Shopful; ids: readonly string[] }> {
  const at = await openBroken();
  const taken = await at.yard.send('POST', '/v1/boards', { boards: tags.map((tag) => board(tag, { readings: [] })) });
  return { at, ids: taken.json.taken.map((one: { id: string }) => one.id) };
}

const reading = (boardId: string, percent: number): Thing<'readMoisture'> => ({
  route: 'readMoisture',
  pathId: boardId,
  body: { readings: [{ moisturePercent: percent, on: '2026-11-19' }] },
  what: `Reading ${percent} %`,
  about: [boardId],
});

const percents = async (at: Shopful, boardId: string): Promise<number[]> =>
  (await at.yard.send('GET', `/v1/boards/${boardId}`)).json.readings.map(
    (one: { moisturePercent: number }) => one.moisturePercent,
  );
const whats = (outbox: Outbox) => outbox.waiting.value.map((thing) => thing.what);

describe('a reading over a broken connection', () => {
  test('with a good connection it goes at once and nothing waits', async () => {
    const {
      at,
      ids: [id = ''],
    } = await shopWithBoards(['WO-1']);
    const outbox = at.open();
    expect(await outbox.submit(reading(id, 9))).toMatchObject({ ok: true, answer: { tag: 'WO-1' } });
    expect([whats(outbox), at.kept.size, await percents(at, id)]).toEqual([[], 0, [9]]);
  });

  test.each<Break>(['before', 'during', 'after'])(
    'broken %s the answer, and again: kept, then done exactly once',
    async (how) => {
      const {
        at,
        ids: [id = ''],
      } = await shopWithBoards(['WO-1']);
      const outbox = at.open();
      // The client tries twice by itself.
      at.network.breaks.push(how, how);
      expect(await outbox.submit(reading(id, 9))).toEqual({ ok: false, waits: true });
      expect(whats(outbox)).toEqual(['Reading 9 %']);
      expect(await percents(at, id)).toEqual(how === 'before' ? [] : [9]);
      expect(await outbox.send()).toBe(1);
      expect([whats(outbox), at.kept.size, await percents(at, id)]).toEqual([[], 0, [9]]);
    },
  );

  test('the sidebar closed in the middle: the next one sends it under the same key', async () => {
    const {
      at,
      ids: [id = ''],
    } = await shopWithBoards(['WO-1']);
    at.network.breaks.push('after', 'after');
    await at.open().submit(reading(id, 9));
    const next = at.open();
    expect(await next.send()).toBe(1);
    expect(await percents(at, id)).toEqual([9]);
  });

  test('what is written later waits behind what was written first', async () => {
    const {
      at,
      ids: [id = ''],
    } = await shopWithBoards(['WO-1']);
    const outbox = at.open();
    at.network.down = true;
    await outbox.submit(reading(id, 12));
    await outbox.submit(reading(id, 11));
    at.network.down = false;
    // The connection is back; the third finds two before it.
    expect(await outbox.submit(reading(id, 10))).toMatchObject({ ok: true });
    expect([whats(outbox), await percents(at, id)]).toEqual([[], [12, 11, 10]]);
  });

  test('two sidebars of one user on one device: neither loses nor doubles what the other wrote', async () => {
    const {
      at,
      ids: [id = ''],
    } = await shopWithBoards(['WO-1']);
    const [one, two] = [at.open(), at.open()];
    at.network.down = true;
    await one.submit(reading(id, 12));
    await two.submit(reading(id, 11));
    await one.submit(reading(id, 10));
    at.network.down = false;
    await Promise.all([one.send(), two.send()]);
    expect(await percents(at, id)).toEqual([12, 11, 10]);
    expect(at.kept.size).toBe(0);
  });

  test('a refusal is told to the one who waits for it, and nothing stays behind', async () => {
    const { at } = await shopWithBoards(['WO-1']);
    const outbox = at.open();
    const answer = await outbox.submit(reading('bd_000000000000', 9));
    expect(answer).toMatchObject({ ok: false, problem: { status: 404 } });
    expect([whats(outbox), at.kept.size]).toEqual([[], 0]);
  });

  test('what is refused later stays with its reason, lets the rest pass, and can be sent anew', async () => {
    const {
      at,
      ids: [id = '', other = ''],
    } = await shopWithBoards(['WO-1', 'WO-2']);
    const outbox = at.open();
    at.network.down = true;
    await outbox.submit(reading(id, 9));
    await outbox.submit(reading(other, 8));
    // Somebody else writes the first board off meanwhile.
    const { seq } = (await at.yard.send('POST', `/v1/boards/${id}/write-off`, { why: 'split' })).json;
    expect(seq).toBeUndefined();
    at.network.down = false;
    expect(await outbox.send()).toBe(1);
    expect(outbox.waiting.value).toMatchObject([{ what: 'Reading 9 %', refused: { status: 409 } }]);
    expect(await percents(at, other)).toEqual([8]);
    const undo = (await at.yard.send('GET', '/v1/movements')).json.items.find(
      (one: { kind: string; boardIds?: string[] }) =>
        one.kind.includes('written-off') || one.kind.includes('write-off'),
    );
    await at.yard.send('POST', `/v1/movements/${undo.seq}/undo`, {});
    const [thing] = outbox.waiting.value;
    expect(await outbox.sendAgain(thing?.id ?? '')).toBe(1);
    expect([whats(outbox), await percents(at, id)]).toEqual([[], [9]]);
  });

  test('with a key that is no longer known everything stays, in order', async () => {
    const {
      at,
      ids: [id = ''],
    } = await shopWithBoards(['WO-1']);
    const outbox = at.open();
    at.network.down = true;
    await outbox.submit(reading(id, 9));
    await outbox.submit(reading(id, 8));
    at.network.down = false;
    const { fetch } = at.network;
    at.network.fetch = async () =>
      Response.json(
        { type: '/problems/unknown-key', title: 'Unknown key', status: 401, detail: '', instance: '' },
        { status: 401, headers: { 'content-type': 'application/problem+json' } },
      );
    expect(await at.open().send()).toBe(0);
    at.network.fetch = fetch;
    expect(await at.open().send()).toBe(2);
    expect(await percents(at, id)).toEqual([9, 8]);
  });

  test('after six days nothing is sent unasked, because the yard remembers an answer for seven', async () => {
    const {
      at,
      ids: [id = ''],
    } = await shopWithBoards(['WO-1']);
    const outbox = at.open();
    at.network.breaks.push('after', 'after');
    await outbox.submit(reading(id, 9));
    at.clock.nowMs += 6 * 24 * 3_600_000 + 1;
    expect(await outbox.send()).toBe(0);
    expect(whats(outbox)).toEqual(['Reading 9 %']);
    expect(await outbox.sendAgain(outbox.waiting.value[0]?.id ?? '')).toBe(1);
    expect(await percents(at, id)).toEqual([9]);
  });

  test('what is dropped is never sent', async () => {
    const {
      at,
      ids: [id = ''],
    } = await shopWithBoards(['WO-1']);
    const outbox = at.open();
    at.network.down = true;
    await outbox.submit(reading(id, 9));
    await outbox.drop(outbox.waiting.value[0]?.id ?? '');
    at.network.down = false;
    expect([await outbox.send(), await percents(at, id), at.kept.size]).toEqual([0, [], 0]);
  });

  test('whatever breaks and however often the sidebar is opened anew: in order, exactly once', async () => {
    const broken = fc.constantFrom<Break>('before', 'during', 'after', 'none');
    const step = fc.record({ breaks: fc.array(broken, { maxLength: 5 }), reopen: fc.boolean() });
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 8 }), async (steps) => {
        const {
          at,
          ids: [id = ''],
        } = await shopWithBoards(['WO-1']);
        let outbox = at.open();
        for (const [index, { breaks, reopen }] of steps.entries()) {
          at.network.breaks.splice(0, Number.POSITIVE_INFINITY, ...breaks);
          if (reopen) outbox = at.open();
          await outbox.submit(reading(id, 5 + index));
        }
        at.network.breaks.length = 0;
        await at.open().send();
        expect(await percents(at, id)).toEqual(steps.map((_, index) => 5 + index));
        expect(at.kept.size).toBe(0);
      }),
      { numRuns: 60 },
    );
  });
});

describe('a reconciliation over a broken connection', () => {
  async function atTheSaw() {
    const at = await openBroken();
    await at.yard.send('POST', '/v1/boards', { boards: [board('WO-1'), board('WO-2')] });
    const job = (await at.yard.send('POST', '/v1/jobs', { name: 'Stool' })).json;
    const part = (key: string, label: string, lengthNm: string) => ({
      key,
      label,
      quantity: 2,
      species: 'white oak',
      lengthNm,
      widthNm: '3 in',
      thicknessNm: '1 1/2 in',
      use: 'hidden',
    });
    const set = await at.yard.send('PUT', `/v1/jobs/${job.id}/cut-list`, {
      parts: [part('P1', 'Leg', '70 in'), part('P2', 'Rail', '40 in')],
    });
    expect(set.status).toBe(200);
    const plan = (await at.yard.send('POST', `/v1/jobs/${job.id}/plans`, { effort: 'quick' })).json;
    await at.yard.send('POST', `/v1/plans/${plan.id}/reserve`, { how: 'whole' });
    const session = (await at.yard.send('POST', `/v1/plans/${plan.id}/sessions`, {})).json;
    return { at, session };
  }
  const whole = (session: { id: string; boardIds: string[] }): Thing<'reconcile'> => ({
    route: 'reconcile',
    pathId: session.id,
    body: { restAsPlanned: true, boards: [], allowExtra: false },
    what: 'Stool, what came out',
    about: session.boardIds,
  });

  test.each<Break>(['before', 'during', 'after'])(
    'broken %s the answer: the boards count as written down here, and are cut once',
    async (how) => {
      const { at, session } = await atTheSaw();
      expect(session.layouts.length).toBeGreaterThan(0);
      const outbox = at.open();
      at.network.breaks.push(how, how);
      expect(await outbox.submit(whole(session))).toEqual({ ok: false, waits: true });
      expect([...outbox.aboutWaiting('reconcile', session.id)]).toEqual(session.boardIds);
      expect(await at.open().send()).toBe(1);
      const movements = (await at.yard.send('GET', '/v1/movements')).json.items;
      const cuts = movements.filter(
        (one: { kind: string }) => /reconcil|cut/.test(one.kind) && !/cut-list/.test(one.kind),
      );
      expect(cuts).toHaveLength(1);
      expect((await at.yard.send('GET', `/v1/sessions/${session.id}`)).json.state).toBe('closed');
    },
  );
});
