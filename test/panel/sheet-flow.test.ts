import { describe, expect, test } from 'vitest';
import { HostError } from '../../addon/host/host.ts';
import { takenOffText } from '../../addon/panel/screens/cut-list-intake.tsx';
import { makeBoardRows } from '../../addon/panel/state/board-rows.ts';
import { makeCutList } from '../../addon/panel/state/cut-list.ts';
import { deviceTexts } from '../../addon/panel/state/device-texts.ts';
import { makeJobState } from '../../addon/panel/state/job.ts';
import { makeOutbox } from '../../addon/panel/state/outbox.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { makeWriteBack } from '../../addon/panel/state/write-back.ts';
import { fakeHost, type Grid } from './fake-host.ts';
import { fakeYard } from './fake-yard.ts';
import { inch, sampleJob } from './sample.ts';

const at = () => Date.UTC(2026, 10, 25, 10);

/** Numbers from 0 to 1, the same each time, none like the one before. */
function steps(): () => number {
  let at = 0;
  return () => {
    at = (at + 0.381_966) % 1;
    return at;
  };
}

function boardBench(grid: Grid, yard = fakeYard()) {
  const host = fakeHost(grid, 'Rack');
  const shell = makeShell(at);
  const writeBack = makeWriteBack(host, shell);
  return { host, yard, writeBack, boardRows: makeBoardRows(yard, host, shell, writeBack) };
}

const rack: Grid = [
  ['Tag', 'Species', 'Len (in)', 'W', 'Thk', 'MC %'],
  ['WO-21', 'white oak', '8\' 4 1/2"', '7 1/4', '4/4', 8.4],
  ['WO-14', 'white oak', '100 1/2', '9 1/4', '8/4', 9],
  ['WO-23', 'white oak', '3 5/0', '6', '4/4', 8],
];
const copy = (grid: Grid): Grid => grid.map((row) => [...row]);

describe('boards from the sheet', () => {
  test('good rows are taken in though another cannot be read', async () => {
    const { yard, boardRows } = boardBench(copy(rack));
    boardRows.reading.setDefaults({ system: 'in', readOn: '2026-11-25' });
    await boardRows.reading.read();
    expect(boardRows.reading.rows.value?.faults.map((fault) => fault.address)).toEqual(['C4']);
    expect(await boardRows.takeIn()).toBe(true);
    const sent = yard.calls.find((call) => call.name === 'takeInBoards')?.input as {
      body: { boards: { tag: string; lengthNm: number }[]; allOrNothing: boolean };
    };
    expect(sent.body.boards.map((board) => [board.tag, board.lengthNm])).toEqual([
      ['WO-21', inch(100.5)],
      ['WO-14', inch(100.5)],
    ]);
    expect(sent.body.allOrNothing).toBe(false);
  });

  test('all or nothing with a bad row sends nothing and says why', async () => {
    const { yard, boardRows } = boardBench(copy(rack));
    await boardRows.reading.read();
    boardRows.allOrNothing.value = true;
    expect(await boardRows.takeIn()).toBe(false);
    expect(yard.calls.some((call) => call.name === 'takeInBoards')).toBe(false);
    expect(boardRows.task.trouble.value).toMatchObject({ kind: 'told' });
  });

  test('the rows that are selected stay so through the tick for dates, reading again and coming back', async () => {
    // 4 August 2026 as a serial number: 8/4 that the sheet made a date of.
    const dated = copy(rack).map((row, at) => (at === 0 ? row : row.with(4, 46_238)));
    const { host, boardRows } = boardBench(dated);
    const { reading } = boardRows;
    host.selection = { sheet: 'Rack', row: 1, column: 0, rowCount: 2, columnCount: 6 };
    await reading.read('selected');
    const standing = () => [reading.only.value, boardRows.toTakeIn.value.map(({ draft }) => draft.tag)];
    expect(standing()).toEqual(['selected', []]);
    const { mapping } = reading;
    if (mapping.value === null) throw new Error('no table');
    reading.remap({ ...mapping.value, datesAreFractions: true });
    const two = ['selected', ['WO-21', 'WO-14']];
    expect(standing()).toEqual(two);
    await reading.read();
    expect(standing()).toEqual(two);
    boardRows.startOver();
    await reading.read('selected');
    expect(standing()).toEqual(two);
    // A single cell stands for its table.
    host.selection = { ...host.selection, rowCount: 1 };
    await reading.read();
    expect(reading.only.value).toBe('table');
  });

  test('status goes beside the rows after a look at it, and can be taken back', async () => {
    const { host, writeBack, boardRows } = boardBench(copy(rack));
    await boardRows.reading.read();
    await boardRows.writeStatus();
    expect(host.grid[1]).toHaveLength(6);
    expect(writeBack.pending.value?.clashes).toEqual([]);
    await writeBack.write([]);
    expect(host.grid.map((row) => row.slice(6))).toEqual([
      ['Status', 'Held by'],
      ['free'],
      ['held: Hall table'],
      ['free'],
    ]);
    await writeBack.undo();
    expect(host.grid.map((row) => row.slice(6).filter((cell) => cell !== null))).toEqual([[], [], [], []]);
  });

  test('the table is found though a title that stands apart is selected', async () => {
    const { host, boardRows } = boardBench([['Rack, counted in October'], [], ...copy(rack)]);
    const readSelection = host.readSelection;
    const title = { sheet: 'Rack', row: 0, column: 0, rowCount: 1, columnCount: 1 };
    Object.assign(host, { readSelection: async () => host.readArea(title) });
    await boardRows.reading.read();
    expect(boardRows.reading.rows.value?.rows.map((row) => row.sheetRow)).toEqual([3, 4]);
    Object.assign(host, { readSelection });
  });

  test('offcuts are those rows that say so, unless the user says all or none', async () => {
    const bin: Grid = [
      ['Tag', 'Species', 'Len (in)', 'W', 'Thk', 'Place'],
      ['B-1', 'white oak', '30', '7', '4/4', 'rack 2'],
      ['B-2', 'white oak', '20', '6', '4/4', 'Offcut bin'],
    ];
    const { yard, boardRows } = boardBench(bin);
    const sent = async () => {
      await boardRows.takeIn();
      const input = yard.calls.findLast((call) => call.name === 'takeInBoards')?.input as {
        body: { boards: { offcut?: boolean }[] };
      };
      return input.body.boards.map((board) => board.offcut ?? false);
    };
    await boardRows.reading.read();
    expect(boardRows.sayOffcut.value).toBe(1);
    expect(await sent()).toEqual([false, true]);
    boardRows.offcuts.value = 'all';
    expect(await sent()).toEqual([true, true]);
    boardRows.offcuts.value = 'none';
    expect(await sent()).toEqual([false, false]);
    boardRows.startOver();
    expect(boardRows.offcuts.value).toBe('said');
  });

  test('tags of the selected rows only', async () => {
    const { host, boardRows } = boardBench(copy(rack));
    host.selection = { sheet: 'Rack', row: 1, column: 2, rowCount: 2, columnCount: 1 };
    expect(await boardRows.selectedTags()).toEqual(['WO-21', 'WO-14']);
  });
});

describe('the cut list between sheet and job', () => {
  const list: Grid = [
    ['Part', 'Qty', 'Wood', 'Length', 'Width', 'Thick'],
    ['Long rail', 2, 'white oak', '58', '3 1/2', '7/8'],
    ['Shelf slat', 4, 'white oak', '20', '2 1/4', '1/2'],
  ];
  async function cutListBench(grid: Grid, yard = fakeYard()) {
    const host = fakeHost(grid, 'Cut list');
    const shell = makeShell(at);
    const writeBack = makeWriteBack(host, shell);
    const outbox = makeOutbox({
      api: yard,
      texts: deviceTexts(host, 'test'),
      nowMs: at,
      newId: () => 'intent-1',
      went: () => {},
    });
    const job = makeJobState(yard, shell, outbox);
    await job.open(sampleJob.id);
    const cutList = makeCutList(yard, host, shell, job, writeBack, steps());
    cutList.reading.setDefaults({ system: 'in' });
    await cutList.reading.read();
    return { host, yard, writeBack, cutList, job };
  }

  test('writing leaves the sheet where the user looks at it, and knows where its columns stand', async () => {
    const { host, cutList, writeBack } = await cutListBench(copy(list));
    expect(await cutList.set()).toBe(true);
    expect(host.revealed).toEqual([]);
    expect(writeBack.last.value?.top).toEqual({ sheet: 'Cut list', row: 0, column: 6, rowCount: 1, columnCount: 1 });
  });

  test('a row that only asks for something else of the wood counts as changed beside one of another size', async () => {
    const [front, apron] = sampleJob.parts;
    if (!front || !apron) throw new Error('no parts');
    const inches = (nm: number) => String(nm / inch(1));
    const rowOf = (part: typeof front, use: string, length = part.lengthNm) =>
      [
        ...[part.label, part.quantity, 'white oak', inches(length), inches(part.widthNm), inches(part.thicknessNm)],
        ...[use, 'clear one', part.key],
      ] as Grid[number];
    const words = { critical: 'critical', visible: 'show', hidden: 'hidden' };
    const heads = ['Part', 'Qty', 'Wood', 'Length', 'Width', 'Thick', 'Use', 'Faces', 'Yard ref'];
    const other = apron.use === 'hidden' ? 'show' : 'hidden';
    const { cutList } = await cutListBench([
      heads,
      rowOf(front, words[front.use], front.lengthNm + inch(1)),
      rowOf(apron, other),
    ]);
    expect(cutList.matches.value?.rows.map(({ how }) => how)).toEqual(['changed', 'same']);
    expect(cutList.altered.value).toBe(1);
  });

  test('rows that match parts of the job get back their ref, others a new one, and the same refs go to the yard', async () => {
    const { host, yard, cutList } = await cutListBench(copy(list));
    expect(await cutList.set()).toBe(true);
    expect(host.grid[0]?.[6]).toBe('Yard ref');
    const refs = host.grid.slice(1).map((row) => row[6]);
    const sent = yard.calls.find((call) => call.name === 'setCutList')?.input as { body: { parts: { key: string }[] } };
    expect(sent.body.parts.map((part) => part.key)).toEqual(refs);
    expect(new Set(refs).size).toBe(2);
    // The slat says just what the job's slat says, so it is that slat again.
    expect(refs[1]).toBe('RB7P');
  });

  test('parts that the rows do not name are told before they are taken off, and the sheet’s own job is offered', async () => {
    const { cutList, job } = await cutListBench(copy(list));
    // Rail and slat say just what the job's say, so they are known again.
    expect(cutList.lost.value.map((part) => part.label)).toEqual(['Apron, front', 'Post', 'Top']);
    expect(cutList.jobOfSheet.value).toEqual({ id: null, name: 'Cut list' });
    await job.open(null);
    expect(cutList.lost.value).toEqual([]);
    expect(cutList.jobOfSheet.value).toEqual({ id: null, name: 'Cut list' });
  });

  test('rows that are there but cannot be read are not gone: no other job is offered, and what setting takes off is said', async () => {
    const refs = ['RB4K', 'RB5M', null, 'RB7P', 'RB8Q'];
    const grid: Grid = [
      ['Part', 'Qty', 'Wood', 'Length', 'Width', 'Thick', 'Yard ref'],
      ...sampleJob.parts.map(({ label, quantity }, row) => [
        label,
        quantity,
        'white oak',
        '20',
        '3',
        row === 1 || row === 2 ? '5/0' : '7/8',
        refs[row] ?? null,
      ]),
    ];
    const { cutList } = await cutListBench(grid);
    expect(cutList.reading.rows.value?.unread.map((row) => row.sheetRow)).toEqual([2, 3]);
    // The apron by its ref, the post, which lost its own, by its name.
    expect(cutList.unread.value.map((part) => part.label)).toEqual(['Apron, front', 'Post']);
    expect([cutList.lost.value, cutList.jobOfSheet.value]).toEqual([[], null]);
    expect(takenOffText('Hall table', cutList.lost.value, cutList.unread.value)).toBe(
      '2 parts of Hall table would be taken off its list, because the row in the sheet could not be read: Apron, front, Post.',
    );
    expect(takenOffText('Hall table', [], [])).toBeNull();
  });

  test('a job of the sheet’s name is offered, and none while it is in front or nothing is lost', async () => {
    const named = (name: string) => ({ ...sampleJob, id: `jb_${name}`, name, parts: [] });
    const yard = fakeYard({
      listJobs: () => ({ items: [sampleJob, named('cut list')], next: null }),
      readJob: ({ path }) => [sampleJob, named('cut list')].find((one) => one.id === path?.id) ?? named('Other'),
    });
    const { cutList, job } = await cutListBench(copy(list), yard);
    await job.load();
    expect(cutList.jobOfSheet.value).toEqual({ id: 'jb_cut list', name: 'cut list' });
    await job.open('jb_cut list');
    expect([cutList.jobOfSheet.value, cutList.lost.value]).toEqual([null, []]);
    await job.open('jb_Other');
    expect(cutList.jobOfSheet.value).toMatchObject({ name: 'cut list' });
  });

  test('a ref that a user filled in is not written over: the cell is shown, and nothing is set', async () => {
    const grid = copy(list);
    grid[0]?.push('Yard ref');
    grid[1]?.push('mine');
    const { yard, writeBack, cutList } = await cutListBench(grid);
    grid[1]?.splice(6, 1, '=A1');
    expect(await cutList.set()).toBe(false);
    expect(writeBack.pending.value?.clashes).toHaveLength(1);
    expect(yard.calls.some((call) => call.name === 'setCutList')).toBe(false);
  });

  test('takeoff of rows without a job needs no refs in the sheet', async () => {
    const { host, yard, cutList } = await cutListBench(copy(list));
    await cutList.takeOffRows();
    expect(yard.calls.some((call) => call.name === 'takeoffParts')).toBe(true);
    expect(host.grid[0]).toHaveLength(6);
  });

  test('a takeoff of rows no longer stands under rows that were read anew', async () => {
    const { host, cutList, job } = await cutListBench(copy(list));
    expect(cutList.takeoffOfRows.value).toBeNull();
    await cutList.takeOffRows();
    expect(cutList.takeoffOfRows.value).toBe(job.takeoff.value);
    host.grid[1]?.splice(1, 1, 7);
    await cutList.reading.read();
    expect(cutList.takeoffOfRows.value).toBeNull();
  });

  test('what was put right stays right when the same table is read again', async () => {
    const { host, cutList } = await cutListBench(copy(list));
    const { reading } = cutList;
    if (!reading.mapping.value) throw new Error('not read');
    reading.remap({ ...reading.mapping.value, datesAreFractions: true });
    await reading.read();
    expect(reading.mapping.value?.datesAreFractions).toBe(true);
    // Other headings are another table.
    host.grid[0]?.splice(0, 1, 'Piece');
    await reading.read();
    expect(reading.mapping.value?.datesAreFractions).toBe(false);
  });

  test('the cursor below the last row, where it stands after typing, means the table above it', async () => {
    const { host, cutList } = await cutListBench(copy(list));
    const { readSelection } = host;
    host.readSelection = async (how) => {
      if (how.expand === 'none') throw new HostError('nothing-selected', 'The selected cells are empty.');
      return readSelection(how);
    };
    expect(await cutList.reading.read('selected')).toBe(true);
    expect(cutList.reading.rows.value?.rows).toHaveLength(2);
    host.readSelection = async () => {
      throw new HostError('nothing-selected', 'The selected cells are empty.');
    };
    expect(await cutList.reading.read()).toBe(false);
    expect(cutList.reading.task.trouble.value).toMatchObject({ code: 'nothing-selected' });
  });

  test('where the parts stand goes beside their rows', async () => {
    const grid = copy(list);
    grid[0]?.push('Yard ref');
    grid[1]?.push('RB4K');
    grid[2]?.push('RB7P');
    const { host, writeBack, cutList } = await cutListBench(grid);
    await cutList.writeStanding();
    await writeBack.write([]);
    expect(host.grid.map((row) => row.slice(7))).toEqual([
      ['Status', 'Ready on'],
      ['2 roughed, 1 failed', '2026-11-28'],
      ['1 wanted, 1 planned, 2 milled'],
    ]);
  });
});
