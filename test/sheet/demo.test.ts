/** The demo workbooks, read as a host would hand them over, give what the contract takes; and so do two thousand rows. */
import { describe, expect, it } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import type { Want } from '../../addon/sheet/mapping.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { readPartRows } from '../../addon/sheet/read-parts.ts';
import { secondWorkbook, secondWorkbookLocale } from '../../data-demo/second-workbook.ts';
import { demoWorkbook } from '../../data-demo/workbook.ts';
import { demoYard } from '../../data-demo/yard.ts';
import { boardDraft, boardRow } from '../../worker/contract/board.ts';
import { part } from '../../worker/contract/job.ts';
import { bodies } from '../../worker/contract/wire.ts';
import { readSpecies } from '../../worker/wood/species.ts';
import { blockOf, us } from './block.ts';
import { FT, IN, MM } from './corpus.ts';
import { demoBlock } from './demo-block.ts';
import { hopelessBoardList, LARGE_ROWS, largeBoardList } from './large-lists.ts';

const defaults = { system: 'in', readOn: '2026-11-02' } as const;

function mapped(block: ReturnType<typeof blockOf>, want: Want) {
  const finding = findTable(block, want, defaults);
  if (!finding.ok) throw new Error(finding.help);
  return finding.mapping;
}
const sheetOf = (workbook: typeof demoWorkbook, name: string) => {
  const sheet = workbook.find((s) => s.name === name);
  if (!sheet) throw new Error(`no sheet ${name}`);
  return sheet;
};

describe('the first workbook', () => {
  it('gives 32 boards without a fault', () => {
    const block = demoBlock(sheetOf(demoWorkbook, 'Boards'), us);
    const read = readBoardRows(block, mapped(block, 'boards'), defaults);
    expect(read.faults).toEqual([]);
    expect(read.rows.length).toBe(32);
    for (const { draft } of read.rows) expect(boardDraft.safeParse(draft).success).toBe(true);
    expect(read.rows.find(({ draft }) => draft.tag === 'JB-122')?.draft.warp).toMatchObject({ crookNm: 34_925_000 });
  });

  it.each([
    ['Hall table', 10],
    ['Library bench', 9],
  ])('gives the parts of %s', (name, count) => {
    const block = demoBlock(sheetOf(demoWorkbook, name), us);
    const read = readPartRows(block, mapped(block, 'parts'), defaults);
    expect(read.faults).toEqual([]);
    expect(read.rows.length).toBe(count);
    for (const { draft } of read.rows) expect(part.safeParse({ ...draft, key: 'k' }).success).toBe(true);
  });
});

describe('the second workbook', () => {
  it('gives its boards once dates are let stand for fractions, and none of them silently before', () => {
    const block = demoBlock(sheetOf(secondWorkbook, 'Timber'), secondWorkbookLocale);
    const mapping = mapped(block, 'boards');
    const before = readBoardRows(block, mapping, defaults);
    expect(before.faults.map(({ address, proposes }) => `${address} ${proposes}`)).toEqual([
      'E6 5/4',
      'E7 5/4',
      'E13 5/4',
      'E14 5/4',
      'E18 6/4',
    ]);
    const after = readBoardRows(block, { ...mapping, datesAreFractions: true }, defaults);
    expect(after.faults).toEqual([]);
    expect(after.rows.length).toBe(before.rows.length + 5);
    for (const { draft } of after.rows) expect(boardDraft.safeParse(draft).success).toBe(true);
    expect(after.notes.join(' ')).toContain('1 hidden row not used');
  });

  it('gives its parts in millimetres', () => {
    const block = demoBlock(sheetOf(secondWorkbook, 'Wall table'), secondWorkbookLocale);
    const read = readPartRows(block, mapped(block, 'parts'), defaults);
    expect(read.faults).toEqual([]);
    expect(read.rows.map(({ draft }) => draft.label)).not.toContain('Old stretcher');
    expect(read.rows.every(({ draft }) => draft.measuredIn === 'mm')).toBe(true);
    expect(read.rows.find(({ draft }) => draft.label === 'Stretcher')?.draft.thicknessNm).toBe(44_500_000);
  });
});

describe('the demo yard', () => {
  const boards = demoYard.takeIns.flatMap((body) => body.boards.map((raw) => boardRow.parse(raw)));

  it('holds at least 120 boards with the first sheet, in four species, each tag once', () => {
    const block = demoBlock(sheetOf(demoWorkbook, 'Boards'), us);
    const fromSheet = readBoardRows(block, mapped(block, 'boards'), defaults).rows.map(({ draft }) => draft);
    const all = [...boards, ...fromSheet];
    expect(all.length).toBeGreaterThanOrEqual(120);
    expect(new Set(all.map(({ tag }) => tag.toLowerCase())).size).toBe(all.length);
    expect(new Set(all.map(({ species }) => species)).size).toBe(4);
    expect(all.every(({ species }) => readSpecies(species).ok)).toBe(true);
  });

  it('has defects and warp inside its boards', () => {
    for (const board of boards) {
      for (const defect of board.defects) {
        expect(defect.toNm, `${board.tag} ${defect.kind}`).toBeLessThanOrEqual(board.lengthNm);
        expect(defect.rightNm, `${board.tag} ${defect.kind}`).toBeLessThanOrEqual(board.widthNm);
      }
    }
    expect(boards.filter(({ defects }) => defects.length > 0).length).toBeGreaterThan(30);
    expect(boards.filter(({ warp }) => warp !== null).length).toBeGreaterThan(20);
    expect(boards.filter(({ readings }) => readings.length > 1).length).toBeGreaterThan(50);
  });

  it('speaks the contract in every body', () => {
    expect(bodies.changeSettings.safeParse(demoYard.settings).success).toBe(true);
    for (const body of demoYard.takeIns) expect(bodies.takeInBoards.safeParse(body).success).toBe(true);
    const tags = new Set(boards.map(({ tag }) => tag));
    for (const { draft, cutList, holds } of demoYard.jobs) {
      expect(bodies.openJob.safeParse(draft).success).toBe(true);
      expect(cutList.parts.every((row) => part.safeParse(row).success)).toBe(true);
      expect(holds.every(({ tag }) => tags.has(tag ?? ''))).toBe(true);
    }
  });
});

describe('two thousand rows', () => {
  it('are found, understood and read, each as it was written', () => {
    const block = blockOf(largeBoardList);
    const read = readBoardRows(block, mapped(block, 'boards'), defaults);
    expect(read.faults).toEqual([]);
    expect(read.rows.length).toBe(LARGE_ROWS);
    const sizes = [8 * FT + 4.5 * IN, 100.5 * IN, 2550 * MM, 96.375 * IN, 7.5 * IN];
    const woods = ['white-oak', 'black-walnut', 'black-cherry', 'white-ash', 'white-oak'];
    for (const [at, { draft }] of read.rows.entries()) {
      expect(draft).toMatchObject({ tag: `T${at}`, species: woods[at % 5], lengthNm: sizes[at % 5] });
    }
  });

  it('of unknown woods are two thousand faults, each with its cell', () => {
    const block = blockOf(hopelessBoardList);
    const read = readBoardRows(block, mapped(block, 'boards'), defaults);
    expect(read.rows).toEqual([]);
    expect(read.faults.map(({ address }) => address)).toEqual(
      Array.from({ length: LARGE_ROWS }, (_, row) => `B${row + 2}`),
    );
  });
});
