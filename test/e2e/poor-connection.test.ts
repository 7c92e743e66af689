/** The shop's wireless fails: the bench in Chromium goes on reading, keeps what is written down, and sends it once. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { axeViolations } from './support/axe.ts';
import { type Bench, startBench } from './support/bench.ts';
import { type BenchPage, openBrowser, openPage, pageReady } from './support/browser.ts';
import { Hand } from './support/hand.ts';

let bench: Bench;
let browser: Browser;
let opened: BenchPage;
let hand: Hand;

beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await bench?.stop();
});
beforeEach(async () => {
  opened = await openPage(browser, bench.address);
  hand = new Hand(opened.page);
});
afterEach(() => opened.close());

interface Board {
  readonly id: string;
  readonly tag: string;
  readonly readings: readonly { readonly moisturePercent: number }[];
}
const ask = async (path: string) => {
  const answer = await fetch(bench.address + path, { headers: { authorization: `Bearer ${bench.key}` } });
  return answer.json();
};
const boardNow = async (id: string): Promise<Board> => ask(`/v1/boards/${id}`);

/** Nothing of the yard answers any more; the page itself does. */
const breakOff = () => opened.page.route('**/v1/**', (route) => route.abort('connectionfailed'));
const mend = () => opened.page.unroute('**/v1/**');

async function takeReading(percent: string): Promise<void> {
  await opened.page
    .getByLabel(/moisture/i)
    .first()
    .fill(percent);
  await hand.press(/note the reading|write/i);
}

test('a reading taken without a connection waits in sight, outlives a reload, and arrives once', async () => {
  const { page } = opened;
  await hand.open('Drying');
  await hand.panel.getByText('All', { exact: false }).first().waitFor();
  await hand.panel.getByLabel('all', { exact: true }).check();
  const row = hand.panel.getByRole('list', { name: 'Boards by moisture' }).getByRole('button').first();
  const tag = (await row.textContent())?.split(/\s/)[0] ?? '';
  const board: Board = (await ask(`/v1/boards?q=${tag}`)).items.find((one: Board) => one.tag === tag);
  await row.click();
  await breakOff();
  await takeReading('9.5');
  await hand.sees('Kept on this device');
  await hand.sees('1 thing not with the yard yet');
  await hand.sees('The yard cannot be reached.');
  expect((await boardNow(board.id)).readings).toHaveLength(board.readings.length);
  for (const scheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: scheme });
    expect(await axeViolations(page, '#panel')).toEqual([]);
  }

  await page.reload();
  await pageReady(page);
  await hand.sees('1 thing not with the yard yet');
  await hand.sees('What you see is from ');
  await hand.sees(/^\d+ boards, /);
  await hand.panel.locator('summary', { hasText: 'not with the yard yet' }).click();
  await hand.sees(`Reading of ${tag}: 9.5 %`);

  await mend();
  // Unless the sidebar has sent it by itself meanwhile.
  await hand
    .button('Send now')
    .click({ timeout: 5_000 })
    .catch(() => {});
  await hand.panel.getByText('not with the yard yet').waitFor({ state: 'detached' });
  await expect
    .poll(async () => (await boardNow(board.id)).readings.map((one) => one.moisturePercent))
    .toEqual([...board.readings.map((one) => one.moisturePercent), 9.5]);
  await hand.panel.getByText('The yard cannot be reached.').waitFor({ state: 'detached' });
});

test('an answer that is lost on its way is not asked for twice', async () => {
  const { page } = opened;
  await hand.open('Drying');
  await hand.panel.getByLabel('all', { exact: true }).check();
  const row = hand.panel.getByRole('list', { name: 'Boards by moisture' }).getByRole('button').nth(1);
  const tag = (await row.textContent())?.split(/\s/)[0] ?? '';
  const board: Board = (await ask(`/v1/boards?q=${tag}`)).items.find((one: Board) => one.tag === tag);
  await row.click();
  // The request goes through; its answer does not come back.
  await page.route('**/v1/boards/*/readings', async (route) => {
    await route.fetch();
    await route.abort('connectionreset').catch(() => {});
  });
  await takeReading('7.25');
  await hand.sees('1 thing not with the yard yet');
  await expect.poll(async () => (await boardNow(board.id)).readings.at(-1)?.moisturePercent).toBe(7.25);
  await page.unrouteAll({ behavior: 'wait' });
  // By itself, as soon as anything else is answered.
  await hand.open('Stock');
  await hand.panel.getByText('not with the yard yet').waitFor({ state: 'detached' });
  const twice = (await boardNow(board.id)).readings.filter((one) => one.moisturePercent === 7.25);
  expect(twice).toHaveLength(1);
});

test('who stops waiting for a write has the sidebar back, sees it pending, and it is done once', async () => {
  const { page } = opened;
  let arrive = () => {};
  const arrives = new Promise<void>((resolve) => {
    arrive = resolve;
  });
  let posts = 0;
  // The yard has done it; its answer hangs on the line.
  await page.route('**/v1/jobs', async (route) => {
    if (route.request().method() !== 'POST') return route.continue();
    posts += 1;
    const response = await route.fetch();
    await arrives;
    return route.fulfill({ response });
  });
  await hand.open('Job');
  await hand.panel.locator('summary', { hasText: 'Open a new job' }).click();
  await hand.panel.getByLabel('Name', { exact: true }).fill('Window seat');
  await hand.press('Open the job');
  await hand.press('Stop waiting');
  await hand.sees(/it is never done twice/);
  await hand.sees('1 thing not with the yard yet');
  for (const scheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: scheme });
    expect(await axeViolations(page, '#panel')).toEqual([]);
  }
  const pending = hand.panel.locator('summary', { hasText: 'not with the yard yet' });
  await pending.click();
  await hand.sees('Opening the job');
  arrive();
  await pending.waitFor({ state: 'detached' });
  const { items } = await ask('/v1/jobs');
  expect(items.filter((job: { name: string }) => job.name === 'Window seat')).toHaveLength(1);
  expect(posts).toBe(1);
});

test('who stops waiting for a question breaks it off on the line', async () => {
  const { page } = opened;
  let broken = () => {};
  const breaks = new Promise<void>((resolve) => {
    broken = resolve;
  });
  page.on('requestfailed', (request) => {
    if (request.url().endsWith('/v1/yard/archive')) broken();
  });
  await page.route('**/v1/yard/archive', () => {});
  await hand.open('Shop');
  await hand.press('Save a copy');
  await hand.press('Stop waiting');
  await breaks;
  await hand.sees('Nothing more of it is on its way');
  expect(await hand.panel.locator('summary', { hasText: 'not with the yard yet' }).count()).toBe(0);
});
