/** Areas of cells: whether they meet, what holds them, and which part of a sheet a selection means. */
import { regionAround, type Texts } from './bench-region.ts';
import { type Area, HostError } from './host.ts';

export function covers(area: Area, row: number, column: number): boolean {
  return (
    row >= area.row &&
    row < area.row + area.rowCount &&
    column >= area.column &&
    column < area.column + area.columnCount
  );
}

/** The first cell of an area. */
export const firstCell = (area: Area): Area => ({ ...area, rowCount: 1, columnCount: 1 });

export function overlap(a: Area, b: Area): Area | null {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rowCount = Math.min(a.row + a.rowCount, b.row + b.rowCount) - row;
  const columnCount = Math.min(a.column + a.columnCount, b.column + b.columnCount) - column;
  return rowCount > 0 && columnCount > 0 ? { sheet: a.sheet, row, column, rowCount, columnCount } : null;
}

/** The smallest area around some cells, of which there is at least one. */
export function areaAround(sheet: string, cells: readonly { readonly row: number; readonly column: number }[]): Area {
  let [top, left, bottom, right] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0, 0];
  for (const { row, column } of cells) {
    top = Math.min(top, row);
    left = Math.min(left, column);
    bottom = Math.max(bottom, row);
    right = Math.max(right, column);
  }
  return { sheet, row: top, column: left, rowCount: bottom - top + 1, columnCount: right - left + 1 };
}

/** What a sheet shows of itself when a selection is to be understood. */
export interface Sheetful {
  readonly used: Area | null;
  readonly maxRows: number;
  readonly maxColumns: number;
  /** Texts of the used area, from its own first cell. */
  readonly texts: () => Texts;
}

/**
 * The filled cells that a selection means: a cell, or a short stretch of one row or column, stands for the table around
 * it; several rows stay as they were selected; whole rows and columns stop where the sheet is filled.
 */
export function selectedArea(selected: Area, sheet: Sheetful, expand: 'none' | 'table', rowCountMax: number): Area {
  const { used } = sheet;
  if (!used) throw new HostError('nothing-selected', `${selected.sheet} is empty. Select rows that hold something.`);
  const area = expand === 'table' && isSmall(selected, sheet) ? tableAround(selected, used, sheet.texts()) : null;
  const found = area ?? overlap(selected, used);
  if (!found) {
    throw new HostError('nothing-selected', 'The selected cells are empty. Select the rows in the sheet first.');
  }
  if (found.rowCount > rowCountMax) {
    throw new HostError(
      'too-large',
      `${found.rowCount} rows are selected; ${rowCountMax} can be read at once. Select fewer rows.`,
    );
  }
  return found;
}

/** Whether a selection stands for the table around it, so that the texts of the sheet will be asked for. */
export function isSmall(selected: Area, sheet: Pick<Sheetful, 'maxRows' | 'maxColumns'>): boolean {
  if (selected.columnCount >= sheet.maxColumns || selected.rowCount >= sheet.maxRows) return false;
  return selected.rowCount === 1 || selected.columnCount === 1;
}

/** Null for an empty cell with nothing beside it. */
function tableAround(selected: Area, used: Area, texts: Texts): Area | null {
  const row = selected.row - used.row;
  const column = selected.column - used.column;
  // A cell left of or above all that is filled touches it at most at the edge; the overlap answers for it.
  if (row < 0 || column < 0) return null;
  const region = regionAround(texts, { ...selected, row, column });
  const grown = region.rowCount > 1 || region.columnCount > 1 || overlap(selected, used) !== null;
  if (!grown) return null;
  return overlap(
    {
      sheet: selected.sheet,
      row: region.row + used.row,
      column: region.column + used.column,
      rowCount: region.rowCount,
      columnCount: region.columnCount,
    },
    used,
  );
}

/** The part of an area that lies on the sheet; refuses one that lies beside it. */
export function withinSheet(area: Area, maxRows: number, maxColumns: number): Area {
  const inside = overlap(area, { sheet: area.sheet, row: 0, column: 0, rowCount: maxRows, columnCount: maxColumns });
  if (!inside) throw new HostError('gone', `Those cells are no longer on the sheet “${area.sheet}”.`);
  return inside;
}
