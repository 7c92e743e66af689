/** What the yard remembers of its offcuts: those that were cut up, those thrown out, and what open jobs ask for. */
import { expect, test } from 'vitest';
import { boardOf, INCH, partOf, Shop } from './shop.ts';

test('offcuts that ended say how; those still in stock and whole boards say nothing', async () => {
  const shop = await Shop.open();
  shop.takeIn(boardOf('Q-1'), boardOf('Q-2'), boardOf('Q-3'));
  const jobId = shop.job('Hall table', partOf('leg', { quantity: 2 }));
  const { sessionId } = shop.atTheSaw(jobId, { 'Q-1': [{ key: 'leg' }], 'Q-2': [{ key: 'leg' }] });
  const told = shop.tell({ do: 'reconcile', sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const [first, second] = told.offcuts ?? [];
  if (!first || !second) throw new Error('no offcuts');
  expect(shop.ask('worth-facts', {}).offcuts).toEqual([]);

  shop.tell({ do: 'write-off-board', boardId: first.id, why: 'checked' });
  shop.tell({ do: 'write-off-board', boardId: shop.board('Q-3').id, why: 'worm' });
  const bench = shop.job('Bench', partOf('stub', { quantity: 1 }));
  const next = shop.atTheSaw(bench, { [second.tag]: [{ key: 'stub' }] });
  shop.tell({ do: 'reconcile', sessionId: next.sessionId, restAsPlanned: true, boards: [], allowExtra: false });
  const facts = shop.ask('worth-facts', {});
  expect(facts.offcuts.map(({ isUsed }) => isUsed)).toEqual([true, false]);
  expect(facts.offcuts[0]?.widthNm).toBe(8 * INCH);
  expect(facts.sizes).toEqual([
    { lengthNm: 29 * INCH, widthNm: 7 * INCH, count: 2 },
    { lengthNm: 29 * INCH, widthNm: 7 * INCH, count: 1 },
  ]);
});
