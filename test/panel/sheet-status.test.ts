/** Status that stays true: looked at on opening and on demand, in one call; written only with the user's word; never over what is newer. */
import { describe, expect, test } from 'vitest';
import { makeBoardRows } from '../../addon/panel/state/board-rows.ts';
import { makeCutList } from '../../addon/panel/state/cut-list.ts';
import { deviceTexts } from '../../addon/panel/state/device-texts.ts';
import { makeJobState } from '../../addon/panel/state/job.ts';
import { makeOutbox } from '../../addon/panel/state/outbox.ts';
import { makeSheetStatus } from '../../addon/panel/state/sheet-status.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { makeWriteBack } from '../../addon/panel/state/write-back.ts';
import { compareBoards } from '../../addon/sheet/compare-boards.ts';
import type { Answer } from '../../worker/contract/wire.ts';
import { type FakeHost, fakeHost, type Grid } from './fake-host.ts';
import { type FakeYard, fakeYard } from './fake-yard.ts';
import { inch, sampleJob } from './sample.ts';

const at = () => Date.UTC(2026, 10, 25, 10);
type Row = Answer<'boardStatus'>['rows'][number];

/** A yard whose boards can change between two looks. */
function changingYard() {
  const held = new Map<string, string>();
  const ready = new Map<string, string>();
  const row = (tag: string): Row => ({
    tag,
    found: true,
    state: 'in-stock',
    boardId: `bd_${tag}`,
    words: 'free',
    heldBy: [...(held.has(tag) ? [held.get(tag) ?? ''] : [])],
    moisturePercent: 8,
    ready: ready.has(tag) ? 'drying' : tag === 'WO-9' ? 'never' : 'ready',
    readyOn: ready.get(tag) ?? null,
    dryFor: tag === 'WO-7' ? 'visible' : 'critical',
    facts: null,
  });
  const yard = fakeYard({ boardStatus: ({ body }) => ({ seq: 1, rows: (body?.tags ?? []).map(row) }) });
  return { yard, held, ready };
}

/** A sidebar as it opens beside the sheet. */
function open(host: FakeHost, yard: FakeYard) {
  const shell = makeShell(at);
  const writeBack = makeWriteBack(host, shell);
  const texts = deviceTexts(host, 'test');
  const outbox = makeOutbox({ api: yard, texts, nowMs: at, newId: () => 'intent-1', went: () => {} });
  const job = makeJobState(yard, shell, outbox);
  const boardRows = makeBoardRows(yard, host, shell, writeBack);
  const cutList = makeCutList(yard, host, shell, job, writeBack, Math.random);
  return { shell, writeBack, boardRows, cutList, job, status: makeSheetStatus(host, writeBack, boardRows, cutList) };
}

const rack = (rowCount: number): Grid => [
  ['Tag', 'Species', 'Len (in)', 'W', 'Thk'],
  ...Array.from({ length: rowCount }, (_, row) => [`WO-${row + 1}`, 'white oak', '100 1/2', '9 1/4', '8/4']),
];
const asked = (yard: FakeYard, name: string) => yard.calls.filter((call) => call.name === name);

async function withStatus(rowCount: number) {
  const changing = changingYard();
  const host = fakeHost(rack(rowCount), 'Rack');
  const first = open(host, changing.yard);
  await first.boardRows.writeStatus();
  await first.writeBack.write([]);
  changing.yard.calls.length = 0;
  return { ...changing, host };
}

describe('the status of boards in a sheet', () => {
  test('on opening, what fell behind is counted and nothing is written', async () => {
    const { host, yard, held } = await withStatus(3);
    held.set('WO-2', 'Hall table');
    const before = JSON.stringify(host.grid);
    const { status, writeBack } = open(host, yard);
    await status.look();
    expect(status.stale.value).toEqual({ sheet: 'Rack', cells: 2 });
    expect(JSON.stringify(host.grid)).toBe(before);
    await status.refresh();
    expect(writeBack.pending.value?.planned.plan.cells.map((cell) => cell.value)).toEqual(['held', 'Hall table']);
    await writeBack.write([]);
    expect(host.grid[2]?.slice(5)).toEqual(['held', 'Hall table']);
    expect(status.stale.value).toBeNull();
  });

  test('a board that its air never dries says so, one already dry says ready', async () => {
    const { host } = await withStatus(9);
    expect(host.grid[0]?.slice(5)).toEqual(['Status', 'Held by', 'Ready on']);
    expect([host.grid[8]?.[7], host.grid[9]?.[7]]).toEqual(['ready', 'not where it stands']);
    // Dry enough for seen parts, too wet for long ones.
    expect(host.grid[7]?.[7]).toBe('ready, not for long parts');
  });

  test('a totals row and a title get no status; a row with a cell that cannot be read does', async () => {
    const grid: Grid = [
      ...rack(2),
      ['WO-3', 'white oak', 'long', '9 1/4', '8/4'],
      ['From the barn'],
      ['WO-4', 'white oak', '96', '9 1/4', '8/4'],
      ['Total', '4'],
    ];
    const host = fakeHost(grid, 'Rack');
    const { yard } = changingYard();
    const { boardRows, writeBack } = open(host, yard);
    await boardRows.writeStatus();
    await writeBack.write([]);
    expect(asked(yard, 'boardStatus')).toMatchObject([{ input: { body: { tags: ['WO-1', 'WO-2', 'WO-3', 'WO-4'] } } }]);
    expect(host.grid.map((row) => row[5] ?? null)).toEqual(['Status', 'free', 'free', 'free', null, 'free', null]);
  });

  test('the notice goes with a write from elsewhere that leaves nothing behind', async () => {
    const { host, yard, held } = await withStatus(3);
    held.set('WO-2', 'Hall table');
    const { status, writeBack, boardRows, shell } = open(host, yard);
    await status.look();
    expect(status.stale.value?.cells).toBe(2);
    await boardRows.writeStatus();
    await writeBack.write([]);
    await expect.poll(() => status.stale.value).toBeNull();
    expect(await status.refresh()).toBe(true);
    expect([writeBack.task.trouble.value, status.task.trouble.value]).toEqual([null, null]);
    expect(shell.said.value).toBe('The sheet shows this already.');
  });

  test('a sheet that shows all as it is says nothing, and a sheet without our columns asks nothing', async () => {
    const { host, yard } = await withStatus(3);
    const { status } = open(host, yard);
    await status.look();
    expect(status.stale.value).toBeNull();
    const bare = open(fakeHost(rack(3), 'Rack'), yard);
    yard.calls.length = 0;
    await bare.status.look();
    expect(yard.calls).toEqual([]);
    expect(await bare.status.refresh()).toBe(false);
    expect(bare.status.task.trouble.value).toMatchObject({ kind: 'told' });
  });

  test('a file that was told to refreshes itself on opening', async () => {
    const { host, yard, held, ready } = await withStatus(3);
    await open(host, yard).status.setByItself(true);
    held.set('WO-3', 'Stool');
    ready.set('WO-1', '2027-01-12');
    const { status } = open(host, yard);
    await status.look();
    expect(host.grid.map((row) => row.slice(5))).toEqual([
      ['Status', 'Held by', 'Ready on'],
      ['free', null, '2027-01-12'],
      ['free', null, 'ready'],
      ['held', 'Stool', 'ready'],
    ]);
  });

  test('a likely day that is past says that it is due, and to measure', async () => {
    const { host, yard, ready } = await withStatus(3);
    await open(host, yard).status.setByItself(true);
    ready.set('WO-1', '2020-01-12');
    await open(host, yard).status.look();
    expect(host.grid[1]?.[7]).toBe('due since 2020-01-12, measure');
  });

  test('what somebody typed into our column stays until they choose', async () => {
    const { host, yard, held } = await withStatus(3);
    held.set('WO-2', 'Hall table');
    const { status, writeBack } = open(host, yard);
    const readArea = host.readArea;
    await status.refresh();
    host.grid[2]?.splice(5, 1, 'ask Ann');
    await writeBack.write([]);
    expect(host.grid[2]?.[5]).toBe('ask Ann');
    Object.assign(host, { readArea });
  });

  test('2,000 rows are one call to the yard', async () => {
    const { host, yard, held } = await withStatus(2_000);
    held.set('WO-1999', 'Hall table');
    const { status } = open(host, yard);
    await status.look();
    expect(status.stale.value).toEqual({ sheet: 'Rack', cells: 2 });
    expect(yard.calls.map((call) => call.name)).toEqual(['boardStatus']);
    expect(asked(yard, 'boardStatus')).toMatchObject([{ input: { body: { tags: { length: 2_000 } } } }]);
  });
});

describe('the status of parts in a sheet', () => {
  test('stands, ready dates and what is short come in one call', async () => {
    const grid: Grid = [
      ['Part', 'Qty', 'Wood', 'Length', 'Width', 'Thick', 'Yard ref'],
      ['Long rail', 2, 'white oak', '58', '3 1/2', '7/8', 'RB4K'],
      ['Shelf slat', 4, 'white oak', '20', '2 1/4', '1/2', 'RB7P'],
    ];
    const host = fakeHost(grid, 'Cut list');
    let short: Answer<'jobStatus'>['short'] = [];
    const yard = fakeYard({ jobStatus: () => ({ job: sampleJob, short }) });
    const first = open(host, yard);
    await first.job.open(sampleJob.id);
    await first.cutList.writeStanding();
    await first.writeBack.write([]);
    short = [{ key: 'RB7P', speciesName: 'White oak', thicknessCall: '4/4', boardFeet: 3.21 }];
    yard.calls.length = 0;
    const { status, writeBack } = open(host, yard);
    await status.refresh();
    await writeBack.write([]);
    expect(yard.calls.map((call) => call.name)).toEqual(['jobStatus']);
    expect(host.grid.map((row) => row.slice(7))).toEqual([
      ['Status', 'Ready on', 'Short'],
      ['2 roughed, 1 failed', '2026-11-28'],
      ['1 wanted, 1 planned, 2 milled', undefined, '3.3 bf White oak 4/4'].map((cell) => cell ?? null),
    ]);
  });
});

describe('a stale sheet beside newer stock', () => {
  const facts = { lengthNm: inch(84), widthNm: inch(9.25), thicknessNm: inch(2), version: 7 };
  const known = (over: Partial<Row> = {}): Row => ({
    tag: 'WO-1',
    found: true,
    state: 'in-stock',
    boardId: 'bd_1',
    words: 'free',
    heldBy: [],
    moisturePercent: null,
    ready: null,
    readyOn: null,
    dryFor: null,
    facts: { species: 'white-oak', ...facts },
    ...over,
  });

  async function intake(row: Row, over: Parameters<typeof fakeYard>[0] = {}) {
    const yard = fakeYard({
      boardStatus: ({ body }) => ({
        seq: 1,
        rows: (body?.tags ?? []).map((tag) =>
          tag === row.tag ? row : { ...row, tag, found: false, boardId: null, facts: null },
        ),
      }),
      ...over,
    });
    const host = fakeHost(rack(2), 'Rack');
    const opened = open(host, yard);
    await opened.boardRows.reading.read();
    await opened.boardRows.compare();
    return { ...opened, host, yard };
  }

  test('a row that differs is shown with both sizes and is not taken in; the others are', async () => {
    const { boardRows, yard } = await intake(known());
    expect(boardRows.compared.value).toMatchObject({
      sameCount: 0,
      fresh: [{ draft: { tag: 'WO-2' } }],
      differing: [
        {
          tag: 'WO-1',
          sheetRow: 1,
          gone: null,
          differences: [{ size: 'lengthNm', sheetNm: inch(100.5), yardNm: inch(84) }],
        },
      ],
    });
    await boardRows.takeIn();
    expect(asked(yard, 'takeInBoards')).toMatchObject([{ input: { body: { boards: [{ tag: 'WO-2' }] } } }]);
  });

  test('the yard is corrected only from the version that was shown', async () => {
    const { boardRows, yard } = await intake(known(), {
      correctBoard: () => ({
        type: '/problems/stale',
        title: 'It was changed meanwhile',
        status: 412,
        detail: 'Read it again.',
        instance: '',
      }),
    });
    const [board] = boardRows.compared.value?.differing ?? [];
    if (board === undefined) throw new Error('nothing differs');
    expect(await boardRows.correctYard(board)).toBe(false);
    expect(asked(yard, 'correctBoard').map((call) => call.input)).toEqual([
      { path: { id: 'bd_1' }, version: 7, body: { lengthNm: inch(100.5), thicknessCall: '8/4' } },
    ]);
    // What the yard has now is asked for anew, so that the next choice is made on it.
    expect(asked(yard, 'boardStatus')).toHaveLength(2);
  });

  test('the yard’s size goes into the user’s cell only when that cell is named', async () => {
    const { boardRows, writeBack, host } = await intake(known());
    const [board] = boardRows.compared.value?.differing ?? [];
    if (board === undefined) throw new Error('nothing differs');
    await boardRows.correctSheet(board, () => '84"');
    expect(writeBack.pending.value?.clashes).toHaveLength(1);
    await writeBack.write([]);
    expect(host.grid[1]?.[2]).toBe('100 1/2');
    await boardRows.correctSheet(board, () => '84"');
    await writeBack.write([writeBack.pending.value?.clashes[0]?.address ?? '']);
    expect(host.grid[1]?.[2]).toBe('84"');
  });

  test('a board that was cut meanwhile is said so, and never taken in again', async () => {
    const { boardRows } = await intake(known({ state: 'cut-up', words: 'cut' }));
    expect(boardRows.compared.value?.differing[0]).toMatchObject({ tag: 'WO-1', gone: 'cut' });
    expect(boardRows.compared.value?.fresh.map((row) => row.draft.tag)).toEqual(['WO-2']);
  });

  test('a row that calls its thickness corrects the call with it; one that names none leaves the yard’s', async () => {
    const planed = { species: 'white-oak', ...facts, thicknessNm: inch(1.75) };
    const yard = fakeYard({
      boardStatus: () => ({ seq: 1, rows: [known({ facts: planed }), known({ tag: 'WO-2', boardId: 'bd_2' })] }),
    });
    const headings = ['Tag', 'Species', 'Length', 'Width', 'Thickness'];
    const rows = [
      ['WO-1', 'white oak', '84', '9 1/4', '8/4'],
      ['WO-2', 'white oak', '84', '9 1/4', '1 15/16'],
    ];
    const { boardRows } = open(fakeHost([headings, ...rows], 'Rack'), yard);
    await boardRows.reading.read();
    await boardRows.compare();
    const differing = boardRows.compared.value?.differing ?? [];
    expect(differing.map(({ tag, thicknessCall }) => [tag, thicknessCall])).toEqual([
      ['WO-1', '8/4'],
      ['WO-2', null],
    ]);
    for (const board of differing) await boardRows.correctYard(board);
    expect(asked(yard, 'correctBoard').map((call) => call.input)).toEqual([
      { path: { id: 'bd_1' }, version: 7, body: { thicknessNm: inch(2), thicknessCall: '8/4' } },
      { path: { id: 'bd_2' }, version: 7, body: { thicknessNm: inch(1.9375) } },
    ]);
  });

  test('a size in words is no other measurement', () => {
    const draft = {
      tag: 'WO-1',
      species: 'white oak',
      lengthNm: inch(84),
      widthNm: inch(9.25),
      thicknessNm: '8/4',
    };
    expect(compareBoards([{ sheetRow: 1, draft }], [known()])).toEqual({ fresh: [], sameCount: 1, differing: [] });
  });
});
