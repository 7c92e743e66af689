/**
 * The two questions in front of the offcut bin: what can this piece of wood still make of what is wanted, and which
 * piece of wood is the best home for this part. Answers come from the same fits and the same check as a plan.
 */
import type { BoardView } from '../contract/board.ts';
import type { JobWithParts } from '../contract/job.ts';
import type { HomesAnswer, HomesQuestion, UsesAnswer, UsesQuestion } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { woodReader } from '../takeoff/which-wood.ts';
import { asksOfPart, asksOfSize, boardOfSize } from './offcut-asked.ts';
import { homesAmong } from './offcut-homes.ts';
import { type JobDemand, usesFor } from './offcut-uses.ts';
import type { NoPlan } from './shop.ts';
import { wantedOf } from './shop-wanted.ts';
import type { Worth } from './shop-worth.ts';

/** The part of a yard's snapshot that the questions look at. */
export interface ShopSnapshot {
  readonly settings: Settings;
  readonly boards: readonly BoardView[];
  readonly jobs: readonly JobWithParts[];
  /** What a rest is worth in this yard. */
  readonly worth: Worth;
}

export type Answered<T> = { readonly ok: true; readonly answer: T } | { readonly ok: false; readonly refusal: NoPlan };

const notFound = (detail: string) => ({ ok: false, refusal: { why: 'not-found', detail } }) as const;

const allCut = (label: string): NoPlan => ({
  why: 'nothing-to-cut',
  detail: `Nothing of ${label} is still to cut. A piece that fails is wanted again, and can be asked for then.`,
});

/** What a board of the yard, or a size typed in, can still make of everything that the open jobs want. */
export function usesOf(input: {
  readonly question: UsesQuestion;
  readonly snapshot: ShopSnapshot;
}): Answered<UsesAnswer> {
  const { question, snapshot } = input;
  const { settings } = snapshot;
  const board = question.size
    ? boardOfSize(question.size)
    : snapshot.boards.find((each) => each.id === question.boardId && each.state === 'in-stock');
  if (!board) return notFound('There is no such board in stock.');
  const demands = snapshot.jobs
    .filter((job) => job.state === 'open' && (!question.jobIds || question.jobIds.includes(job.id)))
    .map((job): JobDemand => ({ job, wanted: wantedOf(job, settings, undefined) }));
  return { ok: true, answer: usesFor(board, woodReader(settings)(board.species), demands, settings, snapshot.worth) };
}

/** Where to cut one copy of a part of which something is still to cut, or of a size typed in: offcuts before whole boards, near-exact fits before long stock. */
export function homesFor(input: {
  readonly question: HomesQuestion;
  readonly snapshot: ShopSnapshot;
}): Answered<HomesAnswer> {
  const { question, snapshot } = input;
  const { settings, boards, jobs } = snapshot;
  if (question.size) {
    return {
      ok: true,
      answer: homesAmong(asksOfSize(question.size, settings), boards, null, settings, snapshot.worth),
    };
  }
  const job = jobs.find((each) => each.id === question.jobId);
  if (!job) return notFound('There is no such job in this yard.');
  const part = job.parts.find((each) => each.key === question.partKey);
  if (!part) return notFound(`${job.name} has no part with the key ${question.partKey ?? ''}.`);
  const asked = asksOfPart(part, question.element, settings);
  if (!asked) return notFound(`${part.label} has no layer ${(question.element ?? 0) + 1}.`);
  if (asked.toCut === 0) return { ok: false, refusal: allCut(part.label) };
  return { ok: true, answer: homesAmong(asked.asks, boards, job, settings, snapshot.worth) };
}
