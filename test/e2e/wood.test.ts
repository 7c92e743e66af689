/** Drying, the Wood tab, a board's grade and warp, and own woods, by hand in the bench; axe finds nothing, light or dark. */
import { mkdir } from 'node:fs/promises';
import type { Browser, Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeViolations } from './support/axe.ts';
import { type Bench, startBench } from './support/bench.ts';
import { type BenchPage, openBrowser, openPage } from './support/browser.ts';
import { select } from './support/sheet.ts';

let bench: Bench;
let browser: Browser;

beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await bench?.stop();
});

/** SHOTS=folder keeps pictures of the sidebar at 300 px. */
const shots = process.env.SHOTS;

for (const scheme of ['light', 'dark'] as const) {
  test(`the wood of the shop in the sidebar, ${scheme}`, async () => {
    const opened = await openPage(browser, bench.address, {
      scheme,
      size: { width: 1100, height: shots ? 3200 : 900 },
    });
    try {
      await walk(opened, scheme);
      expect(opened.faults).toEqual([]);
    } finally {
      await opened.close();
    }
  });
}

async function walk({ page }: BenchPage, scheme: string): Promise<void> {
  const narrow = () => document.querySelector<HTMLElement>('.bench-work')?.style.setProperty('--side-width', '300px');
  await page.evaluate(narrow);
  const panel = page.locator('#panel');
  const tab = (name: string) => panel.getByRole('tab', { name, exact: true }).click();
  const button = (name: string): Locator => panel.getByRole('button', { name, exact: true });
  const field = (name: string): Locator => panel.getByLabel(name, { exact: true });
  const look = async (name: string) => {
    await page.waitForLoadState('networkidle');
    if (shots) {
      await mkdir(shots, { recursive: true });
      await panel.locator('.heartside').screenshot({ path: `${shots}/${name}-${scheme}.png` });
    }
    expect(await axeViolations(page, '#panel')).toEqual([]);
    const wide = await panel.evaluate((element) => element.scrollWidth - element.clientWidth);
    expect(wide, `${name} is too wide`).toBeLessThanOrEqual(0);
  };

  await tab('Drying');
  await panel.getByText(/already, .* likely by/).waitFor();
  await panel.getByText('all, with the reason').click();
  await look('drying');
  await panel
    .getByRole('list', { name: 'Boards by when they are ready' })
    .getByRole('button', { name: /JB-203/ })
    .click();
  await panel.getByRole('img', { name: /Drying to \d/ }).waitFor();
  await look('drying-board');
  await panel.getByRole('button', { name: 'Drying' }).first().click();

  await tab('Wood');
  await field('Species').fill('white oak');
  await panel.getByText('panel in a frame').click();
  await field('Opening between the stiles').fill('14');
  await button('Show the year').click();
  await panel.getByText('Make the panel').waitFor();
  await panel.getByRole('img', { name: /Panel through the year/ }).waitFor();
  await look('wood-movement');

  await field('Work out').selectOption('air');
  await field('Humidity, %').fill('40');
  await button('Work it out').click();
  // Wood Handbook FPL-GTR-190 Table 4-2: 70 °F and 40 % give 7.7 %.
  await panel.getByText('7.7 %').waitFor();
  await look('wood-air');

  await field('Work out').selectOption('load');
  await field('Tags').fill('JB-203 JB-216, nowhere');
  await field('The van carries, lb').fill('400');
  await button('Weigh it').click();
  await panel.getByText('In all').waitFor();
  await look('wood-load');

  await field('Work out').selectOption('glue-up');
  await look('wood-glue-up-empty');

  await tab('Stock');
  await panel.getByRole('button', { name: /JB-216/ }).click();
  await panel.getByText('Grade by its defects').click();
  await button('Find its grade').click();
  await panel.getByText(/Better face/).waitFor();
  await look('board-grade');
  await panel.getByText('What it still gives').click();
  await field('Finished thickness you need').fill('3/4');
  await button('What does it give?').click();
  await panel.getByText('What is left of equal lengths, full width').waitFor();
  await look('board-gives');

  await tab('Shop');
  await panel.getByText('Add a wood').click();
  const name = `Bog oak of the old mill, ${scheme}`;
  await field('Name').fill(name);
  await field('Shrinks radially, %').fill('6');
  await field('tangentially, %').fill('12');
  await field('Specific gravity').fill('0.55');
  await button('Add the wood').click();
  await panel
    .getByText(/shrinks 6 and 12/)
    .first()
    .waitFor();
  await panel.getByText('Change them').click();
  await look('shop');
  await tab('Wood');
  await field('Work out').selectOption('movement');
  await field('Species').fill(name);
  await field('Width across the grain').fill('24');
  await button('Show the year').click();
  await panel.getByText(/shrinkage of Bog oak.*your own figure/).waitFor();
  await look('wood-own');

  await select(page, 'Prices!A3');
  await tab('Shop');
  await panel.getByText(/^Prices a board foot/).click();
  await button('Read prices from the sheet').click();
  await panel.getByText('Prices on “Prices” are for').waitFor();
  await look('shop-prices');
  if (scheme === 'light') await button('Take in 3 prices').click();
  else await panel.getByText('The shop has these prices already.').waitFor();
  await panel.getByText('Prices a board foot (14)').waitFor();

  await tab('Offcuts');
  await panel.getByText('A piece that is not in the stock').click();
  await field('Species').fill('oak');
  await panel.getByText('“oak” can be several woods. Which?').waitFor();
  await look('offcut-which-oak');
  await button('The species is white oak').click();
  expect(await field('Species').inputValue()).toBe('white oak');
}
