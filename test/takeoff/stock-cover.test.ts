/** What the boards in stock cover of one wood. Sizes leave an inch of trim at both ends, common practice, no source. */
import { expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import { freeBoard } from '../../worker/takeoff/free-board.ts';
import { coverDemands } from '../../worker/takeoff/stock-cover.ts';
import type { DemandBlank } from '../../worker/takeoff/want.ts';
import { speciesByKey } from '../../worker/wood/species.ts';
import { board, drySettings, inch } from './shop-cases.ts';

const settings = drySettings();
const free = (view: BoardView) => freeBoard(view, null, settings);
const stock = (
  lengthIn: number,
  widthIn: number,
  thicknessIn: number,
  moisturePercent: number | null = 8,
  changes: Partial<BoardView> = {},
) =>
  free(
    board({
      ...{ lengthNm: inch(lengthIn), widthNm: inch(widthIn), thicknessNm: inch(thicknessIn) },
      readings: moisturePercent === null ? [] : [{ moisturePercent, on: '2026-03-01', meter: 'pin' }],
      ...changes,
    }),
  );
/** Finished size; rough as the shop adds: 1 in of length, 1/4 of width, 3/16 of thickness. */
const blank = (
  lengthIn: number,
  widthIn: number,
  thicknessIn: number,
  more: Partial<DemandBlank> = {},
): DemandBlank => ({
  finished: { lengthNm: inch(lengthIn), widthNm: inch(widthIn), thicknessNm: inch(thicknessIn) },
  rough: { lengthNm: inch(lengthIn + 1), widthNm: inch(widthIn + 0.25), thicknessNm: inch(thicknessIn + 3 / 16) },
  grain: 'unknown',
  quality: 1,
  tier: 2,
  count: 1,
  grossM3: 0.003,
  limitPercent: 12,
  takesUnread: true,
  ...more,
});
const cover = (callIn: number, blanks: readonly DemandBlank[], boards: readonly ReturnType<typeof stock>[]) => {
  const { covers } = coverDemands([{ callThicknessNm: inch(callIn), blanks }], boards, null, settings);
  const [answer] = covers;
  if (!answer) throw new Error('no answer');
  return answer;
};
/** A board's faces at the called thickness, m³. */
const m3 = (lengthIn: number, widthIn: number, callIn: number) => lengthIn * widthIn * callIn * 0.0254 ** 3;

test('the thinnest board that is thick enough is lent, so that thick stock is left for thick parts', () => {
  const shelf = blank(40, 5, 0.75);
  const leg = blank(40, 5, 1.25);
  const thick = stock(48, 6, 1.5);
  const thin = stock(48, 6, 1);
  for (const boards of [
    [thick, thin],
    [thin, thick],
  ]) {
    const [ofThin, ofThick] = coverDemands(
      [
        { callThicknessNm: inch(1), blanks: [shelf] },
        { callThicknessNm: inch(1.5), blanks: [leg] },
      ],
      boards,
      null,
      settings,
    ).covers;
    expect([ofThin?.shortM3, ofThick?.shortM3]).toEqual([0, 0]);
    // The leg took the thick board: only the thin one is left to count for the shelf.
    expect(ofThin?.inStockM3).toBeCloseTo(m3(48, 6, 1), 12);
    expect(ofThin?.thickerM3).toBe(0);
  }
});

test('a board that a thick part leaves lends itself to thin ones, and is said apart', () => {
  const { inStockM3, thickerM3 } = cover(1, [blank(40, 5, 0.75)], [stock(48, 6, 1.5), stock(48, 6, 1)]);
  expect(inStockM3).toBeCloseTo(2 * m3(48, 6, 1), 12);
  expect(thickerM3).toBeCloseTo(m3(48, 6, 1), 12);
});

test('a board called 5/4 and measured thinner counts by its call, one without a call by its thickness', () => {
  const called = stock(48, 6, 1.125, 8, { thicknessCall: '5/4' });
  const uncalled = stock(48, 6, 1.125);
  expect([called.callRoughNm, uncalled.callRoughNm]).toEqual([inch(1.25), inch(1)]);
});

test('the same wood goes to the critical part that asks for it dry before the one that would take any', () => {
  const critical = blank(40, 5, 0.75, { limitPercent: 10, takesUnread: false, grossM3: m3(48, 6, 1) });
  const hidden = blank(40, 5, 0.75, { limitPercent: 15, grossM3: m3(48, 6, 1) });
  for (const blanks of [
    [critical, hidden],
    [hidden, critical],
  ]) {
    const { missing, shortM3 } = cover(1, blanks, [stock(48, 6, 1, 9)]);
    expect(shortM3).toBeCloseTo(m3(48, 6, 1), 12);
    expect([missing.get(critical), missing.get(hidden)]).toEqual([0, 1]);
  }
});

test('of two parts alike, the longer gets the board', () => {
  const long = blank(44, 5, 0.75, { grossM3: m3(48, 6, 1) });
  const short = blank(20, 5, 0.75, { grossM3: m3(48, 6, 1) });
  for (const blanks of [
    [long, short],
    [short, long],
  ]) {
    const { missing } = cover(1, blanks, [stock(48, 6, 1)]);
    expect([missing.get(long), missing.get(short)]).toEqual([0, 1]);
  }
});

test('a board that serves one part of several counts as stock, dry or wet', () => {
  const long = blank(80, 5, 0.75);
  const short = blank(20, 5, 0.75);
  const answer = cover(1, [long, short], [stock(48, 6, 1, 8), stock(48, 7, 1, 30)]);
  expect(answer.inStockM3).toBeCloseTo(m3(48, 6, 1), 12);
  expect(answer.inStockWetM3).toBeCloseTo(m3(48, 7, 1), 12);
  expect([...answer.withoutBoard]).toEqual([long]);
});

test('a wet board too short for every part is not even stock that dries', () => {
  expect(cover(1, [blank(80, 5, 0.75)], [stock(48, 6, 1, 30)]).inStockWetM3).toBe(0);
});

test('boards counted without a reading are counted once a board; read ones and refused ones are not', () => {
  const held = [
    { reservationId: 'rs_00000001', jobId: 'jb_1', jobName: 'Bed', fromNm: inch(50), toNm: inch(52), planId: null },
  ];
  const twoRuns = stock(102, 6, 1, null, { held });
  const answer = cover(1, [blank(40, 5, 0.75)], [twoRuns, stock(48, 6, 1, 9), stock(30, 6, 1, null)]);
  expect(answer.unreadCount).toBe(1);
});

test('what would be resawn is named by number, and thinner stock is none of it', () => {
  const answer = cover(1, [blank(40, 5, 0.75)], [stock(48, 6, 3), stock(48, 6, 1), stock(48, 6, 0.5)]);
  expect(answer.resawCount).toBe(1);
  expect(cover(1, [blank(40, 5, 0.75)], [stock(48, 6, 0.5)])).toMatchObject({
    resawCount: 0,
    inStockM3: 0,
    longestRunNm: null,
    widestNm: null,
  });
});

test('twice a blank and a blade is resawn; a hair less is planed', () => {
  // 3/4 in finished asks for 15/16 rough; twice that and 1/8 in of blade are 2 in.
  const resawn = (thicknessIn: number) => cover(1, [blank(40, 5, 0.75)], [stock(48, 6, thicknessIn)]).resawCount;
  expect([resawn(2), resawn(1.99)]).toEqual([1, 0]);
});

test('with parts of two thicknesses in one call, a board stays as long as the thicker part may need it whole', () => {
  // Resawn for the thin part only (2 in at 3/4 in), not for one of 7/8 in.
  const answer = cover(1.25, [blank(40, 5, 0.75), blank(40, 5, 0.875)], [stock(48, 6, 2)]);
  expect(answer.resawCount).toBe(0);
  expect(answer.inStockM3).toBeCloseTo(m3(48, 6, 1.25), 12);
  expect(answer.withoutBoard.size).toBe(1);
});

test('with parts of two thicknesses, a board thick enough for the thinner one counts', () => {
  const answer = cover(1, [blank(40, 5, 0.5), blank(40, 5, 0.75)], [stock(48, 6, 0.75)]);
  expect(answer.inStockM3).toBeCloseTo(m3(48, 6, 1), 12);
  expect([...answer.withoutBoard].map(({ finished }) => finished.thicknessNm)).toEqual([inch(0.75)]);
});

test('longest and widest are of boards with anything free', () => {
  const heldWhole = stock(120, 12, 1, 8, {
    held: [{ reservationId: 'rs_00000001', jobId: 'jb_1', jobName: 'Bed', fromNm: 0, toNm: inch(120), planId: null }],
  });
  const answer = cover(1, [blank(40, 5, 0.75)], [stock(48, 6, 1), heldWhole, stock(96, 5, 1), stock(60, 7, 1)]);
  expect([answer.longestRunNm, answer.widestNm]).toEqual([inch(96), inch(7)]);
});

test('to the hair: 42 in rough lies in 44 in between trims, and finished 5 1/4 in in 5 1/2 in rough', () => {
  const of = (lengthIn: number, widthIn: number) =>
    cover(1, [blank(41, 5.25, 0.75)], [stock(lengthIn, widthIn, 1)]).inStockM3 > 0;
  expect([of(44, 5.5), of(43.96, 5.5), of(44, 5.46)]).toEqual([true, false, false]);
});

test('a dry board is measured as it is, a wet one as it will be at the limit, not as wet as it is', () => {
  // White oak, flat grain, across the board 10.5 % from green to ovendry (Wood Handbook table 4-3): 6 in at 8 % are
  // 6.086 in at 12 % (eq. 4-9), 6 3/8 on the tape with a quarter to work with; at 6 % 6 1/4 will do.
  const oak = speciesByKey('white-oak') ?? null;
  const of = (widthIn: number, moisturePercent: number) => {
    const [answer] = coverDemands(
      [{ callThicknessNm: inch(1.25), blanks: [blank(41, 6, 0.75)] }],
      [stock(44, widthIn, 1.25, moisturePercent)],
      oak,
      settings,
    ).covers;
    return [answer && answer.inStockM3 > 0, answer && answer.inStockWetM3 > 0];
  };
  expect(of(6.25, 6)).toEqual([true, false]);
  expect(of(6.25, 12)).toEqual([false, false]);
  expect(of(6.375, 12)).toEqual([true, false]);
  expect(of(6.375, 25)).toEqual([false, true]);
});
