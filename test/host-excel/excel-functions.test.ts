/** Our formulas as Excel calls them: ranges in, ranges out, a fault in its own cell. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { excelFunction } from '../../addon/excel/functions.ts';
import { formulas } from '../../addon/formulas/catalogue.ts';
import type { Habits } from '../../addon/formulas/formula.ts';
import type { Given } from '../../addon/formulas/spread.ts';

class CellError {
  readonly code: string;
  readonly message: string;
  constructor(code: string, message: string) {
    this.code = code;
    this.message = message;
  }
}

const habits: Habits = { unit: 'in', decimal: '.', dateOrder: 'mdy' };
const yard = { ask: async () => 'free' };
/** What Excel adds after the arguments. */
const invocation = Object.assign([[null]], { functionName: 'HEART' });

beforeAll(() => {
  Reflect.set(globalThis, 'CustomFunctions', { Error: CellError, ErrorCode: { invalidValue: '#VALUE!' } });
});
afterAll(() => {
  Reflect.deleteProperty(globalThis, 'CustomFunctions');
});

function run(name: string, ...given: Given[]) {
  const formula = formulas.find((one) => one.name === name);
  if (!formula) throw new Error(`No formula ${name}.`);
  const missing: Given[] = Array(formula.arguments.length - given.length).fill(undefined);
  return excelFunction(formula, habits, yard)(...given, ...missing, invocation);
}

test('single cells come as ranges of one, and arguments left out as nothing', () => {
  expect(run('BOARDFEET', [[96]], [[7.5]], [['8/4']])).toEqual([[10]]);
});

test('a fault stands in its own cell, so that a sum over the column fails rather than leaves a board out', async () => {
  const [good, bad] = await run('BOARDFEET', [[96], [96]], [[6], ['wide']], [[1]]);
  expect(good).toEqual([4]);
  expect(bad?.[0]).toBeInstanceOf(CellError);
  expect(bad?.[0]).toMatchObject({ code: '#VALUE!', message: expect.stringMatching(/^width: /) });
});

test('ranges that do not match are one error for the whole formula', () => {
  const words = 'the ranges differ in size; give each the same rows';
  expect(() => run('BOARDFEET', [[96], [96]], [[6], [6], [6]], [[1]])).toThrow(
    expect.objectContaining({ message: words }),
  );
});

test('a formula that asks the yard answers later, in the same shape', async () => {
  expect(await run('STATUS', [['JB-1'], ['']])).toEqual([['free'], ['']]);
});
