/** The state in maps, in SQL and as it would be after some changes: what is put, found, taken away and refused. */
import { expect, test } from 'vitest';
import type { Movement } from '../../worker/contract/movement.ts';
import { apply, entityAfter } from '../../worker/yard/apply.ts';
import { Kept } from '../../worker/yard/kept.ts';
import { MemoryState, stateDifference, statesEqual } from '../../worker/yard/memory-state.ts';
import { OverlayReader } from '../../worker/yard/overlay.ts';
import { sameValue } from '../../worker/yard/same-value.ts';
import { soleRow } from '../../worker/yard/sql.ts';
import { YARD, type YardReader, yardRecord, yardSettings } from '../../worker/yard/state.ts';
import { checkUp } from './check-up.ts';
import { RandomHistory } from './random-history.ts';
import { boardOf, INCH, memoryCopy, partOf, Shop } from './shop.ts';

async function planned() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 4 }));
  const planId = shop.keep(shop.plan(jobId, { 'Q-1': [{ key: 'leg' }] }));
  const texts = () =>
    shop.yard.sql.rows<{ id: string }>('SELECT DISTINCT id FROM plan_text ORDER BY id').map(({ id }) => id);
  return { shop, jobId, planId, texts };
}

test('what would be after some changes reads as what is after them, thing by thing and list by list', async () => {
  const shop = await Shop.open();
  const history = new RandomHistory(shop, 20_261_127);
  for (let step = 0; step < 120; step++) history.step();
  // Jobs that end let their holds go in the same movement; some are at the saw and cannot.
  const open = shop.ask('jobs', { state: 'open', page: { limit: 200, after: null } }).items;
  for (const { id: jobId, version } of open)
    shop.send({ do: 'change-job', jobId, ifVersion: version, patch: { state: 'done' } });
  const state = new MemoryState();
  const byId = <T extends { readonly id: string }>(things: readonly T[]) =>
    [...things].sort((a, b) => (a.id < b.id ? -1 : 1));
  const everything = (reader: YardReader, movement: Movement) =>
    movement.changes.map(({ entity, id, was, now }) => {
      const thing = reader.get(entity, id);
      if (entity === 'board') {
        const tag = String(was?.tag ?? now?.tag ?? '');
        return [thing, byId(reader.boardsByTag(tag)), byId(reader.reservationsOnBoard(id))];
      }
      if (entity === 'job') {
        const ofJob = [reader.plansOfJob(id), reader.reservationsOfJob(id), reader.sessionsOfJob(id)];
        const plans = byId(reader.plansOfJob(id)).map(({ id: planId, state: step }) => [planId, step]);
        return [
          thing,
          reader.partsOfJob(id),
          plans,
          byId(reader.reservationsOfJob(id)),
          ofJob.map((each) => each.length),
        ];
      }
      if (entity === 'part') return [thing, reader.partsOfJob(id.split('/')[0] ?? '')];
      if (entity === 'plan') return [thing, byId(reader.reservationsOfPlan(id)), byId(reader.sessionsOfPlan(id))];
      if (entity === 'reservation') {
        const boardId = String(was?.boardId ?? now?.boardId ?? reader.get('reservation', id)?.boardId ?? '');
        const across = [0, 20, 40, 60, 80].map((at) =>
          byId(reader.reservationsAcross(boardId, at * INCH, (at + 20) * INCH)),
        );
        return [thing, byId(reader.reservationsOnBoard(boardId)), across];
      }
      return [thing];
    });
  for (const movement of shop.journal()) {
    const would = new OverlayReader(state, movement.changes);
    expect(would.seq()).toBe(movement.seq - 1);
    const foreseen = everything(would, movement);
    apply(state, movement);
    expect(foreseen, movement.summary).toEqual(everything(state, movement));
  }
  expect(stateDifference(state, memoryCopy(shop.yard))).toBeNull();
});

test('a plan taken back takes its layouts with it, those of others stay, and it can come again', async () => {
  const { shop, jobId, planId, texts } = await planned();
  const next = shop.keep(shop.plan(jobId, { 'Q-2': [{ key: 'leg' }] }));
  const kept = shop.state().get('plan', next);
  shop.tell({ do: 'undo', seq: shop.seq() });
  expect([texts(), shop.state().get('plan', next)]).toEqual([[planId], null]);
  expect(shop.state().get('plan', planId)?.state).toBe('draft');
  shop.tell({ do: 'undo', seq: shop.seq() });
  expect(texts()).toEqual([planId, next].sort());
  expect(shop.state().get('plan', next)).toEqual({ ...kept, version: shop.seq() });
  expect(checkUp(shop.yard.sql).findings).toEqual([]);
  shop.expectSound();
});

test('an undo of a delivery or of a visit to the saw names the boards that go with it', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const undone = (seq: number) => {
    shop.tell({ do: 'undo', seq });
    return shop.ask('movement', { seq: shop.seq() }).boardTags.toSorted();
  };
  expect(undone(2)).toEqual(['Q-1', 'Q-2']);
  shop.takeIn(boardOf('Q-7'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 2 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg' }] });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  expect(undone(shop.seq())).toEqual(['Q-7', 'Q-7-1']);
  const of = (tag: string) => shop.ask('movements', { boardId: shop.board(tag).id, page: { limit: 9, after: null } });
  expect(of('Q-7').items.map(({ kind }) => kind)).toEqual([
    'undone',
    'reconciled',
    'session-opened',
    'reserved',
    'boards-received',
  ]);
});

test('a change that does not fit what is there is a fault, told with the thing', async () => {
  const { shop, jobId } = await planned();
  const job = shop.state().get('job', jobId);
  const step = (was: Record<string, unknown> | null, now: Record<string, unknown> | null) =>
    ({ entity: 'job', id: jobId, was, now }) as const;
  expect(() => entityAfter(job, step(null, { name: 'x' }), 9)).toThrow(`job ${jobId} is there already`);
  expect(() => entityAfter(null, step({ name: 'Hall table' }, { name: 'x' }), 9)).toThrow(`job ${jobId} is not there`);
  expect(() => entityAfter(job, step({ name: 'Bench' }, { name: 'x' }), 9)).toThrow('has another name than');
  expect(entityAfter(job, step({ name: 'Hall table' }, { name: 'x' }), 9)).toEqual({ ...job, name: 'x', version: 9 });
  expect(entityAfter(job, step({ name: 'Hall table', colour: null }, null), 9)).toBeNull();
  expect(entityAfter(null, step(null, null), 9)).toBeNull();
  const movement = (seq: number): Movement => ({
    seq,
    atMs: 0,
    by: 'Owner',
    kind: 'job-changed',
    jobId,
    summary: '',
    changes: [step({ name: 'Hall table' }, { name: 'x' })],
    balances: [],
    undoes: null,
  });
  const state = memoryCopy(shop.yard);
  for (const seq of [0, 2]) expect(() => apply(state, movement(seq))).toThrow(`movement ${seq} does not follow 0`);
  apply(state, movement(1));
  expect([state.get('job', jobId)?.name, state.seq()]).toEqual(['x', 1]);
  // A thing that comes and one that goes in one movement.
  apply(state, { ...movement(2), changes: [step({}, null), { ...step(null, { ...job }), id: 'jb_second0001' }] });
  expect([state.get('job', jobId), state.get('job', 'jb_second0001')?.version]).toEqual([null, 2]);
  const nothing = { ...movement(3), changes: [step(null, null)] };
  apply(state, nothing);
  expect(state.ids('job')).toEqual(['jb_second0001']);
});

test('a thing is added once to the database; the fault says which, and what the database said', async () => {
  const { shop, jobId } = await planned();
  const state = shop.state();
  const job = state.get('job', jobId);
  if (!job) throw new Error('no job');
  let fault: unknown;
  try {
    state.add('job', jobId, job);
  } catch (cause) {
    fault = cause;
  }
  expect(fault).toMatchObject({ message: `job ${jobId} is there already`, cause: { code: 'ERR_SQLITE_ERROR' } });
  // What is refused for another reason says so itself.
  const bad = { ...shop.board('Q-1'), id: 'bd_second0001', tag: 'Q-9', lengthNm: 0 };
  expect(() => state.add('board', bad.id, bad)).toThrow('CHECK constraint failed');
});

test('what is read within a transaction is read once; the yard’s record is the same as long as its text is', async () => {
  const { shop, planId } = await planned();
  const state = shop.state();
  expect(state.get('plan', planId)).toBe(state.get('plan', planId));
  expect(state.get('plan', 'pl_nothing1')).toBeNull();
  expect(shop.state().get('plan', planId)).not.toBe(state.get('plan', planId));
  const record = yardRecord(state);
  expect(yardRecord(shop.state())).toBe(record);
  expect(yardSettings(shop.state())).toBe(yardSettings(state));
  shop.tell({ do: 'change-settings', settings: { ...record.settings, cureHours: 1 } });
  expect(yardSettings(shop.state()).cureHours).toBe(1);
  expect(() => yardRecord(new MemoryState())).toThrow('never founded');
  expect(shop.state().get('settings', YARD)?.name).toBe('Oak yard');
  shop.yard.sql.run('DELETE FROM plan_text');
  expect(() => shop.state().get('plan', planId)).toThrow(`plan ${planId} has lost its layouts`);
});

test('the first difference of two yards is told; of two alike there is none', async () => {
  const { shop, jobId } = await planned();
  const [one, other] = [memoryCopy(shop.yard), memoryCopy(shop.yard)];
  expect([stateDifference(one, other), statesEqual(one, other)]).toEqual([null, true]);
  const job = one.get('job', jobId);
  if (!job) throw new Error('no job');
  other.put('job', jobId, { ...job, name: 'Bench' });
  expect(stateDifference(one, other)).toContain(`job ${jobId}: {`);
  expect(statesEqual(one, other)).toBe(false);
  other.remove('job', jobId);
  expect(stateDifference(one, other)).toBe('not the same jobs: 1 and 0');
});

test('so many are kept, then none but the newest; another value of a kept key takes no room', () => {
  const kept = new Kept<number>(3);
  for (const [at, key] of ['a', 'b', 'c', 'a', 'c'].entries()) kept.keep(key, at);
  expect(['a', 'b', 'c', 'd'].map((key) => kept.get(key))).toEqual([3, 1, 4, null]);
  kept.keep('d', 9);
  expect(['a', 'b', 'c', 'd'].map((key) => kept.get(key))).toEqual([null, null, null, 9]);
  kept.keep('e', 10);
  kept.drop('d');
  expect([kept.get('d'), kept.get('e')]).toEqual([null, 10]);
  kept.forget();
  expect(kept.get('e')).toBeNull();
});

test('values of the journal say the same whatever the order of their fields; absent and undefined are alike, null is not', () => {
  expect(sameValue({ a: 1, b: [1, { c: null }] }, { b: [1, { c: null }], a: 1 })).toBe(true);
  expect(sameValue({ a: undefined }, {})).toBe(true);
  expect(sameValue({}, { a: undefined })).toBe(true);
  for (const [one, other] of [
    [{ a: null }, {}],
    [{}, { a: null }],
    [{}, { a: 1 }],
    [[1], [1, 2]],
    [[1, 2], [1]],
    [[1], { 0: 1 }],
    [{ 0: 1 }, [1]],
    [[], {}],
    [{}, []],
    [null, {}],
    [{}, null],
    [1, '1'],
    [{ a: { b: 1 } }, { a: { b: 2 } }],
  ]) {
    expect(sameValue(one, other), `${JSON.stringify(one)} ${JSON.stringify(other)}`).toBe(false);
  }
});

test('a question that always has a row throws where it has none', async () => {
  const { shop } = await planned();
  expect(soleRow<{ n: number }>(shop.yard.sql, 'SELECT 7 AS n').n).toBe(7);
  expect(() => soleRow(shop.yard.sql, 'SELECT 7 AS n WHERE 0')).toThrow('no row came of: SELECT 7');
});
