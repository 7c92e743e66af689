/** Short blanks come off long strips: stock under 12 in is not ripped against a fence (common practice, no source). */
import { expect, test } from 'vitest';
import type { PlanBody } from '../../worker/contract/plan.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

const SHORT = /shorter than 12"|shorter than 1'/;

function planOf(rows: readonly [length: number, width: number, quantity: number][], lengthIn: number): PlanBody {
  const parts = rows.map(([length, width, quantity], at) =>
    part({
      key: String(at),
      label: `Block ${at}`,
      quantity,
      lengthNm: inch(length),
      widthNm: inch(width),
      thicknessNm: inch(0.75),
    }),
  );
  const stock = board({ lengthNm: inch(lengthIn), widthNm: inch(7), thicknessNm: inch(1) });
  const asked = { job: job(parts), boards: [stock], settings: shopSettings(), effort: 'normal' as const, seed: 1 };
  const answer = planCutting({ ...asked, aim: 'least-cost', worth: COMMON_WORTH });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}

const shortRips = ({ layouts }: PlanBody) =>
  layouts.flatMap(({ cuts }) => cuts.filter(({ axis, of }) => axis === 'rip' && of.toNm - of.fromNm < inch(12)));

test('ten buttons and eight blocks are crosscut from strips, not ripped one by one', () => {
  const plan = planOf(
    [
      [3, 1.5, 10],
      [5, 1.25, 8],
    ],
    58,
  );
  expect(plan.placedCount).toBe(18);
  expect(shortRips(plan)).toEqual([]);
  expect(plan.layouts.flatMap(({ warnings }) => warnings).filter((words) => SHORT.test(words))).toEqual([]);
});

test('an offcut of 9 in can only be ripped short, and its card says which cuts are', () => {
  const plan = planOf([[5, 1.5, 3]], 9);
  const short = shortRips(plan);
  expect(short.length).toBeGreaterThan(0);
  const words = plan.layouts.flatMap(({ warnings }) => warnings).find((one) => SHORT.test(one));
  for (const { no } of short) expect(words).toMatch(new RegExp(`\\b${no}\\b`));
});
