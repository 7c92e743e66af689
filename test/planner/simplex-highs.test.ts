/** The planner's own simplex against HiGHS (highs.dev, the WebAssembly build of the `highs` package) on small programs. */
import * as fc from 'fast-check';
import loadHighs from 'highs';
import { expect, test } from 'vitest';
import type { LpProblem } from '../../worker/planner/lp.ts';
import { ownLpEngine } from '../../worker/planner/simplex.ts';

const highs = await loadHighs();

/** Every column has a row that limits it, as patterns have. */
const anyProgram: fc.Arbitrary<LpProblem> = fc
  .record({ rows: fc.integer({ min: 1, max: 8 }), columns: fc.integer({ min: 1, max: 14 }) })
  .chain(({ rows, columns }) =>
    fc.record({
      limits: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: rows, maxLength: rows }),
      columns: fc.array(
        fc.record({
          worth: fc.integer({ min: -3, max: 30 }),
          amounts: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: rows, maxLength: rows }),
          row: fc.nat(rows - 1),
        }),
        { minLength: columns, maxLength: columns },
      ),
    }),
  )
  .map(({ limits, columns }) => ({
    limits: Float64Array.from(limits),
    columns: columns.map(({ worth, amounts, row }) => {
      const used = amounts.map((amount, at) => (at === row ? amount + 1 : amount));
      return { worth, rows: Int32Array.from(used.keys()), amounts: Float64Array.from(used) };
    }),
  }));

function byHighs({ limits, columns }: LpProblem): number {
  const terms = (of: (column: LpProblem['columns'][number]) => number) =>
    columns.map((column, x) => `${of(column) < 0 ? '-' : '+'} ${Math.abs(of(column))} x${x}`).join(' ');
  const rows = Array.from(limits, (limit, row) => ` r${row}: ${terms((column) => column.amounts[row]!)} <= ${limit}`);
  const text = ['Maximize', ` worth: ${terms((column) => column.worth)}`, 'Subject To', ...rows, 'End'].join('\n');
  const result = highs.solve(text, { output_flag: false });
  expect(result.Status).toBe('Optimal');
  return result.ObjectiveValue;
}

test('value, mix and prices agree', () => {
  fc.assert(
    fc.property(anyProgram, (program) => {
      const { limits, columns } = program;
      const { value, x, duals } = ownLpEngine.solve(program);
      expect(value).toBeCloseTo(byHighs(program), 4);
      limits.forEach((limit, row) => {
        const used = columns.reduce((sum, column, index) => sum + column.amounts[row]! * x[index]!, 0);
        expect(used).toBeLessThanOrEqual(limit + 1e-5);
      });
      // By duality the limits are worth as much as the mix, and no column is worth more than its rows.
      expect(duals.reduce((sum, price, row) => sum + price * limits[row]!, 0)).toBeCloseTo(value, 4);
      for (const column of columns) {
        const price = column.amounts.reduce((sum, amount, row) => sum + amount * duals[row]!, 0);
        expect(column.worth).toBeLessThanOrEqual(price + 1e-6);
      }
    }),
    { numRuns: 150 },
  );
});
