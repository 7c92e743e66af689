/**
 * The current sheet as an HTML table over the grid, for screen readers and for plain reading. It follows what changes in
 * the workbook, and only shows: cells are changed in the grid.
 */
import { columnLetters } from '../../host/bench-address.ts';
import type { Block } from '../../host/host.ts';
import type { Grid } from './grid.ts';

const ROWS_MAX = 2_000;
const FOLLOW_AFTER_MS = 250;

export interface PlainViewParts {
  readonly toggle: HTMLButtonElement;
  readonly plain: HTMLElement;
  /** What the view covers while it is open. */
  readonly covered: HTMLElement;
}

export function openPlainView(grid: Grid, { toggle, plain, covered }: PlainViewParts) {
  const isOpen = () => plain.hidden === false;
  let sheetName = '';
  // A scrolling region is reached by the keyboard.
  plain.tabIndex = 0;

  async function draw(): Promise<void> {
    const sheets = await grid.host.listSheets();
    const sheet = sheets.find((one) => one.name === sheetName) ?? sheets[0];
    if (!sheet) return;
    sheetName = sheet.name;
    const nav = document.createElement('nav');
    nav.setAttribute('aria-label', 'Sheets');
    nav.append(...sheets.map((one) => sheetButton(one.name, one.name === sheetName, () => show(one.name))));
    const body = sheet.used
      ? tableOf(await grid.host.readArea({ ...sheet.used, rowCount: Math.min(sheet.used.rowCount, ROWS_MAX) }))
      : paragraph(`${sheetName} is empty.`);
    plain.replaceChildren(nav, body);
  }

  async function show(name: string): Promise<void> {
    sheetName = name;
    await draw();
    plain.querySelector<HTMLElement>('[aria-current]')?.focus();
  }

  async function turn(): Promise<void> {
    const opening = !isOpen();
    if (opening) {
      sheetName = grid.activeSheetName();
      await draw();
    }
    plain.hidden = !opening;
    covered.inert = opening;
    toggle.setAttribute('aria-pressed', String(opening));
    if (opening) plain.focus();
    else grid.focus();
  }

  let following: ReturnType<typeof setTimeout> | undefined;
  grid.onEdit(() => {
    clearTimeout(following);
    if (isOpen()) following = setTimeout(() => void draw(), FOLLOW_AFTER_MS);
  });
  toggle.addEventListener('click', () => void turn());
  return { focusSheet: () => (isOpen() ? plain.focus() : grid.focus()) };
}

function tableOf(block: Block): HTMLTableElement {
  const { area, cells } = block;
  const table = document.createElement('table');
  table.createCaption().textContent = `${area.sheet}: ${cells.length} rows. Change cells in the grid.`;
  const head = table.createTHead().insertRow();
  head.append(heading('Row', 'col'));
  cells[0]?.forEach((_, offset) => {
    head.append(heading(columnLetters(area.column + offset), 'col'));
  });
  const body = table.createTBody();
  const hidden = new Set(block.hiddenRows);
  cells.forEach((rowCells, offset) => {
    if (hidden.has(offset)) return;
    const row = body.insertRow();
    row.append(heading(String(area.row + offset + 1), 'row'));
    for (const cell of rowCells) row.insertCell().textContent = cell.text;
  });
  return table;
}

function heading(text: string, scope: 'row' | 'col'): HTMLTableCellElement {
  const cell = document.createElement('th');
  cell.scope = scope;
  cell.textContent = text;
  return cell;
}

function sheetButton(name: string, current: boolean, act: () => void): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = name;
  if (current) button.setAttribute('aria-current', 'true');
  button.addEventListener('click', act);
  return button;
}

function paragraph(text: string): HTMLParagraphElement {
  const element = document.createElement('p');
  element.textContent = text;
  return element;
}
