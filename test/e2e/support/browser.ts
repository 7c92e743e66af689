/** A real Chromium for the browser tests: the one that npm brings, or the system's. Without either the tests fail; they never skip. */
import { existsSync } from 'node:fs';
import npmChromium from '@sparticuz/chromium';
import { type Browser, chromium, type Page } from 'playwright-core';
import { onHost } from './sheet.ts';

const SYSTEM_CHROMIUM = '/usr/bin/chromium';
const READY_WITHIN_MS = 40_000;

export async function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: await chromiumPath(),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  });
}

async function chromiumPath(): Promise<string> {
  const fromNpm = await npmChromium.executablePath().catch(() => '');
  if (fromNpm && existsSync(fromNpm)) return fromNpm;
  if (existsSync(SYSTEM_CHROMIUM)) return SYSTEM_CHROMIUM;
  throw new Error('No Chromium: the package @sparticuz/chromium did not unpack and /usr/bin/chromium is missing.');
}

export interface BenchPage {
  readonly page: Page;
  /** Errors on the console, uncaught errors and breaches of the content policy, as they came. */
  readonly faults: readonly string[];
  close(): Promise<void>;
}

export interface PageOptions {
  readonly book?: 'demo' | 'second';
  readonly scheme?: 'light' | 'dark';
  readonly size?: { readonly width: number; readonly height: number };
}

/** Opens the bench and waits until grid and sidebar stand. Each page has its own storage, as a new visitor. */
export async function openPage(browser: Browser, address: string, options: PageOptions = {}): Promise<BenchPage> {
  const context = await browser.newContext({
    viewport: options.size ?? { width: 1366, height: 768 },
    colorScheme: options.scheme ?? 'light',
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || /Content Security Policy/i.test(message.text())) faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !/^(data|blob|about):/.test(url)) faults.push(`asked outside: ${url}`);
  });
  await page.goto(options.book ? `${address}/?book=${options.book}` : address);
  await pageReady(page);
  return { page, faults, close: () => context.close() };
}

export async function pageReady(page: Page): Promise<void> {
  await page.waitForSelector('#grid canvas', { timeout: READY_WITHIN_MS });
  await page.waitForSelector('#panel .heartside', { timeout: READY_WITHIN_MS });
  await page.waitForFunction(() => 'heartside' in globalThis, undefined, { timeout: READY_WITHIN_MS });
  // Answers only once the grid has drawn itself.
  await onHost(page, 'listSheets');
}
