/**
 * What a shop does around the saw, by hand at the bench: boards held by hand and let go, a conflict with its way out,
 * pieces judged after their rest, glued up, cured and milled, an offcut asked what it can still make and a part its home.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeViolations } from './support/axe.ts';
import { type Bench, startBench } from './support/bench.ts';
import { type BenchPage, openBrowser, openPage } from './support/browser.ts';
import { Hand } from './support/hand.ts';

let bench: Bench;
let browser: Browser;
let opened: BenchPage;
let hand: Hand;
let sends = 0;

async function send(method: string, path: string, body: unknown, ifMatch?: number) {
  sends += 1;
  const answer = await fetch(`${bench.address}/v1${path}`, {
    method,
    headers: {
      authorization: `Bearer ${bench.key}`,
      'content-type': 'application/json',
      'idempotency-key': `after-the-saw-${sends}`,
      ...(ifMatch === undefined ? {} : { 'if-match': `"${ifMatch}"` }),
    },
    ...(method === 'GET' ? {} : { body: JSON.stringify(body) }),
  });
  const text = await answer.text();
  if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${text}`);
  return JSON.parse(text);
}

const ply = (offsetNm: string, widthNm: string) => ({ thicknessNm: '3/4 in', widthNm, offsetNm });

/** A stool whose pieces need no rest and whose glue cures at once, so that every step can be taken in one go. */
beforeAll(async () => {
  [bench, browser] = await Promise.all([startBench(), openBrowser()]);
  const { settings } = await send('GET', '/yard', null);
  await send('PUT', '/yard/settings', {
    ...settings,
    restDays: { critical: 0, visible: 0, hidden: 0 },
    cureHours: 0,
  });
  const board = {
    species: 'ash',
    widthNm: '7 in',
    thicknessNm: '4/4',
    readings: [{ moisturePercent: 8, on: '2025-11-01' }],
  };
  const { taken } = await send('POST', '/boards', {
    boards: [
      { ...board, tag: 'ST-1', lengthNm: `9' 3"` },
      { ...board, tag: 'ST-2', lengthNm: `8' 1"` },
      { ...board, tag: 'ST-3', lengthNm: `7' 6"` },
    ],
  });
  const job = await send('POST', '/jobs', { name: 'Stool' });
  const wood = { species: 'ash', lengthNm: '17 in' };
  await send('PUT', `/jobs/${job.id}/cut-list`, {
    parts: [
      {
        ...wood,
        key: 'post',
        label: 'Stool post',
        quantity: 1,
        widthNm: '2 in',
        thicknessNm: '2 1/4 in',
        lamination: { kind: 'plies', plies: [ply('0 in', '2 in'), ply('1/2 in', '1 in'), ply('0 in', '2 in')] },
      },
      { ...wood, key: 'rail', label: 'Stool rail', quantity: 3, widthNm: '2 1/2 in', thicknessNm: '3/4 in' },
    ],
  });
  await send('POST', '/jobs', { name: 'Crate' });
  const plan = await send('POST', `/jobs/${job.id}/plans`, { effort: 'quick', boardIds: [taken[0].id] });
  expect(plan.placedCount).toBe(plan.wantedCount);
  await send('POST', `/plans/${plan.id}/reserve`, { how: 'whole' });
  const session = await send('POST', `/plans/${plan.id}/sessions`, {});
  await send('POST', `/sessions/${session.id}/reconcile`, { restAsPlanned: true });
  opened = await openPage(browser, bench.address, { book: 'demo' });
  hand = new Hand(opened.page);
}, 120_000);

afterAll(async () => {
  await opened?.close();
  await browser?.close();
  await bench?.stop();
});

const holdFor = (name: string) =>
  hand.panel.getByRole('combobox', { name: 'Hold for', exact: true }).selectOption({ label: name });
const pickJob = (name: string) =>
  hand.panel.getByRole('combobox', { name: 'Job', exact: true }).selectOption({ label: name });

test('boards are held by hand, all or none, and let go', async () => {
  await hand.open('Held');
  await hand.panel.getByText('Hold boards for a job').click();
  await holdFor('Stool');
  await hand.panel.getByLabel('Tags').fill('ST-2, ST-3');
  await hand.press('Hold 2 boards, all or none');
  await hand.panel.getByRole('button', { name: 'Release ST-3' }).waitFor();
  await hand.press('Release ST-3', 'Release');
  await hand.panel.getByRole('button', { name: 'Release ST-3' }).waitFor({ state: 'detached' });
});

test('a board that another job holds is refused with board, job and way out; a free run of it is held', async () => {
  await holdFor('Crate');
  await hand.panel.getByLabel('Tags').fill('ST-2');
  await hand.press('Hold it');
  await hand.sees(/ST-2.*Stool/);
  await hand.sees(/release it from Stool/);
  expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  await hand.panel.getByLabel('Tags').fill('ST-3');
  await hand.panel.getByLabel('From, if only a run').fill('10');
  await hand.panel.getByLabel('to', { exact: true }).fill('40');
  await hand.press('Hold it');
  await hand.panel.getByRole('button', { name: 'Release ST-3' }).waitFor();
  expect(await hand.wordsInLine()).toMatch(/ST-3 10" .*to 40"/);
});

test('rested pieces are passed and failed; the failed one is wanted again', async () => {
  await hand.open('Job');
  await pickJob('Stool');
  await hand.sees('Can be worked on now');
  await hand.press('Failed: Stool rail no. 3');
  await hand.panel.getByLabel('Why did Stool rail no. 3 fail?').fill('bowed in the stack');
  await hand.press('Failed: want another');
  await hand.sees('1 × Stool rail');
  await hand.press('All 2 passed');
  await hand.sees(/2 passed, 1 wanted|1 wanted, 2 passed/);
});

test('when every ply has passed, the post is glued up, cured and milled', async () => {
  await hand.press('All 3 passed');
  await hand.press('Glued up: Stool post no. 1');
  await hand.press('Milled: Stool post no. 1');
  await hand.sees(/1 milled/);
  expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  const { items } = await send('GET', '/movements?limit=3', null);
  expect(items.map((one: { kind: string }) => one.kind)).toContain('pieces-moved');
});

test('the offcut that came off says which parts it can still make, drawn', async () => {
  await hand.open('Offcuts');
  await hand.panel.getByRole('button', { name: /ST-1-1/ }).click();
  await hand.sees('ST-1-1 can still make');
  expect((await hand.panel.locator('.card h3').allInnerTexts()).join()).toContain('Stool rail');
  expect(await hand.panel.locator('svg[role="img"]').count()).toBeGreaterThan(0);
  expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  await hand.press('Offcuts');
});

test('and the part says which board is its best home: an offcut before a long board', async () => {
  await hand.panel.getByLabel('Which board for this part?').check();
  await pickJob('Stool');
  await hand.panel.getByLabel('Part', { exact: true }).selectOption({ label: 'Stool rail: 1 to cut' });
  await hand.sees('Boards for Stool rail');
  const homes = await hand.panel.locator('.card h3').allInnerTexts();
  expect(homes.length).toBeGreaterThan(1);
  expect(homes[0]).toMatch(/-\d+$/);
  expect(await axeViolations(opened.page, '#panel')).toEqual([]);
});

test('a piece planned anew while boards are at the saw stands on Cuts beside the session, and is cut in one of its own', async () => {
  const wood = {
    species: 'ash',
    widthNm: '5 in',
    thicknessNm: '4/4',
    readings: [{ moisturePercent: 8, on: '2025-11-01' }],
  };
  const { taken } = await send('POST', '/boards', {
    boards: ['CR-1', 'CR-2'].map((tag) => ({ ...wood, tag, lengthNm: '40 in' })),
  });
  const job = await send('POST', '/jobs', { name: 'Chest' });
  const part = { species: 'ash', lengthNm: '20 in', widthNm: '3 in', thicknessNm: '3/4 in', quantity: 1 };
  await send('PUT', `/jobs/${job.id}/cut-list`, {
    parts: [
      { ...part, key: 'side', label: 'Chest side' },
      { ...part, key: 'lid', label: 'Chest lid' },
    ],
  });
  const first = await send('POST', `/jobs/${job.id}/plans`, {
    effort: 'quick',
    partKeys: ['side'],
    boardIds: [taken[0].id],
  });
  await send('POST', `/plans/${first.id}/reserve`, { how: 'whole' });
  await send('POST', `/plans/${first.id}/sessions`, {});
  await hand.open('Job');
  await hand.open('Cuts');
  await pickJob('Chest');
  await hand.sees('Write down what came out');
  await hand.press('Plan again, changing least');
  // While the next plan waits to be held, what is at the saw can be written down and its cards printed.
  await hand.panel.getByRole('button', { name: 'Hold the board' }).waitFor();
  await hand.sees('Print the cut cards');
  expect(await hand.wordsInLine()).toMatch(/At the saw: CR-1\./);
  expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  await hand.press('Write down what came out');
  await hand.press('Cuts');
  await hand.press('Hold the board');
  await hand.sees('Also planned and held');
  expect(await hand.wordsInLine()).toMatch(/Also planned and held \S+ \(Chest lid 1\)\./);
  await hand.sees('Write down what came out');
  expect(await axeViolations(opened.page, '#panel')).toEqual([]);
  await hand.press(/^Cut it now, in a session of its own/);
  await hand.sees('Also begun, and left to cut');
  expect(await hand.wordsInLine()).toMatch(/When it was planned: At the saw, left to its session: CR-1\./);
  expect(await hand.wordsInLine()).toMatch(/Also begun, and left to cut CR-1 \(Chest side 1\)\./);
  await hand.press('Show this plan: CR-1');
  await hand.panel.getByRole('button', { name: 'Show this plan: CR-1' }).waitFor({ state: 'detached' });
  expect(await hand.wordsInLine()).toMatch(/Also begun, and left to cut \S+ \(Chest lid 1\)\./);
  const { items } = await send('GET', `/sessions?jobId=${job.id}&state=open`, null);
  expect(items.length).toBe(2);
});

test('nothing went wrong on the page but the refusal that was asked for', () => {
  expect(opened.faults.filter((fault) => !/409/.test(fault))).toEqual([]);
});
