/** Board lists with something wrong or doubtful: what is refused, where, and what is asked. */
import type { BoardInput } from '../../addon/sheet/read-boards.ts';
import { comma } from './block.ts';
import { board, IN, MM, type SheetCase } from './corpus.ts';

const fourQuarter = { thicknessCall: '4/4' } as const;

export const boardSheetsWithTrouble: readonly SheetCase<BoardInput>[] = [
  {
    name: '5/4 turned into the fourth of May is offered back, not read',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['D1', 'Ash', 96, 8, { date: 46146, shown: '4-May' }],
      ['D2', 'Ash', 96, 8, '4/4'],
    ],
    drafts: [board('D2', 'white-ash', [96 * IN, 8 * IN, IN], fourQuarter)],
    faults: ['E2: thickness'],
  },
  {
    name: '5/4 and 8/4 turned into April where the day comes first, read once the user agrees',
    rows: [
      ['Tag', 'Species', 'Length (in)', 'Width (in)', 'Thk'],
      ['D1', 'Ash', 96, 8, { date: 46117, shown: '05. Apr' }],
      ['D2', 'Ash', 96, 8, { date: 46120, shown: '08. Apr' }],
    ],
    sheet: { locale: comma },
    datesAreFractions: true,
    drafts: [
      board('D1', 'white-ash', [96 * IN, 8 * IN, 1.25 * IN], { thicknessCall: '5/4' }),
      board('D2', 'white-ash', [96 * IN, 8 * IN, 2 * IN], { thicknessCall: '8/4' }),
    ],
    notes: 'E2 5/4, E3 8/4',
  },
  {
    name: 'a date without a date format, as its serial number',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['D1', 'Ash', 96, 8, 46146],
      ['D2', 'Ash', 96, 8, '4/4'],
    ],
    drafts: [board('D2', 'white-ash', [96 * IN, 8 * IN, IN], fourQuarter)],
    faults: ['E2: thickness'],
  },
  {
    name: 'a real date in a size column is no fraction',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['D1', 'Ash', 96, 8, { date: 46307, shown: '12-Oct' }],
      ['D2', 'Ash', 96, 8, '4/4'],
    ],
    datesAreFractions: true,
    drafts: [board('D2', 'white-ash', [96 * IN, 8 * IN, IN], fourQuarter)],
    faults: ['E2: thickness'],
  },
  {
    name: 'bad cells by address, good rows kept',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['F1', 'Wite oka', 96, 8, '4/4'],
      ['F2', 'Ash', '3 5/0', 8, '4/4'],
      ['F3', 'Ash', 0, 8, '4/4'],
      ['F4', 'Ash', 96, -8, '4/4'],
      ['F5', 'Ash', 'about 8 ft', 8, '4/4'],
      ['F6', 'Ash', 96, null, '4/4'],
      ['F7', 'Ash', 96, 8, '4/4'],
    ],
    drafts: [board('F7', 'white-ash', [96 * IN, 8 * IN, IN], fourQuarter)],
    faults: ['B2: species', 'C3: length', 'C4: length', 'D5: width', 'C6: length', 'D7: width'],
  },
  {
    name: 'several faults in one row are all told',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'MC'],
      [null, 'oak', 'x', 8, '4/4', 'lots'],
      ['F7', 'Ash', 96, 8, '4/4', 8],
      ['F8', 'Ash', 96, 9, '4/4', 8],
      ['F9', 'Ash', 96, 9, '4/4', 8],
    ],
    readOn: '2026-10-12',
    drafts: ['F7', 'F8', 'F9'].map((tag) =>
      board(tag, 'white-ash', [96 * IN, (tag === 'F7' ? 8 : 9) * IN, IN], {
        ...fourQuarter,
        readings: [{ moisturePercent: 8, on: '2026-10-12' }],
      }),
    ),
    faults: ['A2: tag', 'B2: species', 'C2: length', 'F2: moisture'],
  },
  {
    name: 'the same tag twice, whatever the case',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['t-1', 'Ash', 96, 8, '4/4'],
      ['T-1', 'Ash', 90, 8, '4/4'],
      ['T-2', 'Ash', 90, 8, '4/4'],
      ['T-3', 'Ash', 90, 8, '4/4'],
      ['T-4', 'Ash', 90, 8, '4/4'],
    ],
    drafts: [
      board('t-1', 'white-ash', [96 * IN, 8 * IN, IN], fourQuarter),
      ...['T-2', 'T-3', 'T-4'].map((tag) => board(tag, 'white-ash', [90 * IN, 8 * IN, IN], fourQuarter)),
    ],
    faults: ['A3: tag'],
  },
  {
    name: '1,234 could be either and is refused',
    rows: [
      ['Tag', 'Species', 'Length (mm)', 'Width (mm)', 'Thk (mm)'],
      ['K1', 'Ash', '1,234', 150, 27],
      ['K2', 'Ash', '2440', 150, 27],
    ],
    drafts: [board('K2', 'white-ash', [2440 * MM, 150 * MM, 27 * MM], { measuredIn: 'mm' })],
    faults: ['C2: length'],
  },
  {
    name: 'millimetres without saying so in an inch shop',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      ['K1', 'Ash', 2440, 150, 27],
      ['K2', 'Ash', 3050, 185, 52],
    ],
    drafts: [
      board('K1', 'white-ash', [2440 * MM, 150 * MM, 27 * MM], { measuredIn: 'mm' }),
      board('K2', 'white-ash', [3050 * MM, 185 * MM, 52 * MM], { measuredIn: 'mm' }),
    ],
    asks: 'read as millimetres',
  },
  {
    name: 'feet without saying so',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      ['K1', 'Ash', 8, 6, '4/4'],
      ['K2', 'Ash', 10, 7, '4/4'],
    ],
    drafts: [
      board('K1', 'white-ash', [8 * IN, 6 * IN, IN], fourQuarter),
      board('K2', 'white-ash', [10 * IN, 7 * IN, IN], fourQuarter),
    ],
    asks: 'are they feet?',
  },
  {
    name: 'length and width the wrong way round are asked about',
    rows: [
      ['Tag', 'Species', 'Width', 'Length', 'Thickness'],
      ['K1', 'Ash', 96, 6, '4/4'],
      ['K2', 'Ash', 90, 7, '4/4'],
    ],
    drafts: [
      board('K1', 'white-ash', [6 * IN, 96 * IN, IN], fourQuarter),
      board('K2', 'white-ash', [7 * IN, 90 * IN, IN], fourQuarter),
    ],
    asks: 'the right way round',
  },
  {
    name: "the shop's short forms for its woods",
    rows: [
      ['Tag', 'Sp', 'Length', 'Width', 'Thk'],
      ['K1', 'WO', 96, 6, '4/4'],
      ['K2', 'wo', 90, 7, '4/4'],
      ['K3', 'RSVP', 90, 7, '4/4'],
    ],
    spellings: { wo: 'white oak' },
    drafts: [
      board('K1', 'white-oak', [96 * IN, 6 * IN, IN], fourQuarter),
      board('K2', 'white-oak', [90 * IN, 7 * IN, IN], fourQuarter),
    ],
    faults: ['B4: species'],
  },
  {
    name: 'the formula in a cell fails',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['K1', 'Ash', { error: '#REF!' }, 6, '4/4'],
      ['K2', 'Ash', 90, 7, '4/4'],
      ['K3', 'Ash', 90, 7, '4/4'],
    ],
    drafts: ['K2', 'K3'].map((tag) => board(tag, 'white-ash', [90 * IN, 7 * IN, IN], fourQuarter)),
    faults: ['C2: length'],
  },
  {
    name: 'no species in the sheet: the one given holds',
    rows: [
      ['Tag', 'Length', 'Width', 'Thk'],
      ['K1', 96, 6, '4/4'],
    ],
    species: 'cherry',
    drafts: [board('K1', 'black-cherry', [96 * IN, 6 * IN, IN], fourQuarter)],
  },
  {
    name: 'another table below the boards is not read as boards',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['K1', 'Ash', 96, 6, '4/4'],
      [],
      ['Board', 'Supplier', 'Price', 'Date', 'Notes'],
      ['K1', 'valley mill', 30, '10/12/2026', 'paid'],
    ],
    drafts: [board('K1', 'white-ash', [96 * IN, 6 * IN, IN], fourQuarter)],
  },
  {
    name: 'results of an earlier write stand beside the boards and stay out of the reading',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Board feet', 'Status', 'Held by'],
      ['K1', 'Ash', 96, 6, '4/4', 4, 'held', 'Garden gate'],
    ],
    drafts: [board('K1', 'white-ash', [96 * IN, 6 * IN, IN], fourQuarter)],
  },
  {
    name: 'a tag that the sheet turned into a date',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      [{ date: 46086, shown: '5-Mar' }, 'Ash', 96, 6, '4/4'],
      ['3-7', 'Ash', 96, 6, '4/4'],
      ['3-8', 'Ash', 96, 6, '4/4'],
      ['3-9', 'Ash', 96, 6, '4/4'],
    ],
    drafts: ['3-7', '3-8', '3-9'].map((tag) => board(tag, 'white-ash', [96 * IN, 6 * IN, IN], fourQuarter)),
    faults: ['A2: tag'],
  },
  {
    name: 'a length over 30 m and a width over 3 m are a mistake of the unit',
    rows: [
      ['Tag', 'Species', 'Length (ft)', 'Width (in)', 'Thk'],
      ['K1', 'Ash', 120, 6, '4/4'],
      ['K2', 'Ash', 10, 180, '4/4'],
      ['K3', 'Ash', 10, 8, '4/4'],
    ],
    drafts: [board('K3', 'white-ash', [120 * IN, 8 * IN, IN], fourQuarter)],
    faults: ['C2: length', 'D3: width'],
  },
  {
    name: 'quarters without a slash are asked about',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thick'],
      ['a', 'Ash', 96, 7, 4],
      ['b', 'Ash', 90, 7, 8],
    ],
    drafts: [board('a', 'white-ash', [96 * IN, 7 * IN, 4 * IN]), board('b', 'white-ash', [90 * IN, 7 * IN, 8 * IN])],
    asks: 'are they quarters',
  },
  {
    name: 'a row that stands for several boards is asked about',
    rows: [
      ['Tag', 'Pcs', 'Species', 'Length', 'Width', 'Thick'],
      ['a', 3, 'Ash', 96, 7, '4/4'],
      ['b', 1, 'Ash', 90, 7, '4/4'],
    ],
    drafts: [
      board('a', 'white-ash', [96 * IN, 7 * IN, IN], fourQuarter),
      board('b', 'white-ash', [90 * IN, 7 * IN, IN], fourQuarter),
    ],
    asks: 'Each row is read as one board, but “Pcs” counts more',
  },
  {
    name: 'one bad row alone still shows its cell',
    rows: [
      ['Tag', 'Species', 'L', 'W', 'T'],
      ['x', 'Ash', 'eight feet', '6', '4/4'],
    ],
    drafts: [],
    faults: ['C2: length'],
  },
  {
    name: 'about and upwards are no sizes',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'MC'],
      ['a', 'Ash', '~96', '7+', '4/4', '8-10'],
      ['b', 'Ash', `8'4`, '6 in', '1"', '9'],
    ],
    readOn: '2026-11-01',
    drafts: [board('b', 'white-ash', [100 * IN, 6 * IN, IN], { readings: [{ moisturePercent: 9, on: '2026-11-01' }] })],
    faults: ['C2: length', 'D2: width', 'F2: moisture'],
  },
  {
    name: 'a meter column that names the meter is no moisture, and said so',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'Meter', 'Bd Ft'],
      ['a', 'Ash', 96, 7, '4/4', 'pinless', 4.67],
      ['b', 'Ash', 96, 7, '4/4', 'pin', 4.67],
    ],
    drafts: ['a', 'b'].map((tag) => board(tag, 'white-ash', [96 * IN, 7 * IN, IN], fourQuarter)),
    asks: '“Meter” is not used',
  },
  {
    name: 'no column for the tag: board feet are not taken for it',
    rows: [
      ['Bd Ft', 'Species', 'Length', 'Width', 'Thk'],
      [4.67, 'Ash', 96, 7, '4/4'],
    ],
    drafts: [],
    faults: ['A2: tag'],
  },
];
