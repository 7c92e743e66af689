/** A short hash of formulas and texts (FNV-1a, 32 bit, twice with different seeds), to notice a sheet that changed. */
import type { Cell } from './host.ts';

export function revisionOf(cells: readonly (readonly Cell[])[]): string {
  let first = 0x811c9dc5;
  let second = 0x9747b28c;
  for (const row of cells) {
    for (const cell of row) {
      const text = `${cell.formula ?? ''}\u0001${cell.text}\u0002`;
      for (let i = 0; i < text.length; i += 1) {
        const code = text.charCodeAt(i);
        first = Math.imul(first ^ code, 0x01000193);
        second = Math.imul(second ^ code, 0x01000193);
      }
    }
  }
  return (first >>> 0).toString(16).padStart(8, '0') + (second >>> 0).toString(16).padStart(8, '0');
}
