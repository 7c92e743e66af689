/** Plans side by side: each best at something, with what it gives up for it in one line. */
import { type Alternative, type Layout, type PlanAim, type PlanBody, planAim } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { boardFeetFromM3 } from '../wood/volume.ts';
import { listed } from './listed.ts';
import { compare } from './plan.ts';
import { type CuttingInput, type NoPlan, planCutting } from './shop.ts';

type Figures = Omit<Alternative, 'trades' | 'bestAt'>;

export type Alternatives =
  | { readonly ok: true; readonly alternatives: Alternative[] }
  | { readonly ok: false; readonly refusal: NoPlan };

/** What each aim saves. */
const savedBy: Readonly<Record<PlanAim, (plan: Figures) => number>> = {
  'least-cost': (plan) => plan.stockUsedM3,
  'fewest-boards': (plan) => plan.boardCount,
  'fewest-cuts': (plan) => plan.cutCount + plan.settingCount,
};
/** Two plans that differ by less are as good as each other. */
const SAME_SHARE = 0.01;

/** knownFor: the plan in hand for an aim, as it is given when a plan for that aim is asked for. */
export function alternativesFor(
  input: Omit<CuttingInput, 'aim' | 'known'>,
  knownFor: (aim: PlanAim) => readonly Layout[],
): Alternatives {
  const plans: Figures[] = [];
  for (const aim of planAim.options) {
    const answer = planCutting({ ...input, aim, known: knownFor(aim) });
    if (!answer.ok) return answer;
    plans.push(figuresOf(answer.plan));
  }
  const chosen = bestAtSomething(plans);
  const { settings } = input;
  const alternatives = chosen.map((plan) => ({
    ...plan,
    bestAt: planAim.options.filter((aim) => isAsGood(plan, chosen, aim)),
    trades: tradesOf(plan, chosen, settings),
  }));
  return { ok: true, alternatives };
}

function figuresOf(plan: PlanBody): Figures {
  return {
    aim: plan.aim,
    effort: plan.effort,
    seed: plan.seed,
    placedCount: plan.placedCount,
    wantedCount: plan.wantedCount,
    yieldPercent: plan.yieldPercent,
    cutCount: plan.cutCount,
    settingCount: plan.settingCount,
    stockUsedM3: plan.stockUsedM3,
    stockBoundM3: plan.stockBoundM3,
    gapPercent: plan.gapPercent,
    boardCount: plan.layouts.length,
    tags: plan.layouts.map(({ tag }) => tag),
    cost: plan.cost ?? { minor: 0, unpricedCount: plan.layouts.length, shopPricedCount: 0 },
  };
}

/** A plan stays when it places as much as any and no plan that stays is as good at what it is for. */
function bestAtSomething(plans: readonly Figures[]): readonly Figures[] {
  const placedMost = Math.max(...plans.map(({ placedCount }) => placedCount));
  const able = plans.filter(({ placedCount }) => placedCount === placedMost);
  const chosen: Figures[] = [];
  for (const aim of planAim.options) {
    // Of plans that save alike the one that is better at the rest, so that none that stays is worse at everything.
    const inTurn = [aim, ...planAim.options].map((each) => savedIn(able, each));
    const scoreOf = (plan: Figures) => inTurn.map((saved) => -saved(plan));
    const best = able.reduce((least, plan) => (compare(scoreOf(plan), scoreOf(least)) > 0 ? plan : least));
    if (!chosen.some((plan) => isAsGood(plan, able, aim))) chosen.push(best);
  }
  return chosen;
}

/** What a plan saves by an aim; cost in money only where every board of all of them has a price. */
function savedIn(plans: readonly Figures[], aim: PlanAim): (plan: Figures) => number {
  const isPriced = plans.every(({ cost }) => cost.unpricedCount === 0);
  return aim === 'least-cost' && isPriced ? (plan) => plan.cost.minor : savedBy[aim];
}

function isAsGood(plan: Figures, plans: readonly Figures[], aim: PlanAim): boolean {
  const saved = savedIn(plans, aim);
  return saved(plan) <= Math.min(...plans.map(saved)) * (1 + SAME_SHARE);
}

function tradesOf(plan: Figures, all: readonly Figures[], settings: Settings): string {
  const least = (figure: (one: Figures) => number) => Math.min(...all.map(figure));
  const gives: string[] = [];
  const woodM3 = plan.stockUsedM3 - least((one) => one.stockUsedM3);
  if (woodM3 > least((one) => one.stockUsedM3) * SAME_SHARE) gives.push(`${volumeText(woodM3, settings)} more wood`);
  const boards = plan.boardCount - least((one) => one.boardCount);
  if (boards > 0) gives.push(`${boards} more ${boards === 1 ? 'board' : 'boards'}`);
  const cuts = plan.cutCount - least((one) => one.cutCount);
  if (cuts > 0) gives.push(`${cuts} more ${cuts === 1 ? 'cut' : 'cuts'}`);
  const sets = plan.settingCount - least((one) => one.settingCount);
  if (sets > 0) gives.push(`${sets} more ${sets === 1 ? 'setting' : 'settings'}`);
  if (all.length === 1) return 'No other plan found is better at anything.';
  return gives.length === 0 ? 'Gives up nothing.' : `Takes ${listed(gives)} than it could.`;
}

function volumeText(volumeM3: number, settings: Settings): string {
  return settings.shown === 'in' ? `${boardFeetFromM3(volumeM3).toFixed(1)} bf` : `${volumeM3.toFixed(3)} m³`;
}
