/**
 * The panel's way to the yard over HTTP. One intent keeps one Idempotency-Key: a second try of a write whose fate is
 * unknown (no network, a busy yard) sends the key of the first, so that pressing twice never does a thing twice.
 */
import type { PlanProgress } from '../../worker/contract/plan.ts';
import type { Problem } from '../../worker/contract/problem.ts';
import { type Route, type RouteName, routes } from '../../worker/contract/routes.ts';
import type { Answer } from '../../worker/contract/wire.ts';
import { type CallInput, type CallResult, Stopped, unlessStopped, type YardApi } from './api.ts';

export interface ClientOptions {
  /** Where the yard answers: "http://127.0.0.1:8787", without a path. */
  readonly address: string;
  /** The bearer key as the shop was given it. */
  readonly key: string;
  readonly fetch: (url: string, init: RequestInit) => Promise<Response>;
  /** A new random id, for Idempotency-Key. */
  readonly newId: () => string;
  readonly wait: (ms: number) => Promise<void>;
  /** 0 <= x < 1, for the jitter of a retry. */
  readonly random: () => number;
}

/** The client of a page: the browser's own fetch, ids and clock. */
export function pageClient(address: string, key: string): YardApi {
  return makeClient({
    address,
    key,
    fetch: (url, init) => fetch(url, init),
    newId: () => crypto.randomUUID(),
    wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
    random: () => Math.random(),
  });
}

const RETRY_AFTER_MS = 300;
const RETRY_JITTER_MS = 500;

export function makeClient(options: ClientOptions): YardApi {
  /** Keys of writes whose fate is unknown, by what they asked. */
  const openIntents = new Map<string, string>();

  function requestFor<N extends RouteName>(name: N, input: CallInput<N>, accept: string) {
    const route: Route = routes[name];
    const url = options.address.replace(/\/+$/, '') + filledPath(route.path, input.path) + queryText(input.query);
    const body = input.file ?? (input.body === undefined ? null : JSON.stringify(input.body));
    const intent = `${name} ${url} ${body ?? ''}`;
    const headers: Record<string, string> = { accept, authorization: `Bearer ${options.key}` };
    if (body !== null) headers['content-type'] = input.file === undefined ? 'application/json' : 'application/x-ndjson';
    if (input.version !== undefined) headers['if-match'] = `"s${input.version}"`;
    const key = route.writes ? (input.intent ?? openIntents.get(intent) ?? options.newId()) : null;
    if (key !== null) {
      openIntents.set(intent, key);
      headers['idempotency-key'] = key;
    }
    return { intent, url, key, init: { method: route.method, headers, body } };
  }

  async function answered<N extends RouteName>(url: string, init: RequestInit, intent: string): Promise<CallResult<N>> {
    let result = await sent<N>(options, url, init);
    if (fateUnknown(result) && init.signal?.aborted !== true) {
      await options.wait(RETRY_AFTER_MS + options.random() * RETRY_JITTER_MS);
      result = await sent<N>(options, url, init);
    }
    if (!fateUnknown(result)) openIntents.delete(intent);
    return result;
  }

  return {
    name: options.key.slice(0, Math.max(0, options.key.lastIndexOf('_'))),
    async followPlan(input, onProgress, stop) {
      const { intent, url, init } = requestFor('planJob', input, 'application/x-ndjson, application/problem+json');
      const result = await followed(options, url, { ...init, signal: stop }, onProgress);
      if (result === null || !fateUnknown(result)) openIntents.delete(intent);
      return result;
    },
    async call<N extends RouteName>(name: N, input: CallInput<N> = {}): Promise<CallResult<N>> {
      const signal = input.stop?.signal;
      if (signal?.aborted) throw new Stopped(null);
      const accept = 'application/json, application/problem+json, text/html';
      const { intent, url, key, init } = requestFor(name, input, accept);
      if (signal === undefined) return answered<N>(url, init, intent);
      const answer = answered<N>(url, key === null ? { ...init, signal } : init, intent);
      return unlessStopped(answer, signal, () => new Stopped(key === null ? null : { key, answer }));
    },
  };
}

/** Nothing came back, or the yard said that it was too busy to begin. */
function fateUnknown<N extends RouteName>(result: CallResult<N>): boolean {
  return !result.ok && ('offline' in result || result.problem.status >= 500);
}

async function sent<N extends RouteName>(
  options: ClientOptions,
  url: string,
  init: RequestInit,
): Promise<CallResult<N>> {
  let response: Response;
  let text: string;
  try {
    response = await options.fetch(url, init);
    text = await response.text();
  } catch {
    return { ok: false, offline: true };
  }
  const type = response.headers.get('content-type') ?? '';
  if (!response.ok) return { ok: false, problem: problemOf(response, type, text) };
  if (/^text\/html|x-ndjson/.test(type)) return { ok: true, answer: text as Answer<N> };
  const answer = parsed(text);
  if (answer === undefined) return { ok: false, problem: strangeAnswer(response) };
  return { ok: true, answer: answer as Answer<N> };
}

type Line = { progress: PlanProgress } | { answer: Answer<'planJob'> } | { problem: Problem };

async function followed(
  options: ClientOptions,
  url: string,
  init: RequestInit & { readonly signal: AbortSignal },
  onProgress: (progress: PlanProgress) => void,
): Promise<CallResult<'planJob'> | null> {
  try {
    const response = await options.fetch(url, init);
    const type = response.headers.get('content-type') ?? '';
    if (!response.ok) return { ok: false, problem: problemOf(response, type, await response.text()) };
    // Done before there was anything to tell.
    if (!response.body || !type.includes('ndjson')) return { ok: true, answer: await response.json() };
    const reader = response.body.getReader();
    const decoder = new TextDecoder();
    let text = '';
    for (;;) {
      const { done, value } = await reader.read();
      text += decoder.decode(value, { stream: true });
      const lines = text.split('\n');
      text = lines.pop() ?? '';
      for (const one of done && text ? [...lines, text] : lines) {
        const line = parsed(one) as Line;
        if ('answer' in line) return { ok: true, answer: line.answer };
        if ('problem' in line) return { ok: false, problem: line.problem };
        onProgress(line.progress);
      }
      if (done) return { ok: false, offline: true };
    }
  } catch {
    return init.signal.aborted ? null : { ok: false, offline: true };
  }
}

function problemOf(response: Response, type: string, text: string): Problem {
  if (!type.includes('json')) return strangeAnswer(response);
  const value = parsed(text);
  return isProblem(value) ? value : strangeAnswer(response);
}

function isProblem(value: unknown): value is Problem {
  return (
    typeof value === 'object' &&
    value !== null &&
    'title' in value &&
    typeof value.title === 'string' &&
    'detail' in value &&
    typeof value.detail === 'string' &&
    'status' in value &&
    typeof value.status === 'number'
  );
}

function strangeAnswer(response: Response): Problem {
  return {
    type: 'about:blank',
    title: 'That address did not answer like a yard',
    status: response.status,
    detail: 'Check the address under Shop. If it is right, the yard may be newer than this sidebar: reload it.',
    instance: response.headers.get('x-request-id') ?? '',
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function filledPath(path: string, values: Readonly<Record<string, string>> | undefined): string {
  return path.replace(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(values?.[name] ?? ''));
}

function queryText(query: unknown): string {
  if (typeof query !== 'object' || query === null) return '';
  const pairs = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (value !== undefined && value !== null && value !== '') pairs.set(name, String(value));
  }
  const text = pairs.toString();
  return text === '' ? '' : `?${text}`;
}
