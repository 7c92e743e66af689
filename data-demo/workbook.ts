/** The workbook of an invented shop, Juniper Bend, as it keeps it: boards in mixed styles, two cut lists, what it pays for wood. */
import type { DemoSheet } from './demo-sheet.ts';

/** Rough-sawn boards that have not been taken in yet. JB-107, JB-121 and JB-153 are still wet; JB-122 has crooked in drying. */
const boards: DemoSheet = {
  name: 'Boards',
  columnWidths: [72, 96, 96, 80, 56, 60, 72, 72, 88, 72, 260],
  rows: [
    ['Juniper Bend: boards in the long shed, not yet in the book'],
    ['Tag', 'Species', 'L', 'W', 'Thk', 'MC %', 'Grain', 'Crook', 'Place', 'Cost', 'Notes'],
    ['JB-101', 'White oak', `10' 1"`, '9 3/4', '4/4', 8.5, 'flat', null, 'rack 1', 78.5, null],
    ['JB-102', 'white oak', `9' 8 1/2"`, '10 1/4"', '4/4', 8.8, 'flat', null, 'rack 1', 81, 'small check, far end'],
    ['JB-103', 'W. oak', 121.5, 9.5, '4/4', 9.1, 'rift', null, 'rack 1', 84, null],
    ['JB-104', 'White oak', '3080 mm', '240 mm', '4/4', 9.4, 'quarter', null, 'rack 1', 96, 'from the metric lot'],
    ['JB-105', 'White oak', 86, 7.5, '4/4', 8.7, 'flat', null, 'rack 1', 44.25, null],
    ['JB-106', 'white oak', `7' 2"`, '6 3/4"', '4/4', 9, 'flat', null, 'rack 1', 40, null],
    ['JB-107', 'White oak', `10' 4"`, '8 1/4"', '4/4', 17.5, 'flat', null, 'stack C', 61, 'off the mill in September'],
    ['JB-111', 'White oak', `10' 2 1/2"`, '11 5/8', '5/4', 8.9, 'flat', null, 'rack 2', 121, 'table top'],
    ['JB-112', 'White oak', 123, 6.5, '5/4', 9.2, 'rift', null, 'rack 2', 73, null],
    ['JB-113', 'white oak', `8' 4 1/2"`, 8, '5/4', 9, 'flat', null, 'rack 2', 65, null],
    ['JB-114', 'White oak', 100.5, '9 1/2"', '5/4', 9.5, 'flat', null, 'rack 2', 77, 'stain one edge'],
    ['JB-115', 'White oak', '2750 mm', '200 mm', '5/4', 8.6, 'quarter', null, 'rack 2', 88, 'from the metric lot'],
    ['JB-116', 'W. oak', `9' 1"`, '6 5/8', '5/4', 9.8, 'flat', null, 'rack 2', 58.75, null],
    [
      'JB-121',
      'White oak',
      `10'`,
      '8 3/4',
      '8/4',
      19,
      'flat',
      null,
      'stack C',
      118,
      'too wet still, read again in spring',
    ],
    ['JB-122', 'White oak', `9' 10"`, 4.125, '8/4', 9.4, 'rift', '1 3/8"', 'rack 3', 62, 'sprung when it dried'],
    ['JB-123', 'white oak', `8' 2"`, 6, '8/4', 9.6, 'flat', null, 'rack 3', 77.5, null],
    ['JB-124', 'White oak', 91, '7 1/4', '8/4', 10.4, 'flat', null, 'rack 3', 86, null],
    [],
    ['JB-131', 'Walnut', `8'`, '9 1/2"', '4/4', 8.2, 'flat', null, 'rack 4', 109, null],
    ['JB-132', 'Black walnut', `7' 7"`, '8 3/4"', '4/4', 7.9, 'flat', null, 'rack 4', 96, 'sap one edge'],
    ['JB-133', 'walnut', 72, '6 1/8', '6/4', 8.4, 'rift', null, 'rack 4', 82, null],
    ['JB-134', 'Walnut', `6' 4"`, '7 1/2"', '6/4', 8.8, 'flat', null, 'rack 4', 99, null],
    ['JB-135', 'Walnut', '2100 mm', '185 mm', '4/4', 8, 'flat', null, 'rack 4', 74, null],
    ['JB-136', 'walnut', `5' 3"`, '5 1/2', '8/4', 13.5, 'quarter', null, 'stack C', 70, null],
    ['JB-141', 'Cherry', `9'`, 7, '4/4', 8.1, 'flat', null, 'rack 5', 52, null],
    ['JB-142', 'cherry', 96, '6 5/8', '4/4', 8.3, 'flat', null, 'rack 5', 44, 'gum streaks'],
    ['JB-143', 'Cherry', `7' 11"`, '8 1/4"', '5/4', 9, 'flat', null, 'rack 5', 68, null],
    ['JB-144', 'Cherry', 88.25, 5, '4/4', 8.6, 'quarter', null, 'rack 5', 31.5, null],
    ['JB-151', 'Ash', `10'`, '8 1/2"', '4/4', 9.2, 'flat', null, 'rack 6', 42, null],
    ['JB-152', 'ash', `8' 6"`, '7 1/4', '4/4', 8.9, 'flat', null, 'rack 6', 31, null],
    ['JB-153', 'Ash', '2440 mm', '150 mm', '4/4', 16, 'flat', null, 'stack C', 21, 'wet'],
    ['JB-154', 'White ash', 92, 6, '8/4', 11, 'rift', null, 'rack 6', 48, null],
    ['JB-155', 'Ash', 64, '9"', '5/4', 9.9, 'flat', null, 'rack 6', 30, null],
    ['Total', '=COUNTA(A3:A35)', null, null, null, null, null, null, null, '=SUM(J3:J35)', null],
  ],
};

/**
 * A hall table 9' 6" long in white oak. The posts are glued from three plies; each rail from three layers, the middle one
 * narrower, so that a groove is left along both edges. The stretcher is the part that the stock cannot give.
 */
const hallTable: DemoSheet = {
  name: 'Hall table',
  columnWidths: [48, 180, 88, 72, 72, 96, 80, 96, 56, 80, 64, 260],
  rows: [
    [`Hall table, 9' 6" x 16" x 34"`],
    ['Finished sizes in inches'],
    ['Qty', 'Part', 'L', 'W', 'T', 'Species', 'Use', 'Faces', 'Plies', 'Middle W', 'Staves', 'Note'],
    [2, 'Long rail', 108, 4.5, 2.25, 'White oak', 'critical', 'clear one', 3, 3.75, null, 'groove both edges'],
    [2, 'End rail', 13, 4.5, 2.25, 'White oak', 'visible', 'clear one', 3, 3.75, null, 'groove both edges'],
    [4, 'Post', 33, 3, 3, 'White oak', 'visible', 'clear both', 3, null, null, null],
    [1, 'Top', 114, 16, 1, 'White oak', 'critical', 'clear one', null, null, 3, 'one flitch if it can be'],
    [1, 'Stretcher', 104, 3, 1.75, 'White oak', 'critical', 'clear both', null, null, null, 'no joint'],
    [11, 'Shelf slat', '13 1/2', 2, '5/8', 'White oak', 'visible', 'clear one', null, null, null, null],
    [
      2,
      'Drawer front',
      '20 3/8',
      '3 7/8',
      '7/8',
      'Walnut',
      'visible',
      'clear both',
      null,
      null,
      null,
      'grain runs through',
    ],
    [4, 'Drawer side', 13, '3 1/2', '1/2', 'Ash', 'hidden', 'sound knots', null, null, null, null],
    [2, 'Drawer back', '19 1/4', 3, '1/2', 'Ash', 'hidden', 'sound knots', null, null, null, null],
    [6, 'Top cleat', 12, '1 1/4', '3/4', 'Ash', 'hidden', 'hidden', null, null, null, null],
    ['=SUM(A4:A13)', 'pieces in all'],
  ],
};

/** A bench with a book rack in walnut and cherry: mostly short, narrow parts, the way to use up offcuts. */
const libraryBench: DemoSheet = {
  name: 'Library bench',
  columnWidths: [180, 72, 112, 96, 80, 80, 96, 88, 56, 220],
  rows: [
    ['Part', 'How many', 'Finished length', 'Rough length', 'Width', 'Thickness', 'Wood', 'Show', 'Plies', 'Remarks'],
    ['FRAME'],
    ['Seat rail', 2, `4' 10"`, '59"', '3"', '1 1/4"', 'Walnut', 'critical', null, null],
    ['Leg', 4, '17 1/2"', '18 1/2"', '2 1/2"', '2 1/2"', 'Walnut', 'show', 2, 'two plies, joint to the side'],
    ['Cross rail', 3, '15"', '16"', '2 1/4"', '1 1/4"', 'Walnut', 'show', null, null],
    ['SEAT AND RACK'],
    ['Seat slat', 14, '19"', '20"', '1 3/4"', '7/8"', 'Walnut', 'show', null, null],
    ['Spindle', 22, '11"', '12"', '7/8"', '7/8"', 'Cherry', 'show', null, 'turned later'],
    ['Rack strip', 4, '27"', '28"', '1 1/8"', '3/4"', 'Cherry', 'show', null, null],
    ['Divider', 6, '10"', '11"', '6 1/2"', '1/2"', 'Cherry', 'show', null, null],
    ['Cleat', 8, '15"', '16"', '1"', '3/4"', 'Ash', 'hidden', null, null],
    ['Corner block', 8, '3"', '4"', '2"', '3/4"', 'Ash', 'hidden', null, null],
    ['Total', '=SUM(B3:B12)'],
  ],
};

/** What the shop pays for a board foot, from its own suppliers, in dollars. */
const prices: DemoSheet = {
  name: 'Prices',
  columnWidths: [120, 72, 96, 160],
  rows: [
    ['Species', 'Thk', '$ a bf', 'As of'],
    ['White oak', '4/4', 9.8, 'spring list'],
    ['White oak', '5/4', 11.2, 'spring list'],
    ['White oak', '8/4', 14.5, 'spring list'],
    ['Walnut', '4/4', 13.4, 'spring list'],
    ['Walnut', '6/4', 16.2, 'spring list'],
    ['Walnut', '8/4', 18.9, 'autumn list'],
    ['Cherry', '4/4', 8.6, 'spring list'],
    ['Cherry', '5/4', 9.9, 'spring list'],
    ['Ash', '4/4', 5.4, 'spring list'],
    ['Ash', '8/4', 8.1, 'spring list'],
  ],
};

export const demoWorkbook: readonly DemoSheet[] = [boards, hallTable, libraryBench, prices];
