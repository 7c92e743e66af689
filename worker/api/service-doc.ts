/** The service's own routes in the OpenAPI document: those that need no yard key. */
import * as z from 'zod';
import { foundAnswer, foundBody, healthAnswer } from './service.ts';
import { tallies } from './tally.ts';

type Json = Record<string, unknown>;

export interface ServiceRoute {
  readonly method: 'get' | 'post';
  readonly path: string;
  readonly name: string;
  readonly summary: string;
  /** open: anybody. service: the admin key. feed: the token in the path. */
  readonly scope: 'open' | 'service' | 'feed';
  readonly body?: z.ZodType;
  readonly success: '200' | '201';
  readonly type: 'application/json' | 'text/csv';
  readonly answer: z.ZodType;
  /** Refusals as problem details. */
  readonly refusals: readonly number[];
  /** Further answers with the same schema as success. */
  readonly also?: readonly number[];
}

export const serviceRoutes: readonly ServiceRoute[] = [
  {
    method: 'get',
    path: '/v1/health',
    name: 'health',
    summary: 'Whether the service runs and its secrets are set.',
    scope: 'open',
    success: '200',
    type: 'application/json',
    answer: healthAnswer,
    refusals: [429],
    also: [503],
  },
  {
    method: 'get',
    path: '/v1/openapi.json',
    name: 'openApi',
    summary: 'This document.',
    scope: 'open',
    success: '200',
    type: 'application/json',
    answer: z.looseObject({ openapi: z.string(), paths: z.looseObject({}) }),
    refusals: [429],
  },
  {
    method: 'get',
    path: '/v1/metrics',
    name: 'metrics',
    summary: 'Counts and timings by route, of the instance that answers.',
    scope: 'service',
    success: '200',
    type: 'application/json',
    answer: tallies,
    refusals: [401, 429],
  },
  {
    method: 'post',
    path: '/v1/yards',
    name: 'foundYard',
    summary: 'Found a yard; its first key is in this answer and nowhere else.',
    scope: 'service',
    body: foundBody,
    success: '201',
    type: 'application/json',
    answer: foundAnswer,
    refusals: [400, 401, 413, 415, 422, 429, 500, 503],
  },
  {
    method: 'post',
    path: '/v1/yards/{id}/owner-key',
    name: 'giveOwnerKey',
    summary: "A new owner's key for a yard that lost its last.",
    scope: 'service',
    success: '201',
    type: 'application/json',
    answer: foundAnswer,
    refusals: [401, 404, 429, 500, 503],
  },
  {
    method: 'get',
    path: '/feeds/{file}',
    name: 'readFeed',
    summary: 'What a feed link shows, as CSV: {file} is its token and .csv. No header is needed.',
    scope: 'feed',
    success: '200',
    type: 'text/csv',
    answer: z.string(),
    refusals: [404, 429, 500, 503],
  },
];

const security: Readonly<Record<ServiceRoute['scope'], readonly Json[]>> = {
  open: [],
  service: [{ adminKey: [] }],
  feed: [],
};

export function serviceOperation(
  route: ServiceRoute,
  schemaOf: (schema: z.ZodType, io: 'input' | 'output') => Json,
  refused: Json,
): Json {
  const answer = { description: 'Done.', content: { [route.type]: { schema: schemaOf(route.answer, 'output') } } };
  return {
    operationId: route.name,
    summary: route.summary,
    security: security[route.scope],
    'x-scope': route.scope,
    parameters: [...route.path.matchAll(/\{(\w+)\}/g)].map((match) => ({
      name: match[1],
      in: 'path',
      required: true,
      schema: { type: 'string' },
    })),
    ...(route.body
      ? { requestBody: { required: true, content: { 'application/json': { schema: schemaOf(route.body, 'input') } } } }
      : {}),
    responses: {
      [route.success]: answer,
      ...Object.fromEntries((route.also ?? []).map((status) => [String(status), answer])),
      ...Object.fromEntries(route.refusals.map((status) => [String(status), refused])),
    },
  };
}
