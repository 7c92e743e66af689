/**
 * Takes the README's pictures from the real bench with the demo yard: npm run build && npm run pictures. The planning is
 * deterministic, so a picture changes only when the screen does.
 */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { startBench } from './support/bench.ts';
import { openBrowser, openPage } from './support/browser.ts';
import { Hand } from './support/hand.ts';

const PICTURES = join(import.meta.dirname, '../../data-demo/pictures');
const PLANNED_WITHIN_MS = 90_000;

await mkdir(PICTURES, { recursive: true });
const bench = await startBench();
const browser = await openBrowser();
const { page, faults } = await openPage(browser, bench.address, { book: 'demo', size: { width: 1280, height: 800 } });
const hand = new Hand(page);
const keep = (name: string) => page.screenshot({ path: join(PICTURES, `${name}.png`) });
const keepPanel = async (name: string) => {
  await page.mouse.move(0, 0);
  await hand.panel.screenshot({ path: join(PICTURES, `${name}.png`) });
};

await hand.selectCell('Boards!A5');
await hand.open('Stock');
await hand.press('Read boards from the sheet');
await hand.sees('How the columns were read');
await keep('boards-from-the-sheet');
await hand.press('Take in 32 boards');
await hand.sees('32 boards taken in.');
await hand.selectCell('Hall table!B6');
await hand.open('Job');
await hand.panel.getByText('Open a new job').click();
await hand.panel.getByLabel('Name').fill('Hall table');
await hand.press('Open the job');
await hand.press('Read the cut list from the sheet');
await hand.press('Set 10 parts for Hall table');
await hand.sees('10 parts');
await hand.press('Take off');
await hand.sees('Gross, with waste');
await hand.open('Cuts');
await hand.press('Plan the cuts');
await hand.sees(/^Hold the \d+ boards$/, PLANNED_WITHIN_MS);
await page.setViewportSize({ width: 1280, height: 1620 });
await hand.panel.getByText('First: hardest to replace').first().scrollIntoViewIfNeeded();
await hand.panel.locator('svg[role="img"]').nth(2).scrollIntoViewIfNeeded();
await keepPanel('cut-plan');
await hand.press(/^Hold the \d+ boards$/);
await hand.press('Open the cutting session');
await hand.sees('Write down what came out');

const session = await fetch(`${bench.address}/v1/sessions?limit=1`, {
  headers: { authorization: `Bearer ${bench.key}` },
}).then((answer) => answer.json());
const cards = await fetch(`${bench.address}/v1/sessions/${session.items[0].id}/cards`, {
  headers: { authorization: `Bearer ${bench.key}` },
}).then((answer) => answer.text());
const paper = await browser.newPage({ viewport: { width: 760, height: 900 } });
await paper.setContent(cards);
await paper.screenshot({ path: join(PICTURES, 'cut-card.png') });

await browser.close();
await bench.stop();
if (faults.length > 0) throw new Error(faults.join('\n'));
