/** What the bench does beside the contract of every host: its own undo, what is half typed, selection, what it keeps, print. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import type { Area, CellWrite, WritePlan } from '../../addon/host/host.ts';
import { secondWorkbook } from '../../data-demo/second-workbook.ts';
import { demoWorkbook } from '../../data-demo/workbook.ts';
import { type Bench, startBench } from './support/bench.ts';
import { type BenchPage, openBrowser, openPage, pageReady } from './support/browser.ts';
import { areaOf, cellsAt, onHost, pressInGrid, readWhileTyping, select, textsAt, typeInto } from './support/sheet.ts';

declare global {
  var seen: Area[];
  var stopSeeing: () => void;
}

/** The demo's sheet of boards: its last row adds up the boards above it. */
const boardRows = demoWorkbook[0]?.rows ?? [];
const totalRow = boardRows.length;
const totals = boardRows.at(-1) ?? [];
const boardCount = boardRows.slice(2, -1).filter((row) => row.length > 0).length;

let bench: Bench;
let browser: Browser;
let opened: BenchPage;

beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await bench?.stop();
});
beforeEach(async () => {
  opened = await openPage(browser, bench.address);
});
afterEach(async () => {
  expect(opened.faults).toEqual([]);
  await opened.close();
});

function writeAt(address: string, value: string | number | null, expects: string | null = null): CellWrite {
  const { row, column } = areaOf(`x!${address}`);
  return { row, column, value, expects, format: null };
}

function plan(cells: readonly CellWrite[], heading: WritePlan['heading'] = null): WritePlan {
  return { sheet: 'Boards', label: 'Status beside the boards', cells, heading };
}

const statusPlan = plan([writeAt('L2', 'Status'), writeAt('L3', 'held'), writeAt('L4', 'free'), writeAt('L5', 12.5)], {
  row: 1,
  note: 'Written by Heartside. Safe to delete this column.',
});

test('reads stored values, shown texts, formulas and number kinds', async () => {
  const { page } = opened;
  const [row] = await cellsAt(page, 'Boards!A5:K5');
  expect(row?.[1]).toEqual({ kind: 'text', raw: 'W. oak', text: 'W. oak', formula: null, format: null });
  expect(row?.[2]).toEqual({ kind: 'number', raw: 121.5, text: '121.5', formula: null, format: null });
  expect(row?.[7]).toEqual({ kind: 'empty', raw: null, text: '', formula: null, format: null });
  // The grid works its formulas out a moment after it has drawn itself.
  await expect
    .poll(async () => (await cellsAt(page, `Boards!B${totalRow}`))[0]?.[0], { timeout: 10_000 })
    .toMatchObject({ formula: totals[1], kind: 'number', raw: boardCount, text: String(boardCount) });
});

test('one cell grows to the whole list of boards, over the blank line between the oak and the walnut', async () => {
  const { page } = opened;
  await select(page, 'Boards!B6');
  const { area } = await onHost(page, 'readSelection', { expand: 'table', rowCountMax: 500 });
  expect(area).toEqual(areaOf(`Boards!A1:K${totalRow}`));
});

test('the revision changes with a text and comes back with it', async () => {
  const { page } = opened;
  const first = await onHost(page, 'readArea', areaOf('Boards!A3:K9'));
  await typeInto(page, 'Boards!K5', 'heavy');
  const changed = await onHost(page, 'readArea', areaOf('Boards!A3:K9'));
  expect(changed.revision).not.toBe(first.revision);
  await pressInGrid(page, 'Control+z');
  expect((await onHost(page, 'readArea', areaOf('Boards!A3:K9'))).revision).toBe(first.revision);
});

test('writes an own column beside the boards and takes it back in one step of the grid', async () => {
  const { page } = opened;
  expect(await onHost(page, 'planWrite', statusPlan)).toEqual([]);
  const written = await onHost(page, 'write', statusPlan, []);
  expect(written).toMatchObject({ written: 4, clashes: [] });
  expect(await textsAt(page, 'Boards!L2:L5')).toEqual([['Status'], ['held'], ['free'], ['12.5']]);
  expect((await cellsAt(page, 'Boards!L5'))[0]?.[0]?.kind).toBe('number');
  expect(await textsAt(page, 'Boards!K2:K5')).toEqual([['Notes'], [''], ['small check, far end'], ['']]);
  await pressInGrid(page, 'Control+z');
  expect(await textsAt(page, 'Boards!L2:L5')).toEqual([[''], [''], [''], ['']]);
});

test('a hidden row is told with the block', async () => {
  await opened.close();
  opened = await openPage(browser, bench.address, { book: 'second' });
  const hidden = secondWorkbook[0]?.hiddenRows ?? [];
  const block = await onHost(opened.page, 'readArea', areaOf('Timber!A3:J20'));
  expect(block.hiddenRows).toEqual(hidden.map((row) => row - 2));
});

test('a formula that is named is replaced, and undo brings the formula back', async () => {
  const { page } = opened;
  const { undoToken } = await onHost(page, 'write', plan([writeAt(`J${totalRow}`, 2_500)]), [`J${totalRow}`]);
  expect((await cellsAt(page, `Boards!J${totalRow}`))[0]?.[0]).toMatchObject({ raw: 2_500, formula: null });
  await onHost(page, 'undo', undoToken ?? '');
  const [[total] = []] = await cellsAt(page, `Boards!J${totalRow}`);
  expect(total?.formula).toBe(totals[9]);
});

test('a cell being typed into is entered before the sheet is read', async () => {
  const { page } = opened;
  expect(await readWhileTyping(page, 'Boards!K7', 'sap')).toBe('sap');
});

test('a glance at the table sees all of it, and leaves alone what is being typed', async () => {
  const { page } = opened;
  const glance = () => page.evaluate(() => heartside.host.glanceAtTable?.(500));
  await select(page, 'Boards!B4:C6');
  const block = await glance();
  expect([block?.area.row, block?.area.column]).toEqual([0, 0]);
  expect(block?.area.rowCount).toBeGreaterThan(30);
  const before = (await textsAt(page, 'Boards!K9'))[0]?.[0];
  await select(page, 'Boards!K9');
  await onHost(page, 'focusSheet');
  await page.keyboard.type('pith', { delay: 15 });
  await expect.poll(glance).toBeNull();
  await page.keyboard.type(' side', { delay: 15 });
  await page.keyboard.press('Escape');
  expect((await textsAt(page, 'Boards!K9'))[0]?.[0]).toBe(before);
});

test('tells what was selected, by mouse and by keyboard, and stops when told', async () => {
  const { page } = opened;
  await page.evaluate(() => {
    globalThis.seen = [];
    globalThis.stopSeeing = heartside.host.onSelection((area) => seen.push(area));
  });
  const seenAreas = () => page.evaluate(() => seen);
  const box = await page.locator('#grid canvas[id^="univer-sheet-main-canvas"]').first().boundingBox();
  // Third row of the grid, first column: past the row numbers and the column letters.
  await page.mouse.click((box?.x ?? 0) + 80, (box?.y ?? 0) + 75);
  await expect.poll(async () => (await seenAreas()).length).toBe(1);
  expect((await seenAreas())[0]).toMatchObject({ sheet: 'Boards', column: 0, rowCount: 1, columnCount: 1 });
  await page.keyboard.press('ArrowRight');
  await expect.poll(async () => (await seenAreas()).at(-1)?.column).toBe(1);
  const before = (await seenAreas()).length;
  await page.evaluate(() => stopSeeing());
  await page.keyboard.press('ArrowRight');
  await page.waitForTimeout(300);
  expect((await seenAreas()).length).toBe(before);
});

test('keeps texts for the user over a fresh start, and texts for the file only until it starts over', async () => {
  const { page } = opened;
  type Scope = 'user' | 'file';
  const set = (scope: Scope) => page.evaluate((chosen) => heartside.host.settings.set('unit', 'in', chosen), scope);
  const get = (scope: Scope) => page.evaluate((chosen) => heartside.host.settings.get('unit', chosen), scope);
  await set('user');
  await set('file');
  await page.reload();
  await pageReady(page);
  expect([await get('user'), await get('file')]).toEqual(['in', 'in']);
  page.once('dialog', (dialog) => void dialog.accept());
  await Promise.all([page.waitForNavigation(), page.getByRole('button', { name: 'Start over' }).click()]);
  await pageReady(page);
  expect([await get('user'), await get('file')]).toEqual(['in', null]);
});

test('shows cut cards for printing in a frame where nothing runs', async () => {
  const { page } = opened;
  const html = '<!doctype html><title>Cards</title><h1>JB-101</h1><p>Rip to 3 1/2"</p>';
  await onHost(page, 'showPage', 'Cut cards', html);
  const dialog = page.getByRole('dialog', { name: 'Cut cards' });
  await dialog.waitFor();
  await page.frameLocator('dialog iframe').getByRole('heading', { name: 'JB-101' }).waitFor();
  expect(await dialog.locator('iframe').getAttribute('sandbox')).not.toContain('allow-scripts');
  await dialog.getByRole('button', { name: 'Close' }).click();
  expect(await dialog.count()).toBe(0);
});
