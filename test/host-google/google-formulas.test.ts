/** Formulas in Google cells, run from the built script in an older engine: one error for a formula, with its row. */
import { expect, test } from 'vitest';
import { formulas, fullName } from '../../addon/formulas/catalogue.ts';
import { boardSheets } from '../host/contract.ts';
import { type FakeGoogle, openGoogle } from './fake-google.ts';

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

test('every wood formula gives its example', async () => {
  const google = await openGoogle(boardSheets);
  for (const formula of formulas.filter(({ asks }) => asks === null)) {
    const { given, result } = formula.example;
    const found = plain(google.call(fullName(formula.name, 'underscore'), ...given));
    expect(found, formula.name).toEqual(typeof result === 'object' ? [result] : result);
  }
});

test('a 5/4 that Google turned into a date comes as a date, and counts as 5/4', async () => {
  const google = await openGoogle(boardSheets);
  expect(google.call('HEART_BOARDFEET', 96, 6, new Date(Date.UTC(2026, 4, 4)))).toBe(5);
  expect(
    plain(google.call('HEART_BOARDFEET', [[96], ['']], [[6], ['']], [[new Date(Date.UTC(2026, 4, 4))], ['']])),
  ).toEqual([[5], ['']]);
});

test('a fault is one sentence with its row', async () => {
  const google = await openGoogle(boardSheets);
  expect(() => google.call('HEART_BOARDFEET', 96, 'wide', 1)).toThrow(/^width: write it as on a tape/);
  expect(() => google.call('HEART_BOARDFEET', [[96], [96]], [[6], ['']], 1)).toThrow(
    'row 2 of the range: give the width',
  );
});

test('plain numbers are millimetres where the file says so', async () => {
  const google = await openGoogle(boardSheets);
  google.prompts.push('mm');
  google.call('heartFormulaUnit');
  expect(google.call('HEART_CUBICMETRES', 2000, 200, 50)).toBe(0.02);
});

async function connected(scopes: readonly string[]): Promise<FakeGoogle> {
  const google = await openGoogle(boardSheets);
  google.answerFetch = (url, body) => {
    if (url.endsWith('/v1/yard')) return { code: 200, text: JSON.stringify({ you: { label: 'sheet', scopes } }) };
    if (url.endsWith('/v1/boards/status')) {
      const { tags } = JSON.parse(body ?? '{}');
      const rows = tags.map((tag: string) => ({ tag, words: `free ${tag}` }));
      return { code: 200, text: JSON.stringify({ rows, seq: 7 }) };
    }
    const board = { species: 'white-oak', lengthNm: 96 * 25.4e6, widthNm: 6 * 25.4e6, thicknessNm: 2 * 25.4e6 };
    const second = url.includes('after=');
    const items = [{ ...board, state: 'in-stock', held: second ? [{ fromNm: 0, toNm: 48 * 25.4e6 }] : [] }];
    return { code: 200, text: JSON.stringify({ items, next: second ? null : 'p2' }) };
  };
  google.prompts.push('https://yard.example.com/', 'hs_read');
  google.call('heartFormulaAccess');
  return google;
}

test('a key that may do more than read is not taken into the file', async () => {
  const google = await connected(['read', 'hold']);
  expect(google.alerts).toEqual(['This key may do more than read. Make one for reading alone, and give that one.']);
  expect(google.properties.document.size).toBe(0);
  expect(() => google.call('HEART_STATUS', 'JB-101')).toThrow(/Let formulas ask the yard/);
});

test('a column of tags is one call to the yard, and none again within the minute', async () => {
  const google = await connected(['read']);
  const column = [['JB-101'], [''], ['JB-102']];
  expect(plain(google.call('HEART_STATUS', column))).toEqual([['free JB-101'], [''], ['free JB-102']]);
  google.call('HEART_STATUS', column);
  expect(google.fetched.slice(1)).toEqual(['https://yard.example.com/v1/boards/status']);
});

test('free board feet over all pages of the stock, kept for every wood at once', async () => {
  const google = await connected(['read']);
  // Two boards of 96 × 6 × 2 in are 8 bf each; half of the second is held.
  expect(google.call('HEART_FREE', 'white oak', '8/4')).toBe(12);
  expect(google.call('HEART_FREE', 'walnut')).toBe(0);
  expect(google.fetched.slice(1)).toHaveLength(2);
});

test('a yard that refuses is said in words', async () => {
  const google = await connected(['read']);
  google.answerFetch = () => ({ code: 401, text: '{}' });
  expect(() => google.call('HEART_STATUS', 'JB-9')).toThrow(/the yard did not answer/);
});
