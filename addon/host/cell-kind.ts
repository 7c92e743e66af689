/** What kind of thing stands in a cell, from its value, formula and number format. */
import type { Cell, CellKind } from './host.ts';

/** Days, months and years of a number format; hours and minutes alone are no date. Text in quotes and colours do not count. */
function showsDate(format: string | null): boolean {
  if (format === null) return false;
  const bare = format.replaceAll(/"[^"]*"|\[[^\]]*\]|\\./g, '').toLowerCase();
  return bare !== 'general' && /[dy]/.test(bare) && !/[#0?]/.test(bare);
}

/** `value` is a date's serial number, and '' for an empty cell, as spreadsheets give them. */
export function cellOf(value: number | string | boolean, text: string, formula: string, format: string): Cell {
  const usedFormat = format === '' || format === 'General' ? null : format;
  const usedFormula = formula.startsWith('=') ? formula : null;
  const plain = { text: text.replace(/[\r\n]+$/, ''), formula: usedFormula, format: usedFormat };
  if (value === '') return { kind: 'empty', raw: null, ...plain };
  return { kind: kindOf(value, usedFormula, usedFormat), raw: value, ...plain };
}

function kindOf(value: number | string | boolean, formula: string | null, format: string | null): CellKind {
  if (typeof value === 'boolean') return 'boolean';
  if (typeof value === 'number') return showsDate(format) ? 'date' : 'number';
  return formula && /^#[A-Z/0!?]+/.test(value) ? 'error' : 'text';
}
