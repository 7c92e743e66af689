/** Speaks to the open page's spreadsheet through its SheetHost, as the sidebar does, and selects and types as a person does. */
import type { Page } from 'playwright-core';
import type { Area, Cell, SheetHost } from '../../../addon/host/host.ts';
import { hostOfPage } from '../../host/page-host.ts';

declare global {
  /** Set by the bench page. */
  var heartside: { readonly host: SheetHost };
}

type HostCall = Exclude<keyof SheetHost, 'onSelection' | 'onCommand' | 'settings' | 'opensWithFile' | 'glanceAtTable'>;

export async function onHost<C extends HostCall>(
  page: Page,
  call: C,
  ...given: Parameters<SheetHost[C]>
): Promise<Awaited<ReturnType<SheetHost[C]>>> {
  return Reflect.apply(hostOfPage(page)[call], undefined, given);
}

/** "Boards!A3:K20" as an area. */
export function areaOf(address: string): Area {
  const match = /^(.+)!([A-Z]+)(\d+)(?::([A-Z]+)(\d+))?$/.exec(address);
  if (!match) throw new Error(`Not an address: ${address}`);
  const [, sheet = '', left = '', top = '', right = left, bottom = top] = match;
  const column = columnOf(left);
  const row = Number(top) - 1;
  return { sheet, row, column, rowCount: Number(bottom) - row, columnCount: columnOf(right) - column + 1 };
}

function columnOf(letters: string): number {
  return [...letters].reduce((count, letter) => count * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

export async function select(page: Page, address: string): Promise<void> {
  await onHost(page, 'reveal', areaOf(address));
}

/** Where the selection stands. */
export async function selected(page: Page): Promise<Area> {
  return (await onHost(page, 'readSelection', { expand: 'none', rowCountMax: 10 })).area;
}

export async function cellsAt(page: Page, address: string): Promise<readonly (readonly Cell[])[]> {
  return (await onHost(page, 'readArea', areaOf(address))).cells;
}

export async function textsAt(page: Page, address: string): Promise<string[][]> {
  return (await cellsAt(page, address)).map((row) => row.map((cell) => cell.text));
}

const TYPED_TRIES = 5;
const TYPED_WITHIN_MS = 1_500;
const KEY_PAUSE_MS = 25;
const UNDO_STEPS_MAX = 6;

/**
 * Types into a cell by the keyboard, as a person would, and enters it. On a busy machine the grid takes Enter before the
 * last letters, which then open the cell below: what went astray is taken back and typed again, more slowly.
 */
export async function typeInto(page: Page, address: string, text: string): Promise<void> {
  const around = await sheetTexts(page, address);
  for (let tries = 1; tries <= TYPED_TRIES; tries += 1) {
    await select(page, address);
    await onHost(page, 'focusSheet');
    await page.keyboard.type(text, { delay: KEY_PAUSE_MS * tries });
    await page.waitForTimeout(100 * tries);
    await page.keyboard.press('Enter');
    if (!isWords(text) || (await arrives(page, address, text))) return;
    await takeBack(page, address, around);
  }
  throw new Error(`"${text}" did not arrive in ${address}.`);
}

/** What is read of a cell whose text is still being typed; letters that a busy machine held back are waited for longer. */
export async function readWhileTyping(page: Page, address: string, text: string): Promise<string> {
  let read = '';
  for (let tries = 1; tries <= TYPED_TRIES && read !== text; tries += 1) {
    await select(page, address);
    await onHost(page, 'focusSheet');
    await page.keyboard.type(text, { delay: KEY_PAUSE_MS * tries });
    await page.waitForTimeout(200 * tries);
    read = (await textsAt(page, address))[0]?.[0] ?? '';
    // What reading did not enter must not be entered by the next try.
    await page.keyboard.press('Escape');
  }
  return read;
}

const sheetTexts = async (page: Page, address: string): Promise<string> => {
  const { sheet } = areaOf(address);
  const used = (await onHost(page, 'listSheets')).find((one) => one.name === sheet)?.used;
  return used
    ? JSON.stringify((await onHost(page, 'readArea', used)).cells.map((row) => row.map((cell) => cell.text)))
    : '';
};

async function takeBack(page: Page, address: string, before: string): Promise<void> {
  await page.keyboard.press('Escape');
  for (let step = 0; step < UNDO_STEPS_MAX && (await sheetTexts(page, address)) !== before; step += 1) {
    await page.keyboard.press('Control+z');
    await page.waitForTimeout(100);
  }
}

/** What the grid leaves as it was typed. */
const isWords = (text: string): boolean => /^[a-z][a-z ]*$/i.test(text);

async function arrives(page: Page, address: string, text: string): Promise<boolean> {
  const until = Date.now() + TYPED_WITHIN_MS;
  while (Date.now() < until) {
    const [[cell] = []] = (await onHost(page, 'readArea', areaOf(address))).cells;
    if (cell?.text === text) return true;
    await page.waitForTimeout(50);
  }
  return false;
}

export async function pressInGrid(page: Page, keys: string): Promise<void> {
  await onHost(page, 'focusSheet');
  await page.keyboard.press(keys);
}
