/**
 * The main job at the bench, by hand: boards in from the sheet, takeoff, plan, hold, session and cards, what came out,
 * offcuts and the journal. Twice: on the demo workbook, and on another shop's with other words, order, units and commas.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeViolations } from './support/axe.ts';
import { type Bench, startBench } from './support/bench.ts';
import { type BenchPage, openBrowser, openPage } from './support/browser.ts';
import { Hand } from './support/hand.ts';
import { areaOf, selected, textsAt } from './support/sheet.ts';

interface Shop {
  readonly book: 'demo' | 'second';
  readonly boardsCell: string;
  readonly boardCount: number;
  /** Whether 5/4 was turned into 5 April in its thickness column. */
  readonly datesAreFractions: boolean;
  readonly listCell: string;
  readonly job: string;
  readonly partCount: number;
  readonly postLabel: string;
  /** Heading row and the part's row of the list, for what is written beside. */
  readonly headings: string;
  readonly boardHeadings: string;
}

const shops: readonly Shop[] = [
  {
    book: 'demo',
    boardsCell: 'Boards!A5',
    boardCount: 32,
    datesAreFractions: false,
    listCell: 'Hall table!B6',
    job: 'Hall table',
    partCount: 10,
    postLabel: 'Post',
    headings: 'Hall table!A3:R3',
    boardHeadings: 'Boards!A2:P2',
  },
  {
    book: 'second',
    boardsCell: 'Timber!B6',
    boardCount: 14,
    datesAreFractions: true,
    listCell: 'Wall table!B5',
    job: 'Wall table',
    partCount: 8,
    postLabel: 'Post',
    headings: 'Wall table!A3:R3',
    boardHeadings: 'Timber!A3:P3',
  },
];

describe.each(shops)('the main job from the $book workbook', (shop) => {
  let bench: Bench;
  let browser: Browser;
  let opened: BenchPage;
  let hand: Hand;

  beforeAll(async () => {
    [bench, browser] = await Promise.all([startBench(), openBrowser()]);
    opened = await openPage(browser, bench.address, { book: shop.book });
    hand = new Hand(opened.page);
  });
  afterAll(async () => {
    await opened?.close();
    await browser?.close();
    await bench?.stop();
  });

  test('boards are taken in from the sheet', async () => {
    await hand.selectCell(shop.boardsCell);
    await hand.open('Stock');
    await hand.press('Read boards from the sheet');
    await hand.sees('How the columns were read');
    if (shop.datesAreFractions) await hand.panel.getByLabel('Dates among the sizes are fractions').check();
    await hand.sees(`${shop.boardCount} boards`);
    expect(await hand.panel.getByRole('group', { name: 'Offcuts among them' }).getByLabel('none').isChecked()).toBe(
      true,
    );
    expect(await axeViolations(opened.page, '#panel')).toEqual([]);
    await hand.press(`Take in ${shop.boardCount} boards`);
    await hand.sees(`${shop.boardCount} boards taken in.`);
  });

  test('who holds what is written beside the boards', async () => {
    await hand.press('Write the status beside the rows');
    await hand.press('Write');
    await hand.sees(/^Written:/);
    const headings = (await textsAt(opened.page, shop.boardHeadings))[0] ?? [];
    expect(headings).toContain('Status');
  });

  test('the cut list is read and set, each row with its key', async () => {
    await hand.selectCell(shop.listCell);
    await hand.open('Job');
    await hand.panel.getByText('Open a new job').click();
    await hand.panel.getByLabel('Name').fill(shop.job);
    await hand.press('Open the job');
    await hand.press('Read the cut list from the sheet');
    await hand.press(`Set ${shop.partCount} parts for ${shop.job}`);
    await hand.sees(`${shop.partCount} parts`);
    const headings = (await textsAt(opened.page, shop.headings))[0] ?? [];
    expect(headings).toContain('Yard ref');
  });

  test('the takeoff says what is covered, short and to buy, and stands beside the rows', async () => {
    await hand.press('Take off');
    await hand.sees('Gross, with waste');
    await hand.sees('white oak');
    // In both lists only the stretcher finds no board; the plan below says the same.
    await hand.sees('1 blank has no place in your stock.');
    await hand.press('Write the takeoff beside the rows');
    await hand.press('Write');
    await hand.sees(/^Written:/);
    // The sheet stays where it was looked at; what was written is a press away.
    expect(await selected(opened.page)).toEqual(areaOf(shop.listCell));
    await hand.press('Show what was written');
    await expect.poll(() => selected(opened.page)).not.toEqual(areaOf(shop.listCell));
    const headings = (await textsAt(opened.page, shop.headings))[0] ?? [];
    expect(headings).toContain('Rough size');
  });

  test('the plan is drawn board by board, with its bound and what found no place', async () => {
    await hand.open('Cuts');
    await hand.press('Plan the cuts');
    await hand.sees(/^Hold the \d+ boards$/, 60_000);
    const words = await hand.wordsInLine();
    expect(words).toMatch(/\d+ of \d+ blanks from \d+ boards/);
    expect(words).toMatch(/best possible/);
    expect(words).toMatch(/No place found 1 × Stretcher/);
    expect(words).toMatch(/boards, cost \$[\d,.]+/);
    expect(await hand.panel.locator('svg[role="img"]').count()).toBeGreaterThan(5);
    expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  });

  test('beside the draft other plans can be compared, and it is kept', async () => {
    await hand.press('Compare plans');
    await hand.sees('Keep the plan in front', 60_000);
    await hand.sees('Least cost of wood');
    expect(await axeViolations(opened.page, '#panel')).toEqual([]);
    await hand.press('Keep the plan in front');
    expect(await hand.panel.getByText('Least cost of wood').count()).toBe(0);
  });

  test('its boards are held, the session opened, the cut cards shown', async () => {
    await hand.press(/^Hold the \d+ boards$/);
    await hand.press('Open the cutting session');
    await hand.sees('Write down what came out');
    await hand.press('Print the cut cards');
    await opened.page.waitForFunction(() => document.querySelectorAll('iframe').length > 0, undefined, {
      timeout: 15_000,
    });
    await opened.page.keyboard.press('Escape');
  });

  test('what came out is written down: one board not touched, one with a failed piece, the rest as planned', async () => {
    await hand.press('Write down what came out');
    const cards = hand.panel.locator('.card');
    await cards.nth(0).getByLabel('not touched').check();
    await cards.nth(1).getByLabel('otherwise').check();
    await cards.nth(1).getByLabel('Failed').first().fill('1');
    const good = cards.nth(1).getByLabel('Good').first();
    await good.fill(String(Number(await good.inputValue()) - 1));
    await cards.nth(1).getByLabel('Why they failed').fill('split at the end');
    await hand.sees(/in = |In|saw kerf|kerf/i);
    await hand.press('Write down 2 boards');
    await hand.sees('Wanted again');
    // The tab that is in front leads back from what stands inside it, as its own button does.
    await hand.open('Cuts');
    await hand.press('Write down what came out');
    await hand.sees('Or board by board');
    await hand.open('Cuts');
    expect(await hand.panel.getByText('Or board by board').count()).toBe(0);
    await hand.press('Write down what came out');
    await hand.press('All as planned', 'All as planned');
    await hand.sees('The session is closed.');
    expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  });

  test('the job shows what rests, what is wanted again, and what waits until when', async () => {
    await hand.open('Job');
    await hand.sees(/roughed/);
    await hand.sees(/wanted/);
    // The takeoff of before the saw says so, until it is read anew.
    await hand.sees('Boards or pieces have changed since this takeoff');
    await hand.press('Take off again');
    await hand.panel.getByText('Boards or pieces have changed').waitFor({ state: 'detached' });
  });

  test('an offcut says what it can still make', async () => {
    await hand.open('Offcuts');
    await hand.sees(/A size of your own|offcut/i);
    expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  });

  test('the journal shows every movement and turns the last one round', async () => {
    await hand.open('Journal');
    await hand.sees(/^No\. \d+/);
    const newest = Number(/No\. (\d+)/.exec(await hand.wordsInLine())?.[1]);
    await hand.press(`Undo no. ${newest}`, 'Turn it round');
    await hand.sees(new RegExp(`turned round by no. ${newest + 1}`));
  });

  test('nothing went wrong on the page, and nothing outside was asked', () => {
    expect(opened.faults).toEqual([]);
  });
});
