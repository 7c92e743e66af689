/** The worth of what is left: by common practice at first, then by what the yard's offcuts and cut lists say. */
import { describe, expect, test } from 'vitest';
import { restWorthOf } from '../../worker/planner/layout.ts';
import { asksOfSize } from '../../worker/planner/offcut-asked.ts';
import { cutForHome } from '../../worker/planner/offcut-search.ts';
import { shopBoard } from '../../worker/planner/shop-board.ts';
import { gridFits, shopProblem } from '../../worker/planner/shop-problem.ts';
import { COMMON_WORTH, learnedWorth, type Worth, type WorthFacts } from '../../worker/planner/shop-worth.ts';
import { woodReader } from '../../worker/takeoff/which-wood.ts';
import { board, inch, shopSettings } from '../takeoff/shop-cases.ts';

const nothing: WorthFacts = { offcuts: [], sizes: [] };
const offcuts = (count: number, lengthIn: number, used: number, widthIn = 4) =>
  Array.from({ length: count }, (_, at) => ({ lengthNm: inch(lengthIn), widthNm: inch(widthIn), isUsed: at < used }));
const size = (lengthIn: number, widthIn: number, count: number) => ({
  lengthNm: inch(lengthIn),
  widthNm: inch(widthIn),
  count,
});

describe('what is learned, by hand', () => {
  test('nothing, or next to nothing, leaves common practice as it is', () => {
    expect(learnedWorth(nothing)).toEqual(COMMON_WORTH);
    expect(learnedWorth({ offcuts: offcuts(7, 20, 7), sizes: [size(30, 3, 7)] })).toEqual(COMMON_WORTH);
  });

  test('half of the pieces as long as half the longest: worth follows length itself', () => {
    // ln 0.5 / ln (50/100) = 1 for 20 pieces against 0.3 for 30 of common practice.
    const found = learnedWorth({ offcuts: [], sizes: [size(50, 3, 10), size(100, 3, 10)] });
    expect(found.lengthPower).toBeCloseTo((0.3 * 30 + 1 * 20) / 50, 12);
    // All as wide as each other: nothing is said of width.
    expect(found.widthPower).toBe(0.3);
    expect(found.words).toBe('What is left is valued by the 20 pieces on open cut lists.');
  });

  test('long offcuts used, short ones thrown out: length counts, and so does how many were of use', () => {
    const past = [...offcuts(10, 10, 1), ...offcuts(10, 20, 9)];
    const found = learnedWorth({ offcuts: past, sizes: [] });
    // (10/12) / (2/12) = 5 times as often at twice the length: held at 1.
    expect(found.lengthPower).toBeCloseTo((0.3 * 30 + 1 * 20) / 50, 12);
    expect(found.share).toBeCloseTo(0.5, 12);
    expect(learnedWorth({ offcuts: offcuts(60, 20, 6), sizes: [] }).share).toBeCloseTo((0.5 * 30 + 0.1 * 60) / 90, 12);
  });

  test('whatever the past, a piece is worth more than its two halves, and scrap nothing', () => {
    for (const facts of [
      nothing,
      { offcuts: [...offcuts(40, 8, 40), ...offcuts(40, 30, 0)], sizes: [] },
      { offcuts: offcuts(300, 12, 0), sizes: [size(90, 2, 400), size(8, 9, 300)] },
    ]) {
      const worth = learnedWorth(facts);
      const on = shopBoard(board({ lengthNm: inch(60), widthNm: inch(8), thicknessNm: inch(1) }), wood, [], settings);
      const { rest } = shopProblem(
        [asks],
        [{ on, fits: [{ length: 100, width: 40 }] }],
        settings,
        'value',
        worth,
      ).problem;
      if (!rest) throw new Error('rests have no worth');
      const [length, width] = [2 * rest.lengthMin, 2 * rest.widthMin];
      expect(restWorthOf(rest, length, width)).toBeGreaterThanOrEqual(2 * restWorthOf(rest, length / 2, width));
      expect(restWorthOf(rest, length, width)).toBeGreaterThanOrEqual(2 * restWorthOf(rest, length, width / 2));
      expect(restWorthOf(rest, rest.lengthMin - 1, width)).toBe(0);
      expect(restWorthOf(rest, length, rest.widthMin - 1)).toBe(0);
    }
  });
});

const settings = shopSettings();
const wood = woodReader(settings)('white-oak');
const asks = asksOfSize(
  { species: 'white-oak', lengthNm: inch(9), widthNm: inch(2.75), thicknessNm: inch(0.75) },
  settings,
);

test('a yard that wants length keeps length, one that wants width keeps width', () => {
  const on = shopBoard(board({ lengthNm: inch(40), widthNm: inch(8), thicknessNm: inch(1) }), wood, [], settings);
  const firstCut = (worth: Worth) => {
    const fits = gridFits([asks], on, settings, { evenIfThick: false });
    const cuts = cutForHome(asks, { on, fits }, settings, worth)?.layout.cuts ?? [];
    // The trim at the mill end says nothing.
    return cuts.find((cut) => cut.axis === 'rip' || cut.at > 40)?.axis;
  };
  const long = learnedWorth({ offcuts: [], sizes: [size(60, 3, 100), size(110, 3, 100)] });
  const wide = learnedWorth({ offcuts: [], sizes: [size(20, 3, 100), size(20, 7, 100)] });
  expect(long.lengthPower).toBeGreaterThan(long.widthPower);
  expect(wide.widthPower).toBeGreaterThan(wide.lengthPower);
  expect([firstCut(long), firstCut(wide)]).toEqual(['rip', 'crosscut']);
});
