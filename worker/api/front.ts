/**
 * What happens to every request, whatever its route: a number that the answer, its problem and the log share; the rules
 * for pages of other origins; headers that keep an answer from being more than it is; a line in the log.
 */
import type { MiddlewareHandler } from 'hono';
import { corsHeaders, preflight } from './cors.ts';
import { type Limiter, PERIOD_S } from './limiter.ts';
import type { Log } from './log.ts';
import { problemResponse } from './problem.ts';
import type { Env, Vars } from './serve.ts';
import type { Tally } from './tally.ts';

export interface Front<E extends Env> {
  readonly nowMs: () => number;
  readonly log: Log;
  readonly tally: Tally;
  readonly limiter: (env: E) => Limiter | null;
}

const ID_BYTES = 8;
/** Random bytes for many ids at once: asking the platform for each takes longer than all else here. */
const random = new Uint8Array(128 * ID_BYTES);
let used = random.length;

/** 64 random bits. */
export function newRequestId(): string {
  if (used >= random.length) {
    crypto.getRandomValues(random);
    used = 0;
  }
  let id = 'rq_';
  for (const end = used + ID_BYTES; used < end; used += 1) id += (random[used] ?? 0).toString(16).padStart(2, '0');
  return id;
}

const guards = Object.entries({
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'strict-transport-security': 'max-age=31536000',
  'permissions-policy': 'camera=(), geolocation=(), microphone=(), payment=(), usb=()',
  'cross-origin-opener-policy': 'same-origin',
});
const NOTHING_LOADS = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/** Set by the platform's edge, which overwrites what a client sends; null where there is no edge. */
const addressOf = (headers: Headers) => headers.get('cf-connecting-ip');

const tooMany = (instance: string) =>
  problemResponse(
    'too-many-requests',
    `Too many requests from this address. Wait ${PERIOD_S} seconds and try again.`,
    instance,
    { headers: { 'retry-after': String(PERIOD_S) } },
  );

/** Answers that tell a stranger guessing: their number is limited further. */
const isMiss = (route: string, status: number) => status === 401 || (route === 'readFeed' && status === 404);

export function front<E extends Env>(parts: Front<E>): MiddlewareHandler<{ Bindings: E; Variables: Vars }> {
  return async (c, next) => {
    const fromMs = parts.nowMs();
    const instance = newRequestId();
    c.set('requestId', instance);
    c.set('seen', { route: 'none' });
    const limiter = parts.limiter(c.env);
    const address = addressOf(c.req.raw.headers);
    const allows = async (rate: 'address' | 'failure') =>
      limiter === null || address === null || (await limiter.allow(rate, address));

    if (c.req.method === 'OPTIONS') c.res = preflight(c.req.raw, c.env.ALLOWED_ORIGINS);
    else if (await allows('address')) await next();
    else c.res = tooMany(instance);
    const seen = c.get('seen');
    if (isMiss(seen.route, c.res.status) && !(await allows('failure'))) {
      // Emptied first: a response set over another would take its headers along.
      c.res = undefined;
      c.res = tooMany(instance);
    }

    const { headers } = c.res;
    headers.set('x-request-id', instance);
    for (const [name, value] of guards) headers.set(name, value);
    if (!headers.has('content-security-policy')) headers.set('content-security-policy', NOTHING_LOADS);
    for (const [name, value] of Object.entries(corsHeaders(c.req.header('origin'), c.env.ALLOWED_ORIGINS)))
      headers.set(name, value);

    const atMs = parts.nowMs();
    const { status } = c.res;
    parts.tally.add(seen.route, status, atMs - fromMs);
    const problem = headers.get('x-problem');
    headers.delete('x-problem');
    parts.log({
      level: status >= 500 ? 'error' : 'info',
      at: new Date(atMs).toISOString(),
      request: instance,
      route: seen.route,
      method: c.req.method,
      status,
      ms: atMs - fromMs,
      ...(seen.yard === undefined ? {} : { yard: seen.yard }),
      ...(seen.key === undefined ? {} : { key: seen.key }),
      ...(problem === null ? {} : { problem }),
    });
  };
}
