/** Formulas in a sheet: real boards in, the figures of the trade's documents out, and plain words for what is wrong. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formulas, woodFormulas } from '../../addon/formulas/catalogue.ts';
import type { Habits } from '../../addon/formulas/formula.ts';
import { firstFault, runWoodFormula } from '../../addon/formulas/run.ts';
import type { Given } from '../../addon/formulas/spread.ts';

const inches: Habits = { unit: 'in', decimal: '.', dateOrder: 'mdy' };
const metric: Habits = { unit: 'mm', decimal: ',', dateOrder: 'dmy' };

function rows(name: string, given: readonly Given[], habits = inches) {
  const formula = woodFormulas.find((one) => one.name === name);
  if (!formula) throw new Error(`No formula ${name}.`);
  const result = runWoodFormula(formula, given, habits);
  return result.ok ? result.rows : result.fault;
}

function one(name: string, given: readonly Given[], habits = inches) {
  const result = rows(name, given, habits);
  return typeof result === 'string' ? { fault: result } : result[0]?.[0];
}

test.each(woodFormulas.map((formula) => [formula.name, formula] as const))(
  'the example in the help of %s is true',
  (_, formula) => {
    const { given, result } = formula.example;
    expect(rows(formula.name, given)).toEqual([Array.isArray(result) ? result : [result]]);
  },
);

describe('board feet', () => {
  test('8 ft × 7 1/2 in × 8/4 is 10 bf, in every way a shop writes it (96 × 7.5 × 2 / 144)', () => {
    expect(one('BOARDFEET', [96, 7.5, 2])).toBe(10);
    expect(one('BOARDFEET', ["8'", '7 1/2"', '8/4'])).toBe(10);
    expect(one('BOARDFEET', [8, 7.5, 2, 'ft'])).toBe(10);
    expect(one('BOARDFEET', ["8'", '7-1/2', '8/4', '', 3])).toBe(30);
  });

  test('a 5/4 that the sheet turned into 4 May 2026 counts as 5/4; day first it was 5 April', () => {
    // 46146 is 4 May 2026, 46117 is 5 April 2026: days since 30 December 1899.
    expect(one('BOARDFEET', [96, 6, 46_146])).toBe(5);
    expect(one('BOARDFEET', [2438.4, 152.4, 46_117], metric)).toBe(5);
  });

  test('a date that was no call says so', () => {
    // 25 December 2026.
    expect(one('BOARDFEET', [96, 6, 46_381])).toEqual({
      fault: 'thickness: this cell holds a date. Format the column as plain text and write it again',
    });
  });

  test('3/4 stock is sold as one inch, and measured as it is', () => {
    expect(one('TALLY', [96, 6, '3/4'])).toBe(4);
    expect(one('BOARDFEET', [96, 6, '3/4'])).toBe(3);
  });

  test('a column of boards with a blank row and a total of their own', () => {
    const result = rows('BOARDFEET', [
      [[96], [''], [120]],
      [['7 1/2'], [null], ['8']],
      [['8/4'], [''], ['4/4']],
    ]);
    expect(result).toEqual([[10], [''], [6.666666667]]);
  });

  test('one thickness for the whole column leaves blank rows blank', () => {
    expect(rows('BOARDFEET', [[[96], ['']], [[6], ['']], '4/4'])).toEqual([[4], ['']]);
  });

  test('a row with a faulty cell says what to write, in its own row', () => {
    const result = rows('BOARDFEET', [
      [[96], [96]],
      [[6], ['2 × 4']],
      [[1], [1]],
    ]);
    expect(result).toEqual([[4], [{ fault: 'width: this is more than one size; enter one length in each cell' }]]);
    expect(typeof result === 'string' ? result : firstFault(result, true)).toBe(
      'row 2 of the range: width: this is more than one size; enter one length in each cell',
    );
  });

  test('ranges of different rows are refused rather than matched up', () => {
    expect(rows('BOARDFEET', [[[96], [96]], [[6], [6], [6]], 1])).toBe(
      'the ranges differ in size; give each the same rows',
    );
  });

  test('a whole column is refused before it holds the sheet up', () => {
    const column = Array.from({ length: 20_001 }, () => [1]);
    expect(rows('BOARDFEET', [column, 6, 1])).toMatch(/more than 20,000 cells/);
    expect(rows('BOARDFEET', [column.slice(1), 6, 1])).toHaveLength(20_000);
  });
});

describe('lengths between text and number', () => {
  test('23 5/8 in is 600.075 mm exactly (25.4 mm to the inch)', () => {
    expect(one('MILLIMETRES', ['23 5/8"'])).toBe(600.075);
    expect(one('INCHES', ['23⅝'])).toBe(23.625);
    expect(one('INCHES', ['7\' 6 1/2"'])).toBe(90.5);
    expect(one('MILLIMETRES', ['60,5 cm'], metric)).toBe(605);
    expect(one('MILLIMETRES', [600])).toBe(600);
    expect(one('INCHES', [12, 'ft'])).toBe(144);
  });

  test('a number as the tape shows it, with ≈ where it was rounded', () => {
    expect(one('TAPE', [23.625])).toBe('23 5/8"');
    expect(one('TAPE', [7.54, '', 32])).toBe('≈ 7 17/32"');
    expect(one('TAPE', [8.375, 'ft'])).toBe('8\' 4 1/2"');
  });

  test('every 64th comes back from its own text', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 64 * 300 }), (sixtyFourths) => {
        const text = one('TAPE', [sixtyFourths / 64, 'in', 64]);
        expect(one('INCHES', [typeof text === 'string' ? text : null])).toBe(
          Math.round((sixtyFourths / 64) * 1e6) / 1e6,
        );
      }),
    );
  });
});

describe('moisture', () => {
  test('EMC at 70 °F: 30 % 6.2, 50 % 9.2, 65 % 12.0 (Wood Handbook Table 4-2)', () => {
    expect(rows('EMC', [[[30], [50], [65]], 70, 'F'])).toEqual([[6.2], [9.2], [12]]);
  });

  test('humidity from a cell that shows per cent, and in Celsius', () => {
    expect(one('EMC', [0.4, 70])).toBe(7.7);
    expect(one('EMC', ['40 %', 21.11, 'C'])).toBe(7.7);
    expect(one('EMC', [140, 70])).toEqual({ fault: 'humidity: a number from 0 to 100' });
  });

  test('American beech 2 1/4 in flat-sawn from green to 7 %: 2.045 in (Wood Handbook, worked example to eq. 13-3)', () => {
    expect(one('WIDTHAT', [2.25, 'American beech', 'flat', 30, 7])).toBeCloseTo(2.045, 3);
  });

  test('above fibre saturation nothing moves', () => {
    expect(one('SHRINKAGE', ['white oak', 'flat', 80, 35])).toBe(0);
  });

  test('a wood that can be several, and one that is none', () => {
    expect(one('SHRINKAGE', ['oak', 'flat', 30, 8])).toMatchObject({ fault: expect.stringContaining('several woods') });
    expect(one('SHRINKAGE', ['walnutt', 'flat', 30, 8])).toMatchObject({
      fault: expect.stringContaining('did you mean'),
    });
  });

  test('20 bf of green white oak weigh 104.9 lb, 47.6 kg (FPL-GTR-282 eq. 4-14, as in the weight tests)', () => {
    const green = [120, 12, 2, 'white oak', 68, 'in'];
    expect([one('WEIGHT', [...green, 'lb']), one('WEIGHT', [...green, 'kg'])]).toEqual([104.9, 47.6]);
  });
});

test('a leg 2 1/4 × 2 1/4 × 28 is cut 29 × 2 1/2 × 2 1/2 (common practice, no source), row by row', () => {
  const result = rows('ROUGH', [
    [[28], [null], [28]],
    [[2.25], [''], ['x']],
    [[2.25], [''], [1]],
  ]);
  expect(result).toEqual([
    [29, 2.5, 2.5],
    ['', '', ''],
    Array(3).fill({ fault: 'width: write it as on a tape, with its unit: 23 5/8", 8\' 4 1/2", 600 mm' }),
  ]);
});

test('no formula ever throws, whatever stands in the cells', () => {
  const cell = fc.oneof(fc.string(), fc.double(), fc.boolean(), fc.constant(null), fc.constantFrom('5/4', '=1', '1/0'));
  const given = fc.array(fc.oneof(cell, fc.array(fc.array(cell, { minLength: 1, maxLength: 2 }), { maxLength: 3 })), {
    maxLength: 7,
  });
  fc.assert(
    fc.property(fc.constantFrom(...woodFormulas), given, (formula, values) => {
      const result = runWoodFormula(formula, values, inches);
      const cells = result.ok ? result.rows.flat() : [];
      expect(cells.filter((value) => typeof value === 'number' && !Number.isFinite(value))).toEqual([]);
    }),
    { numRuns: 500 },
  );
});

test('names are words of one namespace, and each argument is named once', () => {
  expect(new Set(formulas.map(({ name }) => name)).size).toBe(formulas.length);
  for (const formula of formulas) {
    // Excel takes no shorter name.
    expect(formula.name).toMatch(/^[A-Z]{3,}$/);
    const names = formula.arguments.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    // What may be left out comes last: a sheet knows arguments by their place.
    expect(formula.arguments.findLastIndex(({ optional }) => !optional)).toBeLessThan(
      formula.arguments.findIndex(({ optional }) => optional) >>> 0,
    );
  }
});
