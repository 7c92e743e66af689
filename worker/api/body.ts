/** Reading a request's body: JSON, of bounded size, checked against its schema; every fault at once. */
import type * as z from 'zod';
import { limits } from '../contract/limits.ts';
import type { Fault } from '../contract/problem.ts';
import type { Refusal } from '../yard/command.ts';

export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusal: Refusal };

const tooLarge = (): Refusal => ({
  why: 'too-large',
  detail: `A request may have ${Math.round(limits.bodyBytes / 1_000_000)} MB at most. Send the rows in several parts.`,
});

/** The body's text, read no further than the limit. */
export async function readText(request: Request): Promise<Read<string>> {
  const told = request.headers.get('content-length') ?? '';
  if (Number(told) > limits.bodyBytes) return { ok: false, refusal: tooLarge() };
  // No transport carries more than was told, so there is no need to count along, nor to open a stream.
  if (/^\d+$/.test(told)) return { ok: true, value: await request.text() };
  if (!request.body) return { ok: true, value: '' };
  const reader = request.body.getReader();
  const decoder = new TextDecoder();
  let text = '';
  let bytes = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return { ok: true, value: text + decoder.decode() };
    bytes += value.byteLength;
    if (bytes > limits.bodyBytes) {
      await reader.cancel();
      return { ok: false, refusal: tooLarge() };
    }
    text += decoder.decode(value, { stream: true });
  }
}

const [QUOTE, BACKSLASH, BRACKET, BRACKET_END, BRACE, BRACE_END] = [0x22, 0x5c, 0x5b, 0x5d, 0x7b, 0x7d] as const;

/** Whether lists and objects stand in each other deeper than the limit: reading them back would exhaust the stack. */
function isTooDeep(text: string): boolean {
  let depth = 0;
  let isInText = false;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === BACKSLASH && isInText) at += 1;
    else if (code === QUOTE) isInText = !isInText;
    else if (isInText) continue;
    else if (code === BRACKET || code === BRACE) {
      depth += 1;
      if (depth > limits.jsonDepth) return true;
    } else if (code === BRACKET_END || code === BRACE_END) depth -= 1;
  }
  return false;
}

export function parseJson(request: Request, text: string): Read<unknown> {
  const type = (request.headers.get('content-type') ?? '').split(';')[0]?.trim().toLowerCase();
  if (type !== 'application/json') {
    return {
      ok: false,
      refusal: {
        why: 'wrong-media-type',
        detail: 'Send the body as JSON, with the header content-type: application/json.',
      },
    };
  }
  if (isTooDeep(text)) {
    return {
      ok: false,
      refusal: {
        why: 'not-json',
        detail: `The body is nested deeper than ${limits.jsonDepth} levels; nothing here is.`,
      },
    };
  }
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch {
    return {
      ok: false,
      refusal: { why: 'not-json', detail: 'The body is not valid JSON: look for a missing quote, comma or bracket.' },
    };
  }
}

/** A value at a JSON path, shortened for showing; never more than 60 characters of what was sent. */
function shown(root: unknown, path: readonly PropertyKey[]): string | undefined {
  let at: unknown = root;
  for (const step of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = (at as Record<PropertyKey, unknown>)[step];
  }
  if (at === undefined) return undefined;
  const text = typeof at === 'string' ? at : JSON.stringify(at);
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}

export function pointerOf(path: readonly PropertyKey[]): string {
  return path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** zod's issues as faults; `prefix` is where the value stands in the body. */
export function faultsOf(error: z.ZodError, root: unknown, prefix: readonly PropertyKey[] = [], row?: number): Fault[] {
  return error.issues.flatMap((issue) => {
    const path = issue.path;
    const field = path.length > 0 ? String(path[0]) : undefined;
    const read = shown(root, path);
    const unknownKeys = issue.code === 'unrecognized_keys' ? issue.keys : null;
    const base = { ...(row === undefined ? {} : { row }), ...(read === undefined ? {} : { read }) };
    if (unknownKeys) {
      return unknownKeys.map((key) => ({
        ...base,
        pointer: pointerOf([...prefix, ...path, key]),
        field: key,
        help: 'no such field; leave it out',
      }));
    }
    const missing = issue.code === 'invalid_type' && read === undefined;
    return [
      {
        ...base,
        pointer: pointerOf([...prefix, ...path]),
        ...(field === undefined ? {} : { field }),
        help: missing ? 'missing; it is needed' : issue.message,
      },
    ];
  });
}

/** The value by its schema, or every fault of it. */
export function check<S extends z.ZodType>(schema: S, value: unknown): Read<z.output<S>> {
  const result = schema.safeParse(value);
  if (result.success) return { ok: true, value: result.data };
  const faults = faultsOf(result.error, value);
  return {
    ok: false,
    refusal: {
      why: 'invalid-input',
      detail: `${faults.length === 1 ? 'One field is' : `${faults.length} fields are`} not right; nothing was changed.`,
      faults,
    },
  };
}
