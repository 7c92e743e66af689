/** The yard in maps, which a journal is replayed into, answers every question of deciding as the database does. */
import { expect, test } from 'vitest';
import { entityKinds, MemoryState } from '../../worker/yard/memory-state.ts';
import { replay } from '../../worker/yard/replay.ts';
import { RandomHistory } from './random-history.ts';
import { Shop } from './shop.ts';

const byId = <T extends { readonly id: string }>(things: readonly T[]): T[] =>
  [...things].sort((a, b) => (a.id < b.id ? -1 : 1));

test('boards, parts, plans, holds, sessions and the journal read alike from both', async () => {
  const shop = await Shop.open();
  const history = new RandomHistory(shop, 20_261_126);
  for (let step = 0; step < 160; step++) history.step();
  const database = shop.state();
  const memory = replay(shop.journal());
  expect(memory.seq()).toBe(database.seq());
  expect(memory.ids('reservation').length).toBeGreaterThan(2);
  expect(memory.ids('session').length).toBeGreaterThan(1);
  for (const id of memory.ids('board')) {
    const board = memory.get('board', id);
    expect(byId(memory.boardsByTag(board?.tag ?? ''))).toEqual(byId(database.boardsByTag(board?.tag ?? '')));
    const held = database.reservationsOnBoard(id);
    expect(memory.reservationsOnBoard(id)).toEqual(held);
    for (const { fromNm, toNm } of held) {
      // Just before it, just after it, and across its ends by one nanometre.
      const runs = [
        [fromNm - 10, fromNm],
        [toNm, toNm + 10],
        [fromNm - 10, fromNm + 1],
        [toNm - 1, toNm + 10],
      ] as const;
      for (const [from, to] of runs)
        expect(memory.reservationsAcross(id, from, to)).toEqual(database.reservationsAcross(id, from, to));
    }
  }
  for (const id of memory.ids('job')) {
    expect(memory.partsOfJob(id)).toEqual(database.partsOfJob(id));
    expect(byId(memory.plansOfJob(id))).toEqual(byId(database.plansOfJob(id)));
    expect(byId(memory.reservationsOfJob(id))).toEqual(byId(database.reservationsOfJob(id)));
    expect(byId(memory.sessionsOfJob(id))).toEqual(byId(database.sessionsOfJob(id)));
  }
  for (const id of memory.ids('plan')) {
    expect(byId(memory.reservationsOfPlan(id))).toEqual(byId(database.reservationsOfPlan(id)));
    expect(byId(memory.sessionsOfPlan(id))).toEqual(byId(database.sessionsOfPlan(id)));
  }
  for (let seq = 0; seq <= database.seq() + 1; seq++) {
    const movement = database.movement(seq);
    expect(memory.movement(seq)).toEqual(movement);
    expect(memory.undoOf(seq)).toBe(database.undoOf(seq));
    for (const { entity, id } of movement?.changes ?? []) {
      expect(memory.touchBefore(entity, id, seq)).toBe(database.touchBefore(entity, id, seq));
      expect(memory.touchBefore(entity, id, seq + 1)).toBe(seq);
    }
  }
});

test('a thing is added once, put as often as it changes, and gone when removed', () => {
  const state = new MemoryState();
  for (const kind of entityKinds) expect(state.ids(kind)).toEqual([]);
  const job = {
    id: 'jb_1',
    name: 'Hall table',
    dueOn: null,
    note: '',
    state: 'open',
    revision: 1,
    version: 1,
  } as const;
  state.add('job', job.id, job);
  expect(() => state.add('job', job.id, job)).toThrow('job jb_1 is there already');
  state.put('job', job.id, { ...job, name: 'Bench' });
  expect(state.get('job', job.id)?.name).toBe('Bench');
  state.remove('job', job.id);
  expect([state.get('job', job.id), state.ids('job')]).toEqual([null, []]);
});
