/**
 * The search for pieces of one wood: over the boards that can give them, groups that should match kept on one board as
 * long as no piece is lost by it. Every answer is checked by code that shares nothing with the search.
 */
import type { JobWithParts } from '../contract/job.ts';
import type { Layout, PlanAim } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { gridNm } from '../takeoff/grid.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { checkSolution } from './check.ts';
import { effortWork, startJob } from './job.ts';
import { achievedBy, layoutsOf } from './layout.ts';
import { compare, type Plan, placedCounts, type Score } from './plan.ts';
import type { MatchOutcome, SolvedPlan } from './present.ts';
import type { Effort, Problem, Solution } from './problem.ts';
import { orderForSaw } from './saw-order.ts';
import { aimedAt, aimedHandling } from './shop-aim.ts';
import type { ShopBoard } from './shop-board.ts';
import { isCrooked } from './shop-edges.ts';
import type { FitOptions } from './shop-fit.ts';
import { costOf, keepMatches } from './shop-homes.ts';
import { asFits, filledUp, partedAsKnown, stillLying } from './shop-known.ts';
import { matchesIn, matchGroups, matchingPieces } from './shop-match.ts';
import { asIfStraight, partedForMost } from './shop-parting.ts';
import { type Candidate, gridFits, handlingCost, type ShopProblem, shopProblem } from './shop-problem.ts';
import { shortlisted } from './shop-shortlist.ts';
import { looked, placedWorth, tiersTogether } from './shop-tiers.ts';
import type { Wanted } from './shop-wanted.ts';
import type { Worth } from './shop-worth.ts';
import { solveSteps } from './solve.ts';
import { tidied, worthLeft } from './tidy.ts';
import { onCheaperBoards } from './tidy-boards.ts';

export interface Search {
  readonly effort: Effort;
  readonly seed: number;
  readonly aim: PlanAim;
  readonly worth: Worth;
  /** A plan in hand for this aim: what of it still holds is never bettered by a worse one. */
  readonly known: readonly Layout[];
}

/** A search for one set of pieces, with the work that it may take. */
export interface SetSearch extends Search {
  readonly workMost: number;
}

/** Widths that a shop rips at one setting and planes or joints down later. Common practice, no source. */
const RIPPED_TOGETHER_NM = NM_PER_INCH / 4;

/** A plan in a hurry takes this share of a quick search's work: the last look at the boards makes up for most of it. */
const HURRY_SHARE = 0.3;
/** And one of several woods this share, so that a job of mixed woods is planned while one waits. */
const MIXED_SHARE = 0.8;

interface PlanningSet {
  readonly wanted: readonly Wanted[];
  readonly effort: Effort;
  /** Of the work that the effort allows. */
  readonly share: number;
}

/**
 * Pieces of different woods share no board: each wood is planned on its own, with less work each where there are several,
 * so that the whole takes no longer.
 */
function planningSets(wanted: readonly Wanted[], effort: Effort): readonly PlanningSet[] {
  const keys = [...new Set(wanted.map((asks) => asks.wood.key))];
  const each = effort === 'normal' && keys.length > 1 ? 'quick' : effort;
  const share = effort === 'quick' ? HURRY_SHARE : effort === each ? 1 : MIXED_SHARE;
  return keys.map((key) => ({ wanted: wanted.filter((asks) => asks.wood.key === key), effort: each, share }));
}

/** Where a search stands after so many of its steps. */
export interface CutStep {
  /** 0 to 1: work done of the work allowed. A search may end sooner. */
  readonly share: number;
  /** The best plans so far, one for each set of pieces: for a set not begun, a first one. Made when asked for, before the next step. */
  readonly best: () => readonly SolvedPlan[];
}

/** All that is wanted over all stock; sets of pieces that no board can give are left out. */
export function* solveSets(
  wanted: readonly Wanted[],
  stock: readonly ShopBoard[],
  job: Pick<JobWithParts, 'parts'>,
  settings: Settings,
  search: Search,
  options: FitOptions,
): Generator<CutStep, readonly SolvedPlan[]> {
  const sets = setsToCut(wanted, stock, settings, search, options);
  const solved: SolvedPlan[] = [];
  const firsts = new Map<CutSet, SolvedPlan>();
  const firstOf = (set: CutSet): SolvedPlan => {
    const first = firsts.get(set) ?? firstPlan(set, job, settings);
    firsts.set(set, first);
    return first;
  };
  for (const [at, set] of sets.entries()) {
    const steps = solveSet(set, job, settings);
    let step = steps.next();
    while (!step.done) {
      const { share, best } = step.value;
      const before = [...solved];
      const waiting = sets.slice(at + 1);
      yield { share: (at + share) / sets.length, best: () => [...before, ...best(), ...waiting.map(firstOf)] };
      step = steps.next();
    }
    solved.push(step.value);
  }
  return solved;
}

/** Pieces that are searched for together, over the boards that are searched. */
export interface CutSet {
  readonly search: SetSearch;
  /** As the aim prices boards and sizes blanks. */
  readonly aimed: ShopProblem;
  readonly searched: readonly Candidate[];
  /** What still holds of a plan in hand, filled up. */
  readonly inHand: Plan;
  /** Over every board that can give one of the pieces, as if each were straight: what a bound must hold for. */
  readonly all: ShopProblem;
  /** A bound that the search proves holds for all plans: nothing was left out or priced otherwise. */
  readonly isPlain: boolean;
}

export function setsToCut(
  wanted: readonly Wanted[],
  stock: readonly ShopBoard[],
  settings: Settings,
  search: Search,
  options: FitOptions,
): readonly CutSet[] {
  return planningSets(wanted, search.effort).flatMap((set): CutSet[] => {
    const able = candidatesOf(set.wanted, stock, settings, options);
    if (able.length === 0) return [];
    const isKnown = ({ on }: Candidate) => search.known.some(({ boardId }) => boardId === on.board.id);
    const listed = shortlisted(able, set.wanted);
    const looked = search.known.length === 0 ? listed : able.filter((one) => listed.includes(one) || isKnown(one));
    const searched = partedAsKnown(partedForMost(looked, set.wanted, settings), search.known, settings);
    const plain = shopProblem(set.wanted, searched, settings, 'net', search.worth);
    const aimed = aimedAt(plain, search.aim, Math.floor(RIPPED_TOGETHER_NM / gridNm(settings)));
    const isCut = searched.length < able.length;
    return [
      {
        search: {
          ...search,
          effort: set.effort,
          workMost: Math.round(set.share * effortWork(aimed.problem, set.effort)),
        },
        aimed,
        searched,
        inHand: filledUp(aimed.problem, stillLying(aimed, search.known, settings), set.effort, search.seed),
        all: shopProblem(set.wanted, asIfStraight(able), settings, 'net', search.worth),
        isPlain: !isCut && aimed === plain && !searched.some(({ on }) => isCrooked(on)),
      },
    ];
  });
}

export function candidatesOf(
  wanted: readonly Wanted[],
  stock: readonly ShopBoard[],
  settings: Settings,
  options: FitOptions,
): readonly Candidate[] {
  return stock
    .map((on) => ({ on, fits: gridFits(wanted, on, settings, options) }))
    .filter(({ fits }) => fits.some((fit) => fit !== null));
}

function* solveSet(set: CutSet, job: Pick<JobWithParts, 'parts'>, settings: Settings): Generator<CutStep, SolvedPlan> {
  const { aimed, searched, search, all, isPlain, inHand } = set;
  const groups = matchGroups(aimed.wanted, job);
  const kept = groups.length > 0 ? keepMatches(aimed, searched, groups, settings, search, inHand) : null;
  const shop = kept?.shop ?? aimed;
  const matches = groups.map((group, at): MatchOutcome => {
    return { group, isKept: kept?.homes[at]?.length === 1, hasHome: kept?.options[at]?.[0]?.length === 1 };
  });
  const before = inHand.length > 0 ? planInHand(set, job, settings) : null;
  const planOf = (found: Solution): SolvedPlan => {
    const solution = checkedForSaw(shop.problem, found);
    const searchBound = isPlain ? (kept?.freeBound ?? solution.bound) : null;
    const plan = { shop, solution, all, searchBound, matches };
    if (!before || compare(rankOf(plan, settings), rankOf(before, settings)) > 0) return plan;
    return { ...before, searchBound };
  };
  const first = kept?.solution ?? looked(shop.problem, search, asFits(shop.problem, inHand));
  const together = tiersTogether(shop.problem, first.placed);
  const steps = solveSteps(together, { ...search, start: first.layouts });
  let step = steps.next();
  while (!step.done) {
    const { stepsDone, stepsTotal, best } = step.value;
    yield { share: Math.min(1, stepsDone / Math.max(1, stepsTotal)), best: () => [planOf(best())] };
    step = steps.next();
  }
  return planOf(tidiedAll(shop.problem, step.value, search, settings));
}

/** What is told of a set that waits for others: the plan in hand, or the first that a search comes to. */
function firstPlan(set: CutSet, job: Pick<JobWithParts, 'parts'>, settings: Settings): SolvedPlan {
  const { aimed, search, inHand } = set;
  if (inHand.length > 0) return planInHand(set, job, settings);
  const steps = solveSteps(aimed.problem, search);
  const step = steps.next();
  return planFound(set, step.done ? step.value : step.value.best(), job, settings);
}

/** The plan in hand as an answer of its own. */
function planInHand(set: CutSet, job: Pick<JobWithParts, 'parts'>, settings: Settings): SolvedPlan {
  const { problem } = set.aimed;
  const layouts = layoutsOf(problem, set.inHand);
  const placed = Array.from(placedCounts(problem, set.inHand));
  const found = { layouts, achieved: achievedBy(problem, layouts), bound: Number.POSITIVE_INFINITY, placed, steps: 0 };
  return planFound(set, found, job, settings);
}

function planFound(
  { aimed, searched, search, all }: CutSet,
  found: Solution,
  job: Pick<JobWithParts, 'parts'>,
  settings: Settings,
): SolvedPlan {
  const { problem } = aimed;
  const solution = checkedForSaw(problem, tidiedAll(problem, found, search, settings));
  const matches = matchesIn(aimed, searched, job, settings, solution);
  return { shop: aimed, solution, all, searchBound: null, matches };
}

/** Comparable: pieces tier by tier, then groups that match, what is opened, and what is left for how much work. */
function rankOf({ shop: { problem, boards }, solution, matches }: SolvedPlan, settings: Settings): Score {
  const { layouts, placed } = solution;
  const matching = matches.reduce((sum, { group }) => sum + matchingPieces(group, boards, layouts), 0);
  const cost = handlingCost(settings);
  const left = layouts.reduce((sum, layout) => sum + worthLeft(problem, layout, cost), 0);
  return [...placedWorth(problem, placed), matching, -costOf(problem, solution), left];
}

/** The same plan with each board's pieces laid out for the saw and for what is left. */
export function tidiedAll(problem: Problem, found: Solution, search: SetSearch, settings: Settings): Solution {
  const job = startJob(problem, search.effort, search.seed, search.workMost);
  const cost = aimedHandling(handlingCost(settings), search.aim);
  const moved = layoutsOf(problem, onCheaperBoards(job, found.layouts));
  const layouts = moved.map((layout) => tidied(job, layout, cost));
  const achieved = achievedBy(problem, layouts);
  return { ...found, layouts, achieved, bound: Math.max(found.bound, achieved) };
}

/** A plan that fails its check is a fault of ours, never an answer. */
function checkedForSaw(problem: Problem, found: Solution): Solution {
  const solution = { ...found, layouts: found.layouts.map((layout) => orderForSaw(problem, layout)) };
  const faults = checkSolution(problem, solution);
  if (faults.length > 0) throw new Error(`the cut plan fails its check: ${faults.join('; ')}`);
  return solution;
}
