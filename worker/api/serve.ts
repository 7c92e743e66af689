/**
 * How every route is served: key, query, body, Idempotency-Key and If-Match are read here once, by what routes.ts says of
 * the route; a handler gets plain values and gives an answer or a refusal.
 */
import type { Context, HonoRequest } from 'hono';
import type * as z from 'zod';
import type { Restored } from '../contract/archive.ts';
import type { Fault } from '../contract/problem.ts';
import { type Route, type RouteName, routes } from '../contract/routes.ts';
import { type Answer, bodies, queries } from '../contract/wire.ts';
import type {
  Asker,
  Command,
  KeyCommand,
  QuestionName,
  Questions,
  Receipt,
  Refusal,
  Shown,
  Told,
  YardDoor,
} from '../yard/command.ts';
import { check, parseJson, type Read, readText } from './body.ts';
import {
  fingerprintOf,
  linkKey,
  type MintedKey,
  mintKeyFor,
  type PepperEnv,
  peppersIn,
  type ReadKey,
  readKey,
} from './key.ts';
import type { Limiter, RateName } from './limiter.ts';
import type { Log } from './log.ts';
import type { Turnstile } from './patient-door.ts';
import { refusalResponse } from './problem.ts';
import { ProgressLines, wantsLines } from './progress.ts';
import { askAfterWrite } from './shown.ts';
import { jsonResponse } from './tagged.ts';

export interface Env extends PepperEnv {
  readonly ADMIN_KEY: string;
  /** Origins whose pages may call, see cors.ts; left out: Google's sidebar. */
  readonly ALLOWED_ORIGINS?: string;
}

export interface Deps<E extends Env> {
  /** The yard with this id; only called for ids that this service minted. */
  readonly door: (env: E, yardId: string) => YardDoor;
  readonly nowMs: () => number;
  /** Left out: nothing is logged. */
  readonly log?: Log;
  /** Left out: nobody is limited. */
  readonly limiter?: (env: E) => Limiter;
}

/** What the app adds for its own routes. */
export interface Inside<E extends Env> extends Deps<E> {
  /** For routes that work on the whole stock: so many at the same time. */
  readonly heavy: Turnstile;
}

export interface Vars {
  requestId: string;
  /** What the log says of the request: never its address, which may hold a secret. */
  seen: { readonly route: string; readonly yard?: string; readonly key?: string };
}
export type Ctx<E extends Env> = Context<{ Bindings: E; Variables: Vars }>;

type BodyOut<N extends RouteName> = N extends keyof typeof bodies ? z.output<(typeof bodies)[N]> : undefined;
type QueryOut<N extends RouteName> = N extends keyof typeof queries ? z.output<(typeof queries)[N]> : undefined;

type VersionOf<N extends RouteName> = (typeof routes)[N] extends { readonly ifMatch: 'must' } ? number : number | null;

/** What a handler gets. tell and ask speak to the yard with the caller's key; null from ask means: not there. */
export interface Call<N extends RouteName> {
  readonly path: Readonly<Record<string, string>>;
  readonly query: QueryOut<N>;
  readonly body: BodyOut<N>;
  /** The body as it was written, before it was read: a text of a length may say more than its nanometres. */
  readonly written: () => unknown;
  /** From If-Match; null where a route takes none, or may do without and was sent none. */
  readonly version: VersionOf<N>;
  /** The body of a route that takes a file; null else. */
  readonly stream: ReadableStream<Uint8Array> | null;
  readonly restore: (firstLine: number, lines: readonly string[]) => Promise<Outcome<Restored>>;
  readonly tell: (command: Command | KeyCommand) => Promise<Outcome<Told>>;
  /** A new key of this yard: the same one when the request is sent again. */
  readonly mint: () => Promise<MintedKey>;
  /** What the yard keeps of a link code. */
  readonly linkKey: (code: string) => Promise<Pick<MintedKey, 'keyId' | 'digest'>>;
  readonly yardId: string;
  /** Where this service answers: "https://yard.example.com". */
  readonly origin: () => string;
  readonly nowMs: number;
  /** Tells how far the work is, and waits until that was sent; null where nobody asked. Throws when nobody listens any more. */
  readonly progress: ((line: unknown) => Promise<void>) | null;
  readonly ask: <Q extends QuestionName>(
    name: Q,
    ask: Questions[Q]['ask'],
  ) => Promise<Outcome<Questions[Q]['answer'] | null>>;
}

/** What a look-up needs of a call: the way to ask the yard, whichever the route. */
export type Asking = Pick<Call<never>, 'ask'>;

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusal: Refusal };
export const good = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const refuse = (
  why: Refusal['why'],
  detail: string,
  faults?: readonly Fault[],
): { ok: false; refusal: Refusal } => ({
  ok: false,
  refusal: { why, detail, ...(faults ? { faults } : {}) },
});

/** An answer that is a file, made while it is sent. */
export class Streamed {
  readonly type: string;
  readonly name: string;
  readonly stream: ReadableStream<Uint8Array>;

  constructor(type: string, name: string, stream: ReadableStream<Uint8Array>) {
    this.type = type;
    this.name = name;
    this.stream = stream;
  }
}

export type Handler<N extends RouteName> = (call: Call<N>) => Promise<Outcome<Answer<N> | Streamed>>;
export type Handlers = { readonly [N in RouteName]: Handler<N> };

const dayMs = 86_400_000;

/** The day in UTC, and which since 1970 that is: it is asked for with each request. */
let present = { day: 0, text: '1970-01-01' };

function utcDay(atMs: number): string {
  const day = Math.floor(atMs / dayMs);
  if (day !== present.day) present = { day, text: new Date(atMs).toISOString().slice(0, 10) };
  return present.text;
}

/** The shop's day: what the client says, if it is a day next to ours, else the day in UTC. */
function shopDay(header: string | undefined, atMs: number): string {
  const utc = utcDay(atMs);
  if (!header || !/^\d{4}-\d{2}-\d{2}$/.test(header)) return utc;
  const saidMs = Date.parse(header);
  return Math.abs(saidMs - Date.parse(utc)) <= dayMs ? header : utc;
}

function queryOf<N extends RouteName>(name: N, request: HonoRequest): Read<QueryOut<N>> {
  const schema = (queries as Partial<Record<RouteName, z.ZodType>>)[name];
  return (schema ? check(schema, request.query()) : { ok: true, value: undefined }) as Read<QueryOut<N>>;
}

function bodyOf<N extends RouteName>(name: N, request: Request, text: string): Read<BodyOut<N>> {
  const schema = (bodies as Partial<Record<RouteName, z.ZodType>>)[name];
  if (!schema) return { ok: true, value: undefined as BodyOut<N> };
  const json = parseJson(request, text);
  return (json.ok ? check(schema, json.value) : json) as Read<BodyOut<N>>;
}

/** The version in If-Match: an ETag as it came ("s12-…"), or its version alone ("s12"). */
function versionOf<N extends RouteName>(route: Route, header: string | undefined): Read<VersionOf<N>> {
  const none: Read<number | null> = { ok: true, value: null };
  if (!route.ifMatch || (!header && route.ifMatch === 'may')) return none as Read<VersionOf<N>>;
  if (!header)
    return refuse(
      'version-missing',
      "Send the version that you read as If-Match, so that nobody else's change is lost.",
    );
  const match = /^(?:W\/)?"s(\d{1,15})(?:-[0-9a-f]{1,64})?"$/.exec(header.trim());
  return match
    ? { ok: true, value: Number(match[1]) }
    : refuse('version-stale', 'The If-Match is not a version of this thing: read it again.');
}

async function receiptOf(route: Route, request: HonoRequest, text: string): Promise<Read<Receipt | null>> {
  if (!route.writes) return { ok: true, value: null };
  const idempotencyKey = request.header('idempotency-key')?.trim() ?? '';
  if (!/^[\x21-\x7e]{8,100}$/.test(idempotencyKey)) {
    return refuse(
      'idempotency-key-missing',
      'Send an Idempotency-Key header of 8 to 100 characters, new for each thing you do and the same when you try it again.',
    );
  }
  const fingerprint = await fingerprintOf(`${request.method} ${request.path}\n${text}`);
  return { ok: true, value: { idempotencyKey, fingerprint } };
}

/** Asks the yard under the caller's key. */
function asking(door: () => YardDoor, asker: Asker): Call<RouteName>['ask'] {
  return async (name, ask) => {
    const result = await door().ask(asker, name, ask);
    return result.ok ? good(result.answer) : { ok: false, refusal: result.refusal };
  };
}

async function answerResponse(answer: unknown, status: 200 | 201, request: HonoRequest): Promise<Response> {
  if (typeof answer === 'string') return pageResponse(answer);
  if (answer instanceof Streamed) return fileResponse(answer);
  return jsonResponse(answer, status, request.method, request.header('if-none-match'));
}

function fileResponse({ type, name, stream }: Streamed): Response {
  const headers = {
    'content-type': type,
    'content-disposition': `attachment; filename="${name}"`,
    'cache-control': 'no-store',
  };
  return new Response(stream, { headers });
}

/** The one style that a printable page has, by its digest (CSP level 3, section 6.7). What users wrote stands escaped, so the first is ours. */
async function styleHash(html: string): Promise<string> {
  const style = /<style>([^<]*)<\/style>/.exec(html)?.[1] ?? '';
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(style));
  return `sha256-${btoa(String.fromCharCode(...new Uint8Array(digest)))}`;
}

/** A printable page: its own style and drawings, no script, nothing from elsewhere. */
async function pageResponse(html: string): Promise<Response> {
  return new Response(html, {
    headers: {
      'content-type': 'text/html; charset=utf-8',
      'cache-control': 'no-store',
      'content-security-policy': `default-src 'none'; style-src '${await styleHash(html)}'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'`,
    },
  });
}

const noKey: Refusal = { why: 'no-key', detail: 'Send the yard key as a header: Authorization: Bearer yk_…' };
const wrongKey: Refusal = {
  why: 'wrong-key',
  detail: 'This key opens no yard. It may be mistyped, or it was revoked.',
};

/** Wrong input from a stranger is answered as a wrong key, and from who may not do this as just that: what is right here is for those who may. */
async function refuseInput(door: YardDoor, asker: Asker, refusal: Refusal, instance: string): Promise<Response> {
  const known = await door.ask(asker, 'yard-facts', {});
  return refusalResponse(known.ok ? refusal : known.refusal, instance);
}

/** Who asks, as the yard wants to know it. */
export function askerOf({ keyId, digest, formerDigest }: ReadKey, scope: Asker['scope']): Asker {
  return { keyId, digest, scope, ...(formerDigest === undefined ? {} : { formerDigest }) };
}

/** Routes that take the whole stock in hand and work on it here. */
const heavy: ReadonlySet<RouteName> = new Set([
  'planJob',
  'planAlternatives',
  'offcutUses',
  'offcutHomes',
  'takeoffParts',
  'takeoffJob',
  'dryingReady',
  'glueUpJob',
  'readCutCards',
  'glueUpSheet',
]);

const tooMany: Refusal = {
  why: 'too-many-requests',
  detail: 'Too many requests with this key. Wait ten seconds and try again.',
};

export function serve<E extends Env, N extends RouteName>(name: N, handler: Handler<N>, deps: Inside<E>) {
  const route: Route = routes[name];
  const rate: RateName = name === 'planJob' || name === 'planAlternatives' ? 'plan' : route.writes ? 'write' : 'read';
  const inTurn = <T>(work: () => Promise<T>) => (heavy.has(name) ? deps.heavy.through('heavy', work) : work());
  return async function serveRoute(c: Ctx<E>): Promise<Response> {
    const instance = c.get('requestId');
    c.set('seen', { route: name });
    const header = c.req.header('authorization') ?? null;
    const peppers = peppersIn(c.env);
    const key: ReadKey | null = await readKey(header, peppers);
    if (!key) return refusalResponse(header ? wrongKey : noKey, instance);
    c.set('seen', { route: name, yard: key.yardId, key: key.keyId });
    const limiter = deps.limiter?.(c.env);
    const allowed = key.isLinkCode
      ? limiter?.allow('link', key.yardId)
      : limiter?.allow(rate, `${key.yardId} ${key.keyId}`);
    if ((await allowed) === false) return refusalResponse(tooMany, instance);
    const door = deps.door(c.env, key.yardId);
    const asker = askerOf(key, route.scope);

    const text = route.stream === 'in' ? good('') : await readText(c.req.raw);
    if (!text.ok) return refuseInput(door, asker, text.refusal, instance);
    const query = queryOf(name, c.req);
    if (!query.ok) return refuseInput(door, asker, query.refusal, instance);
    const body = bodyOf(name, c.req.raw, text.value);
    if (!body.ok) return refuseInput(door, asker, body.refusal, instance);
    const version = versionOf<N>(route, c.req.header('if-match'));
    if (!version.ok) return refuseInput(door, asker, version.refusal, instance);
    const receipt = await receiptOf(route, c.req, text.value);
    if (!receipt.ok) return refuseInput(door, asker, receipt.refusal, instance);

    const atMs = deps.nowMs();
    const occasion = { atMs, today: shopDay(c.req.header('shop-day'), atMs) };
    const lines = route.progress && wantsLines(c.req) ? new ProgressLines() : null;
    // The yard compares the key in whatever it is asked; a handler that refused before it asked has compared none.
    let wasAsked = false;
    const yard = () => {
      wasAsked = true;
      return door;
    };
    let shown: Shown | null = null;
    const call: Call<N> = {
      path: c.req.param() as Record<string, string>,
      query: query.value,
      body: body.value,
      written: () => (text.value === '' ? null : JSON.parse(text.value)),
      version: version.value,
      ask: askAfterWrite(asking(yard, asker), () => shown),
      stream: route.stream === 'in' ? c.req.raw.body : null,
      restore: async (firstLine, lines) => {
        const answer = await yard().restore(asker, firstLine, lines);
        return answer.ok ? good(answer.restored) : { ok: false, refusal: answer.refusal };
      },
      mint: () => mintKeyFor(header ?? '', receipt.value?.idempotencyKey ?? '', peppers),
      linkKey: (code) => linkKey(key.yardId, code, peppers),
      yardId: key.yardId,
      origin: () => new URL(c.req.url).origin,
      nowMs: atMs,
      progress: lines ? (line) => lines.write({ progress: line }) : null,
      tell: async (command) => {
        if (!receipt.value) throw new Error(`${name} writes but routes.ts says it does not`);
        const told = await yard().command(asker, receipt.value, command, occasion);
        if (told.ok) shown = told.told.shown ?? null;
        return told.ok ? good(told.told) : { ok: false, refusal: told.refusal };
      },
    };
    const work = inTurn(() => handler(call));
    const begun = lines ? await Promise.race([lines.begun, work.then(() => null)]) : null;
    if (lines && begun) {
      void lines.endWith(work, instance);
      return begun;
    }
    const outcome = await work;
    if (!wasAsked) {
      const known = await door.ask(asker, 'yard-facts', {});
      if (!known.ok) return refusalResponse(known.refusal, instance);
    }
    if (!outcome.ok) return refusalResponse(outcome.refusal, instance);
    return answerResponse(outcome.value, route.writes && route.method === 'POST' ? 201 : 200, c.req);
  };
}
