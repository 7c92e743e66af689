/**
 * The built Excel pane in Chromium over the vendor's office library: it opens, connects to the real service in memory,
 * passes axe on every tab in light and dark at 300 px, and keeps the key out of the workbook.
 */
import { readFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { createRequire } from 'node:module';
import { dirname, join, normalize } from 'node:path';
import { text } from 'node:stream/consumers';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { EXCEL } from '../../addon/build/excel.ts';
import { board, type Client, openShop } from '../api/shop.ts';
import { axeViolations } from '../e2e/support/axe.ts';
import { openBrowser } from '../e2e/support/browser.ts';
import { AS_EXCEL } from '../host-excel/office-browser.ts';

const WEB = join(EXCEL, 'web');
const OFFICE = dirname(createRequire(import.meta.url).resolve('@microsoft/office-js/dist/office.js'));
const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript',
  css: 'text/css',
};

/** Excel answers the library from a frame around the pane; here is none, so the page says that it is ready. */
const READY = `;Office.onReady = async (then) => {
  while (!('Excel' in globalThis) || !Office.HostType) await new Promise((done) => setTimeout(done, 20));
  return then({ host: Office.HostType.Excel });
};`;

const shop = openShop();
let yard: Client;
let server: Server;
let address: string;
let browser: Browser;
let page: Page;
const faults: string[] = [];

beforeAll(async () => {
  yard = await shop.foundYard('Oak Lane');
  await yard.send('POST', '/v1/boards', { boards: [board('WO-1'), board('WO-2')] });
  server = createServer(async (request, response) => {
    const url = new URL(request.url ?? '/', 'http://here');
    if (url.pathname.startsWith('/v1/')) {
      const body = await text(request);
      const headers = Object.fromEntries(Object.entries(request.headers).map(([name, value]) => [name, String(value)]));
      const path = url.pathname + url.search;
      const answer = await shop.request(request.method ?? 'GET', path, body === '' ? undefined : body, headers);
      response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? '' }).end(answer.text);
      return;
    }
    const file = normalize(join(WEB, url.pathname));
    const found = file.startsWith(WEB) ? await readFile(file).catch(() => null) : null;
    if (found) response.writeHead(200, { 'content-type': TYPES[file.split('.').at(-1) ?? ''] ?? '' }).end(found);
    else response.writeHead(404).end();
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const found = server.address();
  address = `http://127.0.0.1:${typeof found === 'object' && found ? found.port : 0}`;
  browser = await openBrowser();
  page = await browser.newPage({ viewport: { width: 300, height: 700 } });
  page.on('pageerror', (error) => {
    // The library itself misses the frame around it, once, when it starts.
    if (/taskpane\.js/.test(error.stack ?? '')) faults.push(String(error));
  });
  // The library comes from its own address in production; here from the package, so that nothing is fetched.
  await page.route('https://appsforoffice.microsoft.com/lib/1/hosted/**', async (route) => {
    const path = new URL(route.request().url()).pathname.replace('/lib/1/hosted/', '');
    const script = await readFile(join(OFFICE, path), 'utf8').catch(() => '');
    await route.fulfill({ contentType: 'text/javascript', body: path === 'office.js' ? script + READY : script });
  });
  await page.goto(`${address}/taskpane.html${AS_EXCEL}`);
});
afterAll(async () => {
  expect(faults).toEqual([]);
  await browser?.close();
  server?.closeAllConnections();
  server?.close();
});

async function axeInLightAndDark(): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await axeViolations(page, '#panel')).toEqual([]);
  }
}

test('the pane asks for the yard, and connects', async () => {
  await page.getByLabel(/address/i).waitFor();
  await axeInLightAndDark();
  await page.getByLabel(/address/i).fill(address);
  await page.getByLabel(/key/i).fill(yard.key);
  await page.getByRole('button', { name: 'Connect', exact: true }).click();
  await page.getByRole('heading', { name: 'Oak Lane', level: 1 }).waitFor();
  await page.getByText('WO-1', { exact: true }).waitFor();
});

test('every tab passes axe at 300 px without a sideways scroll; the corner of the host stays free', async () => {
  for (const tab of ['Stock', 'Job', 'Cuts', 'Held', 'Offcuts', 'Drying', 'Journal', 'Shop', 'Help']) {
    await page.getByRole('tab', { name: tab, exact: true }).click();
    await page.getByRole('tabpanel', { name: tab }).getByRole('heading', { level: 2 }).first().waitFor();
    await axeInLightAndDark();
    const wide = await page.evaluate(() => document.body.scrollWidth > document.body.clientWidth);
    expect([tab, wide]).toEqual([tab, false]);
  }
  // Excel draws its own menu over 34 × 32 px at the top right (task pane design, Microsoft's add-in documentation).
  const inCorner = await page.evaluate(() => document.elementFromPoint(284, 16)?.closest('button, a, input') === null);
  expect(inCorner).toBe(true);
});

test('the key is kept in this browser for this user', async () => {
  const kept = await page.evaluate(() => Object.entries(localStorage));
  expect(kept.filter(([, value]) => value.includes(yard.key)).every(([key]) => key.includes('heartside.'))).toBe(true);
  expect(kept.some(([key]) => key.endsWith('yard-connection'))).toBe(true);
});
