/** Nothing comes in without a limit: each list, text and body of the document has its end, and it holds at n and at n + 1. */
import { expect, test } from 'vitest';
import { limits } from '../../worker/contract/limits.ts';
import { type Json, operations } from './contract/document.ts';
import { openShop } from './shop.ts';

/** Lists and texts in a schema that may be of any length. */
function endless(schema: unknown, path: string): string[] {
  if (Array.isArray(schema)) return schema.flatMap((one, at) => endless(one, `${path}/${at}`));
  if (typeof schema !== 'object' || schema === null) return [];
  const { type, maxItems, maxLength, pattern, format, const: only, enum: some } = schema as Json;
  const isBound = {
    array: maxItems !== undefined,
    string: [maxLength, pattern, format, only, some].some((one) => one !== undefined),
  };
  const here = (type === 'array' || type === 'string') && !isBound[type] ? [path] : [];
  return [...here, ...Object.entries(schema).flatMap(([key, inner]) => endless(inner, `${path}/${key}`))];
}

test('every list and text that comes in has its longest length', () => {
  const found = operations.flatMap(({ name, body, parameters }) => [
    // A yard's file is a stream of any length; its lines and parts have limits of their own.
    ...(body?.type === 'application/json' ? endless(body.schema, name) : []),
    ...parameters.filter((one) => one.in === 'query').flatMap((one) => endless(one.schema, `${name}?${one.name}`)),
  ]);
  expect(found).toEqual([]);
});

test('a body of the limit is read, one byte more is not', async () => {
  const yard = await openShop().foundYard('One');
  const ofBytes = (bytes: number) => `{"name":"x"${' '.repeat(bytes - 12)}}`;
  expect((await yard.send('POST', '/v1/jobs', ofBytes(limits.bodyBytes))).status).toBe(201);
  const over = await yard.send('POST', '/v1/jobs', ofBytes(limits.bodyBytes + 1));
  expect(over.json).toMatchObject({ status: 413, type: '/problems/too-large' });
});

test('a body nested to the limit is read, one level more is not; brackets in a text do not count', async () => {
  const yard = await openShop().foundYard('One');
  const nested = (depth: number) => `${'['.repeat(depth)}${']'.repeat(depth)}`;
  expect((await yard.send('POST', '/v1/jobs', nested(limits.jsonDepth))).status).toBe(422);
  expect((await yard.send('POST', '/v1/jobs', nested(limits.jsonDepth + 1))).json).toMatchObject({ status: 400 });
  const name = '[{"'.repeat(20);
  expect((await yard.send('POST', '/v1/jobs', { name })).json).toMatchObject({ name });
});
