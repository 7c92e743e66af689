/** The bench's grid in Chromium, under the contract of every host. */
import type { ICellData, IWorkbookData } from '@univerjs/core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import type { PlainBook, PlainSheet } from '../../addon/bench/page/plain-book.ts';
import type { FileCell, FileSheet } from '../../addon/host/file-host.ts';
import { HEADING_TINT } from '../../addon/host/guarded-write.ts';
import { cellAddress } from '../../addon/sheet/address.ts';
import { type Bench, startBench } from '../e2e/support/bench.ts';
import { type BenchPage, openBrowser, openPage, pageReady } from '../e2e/support/browser.ts';
import { cellsAt, select, typeInto } from '../e2e/support/sheet.ts';
import { hostContract } from '../host/contract.ts';
import { hostOfPage } from '../host/page-host.ts';

let bench: Bench;
let browser: Browser;
let opened: BenchPage;
let book: PlainBook;

beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
  opened = await openPage(browser, bench.address);
  await opened.page.route('**/bench/books.json', (route) => route.fulfill({ json: [book] }));
});
afterAll(async () => {
  expect(opened.faults).toEqual([]);
  await browser?.close();
  await bench?.stop();
});

let bookCount = 0;

hostContract({
  kind: 'bench',
  readsMerges: true,
  protects: true,
  async open(sheets) {
    bookCount += 1;
    book = {
      id: `contract-${bookCount}`,
      name: 'Contract',
      locale: { tag: 'en-US', decimal: '.', dateOrder: 'mdy' },
      sheets: sheets.map(plainSheet),
    };
    const { page } = opened;
    await page.goto(bench.address);
    await pageReady(page);
    // The grid works its formulas out a moment after it has drawn itself.
    await expect.poll(async () => (await cellsAt(page, 'Boards!C7'))[0]?.[0]?.raw, { timeout: 10_000 }).toBe(372.25);
    return {
      host: hostOfPage(page),
      select: (address) => select(page, address),
      type: (address, text) => typeInto(page, address, text),
      tinted: () => tinted(book.id),
    };
  },
});

/** From the copy that the browser keeps, which comes a moment after each change. */
async function tinted(bookId: string): Promise<string[]> {
  const kept = await opened.page.evaluate((id) => localStorage.getItem(`heartside.book.${id}`), bookId);
  if (kept === null) return [];
  const data: IWorkbookData = JSON.parse(kept);
  const sheet = Object.values(data.sheets).find((one) => one.name === 'Boards');
  return Object.entries(sheet?.cellData ?? {}).flatMap(([row, cells]) =>
    Object.entries<ICellData>(cells).flatMap(([column, cell]) => {
      const style = typeof cell.s === 'string' ? data.styles[cell.s] : cell.s;
      return style?.bg?.rgb === HEADING_TINT ? [cellAddress(Number(row), Number(column))] : [];
    }),
  );
}

function plainSheet(sheet: FileSheet): PlainSheet {
  const cells = sheet.rows.map((row) =>
    row.map((cell): FileCell => (typeof cell === 'object' && cell !== null ? cell : { value: cell })),
  );
  return {
    name: sheet.name,
    rows: cells.map((row) => row.map(({ value, formula }) => formula ?? (typeof value === 'boolean' ? null : value))),
    formats: cells.flatMap((row, r) =>
      row.flatMap(({ format }, column) => (format === undefined ? [] : [{ row: r, column, format }])),
    ),
    hiddenRows: sheet.hiddenRows ?? [],
    merged: sheet.merged ?? [],
    protected: sheet.name === 'Boards' ? [{ row: 0, column: 12, rowCount: 120, columnCount: 1, name: 'Prices' }] : [],
  };
}
