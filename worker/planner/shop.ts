/**
 * Planning the cutting of a job: what is still wanted, the boards that can give it, the search on the grid, a check
 * that shares nothing with the search, and the plan in the shop's words.
 */

import type { BoardView } from '../contract/board.ts';
import type { JobWithParts } from '../contract/job.ts';
import type { Layout, PlanAim, PlanBody, PlanProgress, PlanRequest } from '../contract/plan.ts';
import type { ProblemName } from '../contract/problem.ts';
import type { Settings } from '../contract/settings.ts';
import { woodReader } from '../takeoff/which-wood.ts';
import { ended } from './ended.ts';
import { figuresOfAll, figuresUnderWay, presentPlan, type SolvedPlan } from './present.ts';
import { matchNotes } from './present-match.ts';
import { planNotes } from './present-notes.ts';
import type { Effort } from './problem.ts';
import { holdsInTheWay, type ShopBoard, shopBoard } from './shop-board.ts';
import type { FitOptions } from './shop-fit.ts';
import { stayedWords } from './shop-known.ts';
import { BOARDS_MOST } from './shop-shortlist.ts';
import { solveSets } from './shop-solve.ts';
import { takenOf, takenSets } from './shop-taken.ts';
import { type Wanted, wantedOf } from './shop-wanted.ts';
import type { Worth } from './shop-worth.ts';

export interface CuttingInput {
  readonly job: JobWithParts;
  /** Every board in stock, each with every held run. */
  readonly boards: readonly BoardView[];
  readonly settings: Settings;
  readonly effort: Effort;
  readonly seed: number;
  readonly aim: PlanAim;
  readonly worth: Worth;
  /** Only these rows of the cut list. */
  readonly partKeys?: PlanRequest['partKeys'];
  /** Only these boards. */
  readonly boardIds?: PlanRequest['boardIds'];
  /** A plan in hand for the same aim, where there is one: the answer is no worse than what of it still holds. */
  readonly known?: readonly Layout[];
  /** What a search that was stopped had reached: taken as it is. */
  readonly taken?: PlanRequest['taken'];
}

/** Why there is nothing to plan; a refusal of the yard has this shape. */
export interface NoPlan {
  readonly why: ProblemName;
  readonly detail: string;
}
export type CuttingAnswer =
  | { readonly ok: true; readonly plan: PlanBody }
  | { readonly ok: false; readonly refusal: NoPlan };

export function planCutting(input: CuttingInput): CuttingAnswer {
  return ended(planSteps(input));
}

/** As `planCutting`, with what the search has reached after every so many of its steps. */
export function* planSteps(input: CuttingInput): Generator<PlanStep, CuttingAnswer> {
  const { job, settings, effort, seed, aim, partKeys, boardIds } = input;
  const refusal = notPlannable(input);
  if (refusal) return { ok: false, refusal };
  const wanted = wantedOf(job, settings, partKeys);
  if (wanted.length === 0) return { ok: false, refusal: nothingWanted(job, partKeys) };

  const options: FitOptions = { evenIfThick: boardIds !== undefined };
  const stock = stockOf(input);
  const solved = yield* searched(input, wanted, stock, options);
  if (solved === null) return { ok: false, refusal: notTakeable };
  const presented = presentPlan(solved, wanted, stock, settings, options);
  const notes = [...notesOf(presented.layouts, solved, stock, settings), ...notesOfInput(input)];
  const facts = { jobId: job.id, jobRevision: job.revision, effort, seed, aim, continues: null };
  const changes = [...stayedWords(presented.layouts, input.known ?? [])];
  return { ok: true, plan: { ...facts, changes, ...presented, notes } };
}

/** How rests were valued; and a plan that was taken before its search was through says so. */
export const notesOfInput = ({ taken, worth }: CuttingInput): readonly string[] => [
  ...(worth.words === null ? [] : [worth.words]),
  ...(taken ? ['The search was stopped; this is the best it had found by then.'] : []),
];

/** Where planning stands: how much of the work is done, and what to tell of the best so far. */
export interface PlanStep {
  readonly share: number;
  readonly look: () => PlanProgress;
}

export const notTakeable: NoPlan = {
  why: 'boards-changed',
  detail: 'What the search had reached no longer lies on the boards as they are now. Plan again.',
};

/** The search, or what one had reached that was stopped; null where that does not lie on these boards. */
export function* searched(
  input: CuttingInput,
  wanted: readonly Wanted[],
  stock: readonly ShopBoard[],
  options: FitOptions,
): Generator<PlanStep, readonly SolvedPlan[] | null> {
  const { job, settings, effort, seed, aim, worth, taken, known } = input;
  const search = { effort, seed, aim, worth, known: known ?? [] };
  if (taken) return takenSets(taken, wanted, stock, job, settings, search, options);
  const steps = solveSets(wanted, stock, job, settings, search, options);
  let step = steps.next();
  while (!step.done) {
    const { share, best } = step.value;
    yield { share, look: () => progressOf(share, best(), wanted) };
    step = steps.next();
  }
  return step.value;
}

function progressOf(share: number, solved: readonly SolvedPlan[], wanted: readonly Wanted[]): PlanProgress {
  const layouts = solved.flatMap(({ solution }) => solution.layouts);
  const figures = figuresOfAll(solved.map(figuresUnderWay));
  return {
    share,
    placedCount: layouts.reduce((sum, { pieces }) => sum + pieces.length, 0),
    wantedCount: wanted.reduce((sum, { pieces }) => sum + pieces.length, 0),
    boardCount: layouts.length,
    stockUsedM3: figures.usedM3,
    stockBoundM3: figures.boundM3,
    best: takenOf(solved),
  };
}

export function notesOf(
  layouts: readonly Layout[],
  solved: readonly SolvedPlan[],
  stock: readonly ShopBoard[],
  settings: Settings,
): string[] {
  const isCut = solved.some(({ all, shop }) => all.boards.length > shop.boards.length);
  return [
    ...planNotes(layouts, settings, isCut ? BOARDS_MOST : null),
    ...solved.flatMap((plan) => matchNotes(plan, stock)),
  ];
}

export function notPlannable({ job, boards, partKeys, boardIds }: CuttingInput): NoPlan | null {
  if (job.state !== 'open')
    return { why: 'job-not-open', detail: `${job.name} is ${job.state}; open it again to plan.` };
  const keys = new Set(job.parts.map((part) => part.key));
  const noPart = partKeys?.find((key) => !keys.has(key));
  if (noPart !== undefined) return { why: 'not-found', detail: `${job.name} has no part with the key ${noPart}.` };
  const ids = new Set(boards.map((board) => board.id));
  const noBoard = boardIds?.find((id) => !ids.has(id));
  if (noBoard !== undefined) return { why: 'not-found', detail: `There is no board ${noBoard} in stock.` };
  return null;
}

function nothingWanted(job: JobWithParts, partKeys: readonly string[] | undefined): NoPlan {
  if (job.parts.length === 0)
    return { why: 'nothing-to-cut', detail: `${job.name} has no cut list yet. Set one, then plan.` };
  const what = partKeys ? 'these rows' : job.name;
  return {
    why: 'nothing-to-cut',
    detail: `Every piece of ${what} is planned or cut already. A failed piece is wanted again; a plan that is dropped sets its pieces free.`,
  };
}

function stockOf({ job, boards, settings, boardIds }: CuttingInput): readonly ShopBoard[] {
  const only = boardIds && new Set(boardIds);
  const woodOf = woodReader(settings);
  return boards
    .filter((board) => board.state === 'in-stock' && (!only || only.has(board.id)))
    .map((board) => shopBoard(board, woodOf(board.species), holdsInTheWay(board, job), settings));
}
