import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import { type Alternative, alternativesAnswer, planAim } from '../../worker/contract/plan.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { alternativesFor } from '../../worker/planner/shop-alternatives.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';
import { figuresByAim } from './made-jobs.ts';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
const asked = (rows: readonly Part[], boards: readonly BoardView[]) => ({
  job: job(rows),
  boards,
  settings: shopSettings(),
  effort: 'quick' as const,
  seed: 1,
  worth: COMMON_WORTH,
});
function alternatives(rows: readonly Part[], boards: readonly BoardView[]): readonly Alternative[] {
  const answer = alternativesFor(asked(rows, boards), () => []);
  if (!answer.ok) throw new Error(answer.refusal.detail);
  expect(alternativesAnswer.safeParse({ alternatives: answer.alternatives }).error).toBeUndefined();
  return answer.alternatives;
}
// A shelf needs 41 x 5 3/4 in rough.
const shelf = part({ ...sizes(40, 5.5, 0.75), key: 'S', label: 'Shelf', quantity: 2 });
const short = (tag: string) => board({ ...sizes(45, 6.5, 1), tag });

describe('plans side by side', () => {
  const found = alternatives([shelf], [short('S1'), short('S2'), board({ ...sizes(96, 8, 1), tag: 'L' })]);

  test('two short boards open least wood, one long board is one board', () => {
    expect(found.map(({ aim, tags }) => [aim, tags])).toEqual([
      ['least-cost', ['S1', 'S2']],
      ['fewest-boards', ['L']],
    ]);
  });

  test('each says in one line what it gives up, by hand', () => {
    // 96 x 8 less 2 x 45 x 6.5 = 183 in2 at 1 in: 1.27 bf.
    expect(found[0]?.trades).toMatch(/^Takes 1 more board( and|, ).*than it could\.$/);
    expect(found[1]?.trades).toMatch(/^Takes 1\.3 bf more wood.*than it could\.$/);
  });

  test('asking for a plan with the same aim, effort and seed gives that very plan', () => {
    const input = asked([shelf], [short('T1'), short('T2'), board({ ...sizes(96, 8, 1), tag: 'M' })]);
    const answer = alternativesFor(input, () => []);
    if (!answer.ok) throw new Error(answer.refusal.detail);
    for (const one of answer.alternatives) {
      const again = planCutting({ ...input, aim: one.aim, effort: one.effort, seed: one.seed });
      if (!again.ok) throw new Error(again.refusal.detail);
      const { layouts, cutCount, settingCount, stockUsedM3 } = again.plan;
      expect(layouts.map(({ tag }) => tag)).toEqual(one.tags);
      expect([cutCount, settingCount, stockUsedM3]).toEqual([one.cutCount, one.settingCount, one.stockUsedM3]);
    }
  });
});

test('where one plan is best at everything it stands alone', () => {
  const found = alternatives([{ ...shelf, quantity: 1 }], [short('S1')]);
  expect(found).toMatchObject([{ aim: 'least-cost', trades: 'No other plan found is better at anything.' }]);
});

test('widths a little apart are ripped at one setting where cuts are saved', () => {
  const rows = [6, 6.125, 6.25].map((width, at) =>
    part({ ...sizes(20, width, 0.75), key: `R${at}`, label: `Rail ${at}`, quantity: 2 }),
  );
  const boards = [board({ ...sizes(140, 7, 1), tag: 'P' }), board({ ...sizes(150, 8, 1), tag: 'Q' })];
  const input = asked(rows, boards);
  const widthsOf = (aim: 'least-cost' | 'fewest-cuts') => {
    const answer = planCutting({ ...input, aim });
    if (!answer.ok) throw new Error(answer.refusal.detail);
    expect(answer.plan.unplaced).toEqual([]);
    return {
      plan: answer.plan,
      widths: new Set(answer.plan.layouts.flatMap((l) => l.pieces.map((p) => p.rightNm - p.leftNm))),
    };
  };
  const [least, few] = [widthsOf('least-cost'), widthsOf('fewest-cuts')];
  expect([least.widths.size, few.widths.size]).toEqual([3, 1]);
  expect([...few.widths][0]).toBe(inch(6.5));
  expect(few.plan.settingCount).toBeLessThan(least.plan.settingCount);
});

test('a plan is called by what it is best at, all of it, whatever it was searched for', () => {
  const found = alternatives([shelf], [short('S1'), short('S2'), board({ ...sizes(96, 8, 1), tag: 'L' })]);
  expect(found.map(({ bestAt }) => bestAt)).toEqual([['least-cost'], ['fewest-boards', 'fewest-cuts']]);
  const [only] = alternatives([shelf], [board({ ...sizes(96, 8, 1), tag: 'L' })]);
  expect(only?.bestAt).toEqual(['least-cost', 'fewest-boards', 'fewest-cuts']);
});

test('where cuts are saved, fewer are made, counted as the plan shows them', () => {
  const jobs = [5, 6, 12].map((seed) => figuresByAim(seed, 'quick'));
  const sum = (aim: 'least-cost' | 'fewest-cuts') =>
    jobs.reduce((total, plans) => total + plans[aim]['fewest-cuts'], 0);
  for (const plans of jobs) expect(plans['fewest-cuts'].placed).toBe(plans['least-cost'].placed);
  expect(sum('fewest-cuts')).toBeLessThan(0.9 * sum('least-cost'));
}, 120_000);

test('of two boards that serve alike the one that cost less is opened', () => {
  const dear = board({ ...sizes(45, 6.5, 1), tag: 'dear', costMinor: 9000 });
  const cheap = board({ ...sizes(50, 7, 1), tag: 'cheap', costMinor: 3000 });
  const [found] = alternatives([{ ...shelf, quantity: 1 }], [dear, cheap]);
  expect([found?.tags, found?.cost]).toEqual([['cheap'], { minor: 3000, unpricedCount: 0, shopPricedCount: 0 }]);
});

test('at random: each is best at what it is called, none is worse than another at everything, all place as much', () => {
  const boardsOf = fc.array(fc.tuple(fc.integer({ min: 40, max: 110 }), fc.integer({ min: 5, max: 11 })), {
    minLength: 6,
    maxLength: 10,
  });
  const rowsOf = fc.array(
    fc.tuple(fc.integer({ min: 10, max: 45 }), fc.integer({ min: 3, max: 10 }), fc.integer({ min: 1, max: 4 })),
    { minLength: 3, maxLength: 5 },
  );
  fc.assert(
    fc.property(boardsOf, rowsOf, fc.boolean(), (stock, rows, isPriced) => {
      const boards = stock.map(([length, width], at) =>
        board({ ...sizes(length, width, 1), costMinor: isPriced ? length * width * (5 + (at % 4)) : null }),
      );
      const parts = rows.map(([length, width, quantity], at) =>
        part({ ...sizes(length, width / 2, 0.75), key: `P${at}`, quantity, use: at === 0 ? 'critical' : 'visible' }),
      );
      const found = alternatives(parts, boards);
      const figures = found.map(({ cost, stockUsedM3, boardCount, cutCount, settingCount }) => ({
        'least-cost': isPriced ? cost.minor : stockUsedM3,
        'fewest-boards': boardCount,
        'fewest-cuts': cutCount + settingCount,
      }));
      for (const [at, { bestAt, placedCount }] of found.entries()) {
        const mine = figures[at];
        if (!mine) throw new Error('no figures');
        expect(placedCount).toBe(found[0]?.placedCount);
        expect(bestAt.length).toBeGreaterThan(0);
        // Plans within a hundredth are called as good as each other.
        for (const aim of bestAt)
          for (const other of figures) expect(mine[aim]).toBeLessThanOrEqual(other[aim] * 1.01 + 1e-12);
        const isWorse = (other: typeof mine) =>
          planAim.options.every((aim) => other[aim] <= mine[aim]) &&
          planAim.options.some((aim) => other[aim] < mine[aim]);
        expect(figures.some(isWorse)).toBe(false);
      }
    }),
    { numRuns: 6 },
  );
}, 120_000);

test('what cannot be planned is refused as a plan would be', () => {
  expect(alternativesFor(asked([], []), () => [])).toMatchObject({ ok: false, refusal: { why: 'nothing-to-cut' } });
});
