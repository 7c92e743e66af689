/** Every tab of the sidebar on the bench: axe in light and dark; 300 px and 200 % zoom without a sideways scroll. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeViolations } from '../e2e/support/axe.ts';
import { type Bench, startBench } from '../e2e/support/bench.ts';
import { type BenchPage, openBrowser, openPage } from '../e2e/support/browser.ts';
import { Hand, type Tab } from '../e2e/support/hand.ts';

const tabs: readonly Tab[] = ['Stock', 'Job', 'Cuts', 'Held', 'Offcuts', 'Drying', 'Journal', 'Shop', 'Help'];

let bench: Bench;
let browser: Browser;
beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await bench?.stop();
});

/** Waits until the tab shows something of its own beside its heading. */
async function settled(hand: Hand, tab: Tab): Promise<void> {
  await hand.open(tab);
  const panel = hand.panel.getByRole('tabpanel', { name: tab, exact: true });
  await panel.getByRole('heading', { level: 2 }).first().waitFor();
  await expect.poll(() => panel.locator('[aria-busy="true"]').count(), { timeout: 20_000 }).toBe(0);
}

describe.each(['light', 'dark'] as const)('in %s', (scheme) => {
  let opened: BenchPage;
  beforeAll(async () => {
    opened = await openPage(browser, bench.address, { scheme });
  });
  afterAll(() => opened.close());

  test.each(tabs)('%s passes axe', async (tab) => {
    const hand = new Hand(opened.page);
    await settled(hand, tab);
    // What is folded away counts too.
    await hand.panel.locator('details:not([open]) > summary').evaluateAll((folds) => {
      for (const fold of folds) (fold as HTMLElement).click();
    });
    expect(await axeViolations(opened.page, '#panel')).toEqual([]);
    expect(opened.faults).toEqual([]);
  });
});

/** 200 % zoom halves what a window holds in CSS pixels: 1366 × 768 becomes 683 × 384 (WCAG 2.2, 1.4.4 and 1.4.10). */
test.each([
  ['at 1366 × 768', { width: 1366, height: 768 }],
  ['at 200 % zoom', { width: 683, height: 384 }],
])('%s no tab scrolls sideways, with the sidebar at its narrowest', async (_, size) => {
  const opened = await openPage(browser, bench.address, { size });
  const hand = new Hand(opened.page);
  const splitter = opened.page.locator('#splitter');
  await splitter.focus();
  await opened.page.keyboard.press('Home');
  for (const tab of tabs) {
    await settled(hand, tab);
    const found = await opened.page.locator('#screen').evaluate((screen) => ({
      over: screen.scrollWidth - screen.clientWidth,
      widthPx: Math.round(document.querySelector('#side')?.getBoundingClientRect().width ?? 0),
    }));
    expect([tab, found.over <= 0, found.widthPx <= 330]).toEqual([tab, true, true]);
  }
  await opened.close();
});
