/** A whole workbook between a file and a spreadsheet host, through the host's own interface. */
import type { FileSheet } from '../host/file-host.ts';
import type { SheetHost } from '../host/host.ts';

/** Everything that the sheets hold and show, in their order. */
export async function sheetsOfHost(host: SheetHost): Promise<FileSheet[]> {
  const sheets: FileSheet[] = [];
  for (const { name, used } of await host.listSheets()) {
    if (used === null) {
      sheets.push({ name, rows: [] });
      continue;
    }
    const whole = {
      ...used,
      row: 0,
      column: 0,
      rowCount: used.row + used.rowCount,
      columnCount: used.column + used.columnCount,
    };
    const block = await host.readArea(whole);
    sheets.push({
      name,
      rows: block.cells.map((row) =>
        row.map((cell) => ({
          value: cell.raw,
          text: cell.text,
          ...(cell.formula === null ? {} : { formula: cell.formula }),
          ...(cell.format === null ? {} : { format: cell.format }),
        })),
      ),
      hiddenRows: block.hiddenRows,
      merged: block.merged,
    });
  }
  return sheets;
}
