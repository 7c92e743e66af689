/** A cut list and a board list of 2,000 rows on the bench, by hand, with the clock running inside the page. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { PlainBook, PlainSheet } from '../../addon/bench/page/plain-book.ts';
import { type Bench, startBench } from '../e2e/support/bench.ts';
import { type BenchPage, openBrowser, openPage, pageReady } from '../e2e/support/browser.ts';
import { Hand } from '../e2e/support/hand.ts';
import { select, textsAt } from '../e2e/support/sheet.ts';

const ROWS = 2_000;
/** The best of a few runs is the program's own time. */
const RUNS = 3;
/** Twice what is aimed at (2 s): a busy machine must not fail it, work done over and over must. The figures are printed. */
const MS_MAX = 4_000;

let bench: Bench;
let browser: Browser;
let opened: BenchPage;

const cutList: PlainSheet = {
  name: 'Cut list',
  rows: [
    ['Part', 'Qty', 'Species', 'Length', 'Width', 'Thickness'],
    ...Array.from({ length: ROWS }, (_, row) => [
      `Part ${row + 1}`,
      1 + (row % 2),
      row % 3 === 0 ? 'white oak' : 'walnut',
      `${20 + (row % 40)} ${1 + 2 * (row % 8)}/16`,
      `${2 + (row % 3)} 1/4`,
      row % 2 === 0 ? '3/4' : '1 1/2',
    ]),
  ],
};
const boardList: PlainSheet = {
  name: 'Boards',
  rows: [
    ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
    ...Array.from({ length: ROWS }, (_, row) => [
      `R-${row + 1}`,
      'white oak',
      `${90 + (row % 30)} 1/2`,
      '7 1/4',
      '4/4',
    ]),
  ],
};

beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
  opened = await openPage(browser, bench.address);
});
afterAll(async () => {
  expect(opened.faults).toEqual([]);
  await browser?.close();
  await bench?.stop();
});

let bookCount = 0;
/** A workbook that nothing was written into. */
async function freshPage(sheet: PlainSheet): Promise<Page> {
  bookCount += 1;
  const { page } = opened;
  const book: PlainBook = {
    id: `large-${bookCount}`,
    name: 'Large',
    locale: { tag: 'en-US', decimal: '.', dateOrder: 'mdy' },
    sheets: [sheet],
  };
  await page.unroute('**/bench/books.json');
  await page.route('**/bench/books.json', (route) => route.fulfill({ json: [book] }));
  await page.goto(bench.address);
  await pageReady(page);
  return page;
}

/** Presses a button of the sidebar and waits for words in it, inside the page; milliseconds between the two. */
async function timed(page: Page, press: string, until: string): Promise<number> {
  return page.evaluate(
    ([name, words]) =>
      new Promise<number>((resolve, reject) => {
        const panel = document.querySelector('#panel');
        const button = [...(panel?.querySelectorAll('button') ?? [])].find((one) => one.textContent?.trim() === name);
        if (!panel || !button) return reject(new Error(`No button “${name}”.`));
        const startedMs = performance.now();
        button.click();
        const look = () => {
          if (panel.textContent?.includes(words)) resolve(performance.now() - startedMs);
          else if (performance.now() - startedMs > 30_000) reject(new Error(`“${words}” did not come.`));
          else requestAnimationFrame(look);
        };
        look();
      }),
    [press, until] as const,
  );
}

/**
 * How many times slower the machine is just now than by itself, because other programs run on it too: time on the clock
 * over time on the processor, of the same work in the same page. 1 on a machine that does nothing else.
 */
async function crowding(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const onProcessorMs = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return (metrics.find((one) => one.name === 'TaskDuration')?.value ?? 0) * 1_000;
  };
  const before = await onProcessorMs();
  const onClockMs = await page.evaluate(() => {
    const startedMs = performance.now();
    let sum = 0;
    for (let turn = 0; turn < 60_000_000; turn += 1) sum = (sum * 31 + turn) | 0;
    return sum === 0.5 ? 0 : performance.now() - startedMs;
  });
  const after = await onProcessorMs();
  await session.detach();
  return Math.max(1, onClockMs / (after - before));
}

/** Calls to the yard while `act` runs. */
async function callsDuring(page: Page, act: () => Promise<void>): Promise<string[]> {
  const calls: string[] = [];
  const note = (request: { method(): string; url(): string }) => {
    if (request.url().includes('/v1/')) calls.push(`${request.method()} ${new URL(request.url()).pathname}`);
  };
  page.on('request', note);
  await act();
  page.off('request', note);
  return calls;
}

test(`a cut list of ${ROWS} rows is read, taken off and written back in under ${MS_MAX} ms with one call`, async () => {
  const runs: { readonly steps: readonly number[]; readonly crowded: number }[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    const page = await freshPage(cutList);
    const hand = new Hand(page);
    await hand.open('Job');
    // The demo yard's one open job comes by itself; the clock starts when it is there.
    await hand.sees('Where it stands');
    await select(page, 'Cut list!B5');
    const steps: number[] = [];
    const crowded = await crowding(page);
    const calls = await callsDuring(page, async () => {
      steps.push(await timed(page, 'Read the cut list again', '2,000 parts'));
      steps.push(await timed(page, 'Take off only', 'All together'));
      steps.push(await timed(page, 'Write the takeoff beside the rows', 'Leave the sheet alone'));
      steps.push(await timed(page, 'Write', 'Written: Takeoff'));
    });
    expect(calls).toEqual(['POST /v1/takeoff']);
    runs.push({ steps, crowded: (crowded + (await crowding(page))) / 2 });
    const written = await textsAt(page, `Cut list!G1:H${ROWS + 1}`);
    expect(written[0]).toEqual(['Board feet, gross', 'Rough size']);
    expect(written.slice(1).every(([feet, rough]) => Number(feet) > 0 && /×/.test(rough ?? ''))).toBe(true);
  }
  const sumOf = (steps: readonly number[]) => steps.reduce((sum, ms) => sum + ms, 0);
  for (const { steps, crowded } of runs) {
    const each = steps.map(Math.round).join(' + ');
    console.info(
      `read, take off, look, write: ${each} = ${Math.round(sumOf(steps))} ms, crowded ${crowded.toFixed(1)}`,
    );
  }
  expect(Math.min(...runs.map(({ steps, crowded }) => sumOf(steps) / crowded))).toBeLessThan(MS_MAX);
});

test(`the status of ${ROWS} rows is refreshed in one call`, async () => {
  const page = await freshPage(boardList);
  const hand = new Hand(page);
  await select(page, 'Boards!B5');
  await hand.open('Held');
  await hand.press('Write who holds what beside the rows');
  await hand.press('Write');
  await hand.sees(/^Written:/);
  await hand.open('Shop');
  const calls = await callsDuring(page, async () => {
    await hand.press('Refresh the status');
    await hand.sees('The sheet shows this already.');
  });
  expect(calls).toEqual(['POST /v1/boards/status']);
  expect((await textsAt(page, `Boards!F1:F${ROWS + 1}`)).slice(1).every(([word]) => word === 'not in the yard')).toBe(
    true,
  );
});
