/** The owner's care of the yard in the Shop tab: the check goes on until the last part, and a copy has a name to find it by. */
import { expect, test } from 'vitest';
import { copyName, makeYardCare } from '../../addon/panel/screens/shop-copy.tsx';
import { fakeYard } from './fake-yard.ts';

test('the check asks on until no part is left, and gathers what it found', async () => {
  const fault = { rule: 'replay' as const, what: 'board bd_1', words: 'is not what the journal makes of it' };
  const yard = fakeYard({
    checkYard: ({ query }) => ({
      findings: query?.after === undefined ? [] : [fault],
      looked: { movements: 500, things: 9, receipts: 0 },
      movements: 1_000,
      next: query?.after === undefined ? 'movement 500' : null,
    }),
  });
  const care = makeYardCare(yard);
  expect(await care.check()).toBe(true);
  expect(yard.calls.map((call) => call.input)).toEqual([{}, { query: { after: 'movement 500' } }]);
  expect(care.found.value).toEqual({ movements: 1_000, findings: [fault] });
});

test('a yard that cannot be reached half-way leaves no verdict', async () => {
  const care = makeYardCare(fakeYard());
  expect(await care.check()).toBe(false);
  expect(care.found.value).toBeNull();
  expect(care.task.trouble.value).toEqual({ kind: 'offline' });
});

test('the file of a copy is sent as it is', async () => {
  const yard = fakeYard({ restoreYard: () => ({ seq: 7, movements: 7, done: true }) });
  expect(await makeYardCare(yard).restore('{"heartside":"yard"}')).toBe(true);
  expect(yard.calls).toEqual([{ name: 'restoreYard', input: { file: '{"heartside":"yard"}' } }]);
});

test('a copy is named by yard and day', () => {
  expect(copyName('Öster & Sohn', Date.parse('2026-11-20T10:00:00Z'))).toBe('öster-sohn 2026-11-20.ndjson');
});
