/** Cut lists as other shops keep them: in other languages, beside other tables, with counts, sizes and units in odd places. */
import type { PartInput } from '../../addon/sheet/read-parts.ts';
import { type CellSpec, comma, us } from './block.ts';
import { IN, MM, part, type SheetCase } from './corpus.ts';

const mm = { measuredIn: 'mm' } as const;
const french = { tag: 'fr-FR', decimal: ',', dateOrder: 'dmy' } as const;
const swedish = { tag: 'sv-SE', decimal: ',', dateOrder: 'ymd' } as const;
const britain = { tag: 'en-GB', decimal: '.', dateOrder: 'dmy' } as const;
const leg = part('Leg', 4, 'white-ash', [28 * IN, 2 * IN, 2 * IN]);
const rail = part('Rail', 2, 'white-ash', [30 * IN, 3 * IN, IN]);
const headings = ['Part', 'Qty', 'L', 'W', 'T', 'Wood'];
const legRow = ['Leg', 4, 28, 2, 2, 'ash'];
const railRow = ['Rail', 2, 30, 3, 1, 'ash'];

const twoLists: CellSpec[][] = [
  ['Table', null, null, null, null, null, null, 'Bench'],
  [...headings, null, ...headings],
  [...legRow, null, 'Foot', 4, 17, 2, 2, 'walnut'],
  [...railRow, null, 'Seat', 1, 48, 12, 1.5, 'walnut'],
];

export const awkwardPartSheets: readonly SheetCase<PartInput>[] = [
  {
    name: 'hardware beside the parts, behind a blank column',
    rows: [
      [...headings, null, 'Hardware', 'Qty', 'Price'],
      [...legRow, null, 'Hinge', 2, 4.5],
      [...railRow, null, 'Screw', 24, 0.1],
      [null, null, null, null, null, null, null, 'Pull', 3, 8],
    ],
    drafts: [leg, rail],
    skipped: ['4 blank'],
    asks: 'Another table stands beside this one, from column H on',
  },
  {
    name: 'two cut lists side by side: the first where nothing is selected',
    rows: twoLists,
    drafts: [leg, rail],
    asks: 'Another table stands beside this one, from column H on',
  },
  {
    name: 'two cut lists side by side: the second where a cell of it is selected',
    rows: [...twoLists, []],
    near: { row: 2, column: 9 },
    drafts: [
      part('Foot', 4, 'black-walnut', [17 * IN, 2 * IN, 2 * IN]),
      part('Seat', 1, 'black-walnut', [48 * IN, 12 * IN, 1.5 * IN]),
    ],
    asks: 'Another table stands beside this one, from column A on',
  },
  {
    name: 'two cut lists against each other without a gap',
    rows: [
      [...headings, ...headings],
      [...legRow, 'Foot', 4, 17, 2, 2, 'walnut'],
    ],
    drafts: [leg],
    asks: 'from column G on',
  },
  {
    name: 'German, thousands with a point, decimal commas as text',
    system: 'mm',
    sheet: { locale: comma },
    rows: [
      ['Stückliste Esstisch'],
      [],
      ['Pos.', 'Bezeichnung', 'Stk.', 'Länge', 'Breite', 'Dicke', 'Holzart'],
      [1, 'Tischbein', 4, 720, 75, 75, 'Eiche'],
      [2, 'Zarge lang', 2, '1.600', 100, '22,5', 'Esche'],
      [3, 'Platte', '1 Stk', '1.800', '900', 30, 'Nussbaum'],
    ],
    drafts: [
      part('Tischbein', 4, 'european-oak', [720 * MM, 75 * MM, 75 * MM], mm),
      part('Zarge lang', 2, 'european-ash', [1600 * MM, 100 * MM, 22.5 * MM], mm),
    ],
    faults: ['G6: species'],
  },
  {
    name: 'German letters L, B and D, and S for the thickness',
    system: 'mm',
    sheet: { locale: comma },
    rows: [
      ['Teil', 'Stk', 'L', 'B', 'S', 'Holz'],
      ['Bein', 4, 720, 70, 70, 'Esche'],
      ['Summe', 4],
    ],
    drafts: [part('Bein', 4, 'european-ash', [720 * MM, 70 * MM, 70 * MM], mm)],
    skipped: ['3 totals row'],
  },
  {
    name: 'French, a narrow space between the thousands',
    system: 'mm',
    sheet: { locale: french },
    rows: [
      ['Repère', 'Désignation', 'Nb', 'Longueur', 'Largeur', 'Épaisseur', 'Essence'],
      ['A', 'Pied', 4, '720', '70', '70', 'Chêne'],
      ['B', 'Traverse', 2, '1\u202f250', '90', '22', 'Frêne'],
    ],
    drafts: [
      part('Pied', 4, 'european-oak', [720 * MM, 70 * MM, 70 * MM], { ...mm, key: 'A' }),
      part('Traverse', 2, 'european-ash', [1250 * MM, 90 * MM, 22 * MM], { ...mm, key: 'B' }),
    ],
  },
  {
    name: 'Spanish, a wood of two kinds asked about',
    system: 'mm',
    sheet: { locale: french },
    rows: [
      ['Pieza', 'Cantidad', 'Largo', 'Ancho', 'Grueso', 'Madera'],
      ['Pata', '4 uds.', 720, 70, 70, 'Roble'],
      ['Larguero', 2, 1250, 90, 22, 'Nogal'],
    ],
    drafts: [part('Pata', 4, 'european-oak', [720 * MM, 70 * MM, 70 * MM], mm)],
    faults: ['F3: species'],
  },
  {
    name: 'Swedish',
    system: 'mm',
    sheet: { locale: swedish },
    rows: [
      ['Del', 'Antal', 'Längd', 'Bredd', 'Tjocklek', 'Träslag'],
      ['Ben', 4, 720, 70, 70, 'Ek'],
      ['Sarg', 2, 1250, 90, 22, 'Ask'],
    ],
    drafts: [
      part('Ben', 4, 'european-oak', [720 * MM, 70 * MM, 70 * MM], mm),
      part('Sarg', 2, 'european-ash', [1250 * MM, 90 * MM, 22 * MM], mm),
    ],
    asks: null,
  },
  {
    name: 'Italian',
    system: 'mm',
    sheet: { locale: comma },
    rows: [
      ['Pezzo', 'Quantità', 'Lunghezza', 'Larghezza', 'Spessore', 'Legno'],
      ['Gamba', 4, 720, 70, 70, 'Rovere'],
    ],
    drafts: [part('Gamba', 4, 'european-oak', [720 * MM, 70 * MM, 70 * MM], mm)],
  },
  {
    name: 'Dutch',
    system: 'mm',
    sheet: { locale: comma },
    rows: [
      ['Onderdeel', 'Aantal', 'Lengte', 'Breedte', 'Dikte', 'Houtsoort'],
      ['Poot', 4, 720, 70, 70, 'eiken'],
      ['Totaal', 4],
    ],
    drafts: [part('Poot', 4, 'european-oak', [720 * MM, 70 * MM, 70 * MM], mm)],
    skipped: ['3 totals row'],
  },
  {
    name: 'counts as x2, each, a word, Stk; pairs, sums and ranges are asked about',
    rows: [
      headings,
      ['Slat', 'x2', 30, 3, 1, 'ash'],
      ['Slat', '2 each', 30, 3, 1, 'ash'],
      ['Slat', 'two', 30, 3, 1, 'ash'],
      ['Slat', '2 Stk', 30, 3, 1, 'ash'],
      ['Slat', '1 pair', 30, 3, 1, 'ash'],
      ['Slat', '2 + 2', 30, 3, 1, 'ash'],
      ['Slat', '2-4', 30, 3, 1, 'ash'],
      ['Slat', '2 sets of 4', 30, 3, 1, 'ash'],
    ],
    drafts: Array.from({ length: 4 }, () => part('Slat', 2, 'white-ash', [30 * IN, 3 * IN, IN])),
    faults: ['B6: quantity', 'B7: quantity', 'B8: quantity', 'B9: quantity'],
  },
  {
    name: 'sizes in one cell: a row the other way round is not taken, a unit at the end is that of all three',
    rows: [
      ['Part', 'Qty', 'Size (T x W x L)', 'Wood'],
      ['Slat', 2, '3/4 x 2 1/4 x 18', 'ash'],
      ['Slat', 2, '3/4" by 2-1/4" by 18"', 'ash'],
      ['Slat', 2, '20 × 45 × 600 mm', 'ash'],
      ['Slat', 2, '18 x 2 1/4 x 3/4', 'ash'],
    ],
    drafts: [
      part('Slat', 2, 'white-ash', [18 * IN, 2.25 * IN, 0.75 * IN]),
      part('Slat', 2, 'white-ash', [18 * IN, 2.25 * IN, 0.75 * IN]),
      part('Slat', 2, 'white-ash', [600 * MM, 45 * MM, 20 * MM], mm),
    ],
    faults: ['C5: size'],
  },
  {
    name: 'formulas that fail in the name, the count and the wood, one of them as text',
    rows: [
      headings,
      [{ error: '#N/A' }, 2, 20, 3, 1, 'ash'],
      ['Leg', '#REF!', 28, 2, 2, 'ash'],
      ['Leg', 4, 28, 2, 2, { error: '#NAME?' }],
      railRow,
    ],
    drafts: [rail],
    faults: ['A2: label', 'B3: quantity', 'F4: species'],
  },
  {
    name: 'some rows in millimetres among inches, without a word: seen and said',
    rows: [headings, ['Shelf', 1, 600, 50, 20, 'ash'], legRow, railRow],
    drafts: [part('Shelf', 1, 'white-ash', [600 * IN, 50 * IN, 20 * IN]), leg, rail],
    notes: '1 row many times larger than the others in every size: in another unit? Shelf.',
  },
  {
    name: 'a column that names the unit of each row',
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thickness', 'Unit', 'Wood'],
      ['Shelf', 1, 600, 250, 20, 'mm', 'ash'],
      ['Leg', 4, 28, 2, 2, 'in', 'ash'],
    ],
    drafts: [part('Shelf', 1, 'white-ash', [600 * MM, 250 * MM, 20 * MM], mm), leg],
    notes: 'Numbers take the unit that their own row names.',
  },
  {
    name: 'so many a chair, so many chairs, and the total',
    rows: [
      ['No', 'Part', 'Qty/chair', 'Chairs', 'Total', 'L', 'W', 'T', 'Wood', 'BF'],
      [1, 'Leg', 4, 2, { formula: '=C2*D2', value: 8 }, 28, 2, 2, 'ash', { formula: '=x', value: 6.2 }],
      [2, 'Rail', 2, 2, { formula: '=C3*D3', value: 4 }, 30, 3, 1, 'ash', { formula: '=x', value: 3.3 }],
    ],
    drafts: [
      { ...leg, quantity: 8 },
      { ...rail, quantity: 4 },
    ],
    asks: '“Qty/chair” could be it too',
  },
  {
    name: 'so many of one set beside a count of sets: asked about',
    rows: [
      ['Part', 'Qty', 'Sets', 'L', 'W', 'T', 'Wood'],
      ['Leg', 4, 2, 28, 2, 2, 'ash'],
    ],
    drafts: [leg],
    asks: 'is it for one set?',
  },
  {
    name: 'group of sizes merged over T, W and L, the other headings a row higher',
    rows: [
      ['Key', 'Part', 'Finished size', null, null, 'Material', 'Qty'],
      [null, null, 'T', 'W', 'L', null, null],
      ['A', 'Leg', 2, 2, 28, 'ash', 4],
      ['B', 'Rail', 1, 3, 30, 'ash', 2],
    ],
    sheet: { merged: [{ row: 0, column: 2, rowCount: 1, columnCount: 3 }] },
    drafts: [
      { ...leg, key: 'A' },
      { ...rail, key: 'B' },
    ],
    columns: ['length=L', 'width=W', 'thickness=T'],
  },
  {
    name: 'same, as above and a ditto sign for the wood; an empty cell is asked about',
    rows: [
      headings,
      legRow,
      ['Rail', 2, 30, 3, 1, 'same'],
      ['Rail', 2, 30, 3, 1, 'as above'],
      ['Rail', 2, 30, 3, 1, '〃'],
      ['Rail', 2, 30, 3, 1, null],
    ],
    drafts: [leg, rail, rail, rail],
    faults: ['F6: species'],
  },
  {
    name: 'formulas drawn down too far, empty or zero',
    rows: [
      headings,
      legRow,
      Array.from({ length: 6 }, () => ({ formula: '=x', value: '' })),
      [null, ...Array.from({ length: 4 }, () => ({ formula: '=x', value: 0 })), null],
    ],
    drafts: [leg],
    skipped: ['3 blank', '4 formulas without a value'],
  },
  {
    name: 'fractions that became dates before they were pasted as text, in several languages',
    sheet: { locale: britain },
    rows: [
      ['Part', 'Qty', 'Length', 'Width', 'Thick', 'Wood'],
      ['Slat', 2, 30, 3, '4-Mar', 'ash'],
      ['Slat', 2, 30, 3, '03. Apr', 'ash'],
      ['Slat', 2, 30, 3, '1 févr.', 'ash'],
      ['Slat', 2, 30, 3, { date: 46_115, shown: '03/04/2026' }, 'ash'],
    ],
    datesAreFractions: true,
    drafts: [
      part('Slat', 2, 'white-ash', [30 * IN, 3 * IN, 0.75 * IN]),
      part('Slat', 2, 'white-ash', [30 * IN, 3 * IN, 0.75 * IN]),
      part('Slat', 2, 'white-ash', [30 * IN, 3 * IN, 0.5 * IN]),
      part('Slat', 2, 'white-ash', [30 * IN, 3 * IN, 0.75 * IN]),
    ],
  },
  {
    name: 'notes under the list, one of them with a heading word',
    rows: [headings, legRow, [], ['Notes: add 1/2 for tenons'], ['All sizes finished'], ['Checked by J. on 10/2']],
    drafts: [leg],
    skipped: [
      '3 blank',
      '4 section title “Notes: add 1/2 for tenons”',
      '5 section title “All sizes finished”',
      '6 section title “Checked by J. on 10/2”',
    ],
  },
  {
    name: 'the list goes on under another title with its columns in another order',
    rows: [headings, legRow, ['Part', 'Qty', 'W', 'L', 'T', 'Wood'], ['Rail', 2, 3, 30, 1, 'ash']],
    drafts: [leg],
    asks: 'Another table stands below this one, from row 3 on',
  },
  {
    name: 'that second list, once a cell in it is selected',
    sheet: { locale: us },
    rows: [headings, legRow, ['Part', 'Qty', 'W', 'L', 'T', 'Wood'], ['Rail', 2, 3, 30, 1, 'ash'], []],
    near: { row: 3, column: 0 },
    drafts: [rail],
  },
];
