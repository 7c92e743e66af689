/** Tags that stand in a table of boards, whatever else it says: enough to ask who holds them or to hold them. */
import type { Area } from '../../host/host.ts';
import { columnFor } from '../../sheet/mapping.ts';
import type { FreshTable } from './sheet-reading.ts';

export interface SheetTag {
  /** 0-based on the sheet. */
  readonly sheetRow: number;
  readonly tag: string;
}

/**
 * Only of rows that hold a board, read well or not: totals and titles are passed over here as in reading. Hidden rows are
 * left out; within limits the rows to those that an area covers.
 */
export function tagsOf<Draft>(table: FreshTable<Draft>, within: Area | null): SheetTag[] {
  const { block, mapping, rows } = table;
  const ofBoards = new Set([...rows.rows, ...rows.faults].map(({ sheetRow }) => sheetRow));
  const column = columnFor(mapping, 'tag');
  if (column === null) return [];
  const hidden = new Set(block.hiddenRows);
  const tags: SheetTag[] = [];
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    const sheetRow = block.area.row + row;
    if (hidden.has(row) || !ofBoards.has(sheetRow)) continue;
    if (within !== null && (sheetRow < within.row || sheetRow >= within.row + within.rowCount)) continue;
    const tag = block.cells[row]?.[column.column]?.text.trim() ?? '';
    if (tag !== '') tags.push({ sheetRow, tag });
  }
  return tags;
}
