/**
 * Times a sheet that recalculates: 10,000 cells, once as 10,000 formulas of one cell and once as ranges, over sizes
 * written in every way of a shop. Prints a line a formula; ends with an error past one second.
 */
import { woodFormulas } from '../../addon/formulas/catalogue.ts';
import type { Habits, SheetValue } from '../../addon/formulas/formula.ts';
import { runWoodFormula } from '../../addon/formulas/run.ts';

const CELLS = 10_000;
const MS_MAX = 1_000;
const habits: Habits = { unit: 'in', decimal: '.', dateOrder: 'mdy' };

/** Varied as a real column is, so that nothing is read from a memory of the same text. */
function varied(value: number | string, row: number): SheetValue {
  if (typeof value === 'number') return value + (row % 97) / 64;
  const length = /^\d+ \d+\/\d+"$/.test(value);
  return length ? `${20 + (row % 200)} ${1 + 2 * (row % 8)}/16"` : value;
}

let slowestMs = 0;
for (const formula of woodFormulas) {
  const rows = Array.from({ length: CELLS }, (_, row) => formula.example.given.map((value) => varied(value, row)));
  const singlesMs = timed(() => {
    for (const row of rows) runWoodFormula(formula, row, habits);
  });
  const columns = formula.example.given.map((_, column) => rows.map((row) => [row[column] ?? null]));
  const rangeMs = timed(() => runWoodFormula(formula, columns, habits));
  slowestMs = Math.max(slowestMs, singlesMs, rangeMs);
  console.log(
    `${formula.name.padEnd(12)} ${singlesMs.toFixed(0).padStart(5)} ms single ${rangeMs.toFixed(0).padStart(5)} ms range`,
  );
}

function timed(act: () => void): number {
  const startedMs = performance.now();
  act();
  return performance.now() - startedMs;
}

console.log(`slowest: ${slowestMs.toFixed(0)} ms for ${CELLS} cells`);
if (slowestMs > MS_MAX) process.exitCode = 1;
