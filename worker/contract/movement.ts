/** The journal: one entry a movement, append-only; a mistake is corrected by a counter-movement. */
import * as z from 'zod';
import * as s from './scalar.ts';
import { woodBalance } from './session.ts';

export const movementKind = z.enum([
  'yard-founded',
  'settings-changed',
  'boards-received',
  'board-corrected',
  'moisture-read',
  'board-written-off',
  'job-opened',
  'job-changed',
  'cut-list-set',
  'plan-kept',
  'plan-dropped',
  'reserved',
  'released',
  'session-opened',
  'reconciled',
  'pieces-moved',
  'undone',
  'key-made',
  'key-rotated',
  'key-revoked',
]);
export type MovementKind = z.output<typeof movementKind>;

/** The things whose state the journal carries. */
export const entityKind = z.enum(['settings', 'board', 'job', 'part', 'plan', 'reservation', 'session']);
export type EntityKind = z.output<typeof entityKind>;

/**
 * One thing's step from one state to the next: was and now hold only the fields that changed. was null: it came to be;
 * now null: it ended. So a movement can be replayed, and turned round exactly.
 */
export const change = z.strictObject({
  entity: entityKind,
  id: z.string(),
  was: z.record(z.string(), z.unknown()).nullable(),
  now: z.record(z.string(), z.unknown()).nullable(),
});
export type Change = z.output<typeof change>;

export const movement = z.strictObject({
  seq: s.seq,
  atMs: s.atMs,
  /** The label of the key that asked for it. */
  by: z.string(),
  kind: movementKind,
  jobId: s.jobId.nullable(),
  /** What happened, in the shop's words. */
  summary: z.string(),
  changes: z.array(change),
  /** For reconciliations: where the wood of each board went. */
  balances: z.array(woodBalance),
  /** The movement that this one turns round. */
  undoes: s.seq.nullable(),
});
export type Movement = z.output<typeof movement>;

export const movementView = movement.omit({ changes: true }).extend({
  undoneBy: s.seq.nullable(),
  boardTags: z.array(z.string()),
});
export type MovementView = z.output<typeof movementView>;
