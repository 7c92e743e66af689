/** Made jobs for measuring what plans save by their aim; all invented. */
import { type PlanAim, planAim } from '../../worker/contract/plan.ts';
import type { Effort } from '../../worker/planner/problem.ts';
import { seededRandom } from '../../worker/planner/random.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

/** 8 to 30 boards, 4 to 9 rows in the sizes that a shop asks for. */
export function madeJob(seed: number) {
  const random = seededRandom(seed);
  const between = (least: number, most: number) => least + random.below(most - least + 1);
  const boards = Array.from({ length: between(8, 30) }, (_, at) => {
    const length = between(60, 144);
    const width = between(8, 22) / 2;
    const costMinor = Math.round(length * width * between(6, 11));
    return board({ tag: `B${at}`, lengthNm: inch(length), widthNm: inch(width), thicknessNm: inch(1), costMinor });
  });
  const rows = Array.from({ length: between(4, 9) }, (_, at) =>
    part({
      key: `P${at}`,
      label: `Part ${at}`,
      quantity: between(1, 6),
      lengthNm: inch(between(20, 96) / 2),
      widthNm: inch(between(8, 36) / 4),
      thicknessNm: inch(0.75),
      use: at === 0 ? 'critical' : 'visible',
    }),
  );
  return { job: job(rows), boards };
}

/** Money, boards, and cuts with settings. */
export type Figures = Readonly<Record<PlanAim, number>> & { readonly placed: number };

/** The plan that is searched for each aim. */
export function figuresByAim(seed: number, effort: Effort): Readonly<Record<PlanAim, Figures>> {
  const input = { ...madeJob(seed), settings: shopSettings(), effort, seed: 1, worth: COMMON_WORTH };
  const figuresOf = (aim: PlanAim): Figures => {
    const answer = planCutting({ ...input, aim });
    if (!answer.ok) throw new Error(answer.refusal.detail);
    const { cost, layouts, cutCount, settingCount, placedCount } = answer.plan;
    return {
      'least-cost': cost?.minor ?? 0,
      'fewest-boards': layouts.length,
      'fewest-cuts': cutCount + settingCount,
      placed: placedCount,
    };
  };
  const [cost, boards, cuts] = planAim.options.map(figuresOf);
  if (!cost || !boards || !cuts) throw new Error('no plans');
  return { 'least-cost': cost, 'fewest-boards': boards, 'fewest-cuts': cuts };
}
