/** RFC 9457 problem details. type is a URI reference under /problems/; each name below is one refusal, with its status. */
import * as z from 'zod';

export const problemTypes = {
  'bad-request': 400,
  'not-json': 400,
  'invalid-input': 422,
  'too-large': 413,
  'wrong-media-type': 415,
  'no-key': 401,
  'wrong-key': 401,
  'key-expired': 401,
  'not-allowed': 403,
  'not-found': 404,
  'method-not-allowed': 405,
  'too-many-requests': 429,
  'idempotency-key-missing': 400,
  'idempotency-key-reused': 422,
  'version-missing': 428,
  'version-stale': 412,
  'tag-taken': 409,
  'board-held': 409,
  'board-not-in-stock': 409,
  'boards-changed': 409,
  'run-outside-board': 422,
  'job-not-open': 409,
  'plan-not-open': 409,
  'nothing-to-cut': 409,
  'session-closed': 409,
  'piece-not-there': 409,
  'more-cut-than-wanted': 409,
  'wood-does-not-balance': 422,
  'cannot-undo': 409,
  'already-undone': 409,
  'yard-not-empty': 409,
  'yard-restoring': 409,
  'archive-broken': 422,
  'last-owner-key': 409,
  'too-many-keys': 409,
  busy: 503,
  internal: 500,
} as const satisfies Record<string, number>;
export type ProblemName = keyof typeof problemTypes;

/** One thing that is wrong with the input: where it stands, what was read, what would be right. */
export const fault = z.strictObject({
  /** JSON pointer into the body, or the name of a parameter. */
  pointer: z.string(),
  /** Index of the row in a list body. */
  row: z.number().int().optional(),
  field: z.string().optional(),
  /** What was read, shortened. */
  read: z.string().optional(),
  help: z.string(),
});
export type Fault = z.output<typeof fault>;

/** One board that stands in the way, and who holds it. */
export const conflict = z.strictObject({
  boardId: z.string(),
  tag: z.string(),
  jobId: z.string().nullable(),
  jobName: z.string().nullable(),
  fromNm: z.number().int().nullable(),
  toNm: z.number().int().nullable(),
  wayOut: z.string(),
});
export type Conflict = z.output<typeof conflict>;

export const problem = z.looseObject({
  type: z.string(),
  title: z.string(),
  status: z.number().int(),
  detail: z.string(),
  /** The request's id: the same stands in the log. */
  instance: z.string(),
  faults: z.array(fault).optional(),
  conflicts: z.array(conflict).optional(),
});
export type Problem = z.output<typeof problem>;
