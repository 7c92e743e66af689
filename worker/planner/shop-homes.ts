/** Homes for groups that should match, chosen by trial. */
import type { Settings } from '../contract/settings.ts';
import { compare, type Plan, type Score } from './plan.ts';
import type { Problem, Solution } from './problem.ts';
import { asFits } from './shop-known.ts';
import { type Home, homesOf, isSister, keptTogether, type MatchGroup } from './shop-match.ts';
import type { Candidate, ShopProblem } from './shop-problem.ts';
import type { SetSearch } from './shop-solve.ts';
import { looked, placedWorth, tiersTogether } from './shop-tiers.ts';

const TRIALS_MOST = 10;
/** Homes tried for what the plan then costs, once all is placed. */
const CHEAPER_MOST = 4;

export interface Kept {
  readonly shop: ShopProblem;
  readonly options: readonly (readonly Home[])[];
  readonly homes: readonly (Home | null)[];
  readonly solution: Solution;
  /** Proven for the problem in which nothing has to match. */
  readonly freeBound: number;
}

/**
 * Homes for all groups by trial: first where a free plan cuts most of each group, then one group after another moves on,
 * or goes free, until as much is placed as without any matching.
 */
export function keepMatches(
  free: ShopProblem,
  candidates: readonly Candidate[],
  groups: readonly MatchGroup[],
  settings: Settings,
  search: SetSearch,
  inHand: Plan,
): Kept {
  const options = groups.map((group) => homesOf(group, free.wanted, candidates, settings));
  const scout = { shop: free, homes: groups.map(() => null), solution: looked(free.problem, search, inHand) };
  const trial = (homes: readonly (Home | null)[]): Trial => {
    const shop = keptTogether(free, groups, homes);
    const { problem } = shop;
    const together = tiersTogether(problem, scout.solution.placed);
    return { shop, homes, solution: looked(together, search, asFits(problem, inHand)) };
  };
  const loose = placedWorth(free.problem, scout.solution.placed);
  const isShort = ({ solution }: Trial) => isLess(placedWorth(free.problem, solution.placed), loose);
  const left = groups.map((group, at) => byScout(options[at] ?? [], group, free, scout.solution));
  let best = trial(left.map((homes) => homes.shift() ?? null));
  let now = best;
  for (let turn = 0; turn < TRIALS_MOST && isShort(best); turn++) {
    const moved = mostMissing(groups, now.homes, now.solution);
    if (moved === null) break;
    now = trial(now.homes.map((home, at) => (at === moved ? (left[at]?.shift() ?? null) : home)));
    if (!isLess(placedWorth(free.problem, now.solution.placed), placedWorth(free.problem, best.solution.placed)))
      best = now;
  }
  best = isShort(best) ? scout : cheaper(best, groups, left, free, trial);
  return { ...best, options, freeBound: scout.solution.bound };
}

interface Trial {
  readonly shop: ShopProblem;
  readonly homes: readonly (Home | null)[];
  readonly solution: Solution;
}

/** One group after another at its next homes, as long as they match it as well: where all costs less. */
function cheaper(
  start: Trial,
  groups: readonly MatchGroup[],
  left: readonly (readonly Home[])[],
  { problem, boards }: ShopProblem,
  trial: (homes: readonly (Home | null)[]) => Trial,
): Trial {
  const rankOf = (home: Home, { cutFrom }: MatchGroup) => [home.length, hasSister(home, cutFrom, boards)].join();
  const turns = groups.flatMap((group, at) => {
    const home = start.homes[at];
    if (!home) return [];
    return (left[at] ?? [])
      .filter((other) => rankOf(other, group) === rankOf(home, group))
      .map((other, turn) => ({ at, other, turn }));
  });
  turns.sort((a, b) => a.turn - b.turn || a.at - b.at);
  let best = start;
  for (const { at, other } of turns.slice(0, CHEAPER_MOST)) {
    const now = trial(best.homes.map((home, each) => (each === at ? other : home)));
    if (isLess(placedWorth(problem, now.solution.placed), placedWorth(problem, best.solution.placed))) continue;
    if (costOf(problem, now.solution) < costOf(problem, best.solution)) best = now;
  }
  return best;
}

/** What the boards that are cut cost. */
export const costOf = ({ boards }: Problem, { layouts }: Pick<Solution, 'layouts'>): number =>
  layouts.reduce((sum, { board }) => sum + (boards[board]?.cost ?? 0), 0);

const hasSister = (home: Home, cutFrom: ReadonlySet<string>, boards: ShopProblem['boards']): boolean =>
  home.some((index) => {
    const on = boards[index];
    return on !== undefined && isSister(on, cutFrom);
  });

/** First wood of the boards that gave pieces before, then homes that the free plan cuts most of the group from. */
function byScout(
  homes: readonly Home[],
  { kinds, cutFrom }: MatchGroup,
  { boards }: ShopProblem,
  scout: Solution,
): Home[] {
  const isKnown = (home: Home) => hasSister(home, cutFrom, boards);
  const given = (home: Home) =>
    scout.layouts
      .filter(({ board }) => home.includes(board))
      .reduce((sum, { pieces }) => sum + pieces.filter(({ blank }) => kinds.includes(blank)).length, 0);
  return [...homes].sort((a, b) => Number(isKnown(b)) - Number(isKnown(a)) || given(b) - given(a));
}

const isLess = (a: Score, b: Score): boolean => compare(a, b) < 0;

/** The group with a home that lacks most of its pieces; any with a home where others suffer by it; null when all are free. */
function mostMissing(
  groups: readonly MatchGroup[],
  homes: readonly (Home | null)[],
  { placed }: Solution,
): number | null {
  let most: { readonly at: number; readonly missing: number } | null = null;
  for (const [at, { kinds, pieceCount }] of groups.entries()) {
    if (!homes[at]) continue;
    const missing = pieceCount - kinds.reduce((sum, kind) => sum + (placed[kind] ?? 0), 0);
    if (!most || missing > most.missing) most = { at, missing };
  }
  return most?.at ?? null;
}
