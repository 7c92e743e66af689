/** Board lists with more on the sheet than boards: totals, sections, merges, repeated headings, hidden rows, groups of sizes. */
import type { BoardInput } from '../../addon/sheet/read-boards.ts';
import { board, IN, type SheetCase } from './corpus.ts';

export const boardSheetsLaidOut: readonly SheetCase<BoardInput>[] = [
  {
    name: 'totals by word, a blank line and a second part of the list below it',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Paid'],
      ['B1', 'Cherry', 96, 7, '4/4', 52],
      ['Subtotal', null, null, null, null, { formula: '=SUM(F2:F2)', value: 52 }],
      [],
      ['B2', 'Ash', 120, 8.5, '4/4', 42],
      ['Grand total', null, null, null, null, { formula: '=F2+F5', value: 94 }],
    ],
    drafts: [
      board('B1', 'black-cherry', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4', costMinor: 5200 }),
      board('B2', 'white-ash', [120 * IN, 8.5 * IN, IN], { thicknessCall: '4/4', costMinor: 4200 }),
    ],
    skipped: ['3 totals row', '4 blank', '6 totals row'],
  },
  {
    name: 'a totals row without a word',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Cost'],
      ['B1', 'Cherry', 96, 7, '4/4', '$52.50'],
      ['B2', 'Cherry', 90, 7, '4/4', '$1,049.00'],
      [null, null, null, null, null, { formula: '=SUM(F2:F3)', value: 1101.5 }],
    ],
    drafts: [
      board('B1', 'black-cherry', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4', costMinor: 5250 }),
      board('B2', 'black-cherry', [90 * IN, 7 * IN, IN], { thicknessCall: '4/4', costMinor: 104_900 }),
    ],
    skipped: ['4 totals row'],
  },
  {
    name: 'headings repeated for the second printed page',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['R1', 'Walnut', 84, 6, '4/4'],
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['R2', 'Walnut', 80, 7, '4/4'],
    ],
    drafts: [
      board('R1', 'black-walnut', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('R2', 'black-walnut', [80 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
    ],
    skipped: ['3 headings again'],
  },
  {
    name: 'section titles by rack',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['RACK ONE'],
      ['R1', 'Walnut', 84, 6, '4/4'],
      ['RACK TWO'],
      ['R2', 'Ash', 80, 7, '4/4'],
    ],
    drafts: [
      board('R1', 'black-walnut', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('R2', 'white-ash', [80 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
    ],
    skipped: ['2 section title “RACK ONE”', '4 section title “RACK TWO”'],
  },
  {
    name: 'the species stands only in the section titles',
    rows: [['Tag', 'Length', 'Width', 'Thk'], ['White oak'], ['R1', 84, 6, '4/4'], ['Walnut'], ['R2', 80, 7, '4/4']],
    drafts: [
      board('R1', 'white-oak', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('R2', 'black-walnut', [80 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
    ],
    notes: 'section titles',
  },
  {
    name: 'a species merged over several rows',
    rows: [
      ['Species', 'Tag', 'Length', 'Width', 'Thk'],
      ['Walnut', 'M1', 84, 6, '4/4'],
      [null, 'M2', 80, 7, '4/4'],
      ['Ash', 'M3', 70, 5, '4/4'],
    ],
    sheet: { merged: [{ row: 1, column: 0, rowCount: 2, columnCount: 1 }] },
    drafts: [
      board('M1', 'black-walnut', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('M2', 'black-walnut', [80 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('M3', 'white-ash', [70 * IN, 5 * IN, IN], { thicknessCall: '4/4' }),
    ],
    notes: 'merged over several rows',
  },
  {
    name: 'ditto marks for the same as above',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Rack'],
      ['D1', 'Walnut', 84, 6, '4/4', 'B2'],
      ['D2', '"', 80, 7, '4/4', 'do.'],
      ['D3', 'ditto', 78, 7, '4/4', 'B3'],
    ],
    drafts: [
      board('D1', 'black-walnut', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4', place: 'B2' }),
      board('D2', 'black-walnut', [80 * IN, 7 * IN, IN], { thicknessCall: '4/4', place: 'B2' }),
      board('D3', 'black-walnut', [78 * IN, 7 * IN, IN], { thicknessCall: '4/4', place: 'B3' }),
    ],
  },
  {
    name: 'hidden and filtered rows are left out and counted',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['H1', 'Walnut', 84, 6, '4/4'],
      ['H2', 'Walnut', 80, 7, '4/4'],
      ['H3', 'Walnut', 70, 7, '4/4'],
    ],
    sheet: { hiddenRows: [2] },
    drafts: [
      board('H1', 'black-walnut', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('H3', 'black-walnut', [70 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
    ],
    skipped: ['3 hidden'],
    notes: '1 hidden row not used',
  },
  {
    name: 'rough and surfaced sizes side by side: boards take the rough ones',
    rows: [
      ['Tag', 'Wood', 'Rough length', 'Rough width', 'Rough thk', 'Net length', 'Net width', 'Net thk'],
      ['S1', 'Cherry', 96, 7.5, '4/4', 94, 7, 0.8125],
    ],
    drafts: [board('S1', 'black-cherry', [96 * IN, 7.5 * IN, IN], { thicknessCall: '4/4' })],
    columns: ['length=Rough length', 'width=Rough width', 'thickness=Rough thk'],
  },
  {
    name: 'the same three letters twice under group headings',
    rows: [
      [null, null, 'Rough', null, null, 'Finished'],
      ['Tag', 'Wood', 'L', 'W', 'T', 'L', 'W', 'T'],
      ['S1', 'Cherry', 96, 7.5, '4/4', 94, 7, 0.8125],
    ],
    drafts: [board('S1', 'black-cherry', [96 * IN, 7.5 * IN, IN], { thicknessCall: '4/4' })],
    columns: ['length=Rough L'],
  },
];
