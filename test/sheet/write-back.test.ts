/** Results go into own columns beside the table; what is the user's is never planned over silently. */
import { describe, expect, it } from 'vitest';
import { cellAddress, columnLetters } from '../../addon/sheet/address.ts';
import { findTable } from '../../addon/sheet/find-table.ts';
import { type OwnColumn, planOwnColumns } from '../../addon/sheet/write-back.ts';
import { type BlockMore, blockOf, type CellSpec } from './block.ts';

const cutList: (readonly CellSpec[])[] = [
  ['Hall table'],
  ['Qty', 'Part', 'L', 'W', 'T', 'Species'],
  [2, 'Rail', 54, 3, 1, 'Ash'],
  [4, 'Leg', 28, 2, 2, 'Ash'],
];

function plan(
  rows: readonly (readonly CellSpec[])[],
  own: readonly OwnColumn[],
  more: { readonly known?: readonly string[]; readonly sheet?: BlockMore } = {},
) {
  const block = blockOf(rows, more.sheet);
  const finding = findTable(block, 'parts', { system: 'in' });
  if (!finding.ok) throw new Error(finding.help);
  const options = {
    known: new Set(more.known ?? []),
    label: 'Status beside 2 rows',
    headingNote: 'Written by Heartside.',
  };
  return planOwnColumns(block, finding.mapping, own, options);
}
const brief = (back: ReturnType<typeof plan>) =>
  back.plan.cells.map((c) => `${cellAddress(c.row, c.column)} ${c.value} over ${c.expects}`);
const column = (heading: string, values: readonly (readonly [number, string | number | null])[]): OwnColumn => ({
  heading,
  values: new Map(values),
});

describe('own columns', () => {
  it('stand to the right of the table, heading in the heading row', () => {
    const back = plan(cutList, [
      column('Board feet', [
        [2, 2.25],
        [3, 3.11],
      ]),
      column('Status', [
        [2, 'held'],
        [3, 'short'],
      ]),
    ]);
    expect(brief(back)).toEqual([
      'G2 Board feet over null',
      'G3 2.25 over null',
      'G4 3.11 over null',
      'H2 Status over null',
      'H3 held over null',
      'H4 short over null',
    ]);
    expect(back.summary).toBe('6 cells in 2 new columns');
  });

  it('of ours that bears its earlier heading gets the new one, a column of the user’s does not', () => {
    const rows = [
      ['Qty', 'Part', 'L', 'W', 'T', 'Species', 'Board feet', 'Rough size'],
      [2, 'Rail', 54, 3, 1, 'Ash', 2.25, '2 × 55 × 3 1/2 × 5/4'],
    ];
    const feet = [column('Board feet, gross', [[1, 3.5]])];
    expect(brief(plan(rows, feet, { known: ['Board feet'] }))).toEqual([
      'G1 Board feet, gross over Board feet',
      'G2 3.5 over 2.25',
    ]);
    expect(brief(plan(rows, feet))).toEqual(['I1 Board feet, gross over null', 'I2 3.5 over null']);
  });

  it('follow the table where it stands on the sheet', () => {
    const back = plan(cutList, [column('Status', [[12, 'held']])], { sheet: { at: { row: 10, column: 2 } } });
    expect(brief(back)).toEqual(['I12 Status over null', 'I13 held over null']);
  });

  it('are found again by their heading and only changed cells are written', () => {
    const rows = [
      cutList[0] ?? [],
      ['Qty', 'Part', 'L', 'W', 'T', 'Species', 'status', 'Yard ref'],
      [2, 'Rail', 54, 3, 1, 'Ash', 'held', 'K7Q3M4'],
      [4, 'Leg', 28, 2, 2, 'Ash', 'short', 'M4K7Q3'],
    ];
    const back = plan(
      rows,
      [
        column('Status', [
          [2, 'held'],
          [3, 'held'],
        ]),
        column('Yard ref', [[2, 'K7Q3M4']]),
      ],
      {
        known: ['Status', 'Yard ref'],
      },
    );
    expect(brief(back)).toEqual(['G4 held over short']);
    expect(back.columns.map(({ isNew }) => isNew)).toEqual([false, false]);
    expect(back.summary).toBe('1 cell in columns that are here already');
  });

  it("a user's own column of the same name is not taken for ours: its filled cells will clash", () => {
    const rows = [
      ['Qty', 'Part', 'L', 'W', 'T', 'Species', 'Status'],
      [2, 'Rail', 54, 3, 1, 'Ash', 'ask Ann'],
      [4, 'Leg', 28, 2, 2, 'Ash', null],
    ];
    expect(
      brief(
        plan(rows, [
          column('Status', [
            [1, 'held'],
            [2, 'held'],
          ]),
        ]),
      ),
    ).toEqual(['G2 held over null', 'G3 held over null']);
  });

  it('a formula in our column is written only against what it shows', () => {
    const rows = [
      ['Qty', 'Part', 'L', 'W', 'T', 'Species', 'Status'],
      [2, 'Rail', 54, 3, 1, 'Ash', { formula: '=A1', value: 'held' }],
    ];
    expect(brief(plan(rows, [column('Status', [[1, 'held']])], { known: ['Status'] }))).toEqual(['G2 held over held']);
  });

  it('clears a cell that no longer holds true, and leaves rows alone that are not named', () => {
    const rows = [
      ['Qty', 'Part', 'L', 'W', 'T', 'Species', 'Held by'],
      [2, 'Rail', 54, 3, 1, 'Ash', 'JB-101'],
      [4, 'Leg', 28, 2, 2, 'Ash', 'JB-102'],
      [4, 'Arm', 28, 2, 2, 'Ash', null],
    ];
    const own = [
      column('Held by', [
        [1, null],
        [3, null],
      ]),
    ];
    expect(brief(plan(rows, own, { known: ['Held by'] }))).toEqual(['G2 null over JB-101']);
  });

  it('guards names that look like formulas and keeps fractions as text', () => {
    const [, formula, fraction] = plan(cutList, [
      column('Held by', [
        [2, '=1+1'],
        [3, '5/4'],
      ]),
    ]).plan.cells;
    expect(formula).toMatchObject({ value: "'=1+1" });
    expect(fraction).toMatchObject({ value: '5/4', format: '@' });
  });

  it('two thousand rows make one plan', () => {
    const rows = [
      ['Qty', 'Part', 'L', 'W', 'T', 'Species'],
      ...Array.from({ length: 2_000 }, (_, i) => [1, `Slat ${i}`, 20, 2, 1, 'Ash']),
    ];
    const values = Array.from({ length: 2_000 }, (_, i): [number, string] => [i + 1, 'held']);
    expect(plan(rows, [column('Status', values)]).plan.cells.length).toBe(2_001);
  });
});

describe('addresses', () => {
  it.each([
    [0, 'A'],
    [25, 'Z'],
    [26, 'AA'],
    [701, 'ZZ'],
    [702, 'AAA'],
  ])('column %i is %s', (column, letters) => {
    expect(columnLetters(column)).toBe(letters);
  });
});
