/** Order at the saw: demanding parts first, strips kept whole as their reserve until those have rested and passed. */
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import { type PlanBody, planBody } from '../../worker/contract/plan.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';
import { planFaults } from './shop-plan-check.ts';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
function planOf(rows: readonly Part[], boards: readonly BoardView[]): PlanBody {
  const settings = shopSettings();
  const answer = planCutting({
    job: job(rows),
    boards,
    settings,
    effort: 'quick',
    seed: 1,
    aim: 'least-cost',
    worth: COMMON_WORTH,
  });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  expect(planBody.safeParse(answer.plan).error).toBeUndefined();
  expect(planFaults(answer.plan, boards, (one) => one.defects)).toEqual([]);
  return answer.plan;
}
// Rough: a rail 61 x 2 3/4 in, a slat 15 x 2 3/4 in.
const rail = part({ ...sizes(60, 2.5, 0.75), key: 'R', label: 'Rail', use: 'critical' });
const slat = part({ ...sizes(14, 2.5, 0.75), key: 'S', label: 'Slat', quantity: 4, use: 'hidden', faces: 'hidden' });
const plank = (more: Partial<BoardView> = {}) => board({ ...sizes(64, 6, 1), tag: 'W-1', ...more });

describe('a strip of short parts beside a demanding one', () => {
  const plan = planOf([rail, slat], [plank()]);
  const [layout] = plan.layouts;
  const [reserve] = layout?.reserves ?? [];

  test('is left whole as the reserve of that part', () => {
    expect(layout?.reserves).toHaveLength(1);
    expect(reserve?.standsFor).toEqual([{ partKey: 'R', label: 'Rail' }]);
    // Room for a rail of 61 x 2 3/4 in.
    expect((reserve?.toNm ?? 0) - (reserve?.fromNm ?? 0)).toBeGreaterThanOrEqual(inch(61));
    expect((reserve?.rightNm ?? 0) - (reserve?.leftNm ?? 0)).toBeGreaterThanOrEqual(inch(2.75));
  });

  test('its cuts come last, after everything the rail needs', () => {
    const later = layout?.cuts.filter(({ no }) => no > (reserve?.afterCut ?? 0)) ?? [];
    expect(later.length).toBeGreaterThanOrEqual(3);
    expect(later.every(({ axis }) => axis === 'crosscut')).toBe(true);
    const before = layout?.cuts.filter(({ no }) => no <= (reserve?.afterCut ?? 0)) ?? [];
    expect(before.some(({ words }) => words.includes('Rail 1'))).toBe(true);
    expect(before.some(({ words }) => words.includes('Slat'))).toBe(false);
  });

  test('the plan says which strip stands for which part, and what is cut from it then', () => {
    expect(reserve?.words).toMatch(
      /^Leave .+ whole \(.+ × .+\) until Rail has rested and passed: it is the reserve\. Then cut it from step \d+: Slat 1, Slat 2, Slat 3 and Slat 4\.$/,
    );
    expect(plan.notes).toContain(
      'Strips stay whole as a reserve until those parts have rested and passed: W-1 for Rail.',
    );
  });
});

describe('no reserve is kept', () => {
  test('where the strip could not give the part: a split lies in it', () => {
    const split = { kind: 'split' as const, face: 'through' as const, fromNm: inch(31), toNm: inch(33) };
    const defects = [{ ...split, leftNm: inch(3), rightNm: inch(6) }];
    const [layout] = planOf([rail, { ...slat, quantity: 2 }], [plank({ defects })]).layouts;
    expect(layout?.pieces.some(({ partKey }) => partKey === 'S')).toBe(true);
    expect(layout?.reserves).toEqual([]);
  });

  test('where nothing demanding is cut', () => {
    const plan = planOf([{ ...rail, use: 'visible' }, slat], [plank()]);
    expect(plan.layouts.flatMap(({ reserves }) => reserves)).toEqual([]);
  });
});
