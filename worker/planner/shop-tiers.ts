/**
 * Tiers say who goes without where wood is short. Where it is not, they only hide from the search what boards cost: it
 * would take the cheapest board for the first tier and pay for it in the next. So a first look tells which tiers find
 * wood for all their pieces, and those are searched as one.
 */
import type { Plan } from './plan.ts';
import type { Problem, Solution } from './problem.ts';
import { type SolveOptions, solve } from './solve.ts';

/** Work of a first look, as a share of the search's own. */
export const LOOK_SHARE = 0.05;

export const looked = (problem: Problem, search: SolveOptions & { readonly workMost: number }, start: Plan): Solution =>
  solve(problem, { ...search, start, workMost: Math.round(LOOK_SHARE * search.workMost) });

/** Worth of what is placed, most urgent tier first. */
export function placedWorth({ blanks }: Problem, placed: readonly number[]): readonly number[] {
  const tiers = [...new Set(blanks.map(({ tier }) => tier))].sort((a, b) => a - b);
  return tiers.map((tier) =>
    blanks.reduce((sum, blank, kind) => (blank.tier === tier ? sum + blank.value * (placed[kind] ?? 0) : sum), 0),
  );
}

/** The first tiers, as many as are placed whole, made one. Pieces that no board can give count as placed. */
export function tiersTogether(problem: Problem, placed: readonly number[]): Problem {
  const isShort = problem.blanks.map(
    ({ quantity }, kind) =>
      (placed[kind] ?? 0) < (quantity ?? Number.POSITIVE_INFINITY) &&
      problem.boards.some(({ fits }) => fits === null || fits[kind] !== null),
  );
  const firstShort = Math.min(
    ...problem.blanks.map(({ tier }, kind) => (isShort[kind] ? tier : Number.POSITIVE_INFINITY)),
  );
  const first = Math.min(...problem.blanks.map(({ tier }) => tier));
  const blanks = problem.blanks.map((blank) => (blank.tier < firstShort ? { ...blank, tier: first } : blank));
  return { ...problem, blanks };
}
