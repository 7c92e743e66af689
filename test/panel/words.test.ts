import { describe, expect, test } from 'vitest';
import { moistureOf } from '../../addon/panel/screens/board-forms.tsx';
import { figureFault } from '../../addon/panel/screens/wood-glue-up.tsx';
import { addressFault } from '../../addon/panel/state/connections.ts';
import { costWords } from '../../addon/panel/words/cost.ts';
import {
  boardFeetText,
  count,
  makeMeasure,
  moneyText,
  percentText,
  shownInAtFirst,
  speciesText,
  weightText,
} from '../../addon/panel/words/measure.ts';
import { cutAlreadyText } from '../../addon/panel/words/standing.ts';
import { callTyped } from '../../addon/panel/words/typed.ts';
import { dayTextBeside } from '../../worker/wood/day.ts';
import { part, piece } from '../takeoff/shop-cases.ts';
import { inch } from './sample.ts';

const inches = makeMeasure(shownInAtFirst);
const metric = makeMeasure({ ...shownInAtFirst, shown: 'mm' });

describe('sizes as the tape shows them', () => {
  test('inches with fractions, feet over eight, millimetres where the shop reads them', () => {
    const size = { lengthNm: inch(100.5), widthNm: inch(9.25), thicknessNm: inch(2) };
    expect(inches.size(size)).toBe('8\' 4 1/2" × 9 1/4" × 2"');
    expect(metric.size({ lengthNm: 2_550_000_000, widthNm: 185_500_000, thicknessNm: 27_000_000 })).toBe(
      '2550 mm × 185.5 mm × 27 mm',
    );
  });
  test('a bare number is in the shop’s unit, and another unit may be said', () => {
    expect(inches.read('23 5/8')).toBe(inch(23.625));
    expect(metric.read('600')).toBe(600_000_000);
    expect(inches.read('600 mm')).toBe(600_000_000);
  });
  test('zero is a place but no size', () => {
    expect(inches.read('0')).toBeNull();
    expect(inches.readPlace('0')).toBe(0);
    expect(inches.readHelp('0')).toBe('More than zero.');
    expect(inches.readHelp('3 5/0')).toMatch(/^A fraction can’t have 0 below the line/);
    expect(inches.readHelp('23 5/8')).toBeNull();
  });
});

test('the thickness that a price is for: quarters, or a size as on the tape; nothing else', () => {
  // Hardwood calls count quarters of an inch, rough: 8/4 is 2 in (common practice, no source).
  for (const typed of ['8/4', '8', '8/4"', '2 in', '51 mm']) expect(callTyped(typed, inches), typed).toBe('8/4');
  expect(callTyped('51', metric)).toBe('8/4');
  for (const typed of ['banana', '9/7', '2', '0', '-4', '900', '500 in'])
    expect(callTyped(typed, inches), typed).toBeNull();
  expect(callTyped('9/7', metric)).toBeNull();
});

test('a glue-up figure that cannot be is told beside its field, before it is asked', () => {
  for (const typed of ['-3', '0', '2.5', 'many']) expect(figureFault('clamps', typed), typed).toBe('1 or more.');
  expect(figureFault('force', '0.5')).toBe('1 or more.');
  expect(figureFault('open', '-5')).toBe('A number, more than zero.');
  for (const typed of ['', '8']) expect(figureFault('clamps', typed)).toBeNull();
});

describe('what a board cost', () => {
  // A board foot is 144 cubic inches (definition of the trade): 96 x 6 x 1 in is 4 bf, and 4 bf are 0.00943895 m³.
  const board = {
    species: 'white-oak',
    lengthNm: inch(96),
    widthNm: inch(6),
    thicknessNm: inch(1),
    thicknessCall: '4/4',
    costMinor: 2_600,
  };
  const prices = [
    { species: 'white-oak', thicknessCall: null, minorPerBoardFoot: 700 },
    { species: 'white-oak', thicknessCall: '4/4', minorPerBoardFoot: 825 },
  ];
  test('as a whole and for its volume, in the unit of the shop', () => {
    expect(costWords(board, prices, inches)).toBe('$26.00, $6.50 a board foot');
    expect(costWords(board, prices, metric)).toBe('$26.00, $2,754.54 a m³');
  });
  test('where it was not written down, the price of its thickness, else of its species, else nothing', () => {
    const unknown = { ...board, costMinor: null };
    const says = (more: Partial<typeof board>) => costWords({ ...unknown, ...more }, prices, inches);
    expect(says({})).toBe('not written down; $33.00 by the shop’s price, $8.25 a board foot');
    expect(says({ thicknessCall: '8/4' })).toBe('not written down; $28.00 by the shop’s price, $7.00 a board foot');
    expect(says({ species: 'black-walnut' })).toBeNull();
  });
});

describe('other figures', () => {
  test('board feet lose their tenths where they no longer matter', () => {
    expect(boardFeetText(6.456)).toBe('6.5 bf');
    expect(boardFeetText(1234.5)).toBe('1,235 bf');
  });
  test('money in the smallest unit of its currency', () => {
    expect(moneyText(9_600, 'USD')).toBe('$96.00');
    expect(moneyText(9_600, 'JPY')).toBe('¥9,600');
    expect(moneyText(9_600, '???')).toBe('96.00 ???');
  });
  test('weight in pounds or kilograms by the shop’s unit', () => {
    // 1 lb = 0.45359237 kg exactly (international pound, 1959).
    expect(weightText(45.359237, 'in')).toBe('100 lb');
    expect(weightText(45.359237, 'mm')).toBe('45 kg');
  });
  test('days without this year, counts with their word', () => {
    expect(dayTextBeside('2026-12-03', '2026-11-25')).toBe('3 Dec');
    expect(dayTextBeside('2027-01-03', '2026-11-25')).toBe('3 Jan 2027');
    expect(count(1, 'board')).toBe('1 board');
    expect(count(1_200, 'board')).toBe('1,200 boards');
    expect(percentText(8.25)).toBe('8.3\u00a0%');
    expect(speciesText('white-oak')).toBe('White oak');
  });
});

test('moisture as people type it', () => {
  expect(moistureOf('11.5')).toBe(11.5);
  expect(moistureOf('11,5 %')).toBe(11.5);
  expect(moistureOf('')).toBeNull();
  expect(moistureOf('dry')).toBeNull();
  expect(moistureOf('-1')).toBeNull();
});

test('a key is only sent over https, or to this very machine', () => {
  expect(addressFault('https://yard.example.com')).toBeNull();
  expect(addressFault('http://127.0.0.1:8787')).toBeNull();
  expect(addressFault('http://localhost:8787')).toBeNull();
  expect(addressFault('http://yard.example.com')).toMatch(/https/);
  expect(addressFault('yard')).toMatch(/whole address/);
});

test('a takeoff of the whole list says how much of it is cut already: of a glued-up post its plies, not the post beside them', () => {
  const sizes = { lengthNm: inch(30), widthNm: inch(3), thicknessNm: inch(3) };
  const rail = { lamination: null, pieces: [piece(1, null, { state: 'milled' }), piece(2, null)] };
  const ply = { thicknessNm: inch(1), widthNm: inch(3), offsetNm: 0 };
  const { lamination } = part({ ...sizes, lamination: { kind: 'plies', plies: [ply, ply, ply] } });
  const plies = (state: 'wanted' | 'passed') => [0, 1, 2].map((element) => piece(1, element, { state }));
  expect(cutAlreadyText([{ lamination, pieces: [piece(1, null), ...plies('wanted')] }])).toBeNull();
  const post = { lamination, pieces: [piece(1, null), ...plies('passed'), piece(1, 0, { state: 'failed' })] };
  expect(cutAlreadyText([rail, post])).toBe('4 of 5 pieces are cut already.');
});
