/** Tags that stand in a table of boards, whatever else it says: enough to ask who holds them or to hold them. */
import type { Area, Block } from '../../host/host.ts';
import { columnFor, type Mapping } from '../../sheet/mapping.ts';

export interface SheetTag {
  /** 0-based on the sheet. */
  readonly sheetRow: number;
  readonly tag: string;
}

/** Hidden rows are left out; within limits the rows to those that an area covers. */
export function tagsOf(block: Block, mapping: Mapping, within: Area | null): SheetTag[] {
  const column = columnFor(mapping, 'tag');
  if (column === null) return [];
  const hidden = new Set(block.hiddenRows);
  const tags: SheetTag[] = [];
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    const sheetRow = block.area.row + row;
    if (hidden.has(row)) continue;
    if (within !== null && (sheetRow < within.row || sheetRow >= within.row + within.rowCount)) continue;
    const tag = block.cells[row]?.[column.column]?.text.trim() ?? '';
    if (tag !== '') tags.push({ sheetRow, tag });
  }
  return tags;
}
