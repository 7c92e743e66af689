/** Board lists that can be read without asking, however they are worded, ordered and written. */
import type { BoardInput } from '../../addon/sheet/read-boards.ts';
import { comma } from './block.ts';
import { board, FT, IN, MM, type SheetCase } from './corpus.ts';

const q = (quarters: number) => (quarters * IN) / 4;

export const boardSheets: readonly SheetCase<BoardInput>[] = [
  {
    name: 'plain words, inches as decimals',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      ['A1', 'White oak', 100.5, 8.25, 1],
      ['A2', 'Walnut', 96, 6.0625, 2],
    ],
    drafts: [
      board('A1', 'white-oak', [100.5 * IN, 8.25 * IN, IN]),
      board('A2', 'black-walnut', [96 * IN, 6.0625 * IN, 2 * IN]),
    ],
    asks: null,
  },
  {
    name: 'one-letter headings and three styles of length in one column',
    rows: [
      ['Tag', 'Species', 'L', 'W', 'T'],
      ['A1', 'White oak', `8' 4 1/2"`, '9 3/4', '5/4'],
      ['A2', 'White oak', 100.5, 9.5, '8/4'],
      ['A3', 'White oak', '2550 mm', '240 mm', '4/4'],
    ],
    drafts: [
      board('A1', 'white-oak', [100.5 * IN, 9.75 * IN, q(5)], { thicknessCall: '5/4' }),
      board('A2', 'white-oak', [100.5 * IN, 9.5 * IN, q(8)], { thicknessCall: '8/4' }),
      board('A3', 'white-oak', [2550 * MM, 240 * MM, IN], { thicknessCall: '4/4', measuredIn: 'mm' }),
    ],
  },
  {
    name: 'length in feet by its heading, width in inches',
    rows: [
      ['Board #', 'Wood', 'Len (ft)', 'Wid (in)', 'Thk'],
      [101, 'Cherry', 8.5, 7, '4/4'],
      [107, 'Cherry', 10, 6.5, '4/4'],
    ],
    drafts: [
      board('101', 'black-cherry', [8.5 * FT, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('107', 'black-cherry', [10 * FT, 6.5 * IN, IN], { thicknessCall: '4/4' }),
    ],
  },
  {
    name: 'columns in another order, capitals, dots and colons',
    rows: [
      ['NOTES:', 'THK.', 'WIDTH:', 'LENGTH:', 'SPECIES:', 'TAG NO.'],
      ['curl', '6/4', '7 1/2"', '84"', 'Ash', 'K-9'],
    ],
    drafts: [board('K-9', 'white-ash', [84 * IN, 7.5 * IN, q(6)], { thicknessCall: '6/4', note: 'curl' })],
  },
  {
    name: 'title rows and a blank row above the headings',
    rows: [
      ['North shed'],
      ['as of October'],
      [],
      ['Tag', 'Wood', 'Length (in)', 'Width (in)', 'Thick'],
      ['N1', 'Hard maple', 77, 8, '4/4'],
      ['N2', 'Hard maple', 90.125, 5.5, '8/4'],
    ],
    drafts: [
      board('N1', 'hard-maple', [77 * IN, 8 * IN, IN], { thicknessCall: '4/4' }),
      board('N2', 'hard-maple', [90.125 * IN, 5.5 * IN, 2 * IN], { thicknessCall: '8/4' }),
    ],
  },
  {
    name: 'millimetres with decimal commas as text',
    rows: [
      ['Brd', 'Wood', 'Len (mm)', 'Breadth (mm)', 'Thk (mm)', 'Moist.'],
      ['T1', 'White oak', '2550,5', '198,5', '27', '9,5'],
      ['T2', 'White oak', '3100', '245', '52,5', '11'],
    ].map((row, i) => (i === 0 ? ['Tag', ...row.slice(1)] : row)),
    sheet: { locale: comma },
    system: 'mm',
    readOn: '2026-10-12',
    drafts: [
      board('T1', 'white-oak', [2550.5 * MM, 198.5 * MM, 27 * MM], {
        measuredIn: 'mm',
        readings: [{ moisturePercent: 9.5, on: '2026-10-12' }],
      }),
      board('T2', 'white-oak', [3100 * MM, 245 * MM, 52.5 * MM], {
        measuredIn: 'mm',
        readings: [{ moisturePercent: 11, on: '2026-10-12' }],
      }),
    ],
  },
  {
    name: 'decimal commas in a sheet that is set to points',
    rows: [
      ['Tag', 'Timber', 'Length mm', 'Width mm', 'Thickness mm', 'MC'],
      ['T1', 'Ash', '2440', '150,5', '27', '9,5'],
    ],
    readOn: '2026-10-12',
    drafts: [
      board('T1', 'white-ash', [2440 * MM, 150.5 * MM, 27 * MM], {
        measuredIn: 'mm',
        readings: [{ moisturePercent: 9.5, on: '2026-10-12' }],
      }),
    ],
    notes: 'A comma is read as the decimal mark',
  },
  {
    name: 'a row of units under the headings',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness', 'MC'],
      [null, null, '(mm)', '(mm)', '(mm)', '(%)'],
      ['U1', 'Walnut', 2100, 185, 27, 8],
    ],
    readOn: '2026-09-01',
    drafts: [
      board('U1', 'black-walnut', [2100 * MM, 185 * MM, 27 * MM], {
        measuredIn: 'mm',
        readings: [{ moisturePercent: 8, on: '2026-09-01' }],
      }),
    ],
  },
  {
    name: 'number formats that write the unit',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      [
        'F1',
        'Walnut',
        { number: 2100, format: '0 "mm"', shown: '2100 mm' },
        { number: 185, format: '0 "mm"', shown: '185 mm' },
        { number: 27, format: '0 "mm"', shown: '27 mm' },
      ],
    ],
    drafts: [board('F1', 'black-walnut', [2100 * MM, 185 * MM, 27 * MM], { measuredIn: 'mm' })],
  },
  {
    name: 'fraction formats mean inches in a metric shop',
    system: 'mm',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      [
        'F2',
        'Walnut',
        { number: 84.5, format: '# ?/?', shown: '84 1/2' },
        { number: 6.125, format: '# ?/?', shown: '6 1/8' },
        { number: 1.25, format: '# ?/?', shown: '1 1/4' },
      ],
    ],
    drafts: [board('F2', 'black-walnut', [84.5 * IN, 6.125 * IN, 1.25 * IN])],
  },
  {
    name: 'quarters counted as whole numbers',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk (qtrs)'],
      ['Q1', 'Cherry', 96, 7, 4],
      ['Q2', 'Cherry', 90, 6, 8],
    ],
    drafts: [
      board('Q1', 'black-cherry', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('Q2', 'black-cherry', [90 * IN, 6 * IN, 2 * IN], { thicknessCall: '8/4' }),
    ],
  },
  {
    name: 'curly quotes, primes and vulgar fractions',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      ['P1', 'Walnut', '7′ 6½″', '9¾”', '1¼"'],
      ['P2', 'Walnut', '7’ 6-1/2”', '8\u00a01/4"', '8/4'],
    ],
    drafts: [
      board('P1', 'black-walnut', [90.5 * IN, 9.75 * IN, 1.25 * IN]),
      board('P2', 'black-walnut', [90.5 * IN, 8.25 * IN, 2 * IN], { thicknessCall: '8/4' }),
    ],
  },
  {
    name: 'units spelled out in the cells',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      ['S1', 'Ash', '7ft 6in', '8 inches', '1 in'],
      ['S2', 'Ash', '2.55 m', '24 cm', '27 mm'],
    ],
    drafts: [
      board('S1', 'white-ash', [90 * IN, 8 * IN, IN]),
      board('S2', 'white-ash', [2550 * MM, 240 * MM, 27 * MM], { measuredIn: 'mm' }),
    ],
  },
  {
    name: 'moisture as a percentage, with a sign, and as a word',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'MC %', 'Date read'],
      [
        'M1',
        'Ash',
        84,
        6,
        '4/4',
        { number: 0.085, format: '0.0%', shown: '8.5%' },
        { date: 46307, shown: '10/12/2026' },
      ],
      ['M2', 'Ash', 84, 6, '4/4', '12.5 %', '10/12/2026'],
      ['M3', 'Ash', 84, 6, '4/4', 'KD', null],
      ['M4', 'Ash', 84, 6, '4/4', null, null],
      ['M5', 'Ash', 84, 6, '4/4', 9, '12 Oct 2026'],
    ],
    drafts: [
      board('M1', 'white-ash', [84 * IN, 6 * IN, IN], {
        thicknessCall: '4/4',
        readings: [{ moisturePercent: 8.5, on: '2026-10-12' }],
      }),
      board('M2', 'white-ash', [84 * IN, 6 * IN, IN], {
        thicknessCall: '4/4',
        readings: [{ moisturePercent: 12.5, on: '2026-10-12' }],
      }),
      board('M3', 'white-ash', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('M4', 'white-ash', [84 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('M5', 'white-ash', [84 * IN, 6 * IN, IN], {
        thicknessCall: '4/4',
        readings: [{ moisturePercent: 9, on: '2026-10-12' }],
      }),
    ],
    notes: '1 moisture reading could not be read: F4 “KD”',
  },
  {
    name: 'grain, grade, rack, supplier and price',
    rows: [
      ['ID', 'Species', 'Length', 'Width', 'Thickness', 'Cut', 'Grade', 'Location', 'Supplier', 'Price'],
      ['G1', 'White oak', 96, 8, '5/4', 'QS', 'FAS', 'bay 2', 'valley mill', 88.4],
      ['G2', 'White oak', 90, 7, '5/4', 'plain sawn', '1C', 'bay 2', 'valley mill', 61],
      ['G3', 'White oak', 92, 7, '5/4', 'Rift', 'Sel', null, null, null],
    ],
    drafts: [
      board('G1', 'white-oak', [96 * IN, 8 * IN, q(5)], {
        thicknessCall: '5/4',
        grain: 'quarter',
        grade: 'FAS',
        place: 'bay 2',
        delivery: 'valley mill',
        costMinor: 8840,
      }),
      board('G2', 'white-oak', [90 * IN, 7 * IN, q(5)], {
        thicknessCall: '5/4',
        grain: 'flat',
        grade: '1C',
        place: 'bay 2',
        delivery: 'valley mill',
        costMinor: 6100,
      }),
      board('G3', 'white-oak', [92 * IN, 7 * IN, q(5)], { thicknessCall: '5/4', grain: 'rift', grade: 'Sel' }),
    ],
  },
  {
    name: 'warp in its own columns, zero and dash for straight',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Bow', 'Crook', 'Cup', 'Twist'],
      ['W1', 'Ash', 96, 8, '4/4', '3/8', 0, '1/16"', '-'],
      ['W2', 'Ash', 96, 8, '4/4', 0, null, '–', 'none'],
    ],
    drafts: [
      board('W1', 'white-ash', [96 * IN, 8 * IN, IN], {
        thicknessCall: '4/4',
        warp: { bowNm: (3 * IN) / 8, crookNm: 0, cupNm: IN / 16, twistNm: 0 },
      }),
      board('W2', 'white-ash', [96 * IN, 8 * IN, IN], { thicknessCall: '4/4' }),
    ],
  },
  {
    name: 'sizes as results of formulas',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['X1', 'Ash', { formula: '=8*12+4.5', value: 100.5 }, { formula: '=B9', value: 8 }, '4/4'],
    ],
    drafts: [board('X1', 'white-ash', [100.5 * IN, 8 * IN, IN], { thicknessCall: '4/4' })],
  },
  {
    name: 'the table stands in the middle of the sheet',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['Y1', 'Ash', 84, 'six', '4/4'],
      ['Y2', 'Ash', 84, 7, '4/4'],
      ['Y3', 'Ash', 84, 7.5, '4/4'],
    ],
    sheet: { at: { row: 10, column: 3 } },
    drafts: [
      board('Y2', 'white-ash', [84 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('Y3', 'white-ash', [84 * IN, 7.5 * IN, IN], { thicknessCall: '4/4' }),
    ],
    faults: ['G12: width'],
  },
  {
    name: 'board feet and price a board foot are worked out, not read',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Bd ft', '$/bf', 'Cost'],
      ['Z1', 'Ash', 96, 9, '4/4', 6, 5.4, 32.4],
    ],
    drafts: [board('Z1', 'white-ash', [96 * IN, 9 * IN, IN], { thicknessCall: '4/4', costMinor: 3240 })],
    columns: ['cost=Cost'],
  },
  {
    name: 'thicknesses under a heading that says nothing',
    rows: [
      ['Tag', 'Wood', 'Stock', 'Width', 'Length'],
      ['V1', 'Ash', '4/4', 7, 96],
      ['V2', 'Ash', '8/4', 6, 90],
    ],
    drafts: [
      board('V1', 'white-ash', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('V2', 'white-ash', [90 * IN, 6 * IN, 2 * IN], { thicknessCall: '8/4' }),
    ],
    asks: 'Is “Stock” the thickness?',
  },
  {
    name: 'one column for all three sizes',
    rows: [
      ['Tag', 'Wood', 'Size (L x W x T)'],
      ['C1', 'Ash', '96 x 7 1/2 x 4/4'],
      ['C2', 'Ash', `8' x 6" × 8/4`],
    ],
    drafts: [
      board('C1', 'white-ash', [96 * IN, 7.5 * IN, IN], { thicknessCall: '4/4' }),
      board('C2', 'white-ash', [96 * IN, 6 * IN, 2 * IN], { thicknessCall: '8/4' }),
    ],
  },
  {
    name: 'the sizes are given in the title',
    system: 'in',
    rows: [['Offcuts, all sizes in mm'], ['Tag', 'Wood', 'L', 'W', 'T'], ['O1', 'Cherry', 360, 165, 26]],
    drafts: [board('O1', 'black-cherry', [360 * MM, 165 * MM, 26 * MM], { measuredIn: 'mm' })],
  },
  {
    name: 'feet and inches in two columns are one length',
    rows: [
      ['Tag', 'Species', 'Length ft', 'Length in', 'Width', 'Thk'],
      ['E1', 'Ash', 8, 4.5, 7, '4/4'],
      ['E2', 'Ash', 10, 0, 6, '4/4'],
      ['E3', 'Ash', 9, null, 6, '4/4'],
      ['E4', 'Ash', 9, 14, 6, '4/4'],
      ['E5', 'Ash', 8.5, 2, 6, '4/4'],
    ],
    drafts: [
      board('E1', 'white-ash', [100.5 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('E2', 'white-ash', [120 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
      board('E3', 'white-ash', [108 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
    ],
    faults: ['D5: lengthInches', 'D6: lengthInches'],
  },
  {
    name: 'headings Ft and In alone',
    rows: [
      ['Bd #', 'Species', 'Ft', 'In', 'Width', 'Thk'],
      [11, 'Ash', 8, '4 1/2', 7, '4/4'],
      [19, 'Ash', 10, null, 6, '4/4'],
    ],
    drafts: [
      board('11', 'white-ash', [100.5 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('19', 'white-ash', [120 * IN, 6 * IN, IN], { thicknessCall: '4/4' }),
    ],
  },
  {
    name: 'tags with leading zeros keep them',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      [{ number: 7, format: '000', shown: '007' }, 'Ash', 96, 7, '4/4'],
      [{ number: 1012, format: '#,##0', shown: '1,012' }, 'Ash', 96, 7, '4/4'],
    ],
    drafts: [
      board('007', 'white-ash', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('1012', 'white-ash', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
    ],
  },
  {
    name: 'boards numbered under #',
    rows: [
      ['#', 'Species', 'Length', 'Width', 'Thk', 'Rack'],
      [1, 'Cherry', 96, 7, '4/4', 'A'],
      [2, 'Cherry', 90, 7, '4/4', 'A'],
    ],
    drafts: [
      board('1', 'black-cherry', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4', place: 'A' }),
      board('2', 'black-cherry', [90 * IN, 7 * IN, IN], { thicknessCall: '4/4', place: 'A' }),
    ],
    asks: 'Is “#” the tag?',
  },
  {
    name: 'grade and cut written beside the species',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'MC%'],
      ['a', 'White oak FAS', 96, 7, '4/4', '8.5'],
      ['b', 'Walnut, #1C', 90, 7, '4/4', '9'],
      ['c', 'QS White Oak 4/4', 90, 7, '4/4', '9'],
    ],
    drafts: [
      board('a', 'white-oak', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('b', 'black-walnut', [90 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
      board('c', 'white-oak', [90 * IN, 7 * IN, IN], { thicknessCall: '4/4' }),
    ],
    notes: 'Only the wood is taken from “White oak FAS”',
  },
  {
    name: 'nominal and actual thickness: what was measured counts',
    rows: [
      ['Tag', 'Species', 'Nominal thk', 'Actual thk', 'Width', 'Length'],
      ['a', 'Ash', '4/4', 1.0625, 7, 96],
      ['b', 'Ash', '8/4', 2.125, 7, 90],
    ],
    drafts: [
      board('a', 'white-ash', [96 * IN, 7 * IN, 1.0625 * IN]),
      board('b', 'white-ash', [90 * IN, 7 * IN, 2.125 * IN]),
    ],
    asks: '“Nominal thk” could be it too',
  },
  {
    name: 'a box to tick before the tag, a count of total feet below',
    rows: [
      ['Dry', 'Tag', 'Species', 'Length', 'Width', 'Thk', 'Bd Ft'],
      [true, 'a', 'Ash', 96, 7, '4/4', { formula: '=D2*E2/144', value: 4.67 }],
      [false, 'b', 'Ash', 96, 7, '4/4', { formula: '=D3*E3/144', value: 4.67 }],
      [null, null, null, null, 'TOTAL', null, { formula: '=SUM(G2:G3)', value: 9.33 }],
    ],
    drafts: ['a', 'b'].map((tag) => board(tag, 'white-ash', [96 * IN, 7 * IN, IN], { thicknessCall: '4/4' })),
    skipped: ['4 totals row'],
  },
];
