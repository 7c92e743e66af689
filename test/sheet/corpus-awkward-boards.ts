/** Board lists as other shops keep them: in other languages and units, with sizes and readings written in odd ways. */
import type { BoardInput } from '../../addon/sheet/read-boards.ts';
import { comma } from './block.ts';
import { board, IN, MM, type SheetCase } from './corpus.ts';

const mm = { measuredIn: 'mm' } as const;
const call = (thicknessCall: string) => ({ thicknessCall });
const on = '2026-11-02';
const reading = (moisturePercent: number) => [{ moisturePercent, on }];

export const awkwardBoardSheets: readonly SheetCase<BoardInput>[] = [
  {
    name: 'German, three units in the headings, commas for decimals',
    system: 'mm',
    sheet: { locale: comma },
    readOn: on,
    rows: [
      ['Brett-Nr.', 'Holzart', 'Länge (cm)', 'Breite (cm)', 'Stärke (mm)', 'Feuchte %', 'Lagerort', 'Preis €'],
      ['B-12', 'Eiche', 245, '23,5', 52, '9,5', 'Regal 2', '1.250,00 €'],
      ['B-13', 'Kirsche', 198, '18,5', 27, '8,0', 'Regal 3', '85,50 €'],
    ],
    drafts: [
      board('B-12', 'european-oak', [2450 * MM, 235 * MM, 52 * MM], {
        ...mm,
        place: 'Regal 2',
        costMinor: 125_000,
        readings: reading(9.5),
      }),
    ],
    faults: ['B3: species'],
  },
  {
    name: 'French abbreviations with a degree sign for the number',
    system: 'mm',
    readOn: on,
    sheet: { locale: { tag: 'fr-FR', decimal: ',', dateOrder: 'dmy' } },
    rows: [
      ['N°', 'Essence', 'Long. (mm)', 'Larg. (mm)', 'Ép. (mm)', 'Hum. (%)', 'Empl.'],
      ['12', 'Chêne', '2\u202f450', '235', '52,5', '9,5', 'R1'],
    ],
    drafts: [
      board('12', 'european-oak', [2450 * MM, 235 * MM, 52.5 * MM], { ...mm, place: 'R1', readings: reading(9.5) }),
    ],
  },
  {
    name: 'Danish letters',
    system: 'mm',
    sheet: { locale: comma },
    rows: [
      ['Nr', 'Træsort', 'Længde', 'Bredde', 'Tykkelse'],
      ['7', 'Eg', 2400, 210, 52],
      ['9', 'Bøg', 2100, 180, 32],
    ],
    drafts: [
      board('7', 'european-oak', [2400 * MM, 210 * MM, 52 * MM], mm),
      board('9', 'european-beech', [2100 * MM, 180 * MM, 32 * MM], mm),
    ],
  },
  {
    name: 'metres, centimetres and millimetres in one row',
    system: 'mm',
    sheet: { locale: comma },
    rows: [
      ['Nr', 'Holz', 'Länge m', 'Breite cm', 'Stärke mm'],
      ['B1', 'Esche', '2,45', '23,5', '52'],
    ],
    drafts: [board('B1', 'european-ash', [2450 * MM, 235 * MM, 52 * MM], mm)],
  },
  {
    name: 'calls with rough or quarter behind them; planed stock is asked about',
    rows: [
      ['Bd', 'Species', 'L', 'W', 'T'],
      ['1', 'QSWO', 96, 8, '8/4 rough'],
      ['2', 'White oak', 96, 8, '8 quarter'],
      ['3', 'American black walnut', 96, 8, '5/4 RGH'],
      ['4', 'White oak', 96, 8, '8/4 S2S'],
      ['5', 'White oak', 96, 8, '5/4 +'],
    ],
    drafts: [
      board('1', 'white-oak', [96 * IN, 8 * IN, 2 * IN], call('8/4')),
      board('2', 'white-oak', [96 * IN, 8 * IN, 2 * IN], call('8/4')),
      board('3', 'black-walnut', [96 * IN, 8 * IN, 1.25 * IN], call('5/4')),
    ],
    faults: ['E5: thickness', 'E6: thickness'],
  },
  {
    name: 'narrow spaces and a fraction slash inside the sizes',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thickness'],
      ['A1', 'Cherry', '96\u200a1/2', '2\u20093/8', '4/4'],
      ['A2', 'Cherry', '100\u202f3⁄4', '5\u00a07/8', '5/4'],
    ],
    drafts: [
      board('A1', 'black-cherry', [96.5 * IN, 2.375 * IN, IN], call('4/4')),
      board('A2', 'black-cherry', [100.75 * IN, 5.875 * IN, 1.25 * IN], call('5/4')),
    ],
  },
  {
    name: 'feet in most cells, a bare number among them: asked about',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk'],
      ['A', 'ash', "8'", 8, '4/4'],
      ['B', 'ash', "10'", 8, '4/4'],
      ['C', 'ash', 12, 8, '4/4'],
    ],
    drafts: [
      board('A', 'white-ash', [96 * IN, 8 * IN, IN], call('4/4')),
      board('B', 'white-ash', [120 * IN, 8 * IN, IN], call('4/4')),
      board('C', 'white-ash', [12 * IN, 8 * IN, IN], call('4/4')),
    ],
    asks: 'such as 12, have no unit and are read as inches. Are they feet?',
  },
  {
    name: 'moisture without a day is left out, and said so where it is seen',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'MC'],
      ['A', 'ash', 96, 8, '4/4', 9],
    ],
    drafts: [board('A', 'white-ash', [96 * IN, 8 * IN, IN], call('4/4'))],
    notes: '“MC” has 1 figure without a day, which are left out',
  },
  {
    name: 'moisture as a share of one without a percentage format',
    readOn: on,
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'Thk', 'MC'],
      ['A', 'ash', 96, 8, '4/4', { number: 0.085, format: '0.0%', shown: '8.5%' }],
      ['B', 'ash', 96, 8, '4/4', '9%'],
      ['C', 'ash', 96, 8, '4/4', '8.5'],
      ['D', 'ash', 96, 8, '4/4', 0.09],
    ],
    drafts: [
      board('A', 'white-ash', [96 * IN, 8 * IN, IN], { ...call('4/4'), readings: reading(8.5) }),
      board('B', 'white-ash', [96 * IN, 8 * IN, IN], { ...call('4/4'), readings: reading(9) }),
      board('C', 'white-ash', [96 * IN, 8 * IN, IN], { ...call('4/4'), readings: reading(8.5) }),
    ],
    faults: ['F5: moisture'],
  },
  {
    name: 'the width at both ends: the narrow one is taken, the other named',
    rows: [
      ['Tag', 'Species', 'Length', 'W max', 'W min', 'Thk'],
      ['A', 'ash', 96, 8, 7, '4/4'],
    ],
    drafts: [board('A', 'white-ash', [96 * IN, 7 * IN, IN], call('4/4'))],
    asks: '“W max” could be it too',
  },
  {
    name: 'L stands for the rack, because another column is the length',
    rows: [
      ['Tag', 'Species', 'Length', 'Width', 'T', 'L'],
      ['A1', 'ash', 96, 8, '4/4', 'rack 2'],
    ],
    drafts: [board('A1', 'white-ash', [96 * IN, 8 * IN, IN], call('4/4'))],
    columns: ['length=Length'],
  },
  {
    name: 'blank columns between the columns of one list',
    rows: [
      ['Tag', null, 'Species', null, 'Length', 'Width', 'Thk'],
      ['A1', null, 'Ash', null, 96, 7, '4/4'],
    ],
    drafts: [board('A1', 'white-ash', [96 * IN, 7 * IN, IN], call('4/4'))],
    asks: null,
  },
  {
    name: 'Swiss thousands, a measured thickness with its call behind it, a treatment beside the wood',
    system: 'mm',
    sheet: { locale: { tag: 'de-CH', decimal: '.', dateOrder: 'dmy' } },
    rows: [
      ['Brett', 'Holzart', 'Länge', 'Breite', 'Dicke', 'Preis CHF'],
      ['B1', 'Esche', "2'450", 210, '27 mm (5/4)', '1’250.50'],
      ['B2', 'Buche, gedämpft', '3’100', 210, '52', 'CHF 85.–'],
    ],
    drafts: [
      board('B1', 'european-ash', [2450 * MM, 210 * MM, 27 * MM], { ...mm, ...call('5/4'), costMinor: 125_050 }),
      board('B2', 'european-beech', [3100 * MM, 210 * MM, 52 * MM], { ...mm, costMinor: 8_500 }),
    ],
  },
  {
    name: 'units behind a hyphen in the headings, spp for the woods',
    rows: [
      ['#', 'Spp', 'L-ft', 'W-in', 'T-in'],
      ['7', 'ash', 8, 7.5, 1],
      ['9', 'walnut', 10, 6, 1],
      ['12', 'oak', 10, 6, 1],
    ],
    drafts: [board('7', 'white-ash', [96 * IN, 7.5 * IN, IN]), board('9', 'black-walnut', [120 * IN, 6 * IN, IN])],
    faults: ['B4: species'],
  },
];
