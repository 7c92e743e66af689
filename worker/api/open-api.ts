/** The OpenAPI 3.1 document, made from the contract's tables: a route that is not in them does not exist. */
import * as z from 'zod';
import { ARCHIVE_TYPE } from '../contract/archive.ts';
import { problem } from '../contract/problem.ts';
import { routeWords } from '../contract/route-words.ts';
import { type Route, type RouteName, routes } from '../contract/routes.ts';
import { answers, bodies, queries } from '../contract/wire.ts';
import { serviceOperation, serviceRoutes } from './service-doc.ts';

type Json = Record<string, unknown>;

function schemaOf(schema: z.ZodType, io: 'input' | 'output'): Json {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, {
    io,
    unrepresentable: 'any',
    target: 'draft-2020-12',
  }) as Json;
  return rest;
}

const isRead = (route: Route) => route.method === 'GET' && route.stream === undefined;

function parametersOf(name: RouteName, route: Route): Json[] {
  const list: Json[] = [...route.path.matchAll(/\{(\w+)\}/g)].map((match) => ({
    name: match[1],
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }));
  const query = (queries as Partial<Record<RouteName, z.ZodType>>)[name];
  if (query) {
    const properties = (schemaOf(query, 'input').properties ?? {}) as Json;
    for (const [key, schema] of Object.entries(properties))
      list.push({ name: key, in: 'query', required: false, schema });
  }
  if (route.writes) {
    list.push({
      name: 'Idempotency-Key',
      in: 'header',
      required: true,
      description: 'New for each thing you do, the same when you try it again: then it is done once.',
      schema: { type: 'string', minLength: 8, maxLength: 100 },
    });
  }
  if (isRead(route)) {
    list.push({
      name: 'If-None-Match',
      in: 'header',
      required: false,
      description: 'The ETag of what you have: nothing is sent again while it is the same.',
      schema: { type: 'string' },
    });
  }
  if (route.ifMatch) {
    list.push({
      name: 'If-Match',
      in: 'header',
      required: route.ifMatch === 'must',
      description: 'The ETag of what you read, or its version alone ("s12"): refused when it was changed since.',
      schema: { type: 'string' },
    });
  }
  return list;
}

/** Statuses that a route can answer with besides success; each is problem details. */
function refusalsOf(name: RouteName, route: Route): number[] {
  const list = [401, 403, 422, 429, 500, 503];
  if (name in bodies) list.push(400, 404, 409, 413, 415);
  if (route.stream === 'in') list.push(400, 409, 413);
  if (route.writes) list.push(400, 409);
  if (route.path.includes('{')) list.push(404);
  if (name in queries) list.push(400);
  if (route.ifMatch) list.push(412);
  if (route.ifMatch === 'must') list.push(428);
  return [...new Set(list)].sort((a, b) => a - b);
}

const refused: Json = {
  description: 'Refused.',
  content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
};

/** Answers that are read as JSON; pages and files have no tag. */
const pages: ReadonlySet<RouteName> = new Set(['readCutCards', 'glueUpSheet']);

function operation(name: RouteName): Json {
  const route: Route = routes[name];
  const success = route.writes && route.method === 'POST' ? '201' : '200';
  const body = (bodies as Partial<Record<RouteName, z.ZodType>>)[name];
  const isPage = pages.has(name);
  const answerType = isPage ? 'text/html' : route.stream === 'out' ? ARCHIVE_TYPE : 'application/json';
  const answer = {
    [answerType]: { schema: schemaOf(answers[name], 'output') },
    ...(route.progress ? { 'application/x-ndjson': { schema: { type: 'string' } } } : {}),
  };
  return {
    operationId: name,
    summary: routeWords[name],
    security: [{ yardKey: [] }],
    'x-scope': route.scope,
    parameters: parametersOf(name, route),
    ...(body
      ? { requestBody: { required: true, content: { 'application/json': { schema: schemaOf(body, 'input') } } } }
      : {}),
    ...(route.stream === 'in'
      ? { requestBody: { required: true, content: { [ARCHIVE_TYPE]: { schema: { type: 'string' } } } } }
      : {}),
    responses: {
      [success]: { description: 'Done.', content: answer },
      ...(isRead(route) && !isPage ? { '304': { description: 'You have it already.' } } : {}),
      ...Object.fromEntries(refusalsOf(name, route).map((status) => [String(status), refused])),
    },
  };
}

let made: Json | null = null;

export function openApiDocument(): Json {
  if (made) return made;
  const paths: Record<string, Json> = {};
  for (const name of Object.keys(routes) as RouteName[]) {
    const route: Route = routes[name];
    const at = paths[route.path] ?? {};
    at[route.method.toLowerCase()] = operation(name);
    paths[route.path] = at;
  }
  for (const route of serviceRoutes) {
    paths[route.path] = { ...paths[route.path], [route.method]: serviceOperation(route, schemaOf, refused) };
  }
  made = {
    openapi: '3.1.0',
    info: {
      title: 'Heartside',
      version: '1.0.0',
      description:
        'A furniture shop\'s boards, takeoff, cut plans and journal. Lengths go out as whole nanometres and come in as that or as a text with its unit, as on a tape: "23 5/8 in", "8\' 4 1/2\\"", "600 mm".',
    },
    paths,
    components: {
      securitySchemes: { yardKey: { type: 'http', scheme: 'bearer' }, adminKey: { type: 'http', scheme: 'bearer' } },
      schemas: { Problem: schemaOf(problem, 'output') },
    },
  };
  return made;
}
