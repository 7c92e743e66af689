/** What a cell is before anything is read from it. */
import type { Cell } from '../host/host.ts';

export const FORMULA_FAILS = 'the formula in this cell fails; mend it first';

/** A formula's error, also where the host or a pasted list gives it as a text. */
export function isErrorCell(cell: Cell): boolean {
  if (cell.kind === 'error') return true;
  return (
    typeof cell.raw === 'string' &&
    cell.raw.includes('#') &&
    /^\s*#(?:REF!|VALUE!|NAME\?|DIV\/0!|N\/A|NUM!|NULL!|SPILL!|CALC!|ERROR!)\s*$/i.test(cell.raw)
  );
}
