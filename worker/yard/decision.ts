/** What deciding gives: one movement to append, or a refusal with its facts. */
import type { Change, MovementKind } from '../contract/movement.ts';
import type { Conflict, Fault, ProblemName } from '../contract/problem.ts';
import type { WoodBalance } from '../contract/session.ts';
import type { Command, Refusal, Told } from './command.ts';

/** A movement before it has its place in the journal. */
export interface MovementDraft {
  readonly kind: MovementKind;
  readonly jobId: string | null;
  readonly summary: string;
  readonly changes: readonly Change[];
  readonly balances: readonly WoodBalance[];
  readonly undoes: number | null;
}

export type Refused = { readonly ok: false; readonly refusal: Refusal };
export type Decision =
  | { readonly ok: true; readonly movement: MovementDraft; readonly told: Omit<Told, 'seq'> }
  | Refused;

export function moved(
  movement: Pick<MovementDraft, 'kind' | 'summary' | 'changes'> & Partial<MovementDraft>,
  told: Omit<Told, 'seq'> = {},
): Decision {
  return { ok: true, movement: { jobId: null, balances: [], undoes: null, ...movement }, told };
}

export function refused(
  why: ProblemName,
  detail: string,
  facts: { readonly faults?: readonly Fault[]; readonly conflicts?: readonly Conflict[] } = {},
): Refused {
  return { ok: false, refusal: { why, detail, ...facts } };
}

/** Null while the thing is as the caller read it, or the caller does not say. */
export function changedSince(ifVersion: number | null | undefined, version: number, what: string): Refused | null {
  if (ifVersion === undefined || ifVersion === null || ifVersion === version) return null;
  return refused('version-stale', `${what} since you read it. Read it again, then do this again if it still fits.`);
}

export function notThere(what: string, id: string): Refused {
  return refused('not-found', `There is no ${what} ${id} in this yard.`);
}

/** The command of one kind. */
export type CommandOf<D extends Command['do']> = Extract<Command, { readonly do: D }>;
