/** Whatever stands in a sheet: reading never fails, each row is read, faulted or passed over, and what is read is right for the yard. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findTable } from '../../addon/sheet/find-table.ts';
import { readBoardRows } from '../../addon/sheet/read-boards.ts';
import { readPartRows } from '../../addon/sheet/read-parts.ts';
import type { RowsRead } from '../../addon/sheet/read-rows.ts';
import { boardDraft } from '../../worker/contract/board.ts';
import { part } from '../../worker/contract/job.ts';
import { blockOf, type CellSpec, comma, us } from './block.ts';

const cell: fc.Arbitrary<CellSpec> = fc.oneof(
  { weight: 3, arbitrary: fc.constant(null) },
  { weight: 4, arbitrary: fc.double({ min: -10, max: 4000, noNaN: true }) },
  { weight: 4, arbitrary: fc.integer({ min: -2, max: 50_000 }) },
  {
    weight: 10,
    arbitrary: fc.constantFrom<CellSpec>(
      '4/4',
      '8/4 rough',
      `8' 4 1/2"`,
      '2550 mm',
      '23 5/8',
      '3 5/0',
      '1,234',
      '27,5',
      '-4',
      'White oak',
      'oak',
      'walnut FAS',
      'ditto',
      '"',
      '96 x 6 x 1',
      'Total',
      'Tag',
      'KD',
      '8.5 %',
      'critical',
      '3',
      '1/2 + 1/2',
      '=cmd()',
      '  ',
      '\u0000',
      true,
      { error: '#REF!' },
      { date: 46117, shown: '5-Apr' },
      { number: 7, format: '0 "mm"' },
      { formula: '=SUM(A2:A9)', value: 12 },
      { formula: '=B2*2', value: 30 },
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 50 }) },
);

const headings = {
  boards: [
    'Tag',
    'Species',
    'Length',
    'Width',
    'Thk',
    'MC %',
    'Date',
    'Grain',
    'Crook',
    'Cost',
    'Notes',
    'Size',
    '#',
    '',
  ],
  parts: ['Part', 'Qty', 'L', 'W', 'T', 'Wood', 'Use', 'Faces', 'Plies', 'Middle W', 'Staves', 'Yard ref', 'Size', ''],
};

/** What a good cell under each heading holds. Other headings may stay empty. */
const good: Readonly<Record<string, readonly CellSpec[]>> = {
  Species: ['White oak', 'walnut', 'QS white oak'],
  Wood: ['White oak', 'cherry', '"'],
  Length: [96, `8' 4 1/2"`, '2550 mm'],
  L: [96, '30 1/2'],
  Width: [7.25, '9 3/4"'],
  W: [6, '5"'],
  Thk: ['4/4', '8/4', 1.25],
  T: [2.25, '1 3/4'],
  'MC %': [8.5, 'KD', null],
  Date: ['2026-10-12', null],
  Grain: ['QS', 'flat', null],
  Part: ['Long rail', 'Post'],
  Qty: [1, 4, '2 pcs'],
  Use: ['critical', 'hidden', null],
  Plies: [3, 2, null, null],
  'Middle W': [4, null, null, null],
  Staves: [null],
  Size: ['96 x 6 x 1'],
};

/** Mostly good rows, each with some cells spoilt; tags are their own. */
const rowUnder = (head: readonly string[]) =>
  fc
    .tuple(
      fc.integer({ min: 1, max: 9_999 }),
      ...head.map((heading) =>
        fc.oneof(
          { weight: 12, arbitrary: fc.constantFrom<CellSpec>(...(good[heading] ?? [null])) },
          { weight: 1, arbitrary: cell },
        ),
      ),
    )
    .map(([tag, ...cells]) => cells.map((spec, i) => (head[i] === 'Tag' && spec === null ? `B${tag}` : spec)));

const sheetOf = (want: 'boards' | 'parts') =>
  fc
    .oneof(
      fc.constant(headings[want].filter((heading) => heading !== 'Size')),
      fc.shuffledSubarray(headings[want], { minLength: 4 }),
    )
    .chain((head) =>
      fc.record({
        head: fc.constant(head),
        rows: fc.array(
          fc.oneof(
            { weight: 4, arbitrary: rowUnder(head) },
            { weight: 1, arbitrary: fc.array(cell, { maxLength: 14 }) },
          ),
          { maxLength: 12 },
        ),
        hidden: fc.array(fc.integer({ min: 0, max: 14 }), { maxLength: 3 }),
        locale: fc.constantFrom(us, comma),
        system: fc.constantFrom<'in' | 'mm'>('in', 'mm'),
        datesAreFractions: fc.boolean(),
        merged: fc.boolean(),
      }),
    );

function everyRowOnce(result: RowsRead<unknown>, firstRow: number, lastRow: number): void {
  const places = new Map<number, Set<string>>();
  const put = (row: number, where: string) => places.set(row, (places.get(row) ?? new Set()).add(where));
  for (const { sheetRow } of result.rows) put(sheetRow, 'read');
  for (const { sheetRow } of result.faults) put(sheetRow, 'faulty');
  for (const { sheetRow } of result.skipped) put(sheetRow, 'passed over');
  const expected = Array.from({ length: Math.max(0, lastRow - firstRow + 1) }, (_, i) => firstRow + i);
  expect([...places.keys()].sort((a, b) => a - b)).toEqual(expected);
  for (const where of places.values()) expect(where.size).toBe(1);
  expect(new Set(result.rows.map(({ sheetRow }) => sheetRow)).size).toBe(result.rows.length);
}

describe('no row is lost', () => {
  it('of a board list, and every draft is one the yard takes', () => {
    let readCount = 0;
    fc.assert(
      fc.property(sheetOf('boards'), ({ head, rows, hidden, locale, system, datesAreFractions, merged }) => {
        const area = { row: 1, column: 1, rowCount: 2, columnCount: 1 };
        const block = blockOf([head, ...rows], { locale, hiddenRows: hidden, merged: merged ? [area] : [] });
        const finding = findTable(block, 'boards', { system });
        if (!finding.ok) return;
        const mapping = { ...finding.mapping, datesAreFractions };
        const result = readBoardRows(block, mapping, { system, readOn: '2026-11-02' });
        everyRowOnce(result, mapping.firstRow, mapping.lastRow);
        readCount += result.rows.length;
        for (const { draft } of result.rows) {
          expect(boardDraft.safeParse(draft).error?.issues ?? []).toEqual([]);
        }
      }),
      { numRuns: 300 },
    );
    expect(readCount).toBeGreaterThan(100);
  });

  it('of a cut list, and every part is one the yard takes', () => {
    let readCount = 0;
    fc.assert(
      fc.property(sheetOf('parts'), ({ head, rows, hidden, locale, system, datesAreFractions, merged }) => {
        const area = { row: 1, column: 1, rowCount: 2, columnCount: 1 };
        const block = blockOf([head, ...rows], { locale, hiddenRows: hidden, merged: merged ? [area] : [] });
        const finding = findTable(block, 'parts', { system });
        if (!finding.ok) return;
        const mapping = { ...finding.mapping, datesAreFractions };
        const result = readPartRows(block, mapping, { system, species: 'ash' });
        everyRowOnce(result, mapping.firstRow, mapping.lastRow);
        readCount += result.rows.length;
        for (const { draft } of result.rows) {
          const issues = part.safeParse({ ...draft, key: draft.key ?? 'k' }).error?.issues ?? [];
          expect(issues).toEqual([]);
          const lamination = draft.lamination;
          if (lamination?.kind !== 'plies') continue;
          const thicknessNm = lamination.plies.reduce((sum, ply) => sum + Number(ply.thicknessNm), 0);
          expect(thicknessNm).toBe(draft.thicknessNm);
        }
      }),
      { numRuns: 300 },
    );
    expect(readCount).toBeGreaterThan(100);
  });
});
