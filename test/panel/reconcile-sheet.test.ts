import { describe, expect, test } from 'vitest';
import { formOf } from '../../addon/panel/state/reconcile-form.ts';
import { sheetRowsOf } from '../../addon/panel/state/reconcile-sheet.ts';
import { putOnSheet, readFromSheet } from '../../addon/panel/state/session-sheet.ts';
import { makeMeasure, shownInAtFirst } from '../../addon/panel/words/measure.ts';
import { fakeHost, type Grid } from './fake-host.ts';
import { sampleLayout } from './sample.ts';

const measure = makeMeasure(shownInAtFirst);
const form = formOf(sampleLayout, (nm) => measure.length(nm));
const boards = [{ tag: 'WO-14', form }];
const session = { id: 'cs_0000000sess1', jobName: 'Hall table' };

/** The session on its sheet, with what somebody wrote there: row, column, value. */
async function writtenDown(
  entries: readonly (readonly [row: number, column: number, value: string | number])[],
  drop?: number,
) {
  const grid: Grid = sheetRowsOf(boards);
  const host = fakeHost(grid, 'Hall table, cut');
  await putOnSheet(host, session, boards);
  for (const [row, column, value] of entries) grid[row]?.splice(column, 1, value);
  if (drop !== undefined) grid.splice(drop, 1);
  return readFromSheet(host, session, boards);
}

test('a row for the rails and one for the offcut, with the counts left open', () => {
  expect(sheetRowsOf(boards)).toEqual([
    ['Board', 'What', 'Part or tag', 'Planned', 'Good', 'Failed', 'Why', 'Length', 'Width'],
    ['WO-14', 'part', 'Long rail', 2, null, null, null, '59 7/8"', '4"'],
    ['WO-14', 'offcut', 'WO-14-1', null, null, null, null, '34 3/8"', '9 1/4"'],
  ]);
});

describe('read back', () => {
  test('both rails good: as planned', async () => {
    const found = await writtenDown([[1, 4, 2]]);
    expect(found.ok && found.forms.map((one) => one.became)).toEqual(['planned']);
  });
  test('one rail failed: cut otherwise, with the reason; sizes stay the plan’s', async () => {
    const found = await writtenDown([
      [1, 4, 1],
      [1, 5, 1],
      [1, 6, 'split'],
    ]);
    expect(found.ok && found.forms[0]).toMatchObject({
      became: 'cut',
      parts: [{ good: '1', failed: '1', why: 'split', lengthEntry: form.parts[0]?.lengthEntry }],
    });
  });
  test('an offcut whose row was taken away did not come', async () => {
    const found = await writtenDown([[1, 4, 2]], 2);
    expect(found.ok && found.forms[0]).toMatchObject({ became: 'cut', offcuts: [] });
  });
  test('an offcut of another size is read as typed', async () => {
    const found = await writtenDown([
      [1, 4, 2],
      [2, 7, '33 1/2"'],
    ]);
    expect(found.ok && found.forms[0]?.offcuts[0]?.lengthEntry).toEqual({ text: '33 1/2"', asPlannedNm: null });
  });
  test('a board that nobody filled in stays for later', async () => {
    const found = await writtenDown([]);
    expect(found).toMatchObject({ ok: false, help: expect.stringContaining('No board is filled in') });
  });
  test('headings that were changed are told, and a session on no sheet too', async () => {
    expect(await writtenDown([[0, 4, 'OK']])).toMatchObject({ ok: false });
    expect(await readFromSheet(fakeHost([]), session, boards)).toMatchObject({ ok: false });
  });
});
