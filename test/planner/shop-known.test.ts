/** A plan in hand is never bettered by a worse one: with more boards, with more to cut, and when it is only asked for again. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { JobWithParts, Part } from '../../worker/contract/job.ts';
import type { PlanBody } from '../../worker/contract/plan.ts';
import { type CuttingInput, planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, heldFor, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';
import { planFaults } from './shop-plan-check.ts';

const KEPT = 'Nothing better was found: this is the plan that you had.';
const ADDED = 'The plan that you had stays as it is; what is new was added to it.';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
function planOf(owner: JobWithParts, boards: readonly BoardView[], more: Partial<CuttingInput> = {}): PlanBody {
  const answer = planCutting({
    job: owner,
    boards,
    settings: shopSettings(),
    effort: 'quick',
    seed: 1,
    aim: 'least-cost',
    worth: COMMON_WORTH,
    ...more,
  });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}

const rowOf = fc.record({
  length: fc.integer({ min: 8, max: 50 }),
  width: fc.integer({ min: 3, max: 12 }),
  quantity: fc.integer({ min: 1, max: 4 }),
  use: fc.constantFrom('critical' as const, 'visible' as const, 'hidden' as const),
  matchGroup: fc.constantFrom(null, null, 'pair'),
});
const rowsOf = fc
  .array(rowOf, { minLength: 2, maxLength: 6 })
  .map((rows) =>
    rows.map(({ length, width, ...more }, at) =>
      part({ ...sizes(length, width / 2, 0.75), ...more, key: `P${at}`, label: `Part ${at}`, faces: 'hidden' }),
    ),
  );
const stockOf = fc
  .array(fc.record({ length: fc.integer({ min: 30, max: 110 }), width: fc.integer({ min: 4, max: 11 }) }), {
    minLength: 4,
    maxLength: 9,
  })
  .map((rows) => rows.map(({ length, width }, at) => board({ ...sizes(length, width, 1), tag: `K-${at}` })));

/** Worth placed of each tier, pieces of the group that come from one board, wood opened: in this order. */
function figuresOf(plan: PlanBody, rows: readonly Part[]): readonly number[] {
  const rowOfKey = new Map(rows.map((row) => [row.key, row]));
  const pieces = plan.layouts.flatMap((layout) => layout.pieces.map((one) => ({ ...one, on: layout.boardId })));
  const worth = [0, 0, 0];
  for (const { partKey, fromNm, toNm, leftNm, rightNm } of pieces) {
    const tier = ['critical', 'visible', 'hidden'].indexOf(rowOfKey.get(partKey)?.use ?? 'hidden');
    const [length, width] = [(toNm - fromNm) / inch(1), (rightNm - leftNm) / inch(1)];
    worth[tier] = (worth[tier] ?? 0) + length ** 1.5 * width;
  }
  const pair = pieces.filter(({ partKey }) => rowOfKey.get(partKey)?.matchGroup === 'pair');
  const matching = new Set(pair.map(({ on }) => on)).size === 1 ? pair.length : 0;
  return [...worth, matching, -plan.stockUsedM3];
}

function isWorse(plan: PlanBody, than: PlanBody, rows: readonly Part[]): boolean {
  const [now, before] = [figuresOf(plan, rows), figuresOf(than, rows)];
  for (const [at, figure] of now.entries()) {
    const difference = figure - (before[at] ?? 0);
    if (Math.abs(difference) > 1e-6 * Math.max(1, Math.abs(figure))) return difference < 0;
  }
  return false;
}

const expectSound = (plan: PlanBody, boards: readonly BoardView[]) =>
  expect(planFaults(plan, boards, (one) => one.defects)).toEqual([]);

describe('a plan in hand, at random', () => {
  test('asked for again, with boards more, with rows more: never worse', () => {
    fc.assert(
      fc.property(rowsOf, stockOf, fc.integer({ min: 1, max: 9 }), (rows, stock, seed) => {
        const [boards, fewer] = [stock, stock.slice(0, -2)];
        const first = planOf(job(rows), fewer, { seed });
        const known = first.layouts;
        const again = planOf(job(rows), fewer, { seed: seed + 1, known });
        expect(isWorse(again, first, rows)).toBe(false);
        const more = planOf(job(rows), boards, { known });
        expect(isWorse(more, first, rows)).toBe(false);
        expectSound(more, boards);
        const fewRows = planOf(job(rows.slice(0, -1)), fewer, { seed });
        const longer = planOf(job(rows), fewer, { known: fewRows.layouts });
        expect(isWorse({ ...longer, stockUsedM3: 0 }, { ...fewRows, stockUsedM3: 0 }, ungrouped(rows))).toBe(false);
        expectSound(longer, fewer);
      }),
      { numRuns: 12 },
    );
  }, 120_000);
});

/** More rows may part a group that was together while it was alone. */
const ungrouped = (rows: readonly Part[]) => rows.map((row) => ({ ...row, matchGroup: null }));

// Rough: 41 x 5 3/4 in. One board gives two shelves in its length.
const shelf = part({ ...sizes(40, 5.5, 0.75), key: 'S', label: 'Shelf', quantity: 2, faces: 'hidden' });
const plank = board({ ...sizes(90, 6, 1), tag: 'plank' });
const placesOf = (plan: PlanBody) =>
  plan.layouts.map(({ tag, pieces, cuts }) => [tag, pieces, cuts.map(({ words }) => words)]);

describe('a plan in hand, by hand', () => {
  const first = planOf(job([shelf]), [plank]);

  test('stays to the cut where nothing better is found, and says so', () => {
    const dear = board({ ...sizes(120, 12, 1), tag: 'dear' });
    const again = planOf(job([shelf]), [dear, plank], { known: first.layouts, seed: 7 });
    expect(placesOf(again)).toEqual(placesOf(first));
    expect(again.changes[0]).toBe(KEPT);
    expect(first.changes).not.toContain(KEPT);
  });

  test('gives way to a better one without a word', () => {
    const exact = board({ ...sizes(84.25, 5.75, 1), tag: 'exact' });
    const again = planOf(job([shelf]), [exact, plank], { known: first.layouts });
    expect(again.layouts.map(({ tag }) => tag)).toEqual(['exact']);
    expect([KEPT, ADDED].some((note) => again.changes.includes(note))).toBe(false);
  });

  test('what is wanted anew is added to it', () => {
    const slat = part({ ...sizes(30, 5, 0.75), key: 'L', label: 'Slat', faces: 'hidden' });
    const more = planOf(job([shelf, slat]), [plank, board({ ...sizes(36, 6, 1), tag: 'short' })], {
      known: first.layouts,
    });
    expect(more.placedCount).toBe(3);
    expect(more.changes[0]).toBe(ADDED);
  });

  test('a board that another job holds now, or that is gone, is out of it', () => {
    const other = board({ ...sizes(100, 6, 1), tag: 'other' });
    const held = { ...plank, held: [heldFor('jb_other', 0, inch(90))] };
    for (const boards of [[held, other], [other]]) {
      const again = planOf(job([shelf]), boards, { known: first.layouts });
      expect(again.layouts.map(({ tag }) => tag)).toEqual(['other']);
      expect(again.changes).not.toContain(KEPT);
    }
  });

  test('wood that is too wet now, or a knot found where a shelf lay, is not used', () => {
    const wet = { ...plank, readings: [{ moisturePercent: 30, on: '2026-04-01', meter: 'pin' as const }] };
    expect(planOf(job([shelf]), [wet], { known: first.layouts }).placedCount).toBe(0);
    const [lay] = first.layouts[0]?.pieces ?? [];
    if (!lay) throw new Error('nothing planned');
    const rect = { fromNm: lay.fromNm + inch(2), toNm: lay.toNm - inch(2), leftNm: 0, rightNm: inch(6) };
    const knotty = { ...plank, defects: [{ kind: 'knot-loose' as const, face: 'through' as const, ...rect }] };
    const again = planOf(job([shelf]), [knotty], { known: first.layouts });
    expect(again.placedCount).toBe(1);
    expectSound(again, [knotty]);
  });

  test('fewer are wanted now: no piece too many', () => {
    const again = planOf(job([{ ...shelf, quantity: 1 }]), [plank], { known: first.layouts });
    expect([again.placedCount, again.layouts.length]).toEqual([1, 1]);
  });
});
