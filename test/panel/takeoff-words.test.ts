/** What stands over a takeoff: short or not, what to buy, and sums of money that say what they leave out. */
import { expect, test } from 'vitest';
import { woodCostText } from '../../addon/panel/words/cost.ts';
import { makeMeasure } from '../../addon/panel/words/measure.ts';
import {
  buyingWords,
  buyText,
  costText,
  coverWord,
  leadText,
  shortRows,
  shortText,
} from '../../addon/panel/words/takeoff.ts';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Part } from '../../worker/contract/job.ts';
import type { Settings } from '../../worker/contract/settings.ts';
import { takeoff } from '../../worker/takeoff/takeoff.ts';
import { board, drySettings, inch, part } from '../takeoff/shop-cases.ts';

const measure = makeMeasure({ shown: 'in', denominator: 16, currency: 'USD' });
const oakAt9: Settings['prices'] = [{ species: 'white oak', thicknessCall: null, minorPerBoardFoot: 900 }];
const shelf = part({ label: 'Shelf', lengthNm: inch(40), widthNm: inch(5), thicknessNm: inch(0.75) });
const oak = (lengthIn: number, widthIn: number) =>
  board({ lengthNm: inch(lengthIn), widthNm: inch(widthIn), thicknessNm: inch(1) });
const of = (parts: readonly Part[], boards: readonly BoardView[], prices = oakAt9) =>
  takeoff({ parts, boards, settings: drySettings({ wasteFactor: 1, prices }), jobId: null });

test('a list that the stock covers says first that nothing is to buy', () => {
  const covered = of([shelf], [oak(48, 6)]);
  expect(leadText(covered)).toBe('Nothing to buy: every blank has a place in your stock.');
  // 41 x 5 1/4 in of 4/4 are 1.5 bf at $9; white oak at 8 % weighs 3.8 lb a true board foot (Wood Handbook eq. 4-11, 4-14).
  expect(costText(covered, measure)).toBe(
    'Gross wood for the whole list, waste included, at the shop’s prices: about $13.45. Finished parts weigh about 4 lb.',
  );
});

test('what is short leads, with the parts that lack it, what to buy and for how much', () => {
  const short = of(
    [
      { ...shelf, quantity: 3 },
      { ...shelf, key: 'B', label: 'Cleat', widthNm: inch(2) },
    ],
    [oak(48, 8)],
  );
  expect(leadText(short)).toBe('2 blanks have no place in your stock.');
  const [group] = short.groups;
  if (!group) throw new Error('no group');
  expect(shortRows(short, group).map(({ label }) => label)).toEqual(['Shelf']);
  expect([coverWord(group), buyText(group, measure)]).toEqual(['short', 'Buy 3 bf of white oak 4/4, about $27.00']);
});

test('a part of a wood that is not in stock at all says so', () => {
  const none = of([shelf], []);
  const [row] = none.rows;
  const [group] = none.groups;
  expect(row && group && shortText(row, group)).toBe('no free white oak 4/4 in stock');
});

test('where only a plan can tell, it says so', () => {
  const short = of([{ ...shelf, quantity: 3 }], [oak(48, 6)]);
  const open = { ...short, groups: short.groups.map((group) => ({ ...group, mayStillFit: true })) };
  expect(leadText(open)).toBe('2 blanks have no place in this quick look. Plan the cuts to be sure before you buy.');
  expect(open.groups.map(coverWord)).toEqual(['perhaps short']);
});

test('a wide top that the stock gives as staves is not called short beside it', () => {
  const top = { ...shelf, label: 'Top', widthNm: inch(11) };
  const wide = of([top], [oak(96, 6.5)]);
  expect(leadText(wide)).toBe('Nothing to buy where what is too wide is glued up from staves.');
  const told = (taken: typeof wide) => taken.groups.map((group) => buyingWords(taken, group, measure));
  // One headline; the boards that would be wide enough are the other way, said plainly.
  expect(told(wide)).toEqual([
    { advice: null, beside: 'Or, in one board each: buy 4 bf of white oak 4/4, about $36.00.' },
  ]);
  // 41 x 11 1/4 in of 4/4 are 3.2 bf; the rail that is too long for any board stays to be bought.
  const rail = { ...shelf, key: 'L', label: 'Rail', lengthNm: inch(120) };
  expect(told(of([top, rail], [oak(96, 6.5)]))).toEqual([
    {
      advice: expect.stringMatching(/^Buy \d+ bf of white oak 4\/4/),
      beside: 'Some 3.2 bf of it need not be bought where what is too wide is glued up from staves.',
    },
  ]);
  // Of one wood all is glued up, of the other a board is wanting: each says its own.
  const both = of([top, { ...rail, thicknessNm: inch(1.75) }], [oak(96, 6.5)]);
  expect(leadText(both)).toBe('1 blank has no place in your stock.');
  expect(told(both).map(({ advice }) => advice)).toEqual([
    'No white oak 4/4 to buy where what is too wide is glued up from staves',
    expect.stringMatching(/^Buy \d+ bf of white oak 8\/4/),
  ]);
  const none = of([shelf], []);
  expect(told(none).map(({ beside }) => beside)).toEqual([null]);
});

test('with one wood unpriced the others are summed, and it is named beside the sum', () => {
  const rail = part({
    key: 'R',
    species: 'black-walnut',
    lengthNm: inch(40),
    widthNm: inch(5),
    thicknessNm: inch(0.75),
  });
  const words = costText(of([shelf, rail], []), measure);
  expect(words).toContain('About $18.00 to buy, without black walnut 4/4, which has no price yet.');
  expect(words).toContain('at the shop’s prices: about $13.45, without black walnut 4/4, which has no price yet.');
  expect(costText(of([rail], []), measure)).toContain('No wood of this list has a price yet: enter one under Shop.');
});

test('the boards of a plan are summed, and those without a price are counted', () => {
  const text = (minor: number, unpricedCount: number, boardCount: number, shopPricedCount = 0) =>
    woodCostText({ minor, unpricedCount, shopPricedCount }, boardCount, measure);
  expect(text(31_240, 0, 4)).toBe(', cost $312.40');
  expect(text(31_240, 1, 4)).toBe(', cost $312.40 (1 without a price)');
  expect(text(31_240, 1, 4, 2)).toBe(', cost $312.40 (2 at the shop’s price, 1 without a price)');
  expect(text(31_240, 0, 4, 4)).toBe(', cost $312.40 (all at the shop’s price)');
  expect(text(0, 3, 3)).toBe(', all without a price');
  expect(text(0, 0, 0)).toBe('');
});

test('beside its name a row that is short says why, not that it is short once more', () => {
  // One board gives one of two shelves.
  const taken = of(
    [
      { ...shelf, quantity: 1 },
      { ...shelf, key: 'S2', label: 'Back' },
    ],
    [oak(45, 6)],
  );
  const [group] = taken.groups;
  const row = taken.rows.find(({ blanks }) => blanks.some(({ missing }) => missing > 0));
  if (!group || !row) throw new Error('nothing is short');
  expect(shortText(row, group)).toMatch(/^too few free white oak 4\/4 boards are long, wide, flat/);
});
