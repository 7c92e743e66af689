/** Google Sheets: the built script in a realm of its own over a make-believe file, asked through the sidebar's bridge. */
import { describe, expect, test } from 'vitest';
import { googleHost } from '../../addon/host/google-host.ts';
import type { HostErrorCode, WritePlan } from '../../addon/host/host.ts';
import { areaOf } from '../e2e/support/sheet.ts';
import { boardSheets, hostContract } from '../host/contract.ts';
import { type FakeGoogle, openGoogle } from './fake-google.ts';

const hostOf = (google: FakeGoogle) => googleHost({ script: google.script, onReturn: () => () => undefined });

hostContract({
  kind: 'google',
  readsMerges: true,
  protects: true,
  async open(sheets) {
    const google = await openGoogle(sheets);
    const rangeOf = (address: string) => {
      const area = areaOf(address);
      const sheet = google.book.getSheetByName(area.sheet);
      if (!sheet) throw new Error(`No sheet for ${address}.`);
      sheet.maxRows = Math.max(sheet.maxRows, area.row + area.rowCount);
      return sheet.getRange(area.row + 1, area.column + 1, area.rowCount, area.columnCount);
    };
    return {
      host: hostOf(google),
      select: async (address) => void rangeOf(address).activate(),
      tinted: async () =>
        ['G2', 'G3', 'G4', 'G5', 'H2', 'H4'].filter((at) => {
          const { row, column } = areaOf(`Boards!${at}`);
          return google.book.sheets[0]?.cell(row + 1, column + 1).background != null;
        }),
      async type(address, text) {
        google.book.locked = true;
        rangeOf(address).setValues([[text]]);
        google.book.locked = false;
      },
    };
  },
});

const columnPlan = (rowCount: number): WritePlan => ({
  sheet: 'Boards',
  label: 'Status',
  heading: { row: 1, note: 'Written by Heartside. Safe to delete this column.' },
  cells: Array.from({ length: rowCount }, (_, index) => ({
    row: index + 1,
    column: 7,
    value: index === 0 ? 'Status' : 'free',
    expects: null,
    format: null,
  })),
});

async function codeOf(answer: Promise<unknown>): Promise<HostErrorCode | 'none'> {
  return answer.then(
    () => 'none' as const,
    (fault: { code: HostErrorCode }) => fault.code,
  );
}

describe('a Google file', () => {
  test('a heading of ours gets its tint and note, and loses both with the write', async () => {
    const google = await openGoogle(boardSheets);
    const host = hostOf(google);
    const { undoToken } = await host.write(columnPlan(3), []);
    const heading = google.book.sheets[0]?.cell(2, 8);
    expect(heading).toMatchObject({ background: '#E4ECE6', note: 'Written by Heartside. Safe to delete this column.' });
    await host.undo(undoToken ?? '');
    expect(heading).toMatchObject({ background: null, note: '', value: '' });
  });

  test('2,000 rows of status go in as one column, past the end of the sheet', async () => {
    const google = await openGoogle(boardSheets.map((sheet) => ({ ...sheet, hiddenRows: [] })));
    expect((await hostOf(google).write(columnPlan(2_000), [])).written).toBe(2_000);
    // Values, then tint and note of the heading.
    expect(google.book.counts.write).toBe(3);
    expect(google.book.sheets[0]?.maxRows).toBe(2_001);
  });

  test('while somebody else writes, nothing is written', async () => {
    const google = await openGoogle(boardSheets, { lockedByOther: true });
    expect(await codeOf(hostOf(google).write(columnPlan(3), []))).toBe('busy-editing');
    expect(google.book.counts.write).toBe(0);
  });

  test.each<readonly [string, HostErrorCode]>([
    ['Exception: Service invoked too many times for one day: spreadsheets.', 'quota'],
    [
      "ScriptError: We're sorry, a server error occurred while reading from storage. Error code PERMISSION_DENIED.",
      'wrong-account',
    ],
    ['Exception: Authorization is required to perform that action.', 'wrong-account'],
    ['Exception: Service Spreadsheets timed out while accessing document.', 'busy-editing'],
    ['Exception: You do not have permission to call SpreadsheetApp.', 'not-authorised'],
    ['TypeError: x is not a function', 'unknown'],
  ])('%s is said as %s, without Google’s own words', async (failWith, code) => {
    const google = await openGoogle(boardSheets, { failWith });
    const fault = await hostOf(google)
      .readArea(areaOf('Boards!A1'))
      .catch((caught: { code: HostErrorCode; message: string }) => caught);
    expect(fault).toMatchObject({ code });
    expect('message' in fault && fault.message).not.toMatch(/Exception|Error/);
  });

  test('of two readings of the selection the younger counts, whichever answers first', async () => {
    const google = await openGoogle(boardSheets);
    const host = hostOf(google);
    google.delaysMs.push(30, 1);
    const [older, younger] = [
      host.readSelection({ expand: 'none', rowCountMax: 10 }),
      host.readSelection({ expand: 'none', rowCountMax: 10 }),
    ];
    expect((await younger).area).toEqual(areaOf('Boards!A1'));
    expect(await codeOf(older)).toBe('gone');
  });

  test('writes go one after another, though the bridge answers in any order', async () => {
    const google = await openGoogle(boardSheets);
    const host = hostOf(google);
    google.delaysMs.push(30, 1);
    const cell = (value: string, expects: string | null) => ({ row: 2, column: 7, value, expects, format: null });
    const one = (value: string, expects: string | null) =>
      host.write({ sheet: 'Boards', label: '', heading: null, cells: [cell(value, expects)] }, []);
    const [first, second] = await Promise.all([one('held', null), one('cut', 'held')]);
    expect([first.written, second.written]).toEqual([1, 1]);
  });

  test('a date is the day of the file’s own calendar, and the locale its own', async () => {
    const google = await openGoogle(boardSheets, { locale: 'de_DE' });
    const block = await hostOf(google).readArea(areaOf('Boards!E5'));
    expect(block.locale).toEqual({ tag: 'de-DE', decimal: ',', dateOrder: 'dmy' });
    expect(block.cells[0]?.[0]).toMatchObject({ kind: 'date', raw: 46_146 });
  });

  test('the key of the yard is kept for the user and never in the file', async () => {
    const google = await openGoogle(boardSheets);
    await hostOf(google).settings.set('yard-connection', '{"key":"hs_secret"}', 'user');
    expect(google.properties.user.get('yard-connection')).toContain('hs_secret');
    expect(google.properties.document.size).toBe(0);
  });

  test('cut cards open in a window with a button to print', async () => {
    const google = await openGoogle(boardSheets);
    await hostOf(google).showPage('Cut cards', '<!doctype html><body><h1>JB-101</h1></body>');
    expect(google.shown[0]?.title).toBe('Cut cards');
    expect(google.shown[0]?.html).toMatch(/<body>.*window\.print\(\).*<h1>JB-101/s);
  });
});

describe('the menu', () => {
  test.each(['onOpen', 'onInstall'])('%s draws it before the add-on is allowed anything in the file', async (name) => {
    const google = await openGoogle(boardSheets);
    google.authorised = false;
    google.call(name, { authMode: 'NONE' });
    const items = (google.shown[0]?.html ?? '').split('\n');
    expect(items[0]).toBe('Open → heartOpen');
    google.authorised = true;
    google.call('heartOpen');
    expect(google.shown[1]).toMatchObject({ title: 'Heartside', html: 'file sidebar' });
  });

  test('every item calls a function that is there', async () => {
    const google = await openGoogle(boardSheets);
    google.call('onOpen');
    for (const line of (google.shown[0]?.html ?? '').split('\n')) {
      expect(() => google.call(line.split(' → ')[1] ?? '')).not.toThrow();
    }
  });
});
