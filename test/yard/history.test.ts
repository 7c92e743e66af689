/** Whatever a shop does, in whatever order: no wood held twice, no wood lost, and the journal alone gives the yard back. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { RandomHistory } from './random-history.ts';
import { Shop } from './shop.ts';

/** Told apart from the rules' own check: plain comparison of all runs of each board. */
function expectNoBoardHeldTwice(shop: Shop): void {
  const held = shop.ask('reservations', { page: { after: null, limit: 10_000 } }).items;
  for (const [at, one] of held.entries()) {
    for (const other of held.slice(at + 1)) {
      if (one.boardId !== other.boardId) continue;
      expect(one.toNm <= other.fromNm || other.toNm <= one.fromNm).toBe(true);
    }
  }
}

test('two thousand movements at random: the yard replays from its journal, wood balances, no board is held twice', async () => {
  const shop = await Shop.open();
  const history = new RandomHistory(shop, 20_260_302);
  while (shop.seq() < 2_200) {
    for (let step = 0; step < 200; step++) history.step();
    expectNoBoardHeldTwice(shop);
  }
  shop.expectSound();
  // Every command was both done and refused on the way, so the history is no walk in the park.
  for (const [name, { done, refused }] of history.counts) {
    expect(done, name).toBeGreaterThan(0);
    if (!['open-job', 'read-moisture'].includes(name)) expect(refused, name).toBeGreaterThan(0);
  }
  expect(history.counts.size).toBe(16);
}, 60_000);

test('any history holds, whatever its seed', async () => {
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 0, max: 4_294_967_295 }), async (seed) => {
      const shop = await Shop.open();
      const history = new RandomHistory(shop, seed);
      for (let step = 0; step < 150; step++) history.step();
      expectNoBoardHeldTwice(shop);
      shop.expectSound();
    }),
    { numRuns: 15 },
  );
}, 60_000);
