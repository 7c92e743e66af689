/** The first screen's button names what is selected in the sheet: so many boards, so many parts; quietly, without a call. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Area } from '../../addon/host/host.ts';
import { makeSelectedRows } from '../../addon/panel/state/selected-rows.ts';
import { makeShell } from '../../addon/panel/state/shell.ts';
import { fakeHost, type Grid } from './fake-host.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const boards: Grid = [
  ['Our rack', null, null, null, null],
  ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
  ['WO-1', 'white oak', '100 1/2', '9 1/4', '8/4'],
  ['WO-2', 'white oak', 'long', '9 1/4', '8/4'],
  ['WO-3', 'walnut', '84', '7', '4/4'],
  ['WO-4', 'walnut', '84', '7', '4/4'],
];
const parts: Grid = [
  ['Part', 'Qty', 'Wood', 'Length', 'Width', 'Thick'],
  ['Leg', 4, 'ash', '28', '2', '2'],
  ['Rail', 2, 'ash', '40', '3', '1'],
  ['Total', 6, null, null, null, null],
];

/** A program that tells what is selected. */
function followed(grid: Grid) {
  const host = fakeHost(grid, 'Sheet');
  const state = { typing: false, glances: 0, listener: (_area: Area): void => {}, stopped: false };
  Object.assign(host, {
    onSelection(listener: (area: Area) => void) {
      state.listener = listener;
      return () => {
        state.stopped = true;
      };
    },
    async glanceAtTable() {
      state.glances += 1;
      return state.typing ? null : host.readArea({ ...host.selection, row: 0, column: 0, ...whole });
    },
  });
  const whole = { rowCount: grid.length, columnCount: grid[1]?.length ?? 1 };
  const shell = makeShell(() => 0);
  const rows = makeSelectedRows(host, shell, () => ({ system: 'in' }));
  const stop = rows.follow();
  return {
    host,
    shell,
    rows,
    state,
    stop,
    select(row: number, rowCount: number) {
      state.listener({ sheet: 'Sheet', row, column: 0, rowCount, columnCount: 3 });
    },
    settled: () => vi.advanceTimersByTimeAsync(1_000),
  };
}

describe('the rows that are selected', () => {
  test('are counted as boards: headings, titles and rows that cannot be read are none', async () => {
    const { rows, select, settled } = followed(boards);
    select(0, 6);
    expect(rows.now.value).toBeNull();
    await settled();
    expect(rows.now.value).toEqual({ want: 'boards', count: 3 });
    select(4, 2);
    await settled();
    expect(rows.now.value).toEqual({ want: 'boards', count: 2 });
  });

  test('are counted though the sheet made a date of 8/4', async () => {
    const { rows, select, settled } = followed([
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      // 4 August and 4 May 2026 as serial numbers, which is what a sheet holds (ECMA-376 part 1, 18.17.4.1).
      ['WO-1', 'white oak', '100 1/2', '9 1/4', 46_238],
      ['WO-2', 'white oak', '84', '7', 46_146],
      ['WO-3', 'walnut', '84', '7', '4/4'],
    ]);
    select(1, 2);
    await settled();
    expect(rows.now.value).toEqual({ want: 'boards', count: 2 });
  });

  test('are counted as prices where the table is a price list', async () => {
    const { rows, select, settled } = followed([
      ['Species', 'Thk', '$ a bf'],
      ['White oak', '4/4', 9.8],
      ['Walnut', '8/4', 18.9],
    ]);
    select(0, 3);
    await settled();
    expect(rows.now.value).toEqual({ want: 'prices', count: 2 });
  });

  test('are counted as parts: a row of totals is none', async () => {
    const { rows, select, settled } = followed(parts);
    select(1, 3);
    await settled();
    expect(rows.now.value).toEqual({ want: 'parts', count: 2 });
  });

  test('a single cell, rows without sense and another sheet are nothing to name', async () => {
    const { rows, select, settled, state } = followed(boards);
    select(2, 2);
    await settled();
    expect(rows.now.value?.count).toBe(1);
    select(2, 1);
    await settled();
    expect(rows.now.value).toBeNull();
    select(2, 4);
    await settled();
    state.listener({ sheet: 'Other', row: 2, column: 0, rowCount: 4, columnCount: 3 });
    await settled();
    expect(rows.now.value).toBeNull();
  });

  test('are looked at once after a run of changes, and what was known stays until then', async () => {
    const { rows, select, settled, state } = followed(boards);
    select(2, 4);
    await settled();
    const values: unknown[] = [];
    const stop = rows.now.subscribe((value) => values.push(value));
    const before = state.glances;
    for (const rowCount of [1, 2, 3, 4]) {
      select(2, rowCount);
      await vi.advanceTimersByTimeAsync(50);
    }
    await settled();
    stop();
    // The same three boards as before: nothing was drawn anew, nothing flickered.
    expect([state.glances - before, values]).toEqual([1, [{ want: 'boards', count: 3 }]]);
  });

  test('are left alone while somebody types, and while another screen is in front', async () => {
    const { rows, shell, select, settled, state } = followed(boards);
    state.typing = true;
    select(2, 4);
    await settled();
    expect([rows.now.value, state.glances]).toEqual([null, 1]);
    state.typing = false;
    shell.tab.value = 'Wood';
    select(4, 2);
    await settled();
    expect(state.glances).toBe(1);
    shell.tab.value = 'Stock';
    await settled();
    expect(rows.now.value).toEqual({ want: 'boards', count: 2 });
    shell.takeFromSheet('boards', 'selected');
    select(2, 4);
    await settled();
    expect([state.glances, shell.tab.value, shell.rowsFromSheet.value]).toEqual([2, 'Stock', 'selected']);
  });

  test('of a program that does not tell are never looked at; who stops following hears no more', async () => {
    const quiet = makeSelectedRows(
      fakeHost(boards),
      makeShell(() => 0),
      () => ({ system: 'in' }),
    );
    quiet.follow()();
    const { rows, select, settled, stop, state } = followed(boards);
    select(2, 4);
    stop();
    await settled();
    expect([rows.now.value, quiet.now.value, state.glances, state.stopped]).toEqual([null, null, 0, true]);
  });
});
