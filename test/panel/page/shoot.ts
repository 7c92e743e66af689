/**
 * Pictures of the panel for the eye: node test/panel/page/shoot.ts [name …] builds the page over the fake yard, walks to
 * each named view at 300 px and leaves a PNG in test/.shots.
 */
import { mkdir, readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { join } from 'node:path';
import chromium from '@sparticuz/chromium';
import { build } from 'esbuild';
import { type Page, chromium as playwright } from 'playwright-core';

const ROOT = new URL('../../..', import.meta.url).pathname;
const SHOTS = join(ROOT, 'test/.shots');

interface View {
  readonly state?: string;
  readonly walk?: (page: Page) => Promise<void>;
}
const tab = (name: string) => (page: Page) => page.getByRole('tab', { name, exact: true }).click();

const views: Record<string, View> = {
  stock: {},
  'stock-empty': { state: 'empty' },
  'stock-slow': { state: 'slow' },
  connect: { state: 'connect' },
  board: { walk: (page) => page.getByRole('button', { name: 'WO-14' }).click() },
  intake: { walk: (page) => page.getByRole('button', { name: 'Read boards from the sheet' }).click() },
  job: { walk: tab('Job') },
  'job-empty': { state: 'empty', walk: tab('Job') },
  takeoff: {
    walk: async (page) => {
      await tab('Job')(page);
      await page.getByRole('button', { name: 'Take off', exact: true }).click();
    },
  },
  cuts: {
    walk: async (page) => {
      await tab('Cuts')(page);
      await page.getByRole('button', { name: 'Plan the cuts' }).click();
    },
  },
  'cuts-compare': {
    walk: async (page) => {
      await tab('Cuts')(page);
      await page.getByRole('button', { name: 'Compare plans' }).click();
      await page.getByText('Fewest cuts and settings').waitFor();
    },
  },
  'cuts-compare-draft': {
    walk: async (page) => {
      await views.cuts?.walk?.(page);
      await page.getByRole('button', { name: 'Compare plans' }).click();
      await page.getByText('Keep the plan in front').waitFor();
    },
  },
  'cuts-search': {
    state: 'slow-search',
    walk: async (page) => {
      await tab('Cuts')(page);
      await page.getByRole('button', { name: 'Plan the cuts' }).click();
      await page.getByRole('button', { name: 'Stop and take this' }).waitFor();
    },
  },
  reconcile: {
    walk: async (page) => {
      await views.cuts?.walk?.(page);
      await page.getByRole('button', { name: 'Hold the 2 boards' }).click();
      await page.getByRole('button', { name: 'Open the cutting session' }).click();
      await page.getByRole('button', { name: 'Write down what came out' }).click();
      await page.getByLabel('otherwise').first().check();
    },
  },
  reconciled: {
    walk: async (page) => {
      await views.cuts?.walk?.(page);
      await page.getByRole('button', { name: 'Hold the 2 boards' }).click();
      await page.getByRole('button', { name: 'Open the cutting session' }).click();
      await page.getByRole('button', { name: 'Write down what came out' }).click();
      await page.getByRole('button', { name: 'All as planned' }).click();
      await page.getByRole('button', { name: 'All as planned' }).click();
    },
  },
  'cuts-empty': { state: 'empty', walk: tab('Cuts') },
  held: { walk: tab('Held') },
  'held-empty': { state: 'empty', walk: tab('Held') },
  offcuts: { walk: tab('Offcuts') },
  drying: { walk: tab('Drying') },
  journal: { walk: tab('Journal') },
  shop: { walk: tab('Shop') },
  'shop-key': {
    walk: async (page) => {
      await tab('Shop')(page);
      await page.getByText('Give somebody a key').click();
      await page.getByLabel('Whose, or where').fill('Ann');
      await page.getByRole('button', { name: 'Make the key' }).click();
      await page.getByText('Link for another spreadsheet').click();
    },
  },
  'shop-prices': {
    walk: async (page) => {
      await tab('Shop')(page);
      await page.getByText('Prices a board foot').click();
    },
  },
};

const axeSource = await readFile(join(ROOT, 'node_modules/axe-core/axe.min.js'), 'utf8');

/** What an accessibility checker finds wrong on the page as it stands. */
async function axeOn(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  const found: unknown = await page.evaluate(
    "axe.run('#panel').then((r) => r.violations.map((v) => v.id + ' (' + v.impact + '): ' + v.nodes.map((n) => n.target.join(' ')).slice(0, 3).join(' | ')))",
  );
  return Array.isArray(found) ? found.map(String) : [];
}

await mkdir(SHOTS, { recursive: true });
const out = await build({
  absWorkingDir: ROOT,
  entryPoints: ['test/panel/page/look.ts'],
  bundle: true,
  format: 'esm',
  write: false,
  outdir: 'unused',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  logLevel: 'warning',
});
const file = (end: string) => out.outputFiles.find((one) => one.path.endsWith(end))?.text ?? '';
const page = `<!doctype html><html lang="en"><meta charset="utf-8"><title>Panel</title><style>body{margin:0}</style><link rel="stylesheet" href="/a.css"><div id="panel"></div><script type="module" src="/a.js"></script></html>`;
const server = createServer((request, response) => {
  const path = request.url ?? '/';
  const [type, text] = path.startsWith('/a.js')
    ? ['text/javascript', file('.js')]
    : path.startsWith('/a.css')
      ? ['text/css', file('.css')]
      : ['text/html', page];
  response.setHeader('content-type', type);
  response.end(text);
});
await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()));
const address = server.address();
const port = typeof address === 'object' && address !== null ? address.port : 0;
const wanted = process.argv.slice(2);
const widthPx = Number(process.env.WIDTH ?? 300);
const themes = (process.env.THEME ?? 'light').split(',');
const browser = await playwright.launch({
  executablePath: await chromium.executablePath(),
  args: [...chromium.args.filter((arg) => arg !== '--single-process' && arg !== '--no-zygote'), '--no-sandbox'],
});
for (const theme of themes) {
  for (const [name, view] of Object.entries(views)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    const one = await browser.newPage({
      viewport: { width: widthPx, height: 900 },
      colorScheme: theme === 'dark' ? 'dark' : 'light',
      forcedColors: theme === 'forced' ? 'active' : 'none',
      deviceScaleFactor: 2,
    });
    one.on('pageerror', (error) => console.error(name, error.message));
    one.on('console', (message) => {
      if (message.type() === 'error') console.error(name, message.text());
    });
    one.setDefaultTimeout(3_000);
    await one.goto(`http://127.0.0.1:${port}/?state=${view.state ?? 'full'}`);
    await one.waitForTimeout(150);
    try {
      await view.walk?.(one);
    } catch (error) {
      console.error(name, String(error).split('\n')[0]);
    }
    await one.waitForTimeout(view.state === 'slow' ? 700 : 250);
    for (const found of process.env.AXE === '1' ? await axeOn(one) : []) console.error(`${name} ${theme}: ${found}`);
    const wide = await one.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (wide > 0) console.error(`${name}: ${wide} px too wide`);
    const path = join(
      SHOTS,
      `${name}${theme === 'light' ? '' : `-${theme}`}${widthPx === 300 ? '' : `-${widthPx}`}.png`,
    );
    await one.screenshot({ path, fullPage: true });
    console.log(path);
    await one.close();
  }
}
await browser.close();
server.close();
