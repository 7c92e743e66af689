/** Excel: our host over the vendor's own office library in Chromium, which speaks to a make-believe workbook. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FileSheet } from '../../addon/host/file-host.ts';
import { boardSheets, hostContract, type OpenedHost } from '../host/contract.ts';
import { hostOfPage } from '../host/page-host.ts';
import { AS_EXCEL, type OfficeServer, serveOffice } from '../host-excel/office-browser.ts';
import { openBrowser } from './support/browser.ts';
import { areaOf } from './support/sheet.ts';

let server: OfficeServer;
let browser: Browser;
let page: Page;
const faults: string[] = [];
/** Column M, which the sheet protects; nothing else on it is locked. */
const PROTECTED_COLUMN = 12;

beforeAll(async () => {
  [server, browser] = await Promise.all([serveOffice(), openBrowser()]);
  page = await browser.newPage();
  page.on('console', (message) => {
    if (message.type() === 'error' || /Content Security Policy/i.test(message.text())) faults.push(message.text());
  });
  page.on('request', (request) => {
    if (!request.url().startsWith(server.address) && !/^(data|blob|about):/.test(request.url())) {
      faults.push(`asked outside: ${request.url()}`);
    }
  });
  await page.goto(server.address + AS_EXCEL);
  await page.waitForFunction(() => 'Excel' in globalThis);
  await page.addScriptTag({ url: '/page.js' });
});
afterAll(async () => {
  expect(faults).toEqual([]);
  await browser?.close();
  await server?.stop();
});

async function open(
  sheets: readonly FileSheet[],
  protectedColumn: number | null = PROTECTED_COLUMN,
  excelApi = 20,
): Promise<OpenedHost> {
  await page.evaluate(([given, column, api]) => globalThis.openWorkbook(given, column, api), [
    sheets,
    protectedColumn,
    excelApi,
  ] as const);
  const host = hostOfPage(page);
  return {
    host,
    select: (address) => host.reveal(areaOf(address)),
    tinted: () =>
      page.evaluate(() =>
        ['G2', 'G3', 'G4', 'G5', 'H2', 'H4'].filter((at) => {
          const column = at.charCodeAt(0) - 'A'.charCodeAt(0);
          return globalThis.book.sheets[0]?.cell(Number(at.slice(1)) - 1, column).fill != null;
        }),
      ),
    type: (address, text) =>
      page.evaluate(
        ([at, words]) => {
          const sheet = globalThis.book.sheets.find(({ Name }) => Name === at.sheet);
          sheet?.GetCell(at.row, at.column).type(words);
        },
        [areaOf(address), text] as const,
      ),
  };
}

hostContract({ kind: 'excel', readsMerges: false, protects: true, open });

describe('a workbook in Excel', () => {
  const syncs = () => page.evaluate(() => globalThis.book.syncs);

  test('2,000 rows are read and written in a few round trips, whatever their number', async () => {
    const rows = Array.from({ length: 2_000 }, (_, row) => [`JB-${row}`, 'White oak', 96 + (row % 32) / 4, 7.5]);
    const { host, select } = await open(
      [{ name: 'Boards', rows: [['Tag', 'Species', 'Length', 'Width'], ...rows] }],
      null,
    );
    await select('Boards!A5');
    const before = await syncs();
    const block = await host.readSelection({ expand: 'table', rowCountMax: 5_000 });
    expect(block.cells).toHaveLength(2_001);
    const read = await syncs();
    const cells = rows.map((_, row) => ({ row: row + 1, column: 4, value: 'free', expects: null, format: null }));
    expect((await host.write({ sheet: 'Boards', label: '', heading: null, cells }, [])).written).toBe(2_000);
    // Two of ours each, and the one in which the library lets go of the ranges it held.
    expect([read - before, (await syncs()) - read]).toEqual([3, 3]);
  });

  test.each([
    ['InvalidOperationInCellEditMode', 'busy-editing'],
    ['AccessDenied', 'protected'],
    ['RequestPayloadSizeLimitExceeded', 'too-large'],
    ['GeneralException', 'unknown'],
  ])('Excel’s %s is said as %s, without Excel’s own words', async (failWith, code) => {
    const { host } = await open(boardSheets);
    await page.evaluate((failure) => Object.assign(globalThis.book, { failWith: failure }), failWith);
    const fault = await host.readArea(areaOf('Boards!A1')).catch((caught: unknown) => caught);
    expect(fault).toMatchObject({ code });
    expect(String(fault)).not.toContain('own words');
  });

  test('a heading of ours gets its tint and note, and loses both with the write', async () => {
    const { host } = await open(boardSheets, null);
    const cells = [{ row: 1, column: 6, value: 'Status', expects: null, format: null }];
    const plan = { sheet: 'Boards', label: 'Status', heading: { row: 1, note: 'Written by Heartside.' }, cells };
    const { undoToken } = await host.write(plan, []);
    const heading = () => page.evaluate(() => ({ ...globalThis.book.sheets[0]?.cell(1, 6) }));
    const notes = (await host.capabilities()).notes;
    expect(await heading()).toMatchObject({ fill: '#E4ECE6', note: notes ? 'Written by Heartside.' : null });
    await host.undo(undoToken ?? '');
    expect(await heading()).toMatchObject({ fill: null, note: null, value: '' });
  });

  test('a glance sees the whole table that the selection begins in', async () => {
    const { select } = await open(boardSheets);
    await select('Boards!B4:C5');
    const area = await page.evaluate(async () => (await globalThis.heartside.host.glanceAtTable?.(500))?.area);
    expect(area).toEqual(areaOf('Boards!A1:F7'));
  });

  test('tells what was selected, and stops when told', async () => {
    const { host } = await open(boardSheets);
    await page.evaluate(() => {
      globalThis.seen = [];
      globalThis.stopSeeing = globalThis.heartside.host.onSelection((area) => globalThis.seen.push(area));
    });
    await expect.poll(() => page.evaluate(() => globalThis.book.listener !== null)).toBe(true);
    await host.reveal(areaOf('Boards!B4'));
    await expect.poll(() => page.evaluate(() => globalThis.seen)).toEqual([areaOf('Boards!B4')]);
    await page.evaluate(() => globalThis.stopSeeing());
    await host.reveal(areaOf('Boards!C5'));
    await page.waitForTimeout(250);
    expect(await page.evaluate(() => globalThis.seen.length)).toBe(1);
  });

  test('the pane opens with the file only where the file says so, and a forgotten file no longer does', async () => {
    // Microsoft, "Automatically open a task pane with a document": this setting, and a pane of this name in the manifest.
    const name = 'Office.AutoShowTaskpaneWithDocument';
    const { host } = await open(boardSheets);
    const inFile = () => page.evaluate((key) => globalThis.book.settings.get(key) ?? null, name);
    const set = (on: boolean) => page.evaluate((to) => globalThis.heartside.host.opensWithFile?.set(to), on);
    const says = () => page.evaluate(() => globalThis.heartside.host.opensWithFile?.get());
    expect([await says(), await inFile()]).toEqual([false, null]);
    await set(true);
    expect([await says(), await inFile()]).toEqual([true, true]);
    await set(false);
    expect([await says(), await inFile()]).toEqual([false, null]);
    await set(true);
    await host.settings.forgetFile();
    expect([await says(), await inFile()]).toEqual([false, null]);
  });

  test('the key of the yard stays in the browser and out of the workbook', async () => {
    const { host } = await open(boardSheets);
    await host.settings.set('yard-connection', '{"key":"hs_secret"}', 'user');
    expect(await page.evaluate(() => globalThis.book.settings.size)).toBe(0);
    expect(await host.settings.get('yard-connection', 'user')).toContain('hs_secret');
  });
});
