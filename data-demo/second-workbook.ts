/**
 * The same kind of job in another invented shop's style: millimetres and decimal commas, other words in another order,
 * headings on row 3 under a merged title, section titles, a hidden row, and thicknesses written 5/4 that the sheet
 * turned into dates (day first, so 5/4 became 5 April).
 */
import type { DemoSheet } from './demo-sheet.ts';

/** Serials of 5 April 2026 and 6 April 2026: what became of "5/4" and "6/4". */
const FIVE_QUARTER_AS_DATE = 46117;
const SIX_QUARTER_AS_DATE = 46118;

const timber: DemoSheet = {
  name: 'Timber',
  columnWidths: [64, 120, 80, 88, 96, 96, 96, 80, 80, 220],
  merged: [{ row: 0, column: 0, rowCount: 1, columnCount: 10 }],
  hiddenRows: [8],
  formats: [
    { row: 5, column: 4, format: 'd-mmm' },
    { row: 6, column: 4, format: 'd-mmm' },
    { row: 12, column: 4, format: 'd-mmm' },
    { row: 13, column: 4, format: 'd-mmm' },
    { row: 17, column: 4, format: 'd-mmm' },
  ],
  rows: [
    ['Timber store, counted in October'],
    [],
    ['Stand', 'Wood', 'Moist.', 'Board no', 'Rough thk', 'Breadth (mm)', 'Len (mm)', 'Cut', 'Paid', 'Remark'],
    ['OAK'],
    ['A1', 'White oak', '9,1', 'T 01', '27 mm', '245', '3100', 'flat', '88,00', null],
    ['A1', 'White oak', '9,4', 'T 02', FIVE_QUARTER_AS_DATE, '198,5', '2985', 'flat', '71,50', null],
    ['A1', 'White oak', '8,8', 'T 03', FIVE_QUARTER_AS_DATE, '286', '3040', 'rift', '104,00', null],
    ['A2', 'White oak', '21', 'T 04', '54 mm', '210', '3150', 'flat', '112,00', 'wet'],
    ['A2', 'White oak', '9,9', 'T 05', '54 mm', '165', '2480', 'flat', '79,90', 'promised to another job'],
    ['A2', 'White oak', '9,6', 'T 06', '54 mm', '182', '2405', 'quarter', '90,00', null],
    ['A3', 'White oak', '9,2', 'T 07', '27 mm', '238,5', '3065', 'flat', '86,00', null],
    ['A3', 'White oak', '9,0', 'T 08', '27 mm', '251', '2990', 'flat', '89,50', null],
    ['A4', 'White oak', '9,3', 'T 09', FIVE_QUARTER_AS_DATE, '215', '3005', 'flat', '82,00', null],
    ['A4', 'White oak', '9,1', 'T 10', FIVE_QUARTER_AS_DATE, '232,5', '2870', 'flat', '84,00', null],
    [],
    ['OTHERS'],
    ['B1', 'Walnut', '8,3', 'T 11', '27 mm', '212', '2350', 'flat', '118,00', null],
    ['B1', 'Walnut', '8,5', 'T 12', SIX_QUARTER_AS_DATE, '174,5', '1890', 'rift', '97,00', null],
    ['B2', 'Cherry', '8,1', 'T 13', '27 mm', '180', '2700', 'flat', '55,00', null],
    ['C1', 'Ash', '9,3', 'T 14', '27 mm', '195', '2600', 'flat', '38,00', null],
    ['C1', 'Ash', '9,7', 'T 15', '34 mm', '220', '1650', 'flat', '33,00', null],
    ['Sum', null, null, '=COUNTA(D5:D21)'],
  ],
};

const sideboard: DemoSheet = {
  name: 'Wall table',
  columnWidths: [48, 180, 48, 88, 88, 88, 96, 110, 60, 90, 60, 200],
  merged: [{ row: 0, column: 0, rowCount: 1, columnCount: 12 }],
  hiddenRows: [10],
  rows: [
    ['Wall table, 2,75 m, finished sizes'],
    [],
    [
      '#',
      'Item',
      'Pcs',
      'Thk (mm)',
      'Wid (mm)',
      'Len (mm)',
      'Timber',
      'Purpose',
      'Layers',
      'Mid layer W (mm)',
      'Staves',
      'Comment',
    ],
    ['RAILS'],
    [1, 'Long rail', 2, '57', '114', '2600', 'White oak', 'critical', 3, '95', null, 'groove both edges'],
    [2, 'End rail', 2, '57', '114', '330', 'White oak', 'visible', 3, '95', null, 'groove both edges'],
    ['POSTS AND TOP'],
    [3, 'Post', 4, '75', '75', '840', 'White oak', 'visible', 3, null, null, null],
    [4, 'Top', 1, '25', '405', '2750', 'White oak', 'critical', null, null, 3, null],
    [5, 'Stretcher', 1, '44,5', '76', '2640', 'White oak', 'critical', null, null, null, 'no joint'],
    [6, 'Old stretcher', 1, '44,5', '76', '2400', 'White oak', 'critical', null, null, null, 'left out'],
    ['INSIDE'],
    [7, 'Drawer front', 2, '22', '98,5', '517', 'Walnut', 'visible', null, null, null, null],
    [8, 'Drawer side', 4, '12,5', '89', '330', 'Ash', 'hidden', null, null, null, null],
    [9, 'Drawer back', 2, '12,5', '76', '489', 'Ash', 'hidden', null, null, null, null],
    ['Total', null, '=SUM(C5:C15)'],
  ],
};

export const secondWorkbook: readonly DemoSheet[] = [timber, sideboard];
/** How that shop's sheet writes numbers and dates. */
export const secondWorkbookLocale = { tag: 'en-IE', decimal: ',', dateOrder: 'dmy' } as const;
