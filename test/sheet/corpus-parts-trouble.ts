/** Cut lists with something wrong or doubtful. */
import type { PartInput } from '../../addon/sheet/read-parts.ts';
import { IN, MM, part, type SheetCase } from './corpus.ts';

export const partSheetsWithTrouble: readonly SheetCase<PartInput>[] = [
  {
    name: 'quantities that are none',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 0, 28, 2, 2, 'Ash'],
      ['Rail', 2.5, 40, 3, 1, 'Ash'],
      ['Slat', 'a few', 18, 2, 0.75, 'Ash'],
      ['Peg', null, 3, 0.5, 0.5, 'Ash'],
      ['Arm', -2, 20, 3, 1, 'Ash'],
      ['Nail', 501, 3, 0.5, 0.5, 'Ash'],
      ['Top', 1, 60, 20, 1, 'Ash'],
    ],
    drafts: [part('Top', 1, 'white-ash', [60 * IN, 20 * IN, IN])],
    faults: ['B2: quantity', 'B3: quantity', 'B4: quantity', 'B5: quantity', 'B6: quantity', 'B7: quantity'],
  },
  {
    name: 'a fraction that became a date in the thickness of a part',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 4, 28, 2, { date: 46089, shown: '8-Mar' }, 'Ash'],
      ['Rail', 2, 40, 3, '7/8', 'Ash'],
    ],
    datesAreFractions: true,
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, (3 * IN) / 8]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, (7 * IN) / 8]),
    ],
    notes: 'E2 3/8',
  },
  {
    name: 'plies that do not make sense',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood', 'Plies', 'Middle width', 'Staves'],
      ['A', 1, 30, 4, 2, 'Ash', 2, 3, null],
      ['B', 1, 30, 4, 2, 'Ash', 3, 5, null],
      ['C', 1, 30, 4, 2, 'Ash', '1/2 + 1', null, null],
      ['D', 1, 30, 4, 2, 'Ash', 3, null, 2],
      ['E', 1, 30, 4, 2, 'Ash', 13, null, null],
      ['F', 1, 30, 4, 2, 'Ash', null, 3, null],
      ['Good', 1, 30, 4, 2, 'Ash', null, null, 2],
    ],
    drafts: [part('Good', 1, 'white-ash', [30 * IN, 4 * IN, 2 * IN], { lamination: { kind: 'staves', count: 2 } })],
    faults: ['H2: plyWidth', 'H3: plyWidth', 'G4: plies', 'I5: staves', 'G6: plies', 'H7: plyWidth'],
  },
  {
    name: 'parts without a name or a wood',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      [null, 1, 30, 4, 2, 'Ash'],
      ['Leg', 4, 30, 4, 2, null],
      ['Rail', 2, 30, 4, 2, 'plywoood'],
      ['Arm', 2, 30, 4, 2, 'Ash'],
    ],
    drafts: [part('Arm', 2, 'white-ash', [30 * IN, 4 * IN, 2 * IN])],
    faults: ['A2: label', 'F3: species', 'F4: species'],
  },
  {
    name: 'a wood for the whole job fills the empty cells only',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 4, 30, 4, 2, null],
      ['Side', 2, 30, 4, 0.5, 'Ash'],
    ],
    species: 'walnut',
    drafts: [
      part('Leg', 4, 'black-walnut', [30 * IN, 4 * IN, 2 * IN]),
      part('Side', 2, 'white-ash', [30 * IN, 4 * IN, 0.5 * IN]),
    ],
  },
  {
    name: 'two sizes in one cell',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 4, 30, '2 x 2', 2, 'Ash'],
      ['Arm', 4, 30, 2, 2, 'Ash'],
      ['Pin', 4, 30, 2, 2, 'Ash'],
    ],
    drafts: [
      part('Arm', 4, 'white-ash', [30 * IN, 2 * IN, 2 * IN]),
      part('Pin', 4, 'white-ash', [30 * IN, 2 * IN, 2 * IN]),
    ],
    faults: ['D2: width'],
  },
  {
    name: 'inches in a metric shop are told by their size',
    system: 'mm',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 4, 28, 2.5, 2.5, 'Ash'],
      ['Rail', 2, 44, 3.5, 1, 'Ash'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2.5 * IN, 2.5 * IN]),
      part('Rail', 2, 'white-ash', [44 * IN, 3.5 * IN, IN]),
    ],
    asks: 'read as inches',
  },
  {
    name: 'cells that name another unit than their column keep it',
    rows: [
      ['Part', 'Qty', 'Length (mm)', 'Width (mm)', 'Thk (mm)', 'Wood'],
      ['Leg', 4, '28"', 60, 60, 'Ash'],
      ['Rail', 2, 1100, '3 1/2"', 25, 'Ash'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 60 * MM, 60 * MM]),
      part('Rail', 2, 'white-ash', [1100 * MM, 3.5 * IN, 25 * MM], { measuredIn: 'mm' }),
    ],
  },
  {
    name: 'hardware listed under the parts is another table',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 4, 28, 2, 2, 'Ash'],
      [],
      ['Item', 'Number', 'Size', 'Notes', 'Price'],
      ['Hinge', 4, 2, 'brass', 12],
    ],
    drafts: [part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN])],
  },
  {
    name: 'a grain column that speaks of direction is left alone',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood', 'Grain'],
      ['Leg', 4, 28, 2, 2, 'Ash', 'along'],
      ['Rail', 2, 40, 3, 1, 'Ash', 'along'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, IN]),
    ],
  },
];
