/** Cut lists that can be read without asking. */
import type { PartInput } from '../../addon/sheet/read-parts.ts';
import { comma } from './block.ts';
import { FT, IN, MM, part, type SheetCase } from './corpus.ts';

const threePlies = (thicknessNm: number, widthNm: number, middleNm: number): PartInput['lamination'] => ({
  kind: 'plies',
  plies: [
    { thicknessNm: thicknessNm / 3, widthNm, offsetNm: 0 },
    { thicknessNm: thicknessNm / 3, widthNm: middleNm, offsetNm: (widthNm - middleNm) / 2 },
    { thicknessNm: thicknessNm / 3, widthNm, offsetNm: 0 },
  ],
});

export const partSheets: readonly SheetCase<PartInput>[] = [
  {
    name: 'the plainest cut list',
    rows: [
      ['Qty', 'Part', 'L', 'W', 'T', 'Species'],
      [4, 'Leg', 28.5, 2.25, 2.25, 'Walnut'],
      [2, 'Rail', '54 3/8', '3 1/2', '7/8', 'Walnut'],
    ],
    drafts: [
      part('Leg', 4, 'black-walnut', [28.5 * IN, 2.25 * IN, 2.25 * IN]),
      part('Rail', 2, 'black-walnut', [54.375 * IN, 3.5 * IN, 0.875 * IN]),
    ],
  },
  {
    name: 'finished and rough lengths: parts take the finished ones',
    rows: [
      ['Part', 'Qty', 'Rough length', 'Finished length', 'Width', 'Thickness', 'Wood'],
      ['Rail', 2, 56, 54, 3, 1, 'Ash'],
    ],
    drafts: [part('Rail', 2, 'white-ash', [54 * IN, 3 * IN, IN])],
    columns: ['length=Finished length'],
    asks: '“Rough length” could be it too',
  },
  {
    name: '# counts the rows and is no quantity',
    rows: [
      ['#', 'Item', 'Pcs', 'Thk (mm)', 'Wid (mm)', 'Len (mm)', 'Timber'],
      [1, 'Post', 4, 75, 75, 840, 'Cherry'],
      [2, 'Top', 1, 25, 405, 1750, 'Cherry'],
      [3, 'Cleat', 6, 20, 30, 300, 'Ash'],
    ],
    drafts: [
      part('Post', 4, 'black-cherry', [840 * MM, 75 * MM, 75 * MM], { measuredIn: 'mm' }),
      part('Top', 1, 'black-cherry', [1750 * MM, 405 * MM, 25 * MM], { measuredIn: 'mm' }),
      part('Cleat', 6, 'white-ash', [300 * MM, 30 * MM, 20 * MM], { measuredIn: 'mm' }),
    ],
    columns: ['quantity=Pcs'],
  },
  {
    name: '# is the quantity where it does not count the rows',
    rows: [
      ['#', 'Name', 'L', 'W', 'T', 'Wood'],
      [4, 'Leg', 28, 2, 2, 'Ash'],
      [2, 'Rail', 40, 3, 1, 'Ash'],
      [2, 'End rail', 16, 3, 1, 'Ash'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, IN]),
      part('End rail', 2, 'white-ash', [16 * IN, 3 * IN, IN]),
    ],
    columns: ['quantity=#'],
  },
  {
    name: 'items numbered, the name under Description',
    rows: [
      ['Item', 'Description', 'No. off', 'Length', 'Width', 'Thick', 'Material'],
      [1, 'Stile', 2, 72, 3.5, 1.75, 'White oak'],
      [2, 'Rail', 3, 38, 3.5, 1.75, 'White oak'],
    ],
    drafts: [
      part('Stile', 2, 'white-oak', [72 * IN, 3.5 * IN, 1.75 * IN]),
      part('Rail', 3, 'white-oak', [38 * IN, 3.5 * IN, 1.75 * IN]),
    ],
    columns: ['label=Description', 'quantity=No. off'],
  },
  {
    name: 'part codes beside the names',
    rows: [
      ['Ref', 'Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['P1', 'Stile', 2, 72, 3.5, 1.75, 'Ash'],
      ['P2', 'Rail', 3, 38, 3.5, 1.75, 'Ash'],
    ],
    drafts: [
      part('Stile', 2, 'white-ash', [72 * IN, 3.5 * IN, 1.75 * IN], { key: 'P1' }),
      part('Rail', 3, 'white-ash', [38 * IN, 3.5 * IN, 1.75 * IN], { key: 'P2' }),
    ],
  },
  {
    name: 'keys of an earlier write in Yard ref',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood', 'Status', 'Yard ref'],
      ['Stile', 2, 72, 3.5, 1.75, 'Ash', 'held', 'K7Q3M4'],
      ['Rail', 3, 38, 3.5, 1.75, 'Ash', 'short', null],
    ],
    drafts: [
      part('Stile', 2, 'white-ash', [72 * IN, 3.5 * IN, 1.75 * IN], { key: 'K7Q3M4' }),
      part('Rail', 3, 'white-ash', [38 * IN, 3.5 * IN, 1.75 * IN]),
    ],
  },
  {
    name: 'plies and a narrower middle that leaves the groove',
    rows: [
      ['Qty', 'Part', 'L', 'W', 'T', 'Species', 'Plies', 'Middle W'],
      [2, 'Rail', 108, 4.5, 2.25, 'White oak', 3, 3.75],
      [4, 'Post', 33, 3, 3, 'White oak', '3 plies', null],
      [4, 'Slat', 20, 3, 1, 'White oak', null, null],
    ],
    drafts: [
      part('Rail', 2, 'white-oak', [108 * IN, 4.5 * IN, 2.25 * IN], {
        lamination: threePlies(2.25 * IN, 4.5 * IN, 3.75 * IN),
      }),
      part('Post', 4, 'white-oak', [33 * IN, 3 * IN, 3 * IN], { lamination: threePlies(3 * IN, 3 * IN, 3 * IN) }),
      part('Slat', 4, 'white-oak', [20 * IN, 3 * IN, IN]),
    ],
  },
  {
    name: 'each ply with its thickness',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood', 'Lay up', 'Core width'],
      ['Rail', 2, '60"', '4"', '2"', 'Ash', '1/2 + 1 + 1/2', '3"'],
    ],
    drafts: [
      part('Rail', 2, 'white-ash', [60 * IN, 4 * IN, 2 * IN], {
        lamination: {
          kind: 'plies',
          plies: [
            { thicknessNm: IN / 2, widthNm: 4 * IN, offsetNm: 0 },
            { thicknessNm: IN, widthNm: 3 * IN, offsetNm: IN / 2 },
            { thicknessNm: IN / 2, widthNm: 4 * IN, offsetNm: 0 },
          ],
        },
      }),
    ],
  },
  {
    name: 'three plies of a thickness that does not divide: the sum stays exact',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood', 'Layers'],
      ['Post', 1, 30, 2, 1.75, 'Ash', 3],
    ],
    drafts: [
      part('Post', 1, 'white-ash', [30 * IN, 2 * IN, 1.75 * IN], {
        lamination: {
          kind: 'plies',
          plies: [
            { thicknessNm: 14_816_667, widthNm: 2 * IN, offsetNm: 0 },
            { thicknessNm: 14_816_667, widthNm: 2 * IN, offsetNm: 0 },
            { thicknessNm: 14_816_666, widthNm: 2 * IN, offsetNm: 0 },
          ],
        },
      }),
    ],
  },
  {
    name: 'staves for a glued-up top',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood', 'Staves'],
      ['Top', 1, 70, 18, 1, 'Cherry', 4],
      ['Leg', 4, 28, 2, 2, 'Cherry', 1],
    ],
    drafts: [
      part('Top', 1, 'black-cherry', [70 * IN, 18 * IN, IN], { lamination: { kind: 'staves', count: 4 } }),
      part('Leg', 4, 'black-cherry', [28 * IN, 2 * IN, 2 * IN]),
    ],
  },
  {
    name: 'use and faces in the words of the shop',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thk', 'Wood', 'Show', 'Clear faces', 'Remarks'],
      ['Rail', 2, 90, 3, 1, 'Ash', 'Critical', 'both', 'no joint'],
      ['Front', 2, 20, 6, 0.875, 'Ash', 'show', 'one face', null],
      ['Side', 4, 18, 5, 0.5, 'Ash', 'inside', 'knots ok', null],
      ['Cleat', 6, 12, 1, 0.75, 'Ash', 'hidden', 'any', null],
    ],
    drafts: [
      part('Rail', 2, 'white-ash', [90 * IN, 3 * IN, IN], {
        use: 'critical',
        faces: 'clear-both',
        shapeNote: 'no joint',
      }),
      part('Front', 2, 'white-ash', [20 * IN, 6 * IN, 0.875 * IN], { use: 'visible', faces: 'clear-one' }),
      part('Side', 4, 'white-ash', [18 * IN, 5 * IN, 0.5 * IN], { use: 'hidden', faces: 'sound-knots' }),
      part('Cleat', 6, 'white-ash', [12 * IN, IN, 0.75 * IN], { use: 'hidden', faces: 'hidden' }),
    ],
  },
  {
    name: 'metric with commas, other words, a merged title',
    rows: [
      ['Wall table, finished sizes'],
      [],
      ['Item', 'Stk', 'Thk (mm)', 'Wid (mm)', 'Len (mm)', 'Timber'],
      ['Stretcher', '1', '44,5', '76', '2640', 'White oak'],
      ['Front', '2', '22', '98,5', '517', 'Walnut'],
    ],
    sheet: { locale: comma, merged: [{ row: 0, column: 0, rowCount: 1, columnCount: 6 }] },
    system: 'mm',
    drafts: [
      part('Stretcher', 1, 'white-oak', [2640 * MM, 76 * MM, 44.5 * MM], { measuredIn: 'mm' }),
      part('Front', 2, 'black-walnut', [517 * MM, 98.5 * MM, 22 * MM], { measuredIn: 'mm' }),
    ],
  },
  {
    name: 'centimetres by the heading',
    rows: [
      ['Part', 'Number', 'Length [cm]', 'Width [cm]', 'Thickness [cm]', 'Wood'],
      ['Shelf', 3, 90.5, 28, 2.2, 'Ash'],
    ],
    drafts: [part('Shelf', 3, 'white-ash', [905 * MM, 280 * MM, 22 * MM], { measuredIn: 'mm' })],
  },
  {
    name: 'only the length names its unit; the others follow',
    rows: [
      ['Part', 'Qty', 'Length (mm)', 'Width', 'Thick', 'Wood'],
      ['Shelf', 3, 905, 280, 22, 'Ash'],
    ],
    drafts: [part('Shelf', 3, 'white-ash', [905 * MM, 280 * MM, 22 * MM], { measuredIn: 'mm' })],
    notes: 'like the other size columns',
  },
  {
    name: 'feet for the length leave the width in inches',
    rows: [
      ['Part', 'Qty', 'Length, ft', 'Width', 'Thick', 'Wood'],
      ['Shelf', 3, 3.5, 11, 0.75, 'Ash'],
    ],
    drafts: [part('Shelf', 3, 'white-ash', [42 * IN, 11 * IN, 0.75 * IN])],
  },
  {
    name: 'sections in the list and a total under it',
    rows: [
      ['Part', 'How many', 'Length', 'Width', 'Thickness', 'Wood'],
      ['CARCASE'],
      ['Side', 2, 34, 16, 0.875, 'Cherry'],
      ['DRAWERS'],
      ['Front', 3, 18, 6, 0.875, 'Cherry'],
      ['Total', { formula: '=SUM(B3:B5)', value: 5 }],
    ],
    drafts: [
      part('Side', 2, 'black-cherry', [34 * IN, 16 * IN, 0.875 * IN]),
      part('Front', 3, 'black-cherry', [18 * IN, 6 * IN, 0.875 * IN]),
    ],
    skipped: ['2 section title “CARCASE”', '4 section title “DRAWERS”', '6 totals row'],
  },
  {
    name: 'quantities as 4x, 2 pcs and text',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thickness', 'Wood'],
      ['Leg', '4x', 28, 2, 2, 'Ash'],
      ['Rail', '2 pcs', 40, 3, 1, 'Ash'],
      ['Slat', '12', 18, 2, 0.75, 'Ash'],
      ['Peg', '(8)', 3, 0.5, 0.5, 'Ash'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, IN]),
      part('Slat', 12, 'white-ash', [18 * IN, 2 * IN, 0.75 * IN]),
      part('Peg', 8, 'white-ash', [3 * IN, 0.5 * IN, 0.5 * IN]),
    ],
  },
  {
    name: 'sizes together, thickness first',
    rows: [
      ['Part', 'Qty', 'Wood', 'T x W x L'],
      ['Leg', 4, 'Ash', '2 x 2 x 28'],
      ['Rail', 2, 'Ash', '7/8 x 3 1/2 x 40 1/4'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Rail', 2, 'white-ash', [40.25 * IN, 3.5 * IN, 0.875 * IN]),
    ],
  },
  {
    name: 'W over the wood and Wd over the width',
    rows: [
      ['Part', 'Qty', 'W', 'L', 'Wd', 'Th'],
      ['Leg', 4, 'Ash', 28, 2, 2],
      ['Rail', 2, 'Ash', 40, 3, 1],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, IN]),
    ],
  },
  {
    name: 'computed quantities across a row are data, not a total',
    rows: [
      ['Part', 'Sets', 'Each', 'Qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 2, 4, { formula: '=SUM(B2:C2)', value: 6 }, 28, 2, 2, 'Ash'],
    ],
    drafts: [part('Leg', 6, 'white-ash', [28 * IN, 2 * IN, 2 * IN])],
  },
  {
    name: 'headings in two rows under a group',
    rows: [
      ['Qty', 'Part', 'Finished size', null, null, 'Species'],
      [null, null, 'Length', 'Width', 'Thick.', null],
      [4, 'Leg', 28, 2, 2, 'Ash'],
      [2, 'Rail', 40, 3, 1, 'Ash'],
    ],
    sheet: { merged: [{ row: 0, column: 2, rowCount: 1, columnCount: 3 }] },
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, IN]),
    ],
  },
  {
    name: 'finished and rough groups in two rows of headings',
    rows: [
      ['Qty', 'Part', 'Rough', null, null, 'Finished', null, null, 'Species'],
      [null, null, 'L', 'W', 'T', 'L', 'W', 'T', null],
      [4, 'Leg', 29, 2.25, 2.25, 28, 2, 2, 'Ash'],
      [2, 'Rail', 41, 3.25, 1.25, 40, 3, 1, 'Ash'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, IN]),
    ],
    asks: '“Rough L” could be it too',
  },
  {
    name: 'the quantity of all sets, not of one',
    rows: [
      ['Part', 'Qty', 'Sets', 'Total qty', 'Length', 'Width', 'Thk', 'Wood'],
      ['Leg', 4, 2, 8, 28, 2, 2, 'Ash'],
    ],
    drafts: [part('Leg', 8, 'white-ash', [28 * IN, 2 * IN, 2 * IN])],
    asks: '“Qty” could be it too',
  },
  {
    name: 'sizes together without a word on their order: the thickness is plainly first',
    rows: [
      ['Part', 'Qty', 'Dimensions', 'Wood'],
      ['Leg', 4, '1 3/4" x 1 3/4" x 28"', 'Ash'],
      ['Rail', 2, '7/8 x 3 x 40', 'Ash'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 1.75 * IN, 1.75 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, 0.875 * IN]),
    ],
  },
  {
    name: 'seen or not, as yes and no',
    rows: [
      ['Name', '#', 'L', 'W', 'T', 'Sp.', 'Visible?'],
      ['Leg', 4, 28, 2, 2, 'Ash', 'Yes'],
      ['Cleat', 2, 10, 1, 1, 'Ash', 'No'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]),
      part('Cleat', 2, 'white-ash', [10 * IN, IN, IN], { use: 'hidden' }),
    ],
  },
  {
    name: 'a block of words over the list, with its own two columns',
    rows: [
      ['Cut list for the hall', null, null, 'Rev 3'],
      ['Drawn by me', null, null, '12 Oct'],
      [],
      ['Part', 'No.', 'Length mm', 'Width mm', 'Thick mm', 'Timber'],
      ['Leg', 4, 710, 60, 60, 'Ash'],
    ],
    drafts: [part('Leg', 4, 'white-ash', [710 * MM, 60 * MM, 60 * MM], { measuredIn: 'mm' })],
  },
  {
    name: 'a part called by its rough thickness is read as so much finished wood, and said so',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thickness', 'Wood'],
      ['Shelf', 2, 30, 9, '4/4', 'Ash'],
    ],
    drafts: [part('Shelf', 2, 'white-ash', [30 * IN, 9 * IN, IN])],
    notes: '4/4 is read as that much finished wood',
  },
  {
    name: 'length and width in one cell, the thickness in its own column',
    rows: [
      ['Part', 'Qty', 'Size', 'Thickness', 'Wood'],
      ['Shelf', 2, '24 x 3 1/2', '3/4', 'Ash'],
      ['Rail', 2, `8' 6 1/2" x 5 in`, '1', 'Ash'],
      ['Stub', 2, '20', '1', 'Ash'],
    ],
    drafts: [
      part('Shelf', 2, 'white-ash', [24 * IN, 3.5 * IN, 0.75 * IN]),
      part('Rail', 2, 'white-ash', [8 * FT + 6.5 * IN, 5 * IN, IN]),
    ],
    faults: ['C4: size'],
  },
  {
    name: 'a cross section in one cell, the thickness first, the length in its own column',
    rows: [
      ['Part', 'Qty', 'Section', 'Length', 'Wood'],
      ['Leg', 4, '1 3/4 x 2 1/4', 28, 'Ash'],
      ['Rail', 2, '7/8 x 3', 40, 'Ash'],
    ],
    drafts: [
      part('Leg', 4, 'white-ash', [28 * IN, 2.25 * IN, 1.75 * IN]),
      part('Rail', 2, 'white-ash', [40 * IN, 3 * IN, 0.875 * IN]),
    ],
  },
  {
    name: 'width before length in one cell, as the heading says, in millimetres',
    rows: [
      ['Part', 'Qty', 'W x L (mm)', 'Thk (mm)', 'Wood'],
      ['Top', 1, '450 x 300', 20, 'Ash'],
      ['Rail', 2, '60 x 900 mm', 20, 'Ash'],
    ],
    drafts: [
      part('Top', 1, 'white-ash', [300 * MM, 450 * MM, 20 * MM], { measuredIn: 'mm' }),
      part('Rail', 2, 'white-ash', [900 * MM, 60 * MM, 20 * MM], { measuredIn: 'mm' }),
    ],
  },
  {
    name: 'feet with inches, inches and a bare fraction in one cell',
    rows: [
      ['Part', 'Qty', 'L x W x T', 'Wood'],
      ['Rail', 2, `8' 6 1/2" x 5 in x 3/4`, 'Ash'],
      ['Shelf', 1, '4 ft 2 in by 10 in by 1"', 'Ash'],
    ],
    drafts: [
      part('Rail', 2, 'white-ash', [8 * FT + 6.5 * IN, 5 * IN, 0.75 * IN]),
      part('Shelf', 1, 'white-ash', [4 * FT + 2 * IN, 10 * IN, IN]),
    ],
  },
  {
    name: 'a nominal size beside the three sizes is left alone',
    rows: [
      ['Part', 'Qty', 'Size', 'L', 'W', 'T', 'Wood'],
      ['Shelf', 2, '1 x 4', 24, 3.5, 0.75, 'Ash'],
    ],
    drafts: [part('Shelf', 2, 'white-ash', [24 * IN, 3.5 * IN, 0.75 * IN])],
  },
];
