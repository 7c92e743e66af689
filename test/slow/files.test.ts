/** Files on the bench: saved, read by a parser, opened again, with the content policy of the page in force. */
import { readFile } from 'node:fs/promises';
import type { Browser, Download, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { sheetFromCsv } from '../../addon/files/csv.ts';
import { sheetsFromXlsx, xlsxFromSheets } from '../../addon/files/xlsx.ts';
import { axeViolations } from '../e2e/support/axe.ts';
import { type Bench, startBench } from '../e2e/support/bench.ts';
import { type BenchPage, openBrowser, openPage, pageReady } from '../e2e/support/browser.ts';
import { Hand } from '../e2e/support/hand.ts';
import { cellsAt, onHost, select, typeInto } from '../e2e/support/sheet.ts';
import { boardsFile, cellAt, temptingTexts, textsFile } from '../files/sheets.ts';

let bench: Bench;
let browser: Browser;
let opened: BenchPage;
beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
  opened = await openPage(browser, bench.address);
});
afterAll(async () => {
  expect(opened.faults).toEqual([]);
  await browser?.close();
  await bench?.stop();
});

async function saved(page: Page, button: string): Promise<{ name: string; bytes: Uint8Array }> {
  const coming: Promise<Download> = page.waitForEvent('download');
  await page.getByRole('button', { name: button }).click();
  const download = await coming;
  return { name: download.suggestedFilename(), bytes: new Uint8Array(await readFile(await download.path())) };
}

test('a workbook file opens in the grid as it is, is read by the sidebar, and is saved without loss', async () => {
  const { page } = opened;
  const file = Buffer.from(xlsxFromSheets([boardsFile, textsFile]));
  const loaded = page.waitForEvent('load');
  await page.locator('#file-picked').setInputFiles({ name: 'Rack.xlsx', mimeType: '', buffer: file });
  await loaded;
  await pageReady(page);
  expect((await onHost(page, 'listSheets')).map((sheet) => sheet.name)).toEqual(['Boards', 'Texts']);
  const [row] = await cellsAt(page, 'Boards!A3:F3');
  expect(row?.map((cell) => cell.text)).toEqual(['JB-101', 'White oak', '96', '7.5', '8/4', '5/4/2026']);
  await expect.poll(async () => (await cellsAt(page, 'Boards!C6'))[0]?.[0]?.raw).toBe(300.25);
  const texts = (await cellsAt(page, `Texts!A1:A${temptingTexts.length}`)).map(([cell]) => cell);
  expect(texts.map((cell) => [cell?.raw, cell?.formula])).toEqual(temptingTexts.map((text) => [text, null]));

  const hand = new Hand(page);
  await select(page, 'Boards!B4');
  await hand.press('Read boards from the sheet');
  await hand.sees('2 boards');

  await typeInto(page, 'Boards!B5', 'Cherry');
  const { name, bytes } = await saved(page, 'Save as .xlsx');
  expect(name).toBe('Rack.xlsx');
  const [boards, back] = sheetsFromXlsx(bytes);
  expect(boards).toMatchObject({ hiddenRows: boardsFile.hiddenRows, merged: boardsFile.merged });
  expect([cellAt(boards, 4, 1).value, cellAt(boards, 4, 4).value]).toEqual(['Cherry', '5/4']);
  expect(cellAt(boards, 5, 2).formula).toBe('=SUM(C3:C5)');
  expect(temptingTexts.map((_, at) => cellAt(back, at, 0).value)).toEqual([...temptingTexts]);
});

test('the sheet in front is saved as CSV with what it shows, and no cell starts a formula', async () => {
  const { page } = opened;
  await select(page, 'Texts!A1');
  const { name, bytes } = await saved(page, 'Save sheet as .csv');
  expect(name).toBe('Texts.csv');
  const text = new TextDecoder().decode(bytes);
  expect(text.split('\r\n').filter((line) => /^\uFEFF?"?[=+\-@]/.test(line))).toEqual([]);
  const back = sheetFromCsv('Texts', bytes, '.');
  expect(temptingTexts.map((_, at) => cellAt(back, at, 0).value)).toEqual([...temptingTexts]);
});

test('a file that is no workbook is refused in words, and the sheet stays', async () => {
  const { page } = opened;
  await page
    .locator('#file-picked')
    .setInputFiles({ name: 'x.xlsx', mimeType: '', buffer: Buffer.from('PK\x03\x04 no') });
  await page.getByText('This is no workbook that can be read.').waitFor();
  expect((await onHost(page, 'listSheets')).map((sheet) => sheet.name)).toEqual(['Boards', 'Texts']);
  expect(await axeViolations(page, '.bench-bar')).toEqual([]);
});
