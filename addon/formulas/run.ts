/** Runs a formula over what the sheet handed over: worked out here, or asked of the yard in one batch. */
import { type Fault, type FormulaResult, type Habits, isFault, type WoodFormula, type YardFormula } from './formula.ts';
import { type Given, gathered, type ResultCell, spread } from './spread.ts';
import type { YardAsker } from './yard-asker.ts';

export type RunResult =
  | { readonly ok: true; readonly rows: readonly (readonly ResultCell[])[]; readonly ranged: boolean }
  | ({ readonly ok: false } & Fault);

const refused = (fault: Fault): RunResult => ({ ok: false, fault: fault.fault });

export function runWoodFormula(formula: WoodFormula, given: readonly Given[], habits: Habits): RunResult {
  const cells = spread(formula, given);
  if (isFault(cells)) return refused(cells);
  const results = cells.cells.map((values): FormulaResult => (values === null ? '' : worked(formula, values, habits)));
  const rows = gathered(results, cells.shape);
  return isFault(rows) ? refused(rows) : { ok: true, rows, ranged: cells.ranged };
}

/** The core guards its ranges by throwing; in a cell that is a sentence like any other. */
function worked(formula: WoodFormula, values: Parameters<WoodFormula['work']>[0], habits: Habits): FormulaResult {
  try {
    return formula.work(values, habits);
  } catch (fault) {
    if (fault instanceof RangeError) return { fault: fault.message };
    throw fault;
  }
}

export async function runYardFormula(
  formula: YardFormula,
  given: readonly Given[],
  habits: Habits,
  yard: YardAsker,
): Promise<RunResult> {
  const cells = spread(formula, given);
  if (isFault(cells)) return refused(cells);
  const results = await Promise.all(
    cells.cells.map((values): ResultCell | Promise<ResultCell> => {
      if (values === null) return '';
      const question = formula.question(values, habits);
      return isFault(question) ? question : yard.ask(question);
    }),
  );
  const rows = gathered(results, cells.shape);
  return isFault(rows) ? refused(rows) : { ok: true, rows, ranged: cells.ranged };
}

/** The first fault of a result with the row it stands in, for a host whose functions give one error for all cells. */
export function firstFault(rows: readonly (readonly ResultCell[])[], ranged: boolean): string | null {
  for (const [index, row] of rows.entries()) {
    const found = row.find(isFault);
    if (found) return ranged ? `row ${index + 1} of the range: ${found.fault}` : found.fault;
  }
  return null;
}
