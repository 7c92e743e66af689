/**
 * The built Google sidebar in Chromium, in a frame with the flags that Google gives it, over the built script: it opens,
 * connects to a yard (the real service, in memory), and what it keeps goes to the user's own properties.
 */
import { createServer, type Server } from 'node:http';
import { text } from 'node:stream/consumers';
import type { Browser, FrameLocator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { sidebarPages } from '../../addon/build/google.ts';
import { board, type Client, openShop } from '../api/shop.ts';
import { boardSheets } from '../host/contract.ts';
import { type FakeGoogle, openGoogle } from '../host-google/fake-google.ts';
import { axeViolations } from './support/axe.ts';
import { openBrowser } from './support/browser.ts';

/** As Google documents the frame of its page service, 300 px wide. */
const OUTER = `<!doctype html><html lang="en"><link rel="icon" href="data:,"><title>Sheet</title>
<iframe id="side" src="/sidebar" title="Heartside" width="300" height="700"
 sandbox="allow-same-origin allow-forms allow-scripts allow-popups allow-downloads allow-modals allow-popups-to-escape-sandbox"></iframe>`;

/** The bridge as Google puts it into the frame: a chain of handlers, answers later and as text only. */
const BRIDGE = `<script>
(() => {
  const runner = (succeed, fail) => ({
    withSuccessHandler: (handler) => runner(handler, fail),
    withFailureHandler: (handler) => runner(succeed, handler),
    heartHost: (request) => void askScript(request).then(succeed, fail),
    heartRest: () => void askRest().then(succeed, fail),
  });
  globalThis.google = { script: { run: runner(() => {}, () => {}), host: { editor: { focus() {} } } } };
})();
</script>`;

let browser: Browser;
let server: Server;
let address: string;
let google: FakeGoogle;
let page: Page;
let sidebar: FrameLocator;
let oak: Client;
let ash: Client;
let viewerKey: string;
const faults: string[] = [];

/** The yards that the sidebar speaks with: the service itself, in memory, behind the same address. */
const shop = openShop();

beforeAll(async () => {
  const [pages] = await Promise.all([sidebarPages(), openGoogle(boardSheets).then((opened) => (google = opened))]);
  oak = await shop.foundYard('Oak Lane');
  ash = await shop.foundYard('Ash Street');
  await oak.send('POST', '/v1/boards', { boards: [board('WO-1'), board('WO-2')] });
  viewerKey = (await oak.send('POST', '/v1/keys', { label: 'Ann', role: 'viewer' })).json.secret;
  server = createServer(async (request, response) => {
    const url = new URL(request.url ?? '/', 'http://here');
    const send = (type: string, body: string) => response.writeHead(200, { 'content-type': type }).end(body);
    if (url.pathname === '/') send('text/html; charset=utf-8', OUTER);
    else if (url.pathname === '/sidebar')
      send('text/html; charset=utf-8', pages.page.replace('<body>', `<body>${BRIDGE}`));
    else {
      const body = await text(request);
      const headers = Object.fromEntries(Object.entries(request.headers).map(([name, value]) => [name, String(value)]));
      const method = request.method ?? 'GET';
      const answer = await shop.request(method, url.pathname + url.search, body === '' ? undefined : body, headers);
      response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? '' }).end(answer.text);
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const found = server.address();
  address = `http://127.0.0.1:${typeof found === 'object' && found ? found.port : 0}`;
  browser = await openBrowser();
  page = await browser.newPage();
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('request', (request) => {
    if (!/^http:\/\/127\.0\.0\.1[:/]/.test(request.url())) faults.push(`asked outside: ${request.url()}`);
  });
  await page.exposeFunction('askScript', (request: string) => google.call('heartHost', request));
  google.files.set('rest', pages.rest);
  await page.exposeFunction('askRest', () => {
    if (restFails) throw new Error('NetworkError: Connection failure');
    return google.call('heartRest');
  });
  await page.goto(address);
  sidebar = page.frameLocator('#side');
});
afterAll(async () => {
  expect(faults).toEqual([]);
  await browser?.close();
  server?.closeAllConnections();
  server?.close();
});

async function connect(to: string, key: string): Promise<void> {
  await sidebar.getByLabel(/address/i).fill(to);
  await sidebar.getByLabel(/key/i).fill(key);
  await sidebar.getByRole('button', { name: 'Connect', exact: true }).click();
}
/** Google may fail a call; the panel asks again when a part is wanted. */
let restFails = true;

const heading = (name: string) => sidebar.getByRole('heading', { name, level: 1 });
const openShopTab = () => sidebar.getByRole('tab', { name: 'Shop' }).click();

async function axeInLightAndDark(): Promise<void> {
  const frame = page.frame({ url: `${address}/sidebar` });
  if (!frame) throw new Error('The sidebar has no frame.');
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await axeViolations(frame, '#panel')).toEqual([]);
  }
}

test('opens at 300 px without a sideways scroll and asks for the yard', async () => {
  await sidebar.getByLabel(/address/i).waitFor();
  const wide = await sidebar.locator('body').evaluate((body) => body.scrollWidth > body.clientWidth);
  expect(wide).toBe(false);
  await axeInLightAndDark();
});

test('before a yard is connected it reads the sheet and shows what it makes of it; nothing is written or sent', async () => {
  google.book.getSheetByName('Boards')?.getRange(4, 2, 1, 1).activate();
  const asked = faults.length;
  await sidebar.getByRole('button', { name: 'Read my sheet without a yard' }).click();
  await sidebar.getByText('This part of the panel could not be fetched').waitFor();
  restFails = false;
  await sidebar.getByRole('button', { name: 'Try again' }).click();
  await sidebar.getByText('2 boards can be read').waitFor();
  await axeInLightAndDark();
  expect([faults.length, google.properties.document.size]).toEqual([asked, 0]);
  await sidebar.getByRole('button', { name: 'Connect', exact: false }).first().click();
});

test('a wrong key, an address without https and a yard that does not answer are each said so; nothing is kept', async () => {
  await connect('http://yard.example.com', oak.key);
  await sidebar.getByText(/must begin with https/).waitFor();
  await connect('http://127.0.0.1:9', oak.key);
  await sidebar.getByText('The yard cannot be reached').waitFor();
  await connect(address, `${oak.key.slice(0, -4)}0000`);
  await expect.poll(() => sidebar.getByRole('alert').textContent()).toMatch(/key/i);
  expect(google.properties.user.size).toBe(0);
});

test('somebody who may only look connects, and is told what the key allows', async () => {
  await connect(address, viewerKey);
  await heading('Oak Lane').waitFor();
  await sidebar.getByText('WO-1', { exact: true }).waitFor();
  await openShopTab();
  await sidebar.getByText('Ann', { exact: true }).waitFor();
  await sidebar.getByText('look', { exact: true }).waitFor();
});

test('several yards: another is connected, each is a press away, the other stays kept', async () => {
  await sidebar.getByRole('button', { name: 'Connect another yard' }).click();
  await connect(address, ash.key);
  await heading('Ash Street').waitFor();
  await openShopTab();
  await sidebar.getByRole('button', { name: 'Open Oak Lane' }).click();
  await heading('Oak Lane').waitFor();
  await openShopTab();
  await sidebar.getByRole('button', { name: 'Open Ash Street' }).click();
  await heading('Ash Street').waitFor();
});

test('every tab passes axe at 300 px, in light and dark, without a sideways scroll', async () => {
  for (const tab of ['Stock', 'Job', 'Cuts', 'Held', 'Offcuts', 'Drying', 'Journal', 'Shop', 'Help']) {
    await sidebar.getByRole('tab', { name: tab, exact: true }).click();
    await sidebar.getByRole('tabpanel', { name: tab }).getByRole('heading', { level: 2 }).first().waitFor();
    await axeInLightAndDark();
    const wide = await sidebar.locator('body').evaluate((body) => body.scrollWidth > body.clientWidth);
    expect([tab, wide]).toEqual([tab, false]);
  }
});

test('no key stands in a cell or goes with the file', async () => {
  expect(google.properties.user.get('yard-connection')).toContain(ash.key);
  expect([...google.properties.document.values()].join()).not.toContain('yk_');
  const cells = google.book.getSheets().flatMap((sheet) => sheet.getRange(1, 1, 20, 12).getValues().flat());
  expect(cells.join()).not.toContain('yk_');
});

test('signing out forgets this key and what the device knew; the other yard stays', async () => {
  await openShopTab();
  await sidebar.getByRole('button', { name: 'Sign out' }).click();
  await sidebar.getByRole('group').getByRole('button', { name: 'Sign out' }).click();
  await sidebar.getByRole('button', { name: 'Open Oak Lane' }).waitFor();
  expect([...google.properties.user.values()].join()).not.toContain(ash.key);
  const frame = page.frame({ url: `${address}/sidebar` });
  const kept = await frame?.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('seen')));
  expect(kept?.filter((key) => key.includes(ash.yardId))).toEqual([]);
});

test('an owner’s link code connects; the menu’s items do what they say', async () => {
  await connect(address, ash.key);
  const made = await ash.send('POST', '/v1/link-codes', { label: 'Bench tablet', role: 'hand' });
  await openShopTab();
  await sidebar.getByRole('button', { name: 'Connect another yard' }).click();
  await connect(`${address}/yard/${ash.yardId}`, made.json.code);
  await heading('Ash Street').waitFor();
  await openShopTab();
  await sidebar.getByText('Bench tablet', { exact: true }).first().waitFor();
  const cells = google.book.getSheets().flatMap((sheet) => sheet.getRange(1, 1, 20, 12).getValues().flat());
  expect(cells.join()).not.toContain(made.json.code);

  google.call('heartUseSelection');
  await page.reload();
  await sidebar.getByRole('heading', { name: 'Boards from the sheet' }).waitFor();
  google.call('heartHelp');
  await page.reload();
  await sidebar
    .getByRole('heading', { name: 'What we changed here' })
    .or(sidebar.getByText('has written nothing'))
    .waitFor();
  await sidebar.getByText(/^Heartside .* in Google Sheets/).waitFor();
});
