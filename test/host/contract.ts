/**
 * What every spreadsheet host must do alike: one suite, run over each of them. A host opens the same small sheet of
 * boards, with a merged title, a hidden row, a total and a thickness that the sheet turned into a date.
 */
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import type { FileSheet } from '../../addon/host/file-host.ts';
import type { CellWrite, HostErrorCode, SheetHost, WritePlan } from '../../addon/host/host.ts';
import { areaOf } from '../e2e/support/sheet.ts';

export interface OpenedHost {
  readonly host: SheetHost;
  /** Selects as a person does: "Boards!B4". */
  select(address: string): Promise<void>;
  /** Somebody types into a cell meanwhile. */
  type(address: string, text: string): Promise<void>;
  /** Cells of "Boards" that look like a heading of ours; a file shows no colours. */
  readonly tinted?: () => Promise<readonly string[]>;
}

export interface HostUnderTest {
  readonly kind: 'bench' | 'google' | 'excel' | 'file';
  /** A fresh workbook for each case. */
  open(sheets: readonly FileSheet[]): Promise<OpenedHost>;
  close?(): Promise<void>;
  /** Excel tells merges only to a write: asking for them has emptied the undo list of older builds. */
  readonly readsMerges: boolean;
  /** How a sheet with a protected column M is opened, where the host knows protection. */
  readonly protects: boolean;
}

/** 46146 is 4 May 2026, which a sheet makes of a typed 5/4. */
export const boardSheets: readonly FileSheet[] = [
  {
    name: 'Boards',
    rows: [
      ['Shed, north rack', null, null, null, null, null],
      ['Tag', 'Species', 'Length', 'Width', 'Thickness', 'Notes'],
      ['JB-101', 'White oak', 96, 7.5, '8/4', null],
      ['JB-102', 'White oak', 120.25, '8 1/2', '8/4', 'small check'],
      ['JB-103', 'Walnut', 84, 6, { value: 46_146, text: '5/4/2026', format: 'm/d/yyyy' }, null],
      ['JB-104', 'Walnut', 72, 9, '5/4', 'ripped'],
      ['Total', null, { value: 372.25, text: '372.25', formula: '=SUM(C3:C6)' }, null, null, null],
    ],
    hiddenRows: [5],
    merged: [{ row: 0, column: 0, rowCount: 1, columnCount: 6 }],
  },
  { name: 'Jobs', rows: [] },
];

function writeAt(address: string, value: string | number | null, expects: string | null = null): CellWrite {
  const { row, column } = areaOf(`x!${address}`);
  return { row, column, value, expects, format: null };
}

const plan = (cells: readonly CellWrite[], heading: WritePlan['heading'] = null): WritePlan => ({
  sheet: 'Boards',
  label: 'Status beside the boards',
  cells,
  heading,
});

const statusPlan = plan([writeAt('G2', 'Status'), writeAt('G3', 'held'), writeAt('G4', 'free'), writeAt('G5', 12.5)], {
  row: 1,
  note: 'Written by Heartside. Safe to delete this column.',
});

async function faultOf(answer: Promise<unknown>): Promise<HostErrorCode | 'none'> {
  return answer.then(
    () => 'none' as const,
    (fault: { code: HostErrorCode }) => fault.code,
  );
}

export function hostContract(under: HostUnderTest): void {
  describe(`the ${under.kind} host`, () => {
    let opened: OpenedHost;
    let host: SheetHost;
    beforeEach(async () => {
      opened = await under.open(boardSheets);
      host = opened.host;
    });
    afterAll(async () => under.close?.());

    const texts = async (address: string) =>
      (await host.readArea(areaOf(address))).cells.map((row) => row.map((cell) => cell.text));
    const cell = async (address: string) => (await host.readArea(areaOf(address))).cells[0]?.[0];

    test('says which host it is', async () => {
      expect((await host.capabilities()).host).toBe(under.kind);
    });

    test('reads stored values, shown texts, formulas, dates and what is hidden or merged', async () => {
      const block = await host.readArea(areaOf('Boards!A1:F7'));
      expect(block.cells[3]?.slice(0, 4)).toMatchObject([
        { kind: 'text', raw: 'JB-102', text: 'JB-102', formula: null },
        { kind: 'text', raw: 'White oak' },
        { kind: 'number', raw: 120.25, text: '120.25' },
        { kind: 'text', raw: '8 1/2' },
      ]);
      expect(block.cells[2]?.[5]).toMatchObject({ kind: 'empty', raw: null, text: '', formula: null });
      expect(block.cells[4]?.[4]).toMatchObject({ kind: 'date', raw: 46_146, text: '5/4/2026' });
      expect(block.cells[6]?.[2]).toMatchObject({ kind: 'number', raw: 372.25, formula: '=SUM(C3:C6)' });
      expect(block.hiddenRows).toEqual([5]);
      expect(block.locale).toEqual({ tag: 'en-US', decimal: '.', dateOrder: 'mdy' });
      if (under.readsMerges) expect(block.merged).toEqual([areaOf('Boards!A1:F1')]);
    });

    test('one cell stands for its table, several rows for themselves, whole columns for what is filled', async () => {
      const read = (expand: 'none' | 'table') => host.readSelection({ expand, rowCountMax: 500 });
      await opened.select('Boards!B4');
      expect((await read('table')).area).toEqual(areaOf('Boards!A1:F7'));
      expect((await read('none')).area).toEqual(areaOf('Boards!B4'));
      await opened.select('Boards!A3:F5');
      expect((await read('table')).area).toEqual(areaOf('Boards!A3:F5'));
      await opened.select('Boards!C1:D200');
      expect((await read('none')).area).toEqual(areaOf('Boards!C1:D7'));
    });

    test('an empty selection, one past the limit and a sheet that is gone are refused by name', async () => {
      await opened.select('Boards!K40');
      expect(await faultOf(host.readSelection({ expand: 'table', rowCountMax: 500 }))).toBe('nothing-selected');
      await opened.select('Boards!A1:F7');
      expect(await faultOf(host.readSelection({ expand: 'none', rowCountMax: 6 }))).toBe('too-large');
      expect((await host.readSelection({ expand: 'none', rowCountMax: 7 })).cells).toHaveLength(7);
      expect(await faultOf(host.readArea(areaOf('Not there!A1')))).toBe('gone');
      expect(await faultOf(host.planWrite({ ...statusPlan, sheet: 'Not there' }))).toBe('gone');
    });

    test('lists the sheets with what each has filled', async () => {
      expect(await host.listSheets()).toEqual([
        { name: 'Boards', used: areaOf('Boards!A1:F7') },
        { name: 'Jobs', used: null },
      ]);
    });

    test('the revision changes with a text and comes back with it', async () => {
      const revision = async () => (await host.readArea(areaOf('Boards!A1:F7'))).revision;
      const first = await revision();
      await opened.type('Boards!F4', 'heavy');
      expect(await revision()).not.toBe(first);
      await opened.type('Boards!F4', 'small check');
      expect(await revision()).toBe(first);
    });

    test('writes a column of its own, numbers as numbers, and nothing beside it', async () => {
      expect(await host.planWrite(statusPlan)).toEqual([]);
      const written = await host.write(statusPlan, []);
      expect(written).toMatchObject({ written: 4, clashes: [] });
      expect(await texts('Boards!F2:G5')).toEqual([
        ['Notes', 'Status'],
        ['', 'held'],
        ['small check', 'free'],
        ['', '12.5'],
      ]);
      expect(await cell('Boards!G5')).toMatchObject({ kind: 'number', raw: 12.5 });
    });

    test('only headings look like headings: a later write of rows alone leaves them plain', async () => {
      if (opened.tinted === undefined) return;
      await host.write(statusPlan, []);
      const { heading } = statusPlan;
      await host.write(plan([writeAt('G3', 'cut', 'held'), writeAt('G5', null, '12.5')], heading), []);
      await host.write(plan([writeAt('H2', 'Held by'), writeAt('H4', 'Hall table')], heading), []);
      expect(await texts('Boards!G3')).toEqual([['cut']]);
      await expect.poll(opened.tinted, { timeout: 10_000 }).toEqual(['G2', 'H2']);
    });

    test('undo puts back what stood there, leaves what was typed since, and can be turned round', async () => {
      const { undoToken } = await host.write(statusPlan, []);
      await opened.type('Boards!G4', 'promised to Ann');
      const undone = await host.undo(undoToken ?? '');
      expect(undone.written).toBe(3);
      expect(undone.clashes).toEqual([{ row: 3, column: 6, address: 'G4', why: 'changed', holds: 'promised to Ann' }]);
      expect(await texts('Boards!G2:G5')).toEqual([[''], [''], ['promised to Ann'], ['']]);
      expect((await host.undo(undone.undoToken ?? '')).written).toBe(3);
      expect(await texts('Boards!G2:G5')).toEqual([['Status'], ['held'], ['promised to Ann'], ['12.5']]);
      expect(await faultOf(host.undo(undoToken ?? ''))).toBe('gone');
    });

    test('never over a formula, a foreign cell, a changed cell, a hidden row or a merge, unless named', async () => {
      const clashing = plan([
        writeAt('C7', 1, '372.25'),
        writeAt('F4', 'x'),
        writeAt('F6', 'y', 'planed'),
        writeAt('G6', 'free'),
        writeAt('C1', 'x'),
        writeAt('G3', 'free'),
      ]);
      const clashes = await host.planWrite(clashing);
      expect(clashes.map(({ address, why, holds }) => [address, why, holds])).toEqual([
        ['C7', 'formula', '=SUM(C3:C6)'],
        ['F4', 'not-empty', 'small check'],
        ['F6', 'changed', 'ripped'],
        ['G6', 'hidden', ''],
        ['C1', 'merged', ''],
      ]);
      expect(await texts('Boards!G3')).toEqual([['']]);
      const written = await host.write(clashing, ['F4', 'G6', 'C1']);
      expect(written.written).toBe(3);
      expect(written.clashes.map(({ address }) => address)).toEqual(['C7', 'F6', 'C1']);
      expect(await texts('Boards!F3:G6')).toEqual([
        ['', 'free'],
        ['x', ''],
        ['', ''],
        ['ripped', 'free'],
      ]);
      expect((await cell('Boards!C7'))?.formula).toBe('=SUM(C3:C6)');
    });

    test('a formula that is named is replaced, and undo brings the formula back', async () => {
      const { undoToken } = await host.write(plan([writeAt('C7', 400)]), ['C7']);
      expect(await cell('Boards!C7')).toMatchObject({ raw: 400, formula: null });
      await host.undo(undoToken ?? '');
      expect((await cell('Boards!C7'))?.formula).toBe('=SUM(C3:C6)');
    });

    test('text stays text: 5/4 is no date, and a text that starts with = computes nothing', async () => {
      const given = ['5/4', '=1+1', '8/4', '+31 6', "'tis"];
      await host.write(
        plan(
          given.map((value, row) => ({
            row: row + 1,
            column: 7,
            value,
            expects: null,
            format: row === 2 ? '@' : null,
          })),
        ),
        ['H6'],
      );
      const cells = (await host.readArea(areaOf('Boards!H2:H6'))).cells.map(([first]) => first);
      expect(cells.map((found) => [found?.kind, found?.raw, found?.formula])).toEqual(
        given.map((text) => ['text', text, null]),
      );
    });

    test('a cell emptied by a write is empty, and comes back', async () => {
      const { undoToken } = await host.write(plan([writeAt('F4', null, 'small check')]), []);
      expect(await cell('Boards!F4')).toMatchObject({ kind: 'empty', text: '' });
      await host.undo(undoToken ?? '');
      expect(await texts('Boards!F4')).toEqual([['small check']]);
    });

    test('a new sheet never takes the name of one that stands, and holds texts as texts', async () => {
      const rows = [
        ['Cut plan', null],
        ['JB-101', 12.5],
        ['=A1', '5/4'],
      ];
      expect(await host.addSheet('Job 114: plan', rows)).toEqual({ name: 'Job 114- plan' });
      expect(await host.addSheet('job 114: plan', rows)).toEqual({ name: 'job 114- plan 2' });
      expect(await texts('job 114- plan 2!A1:B3')).toEqual([
        ['Cut plan', ''],
        ['JB-101', '12.5'],
        ['=A1', '5/4'],
      ]);
      expect(await cell('job 114- plan 2!B2')).toMatchObject({ kind: 'number', raw: 12.5 });
    });

    test('keeps small texts for the user, the file and the device apart, and forgets them when told', async () => {
      const { settings } = host;
      await settings.set('unit', 'in', 'user');
      await settings.set('unit', 'mm', 'file');
      await settings.set('unit', 'tape', 'device');
      const all = async () => [
        await settings.get('unit', 'user'),
        await settings.get('unit', 'file'),
        await settings.get('unit', 'device'),
      ];
      expect(await all()).toEqual(['in', 'mm', 'tape']);
      await settings.set('unit', null, 'user');
      expect(await all()).toEqual([null, 'mm', 'tape']);
      await settings.set('unit', null, 'device');
      expect(await all()).toEqual([null, 'mm', null]);
      await settings.set('tape', 'in', 'user');
      await settings.set('columns', 'A', 'file');
      await settings.forgetFile();
      expect([await settings.get('unit', 'file'), await settings.get('columns', 'file')]).toEqual([null, null]);
      expect(await settings.get('tape', 'user')).toBe('in');
    });

    if (under.protects) {
      test('a protected column is named, never written, and the rest is', async () => {
        const guarded = plan([writeAt('M3', 'x'), writeAt('G3', 'free')]);
        const clashes = await host.planWrite(guarded);
        expect(clashes.map(({ address, why }) => [address, why])).toEqual([['M3', 'protected']]);
        expect(clashes[0]?.protectedBy).toMatch(under.kind === 'excel' ? /the sheet “Boards”/ : /“Prices” \(M1:M\d+\)/);
        const written = await host.write(guarded, ['M3']);
        expect([written.written, written.clashes.length]).toEqual([1, 1]);
        expect(await texts('Boards!M3')).toEqual([['']]);
      });
    }
  });
}
