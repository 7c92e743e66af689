/** Requests out of the OpenAPI document: as they should be, nearly so, and as an enemy would send them. */
import fc from 'fast-check';
import type { Json, Operation, Parameter } from './document.ts';
import { idOf, type Pool, valid } from './from-schema.ts';
import { idKind } from './seed.ts';

export interface Request {
  readonly operation: Operation;
  readonly kind: 'valid' | 'near' | 'hostile';
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | null;
}

const odd: readonly unknown[] = [
  null,
  true,
  '',
  ' ',
  0,
  -1,
  1.5,
  1e308,
  -1e-7,
  2 ** 53,
  [],
  {},
  [[]],
  'x'.repeat(600),
  '\u0000',
  '\ud800',
  '=cmd|/c calc',
  "'; DROP TABLE board; --",
  '<script>alert(1)</script>',
  '../../etc/passwd',
  { $ne: null },
  '1e9999',
];
const oddText = fc.oneof(
  fc.constantFrom(...odd.filter((one) => typeof one === 'string')),
  fc.string({ unit: 'binary' }),
);
const oddValue = fc.oneof(fc.constantFrom(...odd), fc.anything({ maxDepth: 2 }));

/** Every place in a JSON value, as a path. */
function places(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, inner]) => places(inner, [...path, key]))];
}

/** A copy with what stands at the path changed; undefined takes it out. */
function changedAt(value: unknown, path: readonly (string | number)[], put: unknown): unknown {
  const [first, ...rest] = path;
  if (first === undefined) return put;
  const copy = (Array.isArray(value) ? [...value] : { ...(value as Json) }) as Record<string | number, unknown>;
  const inner = changedAt(copy[first], rest, put);
  if (inner === undefined && !Array.isArray(copy)) delete copy[first];
  else copy[first] = inner;
  return copy;
}

/** One thing wrong with a valid body: a value of another kind, a field gone, a field too many. */
function nearly(body: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> {
  return fc
    .tuple(body, fc.nat(), fc.oneof(oddValue, fc.constant(undefined)), fc.nat(3))
    .map(([value, at, put, how]) => {
      const all = places(value);
      const path = all[at % all.length] ?? [];
      return how === 0 ? changedAt(value, [...path, 'extra'].slice(0, 1), put ?? 1) : changedAt(value, path, put);
    });
}

const rawBodies = fc.oneof(
  fc.constantFrom(
    '',
    '{',
    'null',
    '[]',
    '"text"',
    '\ufeff{}',
    '{"__proto__":{"admin":true},"constructor":1}',
    `${'['.repeat(20_000)}${']'.repeat(20_000)}`,
    `{"a":${'1'.repeat(5_000)}}`,
    `{"boards":[${'{},'.repeat(2_100)}{}]}`,
    `{"tags":["${'x'.repeat(100_000)}"]}`,
    '{"seed":1e400,"seed":2}',
  ),
  fc.json({ maxDepth: 4 }),
  fc.string({ unit: 'binary', maxLength: 200 }),
);

const pathText = (text: string) => {
  const encoded = encodeURIComponent(text.replaceAll(/\p{Cs}/gu, '?'));
  // A segment of dots would be another address.
  return /^(\.|%2e){0,2}$/i.test(encoded) ? 'x' : encoded;
};

function queryOf(parameters: readonly Parameter[], pool: Pool, isHostile: boolean): fc.Arbitrary<string> {
  const ofQuery = parameters.filter((parameter) => parameter.in === 'query');
  const value = (parameter: Parameter) =>
    isHostile
      ? fc.oneof(valid(parameter.schema, pool, parameter.name), oddText)
      : valid(parameter.schema, pool, parameter.name);
  const model = Object.fromEntries(ofQuery.map((parameter) => [parameter.name, value(parameter)]));
  const known = fc.record(model, { requiredKeys: [], noNullPrototype: true });
  const extra = isHostile
    ? fc.dictionary(fc.constantFrom('limit', 'after', 'x', 'q[]'), oddText, { maxKeys: 2 })
    : fc.constant({});
  return fc.tuple(known, extra).map(([values, more]) => {
    const pairs = new URLSearchParams();
    for (const [name, one] of [...Object.entries(values), ...Object.entries(more)])
      pairs.append(name, String(one).replaceAll(/\p{Cs}/gu, '?'));
    const text = pairs.toString();
    return text === '' ? '' : `?${text}`;
  });
}

function pathOf(operation: Operation, id: fc.Arbitrary<unknown>, isHostile: boolean): fc.Arbitrary<string> {
  if (!operation.path.includes('{')) return fc.constant(operation.path);
  const one = isHostile ? fc.oneof(id, oddText) : id;
  return one.map((value) => operation.path.replace(/\{\w+\}/, pathText(String(value))));
}

const headerText = fc.stringMatching(/^[\x21-\x7e]{1,120}$/);
const jsonText = (value: unknown) => JSON.stringify(value) ?? 'null';

/** What opens what: the owner's key, the admin key, a yard's id and the file name of a feed. */
export interface Credentials {
  readonly owner: string;
  readonly admin: string;
  readonly yardId: string;
  readonly feedFile: string;
}

function idFor(operation: Operation, pool: Pool, credentials: Credentials): fc.Arbitrary<unknown> {
  if (operation.scope === 'feed') return fc.constant(credentials.feedFile);
  if (operation.scope === 'service') return fc.constant(credentials.yardId);
  return operation.path.includes('{') ? idOf(pool, idKind(operation.path)) : fc.constant('');
}

/** Requests to one operation by who may make them. */
export function requestsOf(operation: Operation, pool: Pool, credentials: Credentials): fc.Arbitrary<Request> {
  const authorization = `Bearer ${operation.scope === 'service' ? credentials.admin : credentials.owner}`;

  const id = idFor(operation, pool, credentials);
  const isJson = operation.body?.type === 'application/json';
  const good = operation.body
    ? isJson
      ? valid(operation.body.schema, pool).map(jsonText)
      : fc.constantFrom('', '{"heartside":"yard","format":1,"name":"x","movements":1}\n')
    : fc.constant(null);
  const near = operation.body && isJson ? nearly(valid(operation.body.schema, pool)).map(jsonText) : good;
  const takesVersion = operation.parameters.some(({ name, required }) => name === 'If-Match' && required);
  const base = fc.record({
    idempotency: fc.uuid(),
    /** Guarded though it need not be: now and then, or hardly any such write would go through. */
    isGuarded: fc.nat(9).map((no) => no === 0),
    version: fc.oneof(
      fc.integer({ min: 1, max: 40 }).map((seq) => `"s${seq}"`),
      fc.constantFrom('"s1"', '"s2"', '"s5"', '"s6"'),
    ),
  });
  const headersOf = (one: { readonly idempotency: string; readonly isGuarded: boolean; readonly version: string }) => ({
    authorization,
    ...(operation.body ? { 'content-type': operation.body.type } : {}),
    'idempotency-key': one.idempotency,
    ...(takesVersion || one.isGuarded ? { 'if-match': one.version } : {}),
  });
  const made = (kind: Request['kind'], body: fc.Arbitrary<string | null>) =>
    fc.tuple(pathOf(operation, id, false), queryOf(operation.parameters, pool, false), body, base).map(
      ([path, query, text, one]): Request => ({
        operation,
        kind,
        path: path + query,
        headers: headersOf(one),
        body: text,
      }),
    );
  const hostileHeaders = fc.record(
    {
      authorization: fc.constantFrom(
        authorization,
        authorization,
        `${authorization}x`,
        'Basic Zm9v',
        'Bearer',
        'Bearer yk_a_b_c',
      ),
      'content-type': fc.constantFrom(
        'application/json',
        'application/json; charset=utf-7',
        'text/plain',
        'multipart/form-data',
        'x',
      ),
      'idempotency-key': headerText,
      'if-match': fc.oneof(headerText, fc.constantFrom('*', '"s999999999999999"', 'W/"s1"')),
      'if-none-match': fc.oneof(headerText, fc.constantFrom('*', '"s1"', 'W/"x", "y"')),
      'shop-day': fc.oneof(headerText, fc.constantFrom('2026-13-45', '9999-12-31')),
      origin: headerText,
      accept: fc.constantFrom('*/*', 'text/html', 'image/png'),
      'x-forwarded-for': headerText,
    },
    { requiredKeys: ['authorization'], noNullPrototype: true },
  );
  const hostile = fc
    .tuple(
      pathOf(operation, id, true),
      queryOf(operation.parameters, pool, true),
      fc.oneof(rawBodies, near),
      hostileHeaders,
    )
    .map(
      ([path, query, text, headers]): Request => ({
        operation,
        kind: 'hostile',
        path: path + query,
        headers: headers as Record<string, string>,
        body: operation.method === 'GET' ? null : text,
      }),
    );
  return fc.oneof(
    { weight: 4, arbitrary: made('valid', good) },
    { weight: 3, arbitrary: made('near', near) },
    { weight: 3, arbitrary: hostile },
  );
}
