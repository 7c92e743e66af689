/**
 * The built Google sidebar in Chromium, in a frame with the flags that Google gives it, over the built script: it opens,
 * connects to a yard, and what it keeps goes through the bridge to the user's own properties.
 */
import { createServer, type Server } from 'node:http';
import type { Browser, FrameLocator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { sidebarPage } from '../../addon/build/google.ts';
import { boardSheets } from '../host/contract.ts';
import { type FakeGoogle, openGoogle } from '../host-google/fake-google.ts';
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
const faults: string[] = [];

beforeAll(async () => {
  const [html] = await Promise.all([sidebarPage(), openGoogle(boardSheets).then((opened) => (google = opened))]);
  server = createServer((request, response) => {
    const send = (type: string, body: string) => response.writeHead(200, { 'content-type': type }).end(body);
    const path = new URL(request.url ?? '/', 'http://here').pathname;
    if (path === '/') send('text/html; charset=utf-8', OUTER);
    else if (path === '/sidebar') send('text/html; charset=utf-8', html.replace('<body>', `<body>${BRIDGE}`));
    else if (request.headers.authorization !== 'Bearer hs_shop') {
      response.writeHead(401, { 'content-type': 'application/problem+json' }).end(
        JSON.stringify({
          type: 'about:blank',
          title: 'Unknown key',
          status: 401,
          detail: 'Check the key.',
          instance: '1',
        }),
      );
    } else send('application/json', JSON.stringify({ items: [], next: null }));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const found = server.address();
  address = `http://127.0.0.1:${typeof found === 'object' && found ? found.port : 0}`;
  browser = await openBrowser();
  page = await browser.newPage();
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('request', (request) => {
    if (!request.url().startsWith(address)) faults.push(`asked outside: ${request.url()}`);
  });
  await page.exposeFunction('askScript', (request: string) => google.call('heartHost', request));
  await page.goto(address);
  sidebar = page.frameLocator('#side');
});
afterAll(async () => {
  await browser?.close();
  server?.closeAllConnections();
  server?.close();
});

test('opens at 300 px without a sideways scroll and asks for the yard', async () => {
  await sidebar.getByLabel(/address/i).waitFor();
  const wide = await sidebar.locator('body').evaluate((body) => body.scrollWidth > body.clientWidth);
  expect(wide).toBe(false);
  expect(faults).toEqual([]);
});

test('a key that the yard does not know is said so, and nothing is kept', async () => {
  await sidebar.getByLabel(/address/i).fill(address);
  await sidebar.getByLabel(/key/i).fill('hs_wrong');
  await sidebar.getByRole('button', { name: /connect/i }).click();
  await sidebar.getByText('Check the key.').waitFor();
  expect(google.properties.user.size).toBe(0);
});

test('connects, and keeps the key for this user, never in the file', async () => {
  await sidebar.getByLabel(/key/i).fill('hs_shop');
  await sidebar.getByRole('button', { name: /connect/i }).click();
  await expect.poll(() => google.properties.user.get('yard-connection')).toContain('hs_shop');
  expect(google.properties.document.size).toBe(0);
});
