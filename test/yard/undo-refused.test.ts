/** Undos that would leave the yard in a state that no command allows. */
import { expect, test } from 'vitest';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

async function twoBoards() {
  const shop = await Shop.open();
  const [first = '', second = ''] = shop.takeIn(boardOf('Q-1'), boardOf('Q-2'));
  const table = shop.job('Hall table', partOf('leg', { label: 'Leg' }), partOf('rail'));
  const correct = (boardId: string, patch: { lengthNm?: number; widthNm?: number }) =>
    shop.tell({ do: 'correct-board', boardId, ifVersion: shop.board(boardId).version, patch }).seq;
  const undone = (seq: number) => {
    const refusal = shop.refused({ do: 'undo', seq });
    expect(refusal.why).toBe('cannot-undo');
    return refusal.detail;
  };
  /** Legs from the first board, rails from the second, so that the two parts have nothing to do with each other. */
  const held = () => {
    const planId = shop.keep(shop.plan(table, { 'Q-1': [{ key: 'leg' }], 'Q-2': [{ key: 'rail' }] }));
    const { reservationIds = [] } = shop.tell({ do: 'reserve-plan', planId, how: 'whole' });
    return { planId, reservationIds };
  };
  return { shop, first, second, table, correct, undone, held };
}

test('a board does not shrink back below a run held since', async () => {
  const { shop, first, table, correct, undone } = await twoBoards();
  const seq = correct(first, { lengthNm: 110 * INCH });
  shop.tell({ do: 'reserve', jobId: table, boards: [{ tag: 'Q-1', fromNm: 100 * INCH }] });
  expect(undone(seq)).toContain('it would end before that');
});

test('a board that is held since does not go again; the refusal names board and job', async () => {
  const shop = await Shop.open();
  const { seq } = shop.tell({
    do: 'take-in-boards',
    rows: [boardOf('Q-1'), boardOf('Q-2')].map((draft, row) => ({ row, draft })),
    allOrNothing: true,
    faults: [],
  });
  shop.tell({ do: 'reserve', jobId: shop.job('Hall table', partOf('leg')), boards: [{ tag: 'Q-2' }] });
  expect(shop.refused({ do: 'undo', seq }).detail).toBe(
    'This cannot be undone now: Q-2 would go, but it is held for Hall table.',
  );
});

test('a board at the saw does not get its old size back', async () => {
  const { shop, first, correct, undone, held } = await twoBoards();
  const seq = correct(first, { widthNm: 9 * INCH });
  const { planId } = held();
  shop.tell({ do: 'open-session', planId, boardIds: null });
  expect(undone(seq)).toContain('the board is at the saw');
});

test('a release is not undone for a job that ended since', async () => {
  const { shop, table, undone } = await twoBoards();
  const { seq } = shop.tell({ do: 'release', ids: shop.reserve(table, 'Q-1') });
  const ifVersion = shop.state().get('job', table)?.version ?? 0;
  shop.tell({ do: 'change-job', jobId: table, ifVersion, patch: { state: 'done' } });
  expect(undone(seq)).toContain('a job that is not open');
});

test('a release is not undone for a plan that was dropped since', async () => {
  const { shop, undone, held } = await twoBoards();
  const { planId, reservationIds } = held();
  const { seq } = shop.tell({ do: 'release', ids: reservationIds.slice(0, 1) });
  shop.tell({ do: 'drop-plan', planId });
  expect(undone(seq)).toContain('a plan that is no longer open');
});

test('a session is not opened again by undo once its plan has ended', async () => {
  const { shop, first, table, undone, held } = await twoBoards();
  const { planId } = held();
  const { sessionId = '' } = shop.tell({ do: 'open-session', planId, boardIds: [first] });
  shop.tell({ do: 'move-pieces', jobId: table, steps: [shop.step('leg', 1, 'wanted')] });
  const boards = [{ as: 'untouched' as const, boardId: first, why: '' }];
  const { seq } = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: false, boards, allowExtra: false });
  shop.tell({ do: 'drop-plan', planId });
  expect(undone(seq)).toContain('a session would be open whose plan or job is closed');
});

test('a job that was opened is not undone while it holds boards', async () => {
  const { shop, undone } = await twoBoards();
  const bench = shop.job('Bench');
  const seq = shop.seq();
  shop.reserve(bench, 'Q-1');
  expect(undone(seq)).toContain('it holds boards');
  // No board of its own stands in the way, so none is named.
  expect(shop.refused({ do: 'undo', seq })).not.toHaveProperty('conflicts');
});

test('a write-off undone and done again is refused while the board is held', async () => {
  const { shop, first, table, undone } = await twoBoards();
  const { seq } = shop.tell({ do: 'write-off-board', boardId: first, why: 'rot' });
  const redo = shop.tell({ do: 'undo', seq }).seq;
  shop.reserve(table, 'Q-1');
  expect(undone(redo)).toContain('it would no longer be in stock');
  const { conflicts } = shop.refused({ do: 'undo', seq: redo });
  expect(conflicts?.map(({ tag, jobName, wayOut }) => [tag, jobName, wayOut])).toEqual([
    ['Q-1', 'Hall table', 'release it first'],
  ]);
});
