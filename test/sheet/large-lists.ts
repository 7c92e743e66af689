/** Board lists of two thousand rows: one with lengths and woods in every way of a shop, one of which no wood is known. */
import type { CellSpec } from './block.ts';

export const LARGE_ROWS = 2_000;

const lengths = [`8' 4 1/2"`, 100.5, '2550 mm', '96 3/8', '7-1/2"'];
const woods = ['White oak', 'walnut', 'Cherry', 'ash', 'W. oak'];

export const largeBoardList: readonly (readonly CellSpec[])[] = [
  ['Tag', 'Species', 'L', 'W', 'Thk', 'MC %', 'Grain', 'Place', 'Cost', 'Notes'],
  ...Array.from({ length: LARGE_ROWS }, (_, row): CellSpec[] => {
    const [length = 0, wood = ''] = [lengths[row % 5], woods[row % 5]];
    return [`T${row}`, wood, length, 7.25, '5/4', 8.5, 'flat', 'rack', 40.5, `note ${row}`];
  }),
];

export const hopelessBoardList: readonly (readonly CellSpec[])[] = [
  ['Tag', 'Species', 'Length', 'Width', 'Thk'],
  ...Array.from({ length: LARGE_ROWS }, (_, row): CellSpec[] => [
    `T${row}`,
    row % 2 ? 'Wite oka' : 'oak',
    90,
    7,
    '5/4',
  ]),
];
