/** The form of each thing as the yard keeps it, by kind: what a restore and a check hold the yard against. */
import * as z from 'zod';
import { board } from './board.ts';
import { job, partWithPieces } from './job.ts';
import type { EntityKind } from './movement.ts';
import { plan } from './plan.ts';
import * as s from './scalar.ts';
import { reservation, session } from './session.ts';
import { settings } from './settings.ts';

export const entityForms: { readonly [K in EntityKind]: z.ZodType } = {
  settings: z.strictObject({ yardId: z.string(), name: z.string(), settings, version: s.seq }),
  board,
  job,
  part: partWithPieces.extend({ jobId: s.jobId, place: z.number().int().min(0) }),
  plan,
  reservation,
  session,
};

/** What is wrong with the form of a thing, in words; null when nothing is. */
export function entityFault(kind: EntityKind, id: string, thing: object): string | null {
  const read = entityForms[kind].safeParse(thing);
  if (read.success) return null;
  const [issue] = read.error.issues;
  return `${kind} ${id}: ${issue?.path.join('.') ?? ''} ${issue?.message ?? 'is not as it should be'}`;
}
