/**
 * The shop's main job from its own sheet to the offcuts on the rack, over HTTP: boards in, takeoff, plan, hold, saw,
 * reconcile, and what the rest can still make.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { readPartRows } from '../../addon/sheet/read-parts.ts';
import { demoWorkbook } from '../../data-demo/workbook.ts';
import { demoYard } from '../../data-demo/yard.ts';
import type { Answer } from '../../worker/contract/wire.ts';
import { us } from '../sheet/block.ts';
import { demoBlock } from '../sheet/demo-block.ts';
import { type Client, openShop } from './shop.ts';

const defaults = { system: 'in', readOn: '2026-11-20' } as const;

function sheetBlock(name: string) {
  const sheet = demoWorkbook.find((one) => one.name === name);
  if (!sheet) throw new Error(`no sheet ${name}`);
  return demoBlock(sheet, us);
}

function boardsOfSheet() {
  const block = sheetBlock('Boards');
  const found = findTable(block, 'boards', defaults);
  if (!found.ok) throw new Error(found.help);
  return readBoardRows(block, found.mapping, defaults);
}

function partsOfSheet(name: string) {
  const block = sheetBlock(name);
  const found = findTable(block, 'parts', defaults);
  if (!found.ok) throw new Error(found.help);
  return readPartRows(block, found.mapping, defaults);
}

let yard: Client;
let shop: ReturnType<typeof openShop>;
let job: Answer<'readJob'>;
let plan: Answer<'readPlan'>;

beforeAll(async () => {
  shop = openShop();
  yard = await shop.foundYard(demoYard.name);
  await yard.send('PUT', '/v1/yard/settings', demoYard.settings);
  for (const takeIn of demoYard.takeIns)
    expect((await yard.send('POST', '/v1/boards', takeIn)).json.faults).toEqual([]);
  for (const demoJob of demoYard.jobs) {
    const opened = (await yard.send('POST', '/v1/jobs', demoJob.draft)).json;
    expect((await yard.send('PUT', `/v1/jobs/${opened.id}/cut-list`, demoJob.cutList)).status).toBe(200);
    expect((await yard.send('POST', '/v1/reservations', { jobId: opened.id, boards: demoJob.holds })).status).toBe(201);
  }
});

describe('the hall table', () => {
  test('the boards of the sheet come in, each in its own way of writing', async () => {
    const read = boardsOfSheet();
    expect(read.faults).toEqual([]);
    const answer = await yard.send('POST', '/v1/boards', { boards: read.rows.map((row) => row.draft) });
    expect(answer.status).toBe(201);
    expect(answer.json.faults).toEqual([]);
    expect(answer.json.taken).toHaveLength(read.rows.length);
    const one = (await yard.send('GET', '/v1/boards?q=JB-113')).json.items[0];
    expect(one).toMatchObject({
      species: 'white-oak',
      lengthNm: 2_552_700_000,
      thicknessCall: '5/4',
      measuredIn: 'in',
    });
  });

  test('its cut list is set, laminated parts with their layers', async () => {
    const opened = (await yard.send('POST', '/v1/jobs', { name: 'Hall table', dueOn: '2027-02-01' })).json;
    const read = partsOfSheet('Hall table');
    expect(read.faults).toEqual([]);
    const answer = await yard.send('PUT', `/v1/jobs/${opened.id}/cut-list`, {
      parts: read.rows.map((row, index) => ({ ...row.draft, key: row.draft.key ?? `row-${index + 1}` })),
    });
    expect(answer.status).toBe(200);
    job = answer.json.job;
    const post = job.parts.find((part) => part.label === 'Post');
    expect(post?.pieces.filter((piece) => piece.element !== null)).toHaveLength(12);
  });

  test('takeoff says what is short and what to buy', async () => {
    const takeoff: Answer<'takeoffJob'> = (await yard.send('POST', `/v1/jobs/${job.id}/takeoff`)).json;
    expect(takeoff.groups.length).toBeGreaterThan(2);
    for (const group of takeoff.groups) {
      expect(group.net.boardFeet).toBeLessThan(group.rough.boardFeet);
      expect(group.rough.boardFeet).toBeLessThanOrEqual(group.gross.boardFeet);
    }
    const summed = takeoff.groups.reduce((sum, group) => sum + group.net.m3, 0);
    expect(summed).toBeCloseTo(takeoff.total.net.m3, 9);
    expect(takeoff.total.weightKg).toBeGreaterThan(20);
  });

  test('the plan places most, says why the rest has no board, and how near it came', async () => {
    const answer = await yard.send('POST', `/v1/jobs/${job.id}/plans`, { effort: 'normal' });
    expect(answer.status).toBe(201);
    plan = answer.json;
    expect(plan.placedCount / plan.wantedCount).toBeGreaterThan(0.85);
    expect(plan.unplaced.map((one) => one.label)).toContain('Stretcher');
    expect(plan.stockBoundM3).toBeLessThanOrEqual(plan.stockUsedM3 + 1e-12);
    for (const layout of plan.layouts) expect(layout.cuts.length).toBeGreaterThan(0);
  });

  test('the same request plans the same', async () => {
    const again = (await yard.send('POST', `/v1/jobs/${job.id}/plans`, { effort: 'normal' })).json;
    expect(again.layouts).toEqual(plan.layouts);
    plan = again;
  });

  test('what the plan uses is held; another job that wants one is told by whom, and the way out', async () => {
    const held = await yard.send('POST', `/v1/plans/${plan.id}/reserve`, { how: 'whole' });
    expect(held.status).toBe(201);
    expect(held.json.reservations).toHaveLength(plan.layouts.length);
    const other = (await yard.send('POST', '/v1/jobs', { name: 'Library bench' })).json;
    const bench = await yard.send('PUT', `/v1/jobs/${other.id}/cut-list`, {
      parts: partsOfSheet('Library bench').rows.map((row, index) => ({ ...row.draft, key: `row-${index + 1}` })),
    });
    expect(bench.status).toBe(200);
    const tag = plan.layouts[0]?.tag;
    const refused = await yard.send('POST', '/v1/reservations', { jobId: other.id, boards: [{ tag }] });
    expect(refused.json).toMatchObject({ status: 409, type: '/problems/board-held' });
    expect(refused.json.conflicts[0]).toMatchObject({ tag, jobName: 'Hall table' });
    expect(refused.json.conflicts[0].wayOut).not.toBe('');
    const status = (await yard.send('POST', '/v1/boards/status', { tags: [tag, 'JB-999'] })).json.rows;
    expect(status.map((row: { words: string }) => row.words)).toEqual(['held: Hall table', 'unknown tag']);
  });

  test('the cutting session has a card a board', async () => {
    const session = await yard.send('POST', `/v1/plans/${plan.id}/sessions`, {});
    expect(session.status).toBe(201);
    const cards = await yard.send('GET', `/v1/sessions/${session.json.id}/cards`);
    expect(cards.headers.get('content-type')).toMatch(/text\/html/);
    for (const layout of plan.layouts) expect(cards.text).toContain(layout.tag);
  });

  test('afterwards: one board untouched, one with a failed piece, the rest as planned; the wood closes', async () => {
    const session = (await yard.send('GET', `/v1/sessions?jobId=${job.id}`)).json.items[0];
    const [first, second] = plan.layouts;
    if (!first || !second) throw new Error('the plan has too few boards');
    const counts = new Map<
      string,
      { partKey: string; element: number | null; good: number; failed: number; why: string }
    >();
    for (const piece of second.pieces) {
      const key = `${piece.partKey}/${piece.element}`;
      const one = counts.get(key) ?? { partKey: piece.partKey, element: piece.element, good: 0, failed: 0, why: '' };
      counts.set(key, { ...one, good: one.good + 1 });
    }
    const parts = [...counts.values()];
    const spoiled = parts[0];
    if (!spoiled) throw new Error('the board gives nothing');
    parts[0] = { ...spoiled, good: spoiled.good - 1, failed: 1, why: 'split at the end' };
    const answer = await yard.send('POST', `/v1/sessions/${session.id}/reconcile`, {
      restAsPlanned: true,
      boards: [
        { as: 'untouched', boardId: first.boardId, why: 'blade went dull' },
        { as: 'cut', boardId: second.boardId, parts, offcuts: [] },
      ],
    });
    expect(answer.json).toMatchObject({ session: { state: 'closed' } });
    const told: Answer<'reconcile'> = answer.json;
    for (const balance of told.balances) {
      const out = [
        balance.partsNm3,
        balance.failedNm3,
        balance.offcutsNm3,
        balance.kerfNm3,
        balance.scrapNm3,
        balance.writeOffNm3,
      ];
      expect(out.reduce((sum, part) => sum + BigInt(part), 0n)).toBe(BigInt(balance.inNm3));
    }
    expect(told.wantedAgain.reduce((sum, one) => sum + one.count, 0)).toBe(1);
    // The board that was not cut goes to the saw another time, with its pieces.
    const next = await yard.send('POST', `/v1/plans/${plan.id}/sessions`, {});
    expect(next.json.boardIds).toEqual([first.boardId]);
    const standing = (await yard.send('GET', `/v1/jobs/${job.id}`)).json.standing;
    expect(standing.pieces.roughed + standing.layers.roughed).toBe(plan.placedCount - first.pieces.length - 1);
  });

  test('an offcut says which open parts it can still make, and a part says which offcut suits it', async () => {
    const offcuts = (await yard.send('GET', '/v1/boards?offcuts=true&state=in-stock&free=true')).json.items;
    expect(offcuts.length).toBeGreaterThan(3);
    const uses = await yard.send('POST', '/v1/offcuts/uses', { boardId: offcuts[0].id });
    expect(uses.status).toBe(200);
    const typed: Answer<'offcutUses'> = (
      await yard.send('POST', '/v1/offcuts/uses', {
        size: { species: 'white oak', lengthNm: '40 in', widthNm: '5 in', thicknessNm: '4/4', moisturePercent: 8 },
      })
    ).json;
    expect(typed.parts.length).toBeGreaterThan(0);
    const part = typed.parts[0];
    const homes: Answer<'offcutHomes'> = (
      await yard.send('POST', '/v1/offcuts/homes', {
        jobId: part?.jobId,
        partKey: part?.partKey,
        element: part?.element,
      })
    ).json;
    expect(homes.homes.length).toBeGreaterThan(0);
  });

  test('a movement is turned round by a counter-movement, and the journal numbers have no gap', async () => {
    const list = (await yard.send('GET', '/v1/movements?limit=200')).json.items as { seq: number; kind: string }[];
    expect(list.map((movement) => movement.seq)).toEqual(
      Array.from({ length: list.length }, (_, index) => list.length - index),
    );
    const boards = (await yard.send('GET', '/v1/boards?q=JB-141')).json.items;
    const read = await yard.send('POST', `/v1/boards/${boards[0].id}/readings`, {
      readings: [{ moisturePercent: 7.9, on: '2026-11-20' }],
    });
    expect(read.status).toBe(201);
    const undone = await yard.send('POST', `/v1/movements/${list.length + 1}/undo`);
    expect(undone.json).toMatchObject({ kind: 'undone', undoes: list.length + 1 });
    const after = (await yard.send('GET', `/v1/boards/${boards[0].id}`)).json;
    expect(after.readings).toEqual(boards[0].readings);
  });
});
