/** The boards that a plan or a takeoff is given are those of its woods: it comes out as if it had been given all. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { limits } from '../../worker/contract/limits.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { learnedWorth } from '../../worker/planner/shop-worth.ts';
import { takeoff } from '../../worker/takeoff/takeoff.ts';
import type { BoardsWanted, Snapshot } from '../../worker/yard/command.ts';
import { boardOf, INCH, owner, partOf, Shop } from '../yard/shop.ts';

const worth = learnedWorth({ offcuts: [], sizes: [] });
const woods = ['white-oak', 'walnut', 'cherry', 'hard-maple'] as const;
const inches = (min: number, max: number) => fc.integer({ min, max }).map((count) => count * INCH);
const aBoard = fc.record({
  species: fc.constantFrom(...woods),
  lengthNm: inches(20, 120),
  widthNm: inches(3, 10),
  thicknessNm: inches(1, 3),
});
const aPart = fc.record({
  species: fc.constantFrom('white-oak', 'walnut'),
  quantity: fc.integer({ min: 1, max: 3 }),
  lengthNm: inches(8, 40),
  widthNm: inches(2, 6),
  thicknessNm: fc.constantFrom(INCH / 2, INCH, (7 * INCH) / 4),
  lamination: fc.constantFrom(null, { kind: 'staves' as const, count: 2 }),
});

function snapshotOf(shop: Shop, jobId: string, boards: BoardsWanted): Snapshot {
  return shop.ask('snapshot', { jobIds: [jobId], boards });
}

test('takeoff and plan of narrowed stock are those of the whole stock', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(aBoard, { maxLength: 14 }),
      fc.array(aPart, { minLength: 1, maxLength: 3 }),
      async (stock, cut) => {
        const shop = await Shop.open();
        if (stock.length > 0) shop.takeIn(...stock.map((board, no) => boardOf(`Q-${no}`, board)));
        const parts = cut.map((part, no) => partOf(`p${no}`, part));
        const jobId = shop.job('Hall table', ...parts);
        const all = snapshotOf(shop, jobId, { which: 'all' });
        const some = snapshotOf(shop, jobId, { which: 'of-jobs', alsoIds: [] });
        const rows = snapshotOf(shop, jobId, { which: 'of-parts', parts });
        expect(all.boards).toHaveLength(stock.length);
        expect(some.boards).toEqual(all.boards.filter(({ species }) => cut.some((part) => part.species === species)));
        expect(rows).toEqual(some);
        const answers = [all, some].map(({ boards, settings, jobs: [job] }) => {
          if (!job) throw new Error('the job is gone');
          const input = { job, boards, settings, effort: 'quick', seed: 1, aim: 'least-cost', worth } as const;
          return [takeoff({ parts: job.parts, boards, settings, jobId }), planCutting(input)];
        });
        expect(answers[1]).toEqual(answers[0]);
      },
    ),
    { numRuns: 25 },
  );
}, 60_000);

test('a wood is found however its boards have it written, and boards asked for by id come too', async () => {
  const shop = await Shop.open();
  const [, , other = ''] = shop.takeIn(
    boardOf('A', { species: 'Quercus alba' }),
    boardOf('B', { species: 'own kind of pear' }),
    boardOf('C', { species: 'walnut' }),
  );
  const tags = (jobId: string, boards: BoardsWanted) => snapshotOf(shop, jobId, boards).boards.map(({ tag }) => tag);
  const oak = shop.job('Oak', partOf('leg', { species: 'white oak' }));
  const pear = shop.job('Pear', partOf('leg', { species: 'Own Kind of Pear' }));
  expect(tags(oak, { which: 'of-jobs', alsoIds: [] })).toEqual(['A']);
  expect(tags(oak, { which: 'of-jobs', alsoIds: [other] })).toEqual(['A', 'C']);
  expect(tags(pear, { which: 'of-jobs', alsoIds: [] })).toEqual(['B']);
  expect(tags(pear, { which: 'named', ids: [other, 'bd_gone00000000'] })).toEqual(['C']);
});

test('beside more boards than one call carries, a job of another wood, a thicker or a longer one is still worked out', async () => {
  const shop = await Shop.open();
  const note = 'x'.repeat(limits.textChars);
  const many = { note, delivery: note, thicknessNm: INCH };
  const deliveries = Math.ceil(limits.snapshotChars / 1_200 / limits.boardsPerIntake) + 1;
  for (let no = 0; no < deliveries; no++) {
    shop.takeIn(...Array.from({ length: limits.boardsPerIntake }, (_, at) => boardOf(`D-${no}-${at}`, many)));
  }
  shop.takeIn(
    boardOf('W-1', { species: 'walnut' }),
    boardOf('T-1', { thicknessNm: 3 * INCH }),
    boardOf('L-1', { thicknessNm: INCH, lengthNm: 120 * INCH }),
  );
  const seen = (over: Parameters<typeof partOf>[1]) => {
    const jobId = shop.job('Small job', partOf('leg', over));
    const answer = shop.yard.core.ask(owner, 'snapshot', {
      jobIds: [jobId],
      boards: { which: 'of-jobs', alsoIds: [] },
    });
    return answer.ok ? answer.answer?.boards.map(({ tag }) => tag) : answer.refusal.why;
  };
  expect(seen({ species: 'walnut' })).toEqual(['W-1']);
  expect(seen({ thicknessNm: 2 * INCH })).toEqual(['T-1']);
  expect(seen({ thicknessNm: INCH, lengthNm: 100 * INCH })).toBe('too-large');
  expect(seen({ thicknessNm: INCH, lengthNm: 100 * INCH + 1 })).toEqual(['L-1']);
}, 60_000);
