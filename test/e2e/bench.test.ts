/** The bench page as a visitor meets it: sheet and sidebar stand, nothing is asked outside, every part is reached by the keyboard. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { secondWorkbook } from '../../data-demo/second-workbook.ts';
import { axeViolations } from './support/axe.ts';
import { type Bench, startBench } from './support/bench.ts';
import { type BenchPage, openBrowser, openPage, pageReady } from './support/browser.ts';
import { onHost, select, textsAt, typeInto } from './support/sheet.ts';

let bench: Bench;
let browser: Browser;

beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await bench?.stop();
});

async function withPage(options: Parameters<typeof openPage>[2], use: (bench: BenchPage) => Promise<void>) {
  const opened = await openPage(browser, bench.address, options);
  try {
    await use(opened);
  } finally {
    await opened.close();
  }
}

test("opens on the shop's own workbook with the sidebar connected, asking nothing outside", async () => {
  await withPage({}, async ({ page, faults }) => {
    const sheets = await onHost(page, 'listSheets');
    expect(sheets.map((sheet) => sheet.name)).toEqual(['Boards', 'Hall table', 'Library bench', 'Prices']);
    expect((await textsAt(page, 'Boards!A2:E3'))[1]).toEqual(['JB-101', 'White oak', `10' 1"`, '9 3/4', '4/4']);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.waitForLoadState('networkidle');
    expect(faults).toEqual([]);
  });
});

test('opens the second workbook by its name in the address', async () => {
  await withPage({ book: 'second' }, async ({ page, faults }) => {
    expect((await onHost(page, 'listSheets')).map((sheet) => sheet.name)).toEqual(['Timber', 'Wall table']);
    const block = await onHost(page, 'readArea', {
      sheet: 'Timber',
      row: 0,
      column: 0,
      rowCount: 12,
      columnCount: 10,
    });
    expect(block.locale).toEqual({ tag: 'en-IE', decimal: ',', dateOrder: 'dmy' });
    expect(block.hiddenRows).toEqual(secondWorkbook[0]?.hiddenRows);
    expect(block.merged).toEqual([{ sheet: 'Timber', row: 0, column: 0, rowCount: 1, columnCount: 10 }]);
    // 5/4 that the sheet turned into 5 April.
    expect(block.cells[5]?.[4]).toMatchObject({ kind: 'date', raw: 46117, format: 'd-mmm' });
    await page.waitForLoadState('networkidle');
    expect(faults).toEqual([]);
  });
});

describe.each(['light', 'dark'] as const)('in %s', (scheme) => {
  test('the sidebar and the bar pass axe', async () => {
    await withPage({ scheme }, async ({ page }) => {
      await page.waitForLoadState('networkidle');
      expect(await axeViolations(page, '#side')).toEqual([]);
      expect(await axeViolations(page, '.bench-bar')).toEqual([]);
    });
  });
});

test('the plain view shows the sheet as a table and passes axe', async () => {
  await withPage({}, async ({ page }) => {
    const toggle = page.getByRole('button', { name: 'Plain view' });
    await toggle.click();
    const table = page.getByRole('table', { name: /^Boards/ });
    await table.waitFor();
    expect(await table.getByRole('row').nth(3).textContent()).toContain('JB-101');
    expect(await axeViolations(page, '#plain')).toEqual([]);
    // It follows what is written into the sheet, and shows the other sheets.
    const cells = [{ row: 2, column: 11, value: 'held', expects: null, format: null }];
    await onHost(page, 'write', { sheet: 'Boards', label: 'Status', cells, heading: null }, []);
    await table.getByText('held').waitFor();
    await page.getByRole('navigation', { name: 'Sheets' }).getByRole('button', { name: 'Prices' }).click();
    await page.getByRole('table', { name: /^Prices/ }).waitFor();
    await page.keyboard.press('F6');
    await page.keyboard.press('F6');
    expect(await page.locator('#plain').evaluate((element) => element === document.activeElement)).toBe(true);
    await toggle.click();
    expect(await page.locator('#plain').isVisible()).toBe(false);
  });
});

test('F6 jumps between sheet and sidebar, and typing in the sidebar stays there', async () => {
  await withPage({}, async ({ page }) => {
    const inSide = () => page.evaluate(() => document.querySelector('#side')?.contains(document.activeElement));
    const inGrid = () => page.evaluate(() => document.querySelector('#grid')?.contains(document.activeElement));
    await select(page, 'Boards!A3');
    await page.keyboard.press('F6');
    expect(await inSide()).toBe(true);
    const field = page.locator('#side input:visible').first();
    await field.fill('');
    await field.pressSequentially('JB-1');
    expect(await field.inputValue()).toBe('JB-1');
    expect((await textsAt(page, 'Boards!A3'))[0]?.[0]).toBe('JB-101');
    await page.keyboard.press('F6');
    expect(await inGrid()).toBe(true);
    await page.keyboard.press('ArrowDown');
    const block = await onHost(page, 'readSelection', { expand: 'none', rowCountMax: 10 });
    expect(block.area).toMatchObject({ row: 3, column: 0 });
    await page.keyboard.press('Control+F6');
    expect(await field.evaluate((element) => element === document.activeElement)).toBe(true);
  });
});

test('the bar over the sidebar reads boards or a cut list by what is selected, and opens help, by keyboard alone', async () => {
  await withPage({}, async ({ page }) => {
    const panel = page.locator('#panel');
    const pick = async (name: string) => {
      await page.locator('#menu').getByRole('button', { name }).focus();
      await page.keyboard.press('Enter');
    };
    await select(page, 'Boards!B5');
    await pick('Use selection');
    await panel.getByRole('heading', { name: 'Boards from the sheet' }).waitFor();
    await select(page, 'Hall table!B5');
    await pick('Use selection');
    await panel.getByRole('heading', { name: 'Cut list from the sheet' }).waitFor();
    await pick('Help');
    await panel.getByText('Heartside has written nothing into this file yet.').waitFor();
    expect(await axeViolations(page, '#side')).toEqual([]);
  });
});

test('the first button names the rows that are selected, says nothing aloud, asks the yard nothing and reads them alone', async () => {
  await withPage({}, async ({ page }) => {
    const panel = page.locator('#panel');
    const button = (name: string) => panel.getByRole('button', { name, exact: true });
    await button('Read boards from the sheet').waitFor();
    await page.waitForLoadState('networkidle');
    const aloud = () => panel.locator('[role=status], [role=alert], [aria-live]').allInnerTexts();
    const saidBefore = await aloud();
    const calls: string[] = [];
    page.on('request', (request) => {
      if (request.url().includes('/v1/')) calls.push(request.url());
    });
    await select(page, 'Boards!A3:K7');
    await button('Read 5 boards from the sheet').waitFor();
    await select(page, 'Boards!A5:K6');
    await button('Read 2 boards from the sheet').waitFor();
    expect(await axeViolations(page, '#side')).toEqual([]);
    await select(page, 'Boards!A5');
    await button('Read boards from the sheet').waitFor();
    await select(page, 'Hall table!A4:H6');
    await button('Read 3 parts from the sheet').waitFor();
    expect([calls, await aloud()]).toEqual([[], saidBefore]);
    await button('Read 3 parts from the sheet').click();
    await panel.getByRole('heading', { name: 'Cut list from the sheet' }).waitFor();
    await panel.getByText('3 parts can be read').waitFor();
    expect(await panel.getByRole('radio', { name: /^selected/ }).isChecked()).toBe(true);
  });
});

test('a board says what it cost, also a board foot; what lies in the offcut bin counts as offcuts', async () => {
  await withPage({}, async ({ page }) => {
    const panel = page.locator('#panel');
    await panel.getByRole('searchbox').fill('JB-090');
    await panel
      .getByRole('list', { name: 'Boards' })
      .getByRole('button', { name: /^JB-090/ })
      .click();
    // 9' 1" x 5" x 2" is 7.57 board feet of 144 cubic inches.
    await panel.getByText('$68.00, $8.98 a board foot').waitFor();
    expect(await axeViolations(page, '#side')).toEqual([]);
    await panel.getByRole('tab', { name: 'Offcuts' }).click();
    await panel.getByRole('button', { name: /^JB-031a/ }).click();
    await panel
      .getByText(/JB-031a can still make|No open part fits/)
      .first()
      .waitFor();
  });
});

test('the sidebar is widened by the keyboard, within 300 and 480 pixels, and stays so', async () => {
  await withPage({}, async ({ page }) => {
    const splitter = page.getByRole('separator', { name: 'Width of the sidebar' });
    const widthPx = () => page.locator('#side').evaluate((element) => element.getBoundingClientRect().width);
    await splitter.focus();
    await page.keyboard.press('End');
    expect(await widthPx()).toBe(480);
    await page.keyboard.press('Home');
    await page.keyboard.press('ArrowLeft');
    expect(await widthPx()).toBe(320);
    await page.keyboard.press('Home');
    expect(await widthPx()).toBe(300);
    await page.reload();
    await pageReady(page);
    expect(await widthPx()).toBe(300);
  });
});

test('the choice of dark is kept, for grid and sidebar alike', async () => {
  await withPage({ scheme: 'light' }, async ({ page }) => {
    await page.getByRole('button', { name: 'Change to dark' }).click();
    await page.reload();
    await pageReady(page);
    const isDark = (selector: string) =>
      page.locator(selector).evaluate((element) => {
        const [red = 255] = (getComputedStyle(element).backgroundColor.match(/\d+/g) ?? []).map(Number);
        return red < 80;
      });
    expect(await isDark('#side .heartside')).toBe(true);
    expect(await isDark('.bench-bar')).toBe(true);
    await page.getByRole('button', { name: 'Change to light' }).click();
    expect(await isDark('#side .heartside')).toBe(false);
  });
});

test('what was typed is there after a reload, until the sheet starts over', async () => {
  await withPage({}, async ({ page }) => {
    await typeInto(page, 'Boards!K3', 'crotch at one end');
    await expect.poll(async () => (await textsAt(page, 'Boards!K3'))[0]?.[0]).toBe('crotch at one end');
    await page.waitForFunction(() => localStorage.getItem('heartside.book.demo')?.includes('crotch at one end'));
    await page.reload();
    await pageReady(page);
    expect((await textsAt(page, 'Boards!K3'))[0]?.[0]).toBe('crotch at one end');
    page.once('dialog', (dialog) => void dialog.accept());
    await Promise.all([page.waitForNavigation(), page.getByRole('button', { name: 'Start over' }).click()]);
    await pageReady(page);
    expect((await textsAt(page, 'Boards!K3'))[0]?.[0]).toBe('');
  });
});
