/** Undo is a counter-movement: exact, and refused where it would build on sand. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryState, stateDifference } from '../../worker/yard/memory-state.ts';
import { RandomHistory } from './random-history.ts';
import { boardOf, memoryCopy, partOf, Shop } from './shop.ts';

/** The yard without what always moves on: versions, and revisions, which are never given twice. */
function withoutVersions(state: MemoryState): MemoryState {
  const plain = new MemoryState();
  for (const kind of ['settings', 'board', 'part', 'plan', 'reservation', 'session'] as const) {
    for (const id of state.ids(kind)) {
      const entity = state.get(kind, id);
      if (entity) plain.put(kind, id, { ...entity, version: 0 });
    }
  }
  for (const id of state.ids('job')) {
    const job = state.get('job', id);
    if (job) plain.put('job', id, { ...job, version: 0, revision: 0 });
  }
  return plain;
}

test('an undo brings the yard back as it was, and undoing the undo does it again', async () => {
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 0, max: 4_294_967_295 }), async (seed) => {
      const shop = await Shop.open();
      const history = new RandomHistory(shop, seed);
      for (let step = 0; step < 60; step++) {
        const before = memoryCopy(shop.yard);
        const seq = shop.seq();
        history.step();
        if (shop.seq() === seq) continue;
        const after = memoryCopy(shop.yard);
        // Nothing came after it, so it can always be undone, and the undo after it.
        shop.tell({ do: 'undo', seq: seq + 1 });
        expect(stateDifference(withoutVersions(before), withoutVersions(memoryCopy(shop.yard)))).toBeNull();
        shop.tell({ do: 'undo', seq: seq + 2 });
        expect(stateDifference(withoutVersions(after), withoutVersions(memoryCopy(shop.yard)))).toBeNull();
      }
      shop.expectSound();
    }),
    { numRuns: 12 },
  );
}, 60_000);

async function twoJobs() {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  return { shop, table: shop.job('Hall table', partOf('leg')), bench: shop.job('Bench') };
}

test('a movement that a later one built on is not undone; the later one is named', async () => {
  const { shop } = await twoJobs();
  const board = shop.board('Q-1');
  shop.tell({ do: 'correct-board', boardId: board.id, ifVersion: board.version, patch: { place: 'rack 1' } });
  const corrected = shop.seq();
  shop.tell({ do: 'write-off-board', boardId: board.id, why: 'rot' });
  const refusal = shop.refused({ do: 'undo', seq: corrected });
  expect(refusal.why).toBe('cannot-undo');
  expect(refusal.detail).toBe(
    `First undo no. ${corrected + 1} ("Wrote off Q-1: rot"): it came after and builds on this one.`,
  );
});

test('all that is in the way is named at once, newest first, and undoing it in that order clears the way', async () => {
  const { shop, table } = await twoJobs();
  const correct = (tag: string, patch: { place?: string; lengthNm?: number }) => {
    const board = shop.board(tag);
    return shop.tell({ do: 'correct-board', boardId: board.id, ifVersion: board.version, patch }).seq;
  };
  const first = correct('Q-1', { place: 'rack 1' });
  const undone = correct('Q-1', { place: 'rack 9' });
  shop.tell({ do: 'undo', seq: undone });
  const second = correct('Q-1', { place: 'rack 2' });
  shop.atTheSaw(table, { 'Q-1': [{ key: 'leg', count: 1 }] });
  const third = correct('Q-2', { place: 'rack 3' });
  const { detail } = shop.refused({ do: 'undo', seq: first });
  const named = [...detail.matchAll(/no\. (\d+)/g)].map((found) => Number(found[1]));
  expect(named).toEqual([...named].sort((a, b) => b - a));
  // Not what was undone already, nor what touched another board.
  expect(named).toContain(second);
  expect(named).not.toContain(undone);
  expect(named).not.toContain(third);
  for (const seq of named) shop.tell({ do: 'undo', seq });
  shop.tell({ do: 'undo', seq: first });
  expect(shop.board('Q-1').place).toBe('');
  shop.expectSound();
});

test('what built on what is in the way is named too', async () => {
  const { shop, table } = await twoJobs();
  const { sessionId } = shop.atTheSaw(table, { 'Q-1': [{ key: 'leg', count: 2 }] });
  const kept = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false }).seq;
  const offcut = shop.board('Q-1-1');
  shop.tell({ do: 'correct-board', boardId: offcut.id, ifVersion: offcut.version, patch: { place: 'bin' } });
  const opened = kept - 1;
  expect(shop.refused({ do: 'undo', seq: opened }).detail).toMatch(
    new RegExp(`^First undo no\\. ${kept + 1} \\(.*\\), then no\\. ${kept} \\(.*\\): they came after`),
  );
});

test('undone from the last to the first, each step can be undone', async () => {
  const { shop } = await twoJobs();
  const first = shop.seq() + 1;
  for (const place of ['rack 1', 'rack 2', 'rack 3']) {
    const board = shop.board('Q-1');
    shop.tell({ do: 'correct-board', boardId: board.id, ifVersion: board.version, patch: { place } });
  }
  for (const seq of [first + 2, first + 1, first]) shop.tell({ do: 'undo', seq });
  expect(shop.board('Q-1').place).toBe('');
  expect(shop.refused({ do: 'undo', seq: first }).why).toBe('already-undone');
  shop.expectSound();
});

test('a movement undone, done again and undone once more', async () => {
  const { shop, table } = await twoJobs();
  shop.reserve(table, 'Q-1');
  const seq = shop.seq();
  const { seq: undone } = shop.tell({ do: 'undo', seq });
  const { seq: redone } = shop.tell({ do: 'undo', seq: undone });
  expect(shop.state().reservationsOfJob(table)).toHaveLength(1);
  expect(shop.ask('movement', { seq }).undoneBy).toBeNull();
  shop.tell({ do: 'undo', seq: redone });
  expect(shop.state().reservationsOfJob(table)).toEqual([]);
  expect(shop.ask('movement', { seq: undone }).undoneBy).toBeNull();
  shop.expectSound();
});

test('a release is not undone when another job holds the board since', async () => {
  const { shop, table, bench } = await twoJobs();
  shop.tell({ do: 'release', ids: shop.reserve(table, 'Q-1') });
  const released = shop.seq();
  const held = shop.reserve(bench, 'Q-1');
  const refusal = shop.refused({ do: 'undo', seq: released });
  expect(refusal.why).toBe('cannot-undo');
  expect(refusal.detail).toContain('Q-1 is held for Bench (all of it)');
  shop.tell({ do: 'release', ids: held });
  shop.tell({ do: 'undo', seq: released });
  expect(shop.state().reservationsOfJob(table)).toHaveLength(1);
});

test('a delivery is not undone once one of its boards is held', async () => {
  const { shop, table } = await twoJobs();
  const delivery = shop.seq() - 3;
  shop.reserve(table, 'Q-2');
  expect(shop.refused({ do: 'undo', seq: delivery }).detail).toContain('is held');
});

test('a reconciliation undone: the board is whole again, its offcut gone, its session open', async () => {
  const { shop, table } = await twoJobs();
  const { sessionId } = shop.atTheSaw(table, { 'Q-1': [{ key: 'leg', count: 2 }] });
  shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const seq = shop.seq();
  const offcut = shop.board('Q-1-1');
  shop.reserve(table, 'Q-1-1');
  expect(shop.refused({ do: 'undo', seq }).why).toBe('cannot-undo');
  shop.tell({ do: 'undo', seq: shop.seq() });
  shop.tell({ do: 'undo', seq });
  expect(shop.state().get('board', offcut.id)).toBeNull();
  expect(shop.board('Q-1').state).toBe('in-stock');
  expect(shop.state().get('session', sessionId)?.state).toBe('open');
  expect(shop.pieces(table, 'leg').map((piece) => piece.state)).toEqual(['planned', 'planned']);
  shop.expectSound();
});

test('a planned piece taken back is not planned again by undo once its plan is gone', async () => {
  const { shop, table } = await twoJobs();
  const planId = shop.keep(shop.plan(table, { 'Q-1': [{ key: 'leg', count: 1 }] }));
  shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
  shop.tell({ do: 'move-pieces', jobId: table, steps: [shop.step('leg', 1, 'wanted')] });
  const seq = shop.seq();
  shop.tell({ do: 'drop-plan', planId });
  expect(shop.refused({ do: 'undo', seq }).detail).toContain(
    'would be planned on a board that its plan no longer holds',
  );
});

test('the founding of the yard stays, and what never happened cannot be undone', async () => {
  const { shop } = await twoJobs();
  expect(shop.refused({ do: 'undo', seq: 1 }).why).toBe('cannot-undo');
  expect(shop.refused({ do: 'undo', seq: 99 }).why).toBe('not-found');
});

test('the journal shows who did what to which board, and what was undone by what', async () => {
  const { shop, table } = await twoJobs();
  shop.reserve(table, 'Q-1');
  const seq = shop.seq();
  const { undoneSeq } = shop.tell({ do: 'undo', seq });
  expect(undoneSeq).toBe(seq);
  const page = { after: null, limit: 2 };
  const [undone, reserved] = shop.ask('movements', { page }).items;
  expect([undone?.kind, undone?.undoes, undone?.boardTags]).toEqual(['undone', seq, ['Q-1']]);
  expect([reserved?.summary, reserved?.by, reserved?.undoneBy]).toEqual([
    'Held 1 board for Hall table: Q-1',
    'Owner',
    seq + 1,
  ]);
  const ofBoard = shop.ask('movements', { boardId: shop.board('Q-2').id, page });
  expect(ofBoard.items.map((movement) => movement.kind)).toEqual(['boards-received']);
  expect(
    shop.ask('movements', { jobId: table, page: { after: String(seq), limit: 5 } }).items.map((each) => each.kind),
  ).toEqual(['cut-list-set', 'job-opened']);
});
