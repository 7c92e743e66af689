/** Two jobs in one workbook: a sheet read while another job is in front, boards held for either, the status written twice. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, startBench } from './support/bench.ts';
import { type BenchPage, openBrowser, openPage } from './support/browser.ts';
import { Hand } from './support/hand.ts';

let bench: Bench;
let browser: Browser;
let opened: BenchPage;
let hand: Hand;
beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
  opened = await openPage(browser, bench.address);
  hand = new Hand(opened.page);
});
afterAll(async () => {
  await opened?.close();
  await browser?.close();
  await bench?.stop();
});

const jobInFront = () => hand.panel.getByRole('combobox', { name: 'Job', exact: true });
const frontName = () => jobInFront().locator('option:checked').textContent();

test('the list of another sheet asks before it takes parts off the job, and the sheet’s own job is offered', async () => {
  await hand.selectCell('Hall table!B6');
  await hand.open('Job');
  await hand.sees('Where it stands');
  expect(await frontName()).toBe('Garden gate');
  await hand.press('Read the cut list again');
  await hand.press('Set 10 parts for Garden gate');
  await hand.sees(/^5 parts of Garden gate are not in these rows and would be taken off its list: /);
  await hand.press('Keep as it is');
  await hand.press('Open a new job “Hall table”');
  await hand.press('Set 10 parts for Hall table');
  await hand.sees('Where it stands');
  expect(await frontName()).toBe('Hall table');

  // Nothing is lost: one press.
  await hand.press('Read the cut list again');
  await hand.press('Set 10 parts for Hall table');
  await hand.sees('Where it stands');
  await jobInFront().selectOption('Garden gate');
  await hand.sees('5 parts');

  await hand.press('Read the cut list again');
  await hand.press('Take the job “Hall table” instead');
  await hand.sees('Set 10 parts for Hall table');
  await hand.press('Hall table');
  await jobInFront().selectOption('Garden gate');
  await hand.sees('5 parts');
});

test('boards are held for another job while the job in front stays in front', async () => {
  await hand.open('Held');
  await hand.panel.getByText('Hold boards for a job').click();
  const form = hand.panel.getByRole('combobox', { name: 'Hold for' });
  expect(await form.locator('option:checked').textContent()).toBe('Garden gate');
  await form.selectOption('Hall table');
  await hand.panel.getByLabel('Tags').fill('JB-202, JB-201');
  await hand.press('Hold 2 boards, all or none');
  const held = hand.panel.locator('.section').filter({ has: opened.page.getByRole('heading', { name: 'Hall table' }) });
  await held.waitFor();
  expect(await held.locator('.cell-link').allTextContents()).toEqual(['JB-201', 'JB-202']);
  await hand.open('Job');
  expect(await frontName()).toBe('Garden gate');
});

test('that a plan and its job are read again moves no button away under a finger', async () => {
  await hand.open('Cuts');
  await hand.sees('Plan the cuts');
  await hand.panel.locator('.working').waitFor({ state: 'detached' });
  const placeOf = async () => (await hand.button('Plan the cuts').boundingBox())?.y;
  const before = await placeOf();
  let release = () => {};
  const released = new Promise<void>((resolve) => {
    release = resolve;
  });
  await opened.page.route('**/v1/jobs/**', async (route) => {
    await released;
    await route.continue();
  });
  await hand.open('Job');
  await hand.open('Cuts');
  await hand.sees(/^Reading the (plan|job)…$/);
  expect(await placeOf()).toBe(before);
  release();
  await hand.panel.locator('.working').first().waitFor({ state: 'detached' });
  await opened.page.unroute('**/v1/jobs/**');
});

test('a refused undo is told at the movement that was pressed', async () => {
  await hand.open('Journal');
  const entry = hand.panel.getByRole('listitem').filter({ hasText: /No\. 4, by/ });
  await entry.getByRole('button', { name: 'Undo no. 4' }).click();
  await entry.getByRole('button', { name: 'Turn it round' }).click();
  await entry.getByRole('alert').waitFor();
  expect(await hand.panel.getByRole('tabpanel', { name: 'Journal' }).getByRole('alert').count()).toBe(1);
});

test('nothing went wrong on the page but the undo that the yard refused', () => {
  expect(opened.faults).toEqual([expect.stringContaining('status of 409')]);
});
