/** The one place where a refusal becomes RFC 9457 problem details. Nothing of the platform's or the framework's own text reaches the user. */
import { type Conflict, type Fault, type Problem, type ProblemName, problemTypes } from '../contract/problem.ts';
import type { Refusal } from '../yard/command.ts';
import { PERIOD_S } from './limiter.ts';

const titles: Record<ProblemName, string> = {
  'bad-request': 'The request could not be read',
  'not-json': 'The body is not JSON',
  'invalid-input': 'Some of the input is not right',
  'too-large': 'The request is too large',
  'wrong-media-type': 'The body must be JSON',
  'no-key': 'A yard key is needed',
  'wrong-key': 'This key opens no yard',
  'key-expired': 'This key has run out',
  'not-allowed': 'This key may not do that',
  'not-found': 'Not found',
  'method-not-allowed': 'Not possible on this address',
  'too-many-requests': 'Too many requests',
  'idempotency-key-missing': 'An Idempotency-Key is needed',
  'idempotency-key-reused': 'This Idempotency-Key was used for another request',
  'version-missing': 'The version being edited is needed',
  'version-stale': 'It has changed since it was read',
  'tag-taken': 'The tag is taken',
  'board-held': 'Held for another job',
  'board-not-in-stock': 'The board is no longer in stock',
  'boards-changed': 'Boards have changed since the plan was made',
  'run-outside-board': 'The run lies outside the board',
  'job-not-open': 'The job is not open',
  'plan-not-open': 'The plan is not open for that',
  'nothing-to-cut': 'There is nothing to cut',
  'session-closed': 'The cutting session is closed',
  'piece-not-there': 'No such piece in that state',
  'more-cut-than-wanted': 'More cut than wanted',
  'wood-does-not-balance': "The board's wood does not add up",
  'cannot-undo': 'It cannot be undone as things stand',
  'already-undone': 'It is undone already',
  'yard-not-empty': 'The yard is not empty',
  'yard-restoring': 'The yard is being restored',
  'archive-broken': 'The file of the yard is not whole',
  'last-owner-key': "The owner's last key",
  'too-many-keys': 'Too many keys',
  busy: 'Busy just now',
  internal: 'Something broke on our side',
};

export interface ProblemFacts {
  readonly faults?: readonly Fault[] | undefined;
  readonly conflicts?: readonly Conflict[] | undefined;
  readonly headers?: Readonly<Record<string, string>>;
}

/** A problem response; instance is the request's id, which also stands in the log. */
export function problemResponse(
  name: ProblemName,
  detail: string,
  instance: string,
  facts: ProblemFacts = {},
): Response {
  const body: Problem = {
    type: `/problems/${name}`,
    title: titles[name],
    status: problemTypes[name],
    detail,
    instance,
    ...(facts.faults && facts.faults.length > 0 ? { faults: [...facts.faults] } : {}),
    ...(facts.conflicts && facts.conflicts.length > 0 ? { conflicts: [...facts.conflicts] } : {}),
  };
  return new Response(JSON.stringify(body), {
    status: body.status,
    // x-problem is for the log; the front takes it off again.
    headers: {
      'content-type': 'application/problem+json',
      'cache-control': 'no-store',
      'x-problem': name,
      ...facts.headers,
    },
  });
}

/** The refusal of a yard, as a response. */
export function refusalResponse(refusal: Refusal, instance: string): Response {
  return problemResponse(refusal.why, refusal.detail, instance, {
    faults: refusal.faults,
    conflicts: refusal.conflicts,
    ...(refusal.why === 'busy' ? { headers: { 'retry-after': '2' } } : {}),
    ...(refusal.why === 'too-many-requests' ? { headers: { 'retry-after': String(PERIOD_S) } } : {}),
    ...(problemTypes[refusal.why] === 401 ? { headers: { 'www-authenticate': 'Bearer' } } : {}),
  });
}
