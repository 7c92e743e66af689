/** Our formulas in Excel's cells: one function an entry of the catalogue, a fault in its own cell with its own words. */
import { formulas } from '../formulas/catalogue.ts';
import type { Formula, Habits } from '../formulas/formula.ts';
import { isFault } from '../formulas/formula.ts';
import { type RunResult, runWoodFormula, runYardFormula } from '../formulas/run.ts';
import type { Given } from '../formulas/spread.ts';
import type { YardAsker } from '../formulas/yard-asker.ts';

type ExcelCell = number | string | CustomFunctions.Error;
type ExcelCells = ExcelCell[][];

export function associateFormulas(habits: Habits, yard: YardAsker): void {
  for (const formula of formulas) CustomFunctions.associate(formula.name, excelFunction(formula, habits, yard));
}

export function excelFunction(
  formula: Formula,
  habits: Habits,
  yard: YardAsker,
): (...given: readonly Given[]) => ExcelCells | Promise<ExcelCells> {
  return (...given) => {
    // Excel hands over its own account of the call after the arguments.
    const plain = given.slice(0, formula.arguments.length);
    if (formula.asks === null) return cellsOf(runWoodFormula(formula, plain, habits));
    return runYardFormula(formula, plain, habits, yard).then(cellsOf);
  };
}

function cellsOf(result: RunResult): ExcelCells {
  if (!result.ok) throw cellError(result.fault);
  return result.rows.map((row) => row.map((cell) => (isFault(cell) ? cellError(cell.fault) : cell)));
}

const cellError = (words: string) => new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, words);
