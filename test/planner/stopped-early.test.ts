/** A search that is stopped early holds a place for every piece that a finished one does, whatever its wood. */
import { expect, test } from 'vitest';
import type { PlanProgress } from '../../worker/contract/plan.ts';
import { planCutting, planSteps } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

const settings = shopSettings();
const thicknessNm = inch(1);
const boards = ['white oak', 'walnut', 'ash'].flatMap((species) =>
  Array.from({ length: 4 }, (_, at) =>
    board({ tag: `${species} ${at}`, species, lengthNm: inch(70 + 6 * at), widthNm: inch(6), thicknessNm }),
  ),
);
const rows = ['white oak', 'walnut', 'ash'].map((species, at) =>
  part({
    key: species,
    label: `${species} rail`,
    species,
    quantity: 3,
    lengthNm: inch(40 - at),
    widthNm: inch(2.5),
    thicknessNm: inch(0.75),
  }),
);
const input = {
  job: job(rows),
  boards,
  settings,
  effort: 'normal',
  seed: 1,
  aim: 'least-cost',
  worth: COMMON_WORTH,
} as const;

function firstLook(): PlanProgress {
  const step = planSteps(input).next();
  if (step.done) throw new Error('no step on the way');
  return step.value.look();
}

test('the first look at a plan of three woods has all three, and taken as it is nothing is called used up', () => {
  const look = firstLook();
  expect(look.wantedCount).toBe(9);
  expect(look.placedCount).toBe(9);
  const answer = planCutting({ ...input, taken: look.best });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  expect(answer.plan.placedCount).toBe(9);
  expect(answer.plan.unplaced).toEqual([]);
});

test('what was not come to is not said to be used up', () => {
  const { best } = firstLook();
  const answer = planCutting({ ...input, taken: best.slice(0, 1) });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  const missing = answer.plan.unplaced.map(({ why }) => why);
  expect(missing.length).toBeGreaterThan(0);
  for (const why of missing) expect(why).toMatch(/may give it, but no place was found in this search/);
});
