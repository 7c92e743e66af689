/** The current sheet as an HTML table, for screen readers and for reading without the grid; it only shows, it does not edit. */

import { columnLetters } from '../../host/bench-address.ts';
import type { SheetHost } from '../../host/host.ts';

const ROWS_MAX = 2_000;

export async function showPlainView(host: SheetHost, sheetName: string, into: HTMLElement): Promise<void> {
  const sheets = await host.listSheets();
  const used = sheets.find((sheet) => sheet.name === sheetName)?.used ?? null;
  if (!used) {
    into.replaceChildren(paragraph(`${sheetName} is empty.`));
    return;
  }
  const block = await host.readArea({ ...used, rowCount: Math.min(used.rowCount, ROWS_MAX) });
  const table = document.createElement('table');
  const caption = table.createCaption();
  caption.textContent = `${sheetName}: ${block.cells.length} rows. Change cells in the grid.`;
  const head = table.createTHead().insertRow();
  head.append(heading('Row', 'col'));
  block.cells[0]?.forEach((_, offset) => {
    head.append(heading(columnLetters(used.column + offset), 'col'));
  });
  const body = table.createTBody();
  const hidden = new Set(block.hiddenRows);
  block.cells.forEach((cells, offset) => {
    if (hidden.has(offset)) return;
    const row = body.insertRow();
    row.append(heading(String(used.row + offset + 1), 'row'));
    for (const cell of cells) row.insertCell().textContent = cell.text;
  });
  into.replaceChildren(table);
}

function heading(text: string, scope: 'row' | 'col'): HTMLTableCellElement {
  const cell = document.createElement('th');
  cell.scope = scope;
  cell.textContent = text;
  return cell;
}

function paragraph(text: string): HTMLParagraphElement {
  const element = document.createElement('p');
  element.textContent = text;
  return element;
}
