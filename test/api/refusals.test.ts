/** Every refusal that the contract knows is reached by some test, which asks for it by its name. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { problemTypes } from '../../worker/contract/problem.ts';
import { openShop } from './shop.ts';

const folders = ['api', 'yard', 'workerd', 'slow'].map((name) => join(import.meta.dirname, '..', name));
const sources = folders
  .flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)))
  .filter((path) => path.endsWith('.test.ts'))
  .map((path) => readFileSync(path, 'utf8'));

test('each refusal is asked for by name in a test', () => {
  const asked = (name: string) =>
    sources.some((text) => text.includes(`'/problems/${name}'`) || text.includes(`'${name}'`));
  expect(Object.keys(problemTypes).filter((name) => !asked(name))).toEqual([]);
});

test('an address asked in another way than it takes names those that it does', async () => {
  const yard = await openShop().foundYard('Oak');
  const answer = await yard.send('PATCH', '/v1/boards', {});
  expect(answer.json).toMatchObject({ status: 405, type: '/problems/method-not-allowed' });
  expect(answer.headers.get('allow')?.split(', ').sort()).toEqual(['GET', 'POST']);
});
