/** What came out at the saw: pieces, offcuts, holds of other jobs, and the wood balance. */
import { expect, test } from 'vitest';
import { boardOf, INCH, KERF, partOf, Shop } from './shop.ts';

/** A board of 100 x 8 x 2 in; two legs of 30 x 8 in leave an offcut of 100 - 60 - 2/8 = 39 3/4 in. */
async function legsAtTheSaw(how: 'whole' | 'runs' = 'whole') {
  const shop = await Shop.open();
  const [boardId = ''] = shop.takeIn(boardOf('Q-7', { place: 'rack 2', costMinor: 20_000 }));
  const jobId = shop.job('Hall table', partOf('leg', { label: 'Leg', quantity: 4 }));
  const { planId, sessionId } = shop.atTheSaw(jobId, { 'Q-7': [{ key: 'leg', count: 2 }] }, how);
  return { shop, boardId, jobId, planId, sessionId };
}

const cut = { as: 'cut' as const, offcuts: [], defectsFound: [], note: '' };
const legs = (good: number, failed = 0, why = '') => ({ partKey: 'leg', element: null, good, failed, why });

test('as planned with one click: pieces rest, the offcut is a board of its own, the balance closes', async () => {
  const { shop, boardId, jobId, planId, sessionId } = await legsAtTheSaw();
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const rested = shop.pieces(jobId, 'leg').filter((piece) => piece.state === 'roughed');
  // Seven days for a critical part: the shop's default, common practice, no source.
  expect(rested.map((piece) => piece.restingUntil)).toEqual(['2026-03-09', '2026-03-09']);
  expect(rested.map((piece) => piece.boardId)).toEqual([boardId, boardId]);
  const offcut = shop.board('Q-7-1');
  expect(offcut.lengthNm).toBe(100 * INCH - 2 * (30 * INCH + KERF));
  expect(offcut.origin).toEqual({ kind: 'offcut', parentId: boardId, sessionId });
  expect(offcut.costMinor).toBe(7_950);
  expect(shop.board(boardId).state).toBe('cut-up');
  expect(shop.state().get('plan', planId)?.state).toBe('done');
  expect(shop.state().get('session', sessionId)?.state).toBe('closed');
  expect(shop.state().reservationsOnBoard(boardId)).toEqual([]);
  const side = BigInt(8 * INCH) * BigInt(2 * INCH);
  expect(told.balances).toEqual([
    {
      boardId,
      tag: 'Q-7',
      inNm3: String(BigInt(100 * INCH) * side),
      partsNm3: String(BigInt(60 * INCH) * side),
      failedNm3: '0',
      offcutsNm3: String(BigInt(39.75 * INCH) * side),
      kerfNm3: String(BigInt(2 * KERF) * side),
      scrapNm3: '0',
      writeOffNm3: '0',
    },
  ]);
  shop.expectSound();
});

test('a failed leg stays as history and is wanted again', async () => {
  const { shop, boardId, jobId, sessionId } = await legsAtTheSaw();
  const told = shop.tell({
    do: 'reconcile',
    sessionId,
    restAsPlanned: false,
    boards: [{ ...cut, boardId, parts: [legs(1, 1, 'a shake opened')] }],
    allowExtra: false,
  });
  expect(shop.pieces(jobId, 'leg').map((piece) => [piece.no, piece.attempt, piece.state])).toEqual([
    [1, 1, 'failed'],
    [1, 2, 'wanted'],
    [2, 1, 'roughed'],
    [3, 1, 'wanted'],
    [4, 1, 'wanted'],
  ]);
  expect(told.wantedAgain).toEqual([{ partKey: 'leg', label: 'Leg', element: null, count: 1 }]);
  shop.expectSound();
});
