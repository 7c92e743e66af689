import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Defect } from '../../worker/contract/board.ts';
import { badWoodOf, blockedFor, qualities, showFaceOf } from '../../worker/takeoff/bad-wood.ts';
import { longestClearNm } from '../../worker/takeoff/clear-run.ts';
import { inch } from './shop-cases.ts';

type Box = readonly [from: number, to: number, left: number, right: number];
const defect = (kind: Defect['kind'], face: Defect['face'], [from, to, left, right]: Box): Defect => ({
  kind,
  face,
  fromNm: inch(from),
  toNm: inch(to),
  leftNm: inch(left),
  rightNm: inch(right),
});
const face = (lengthIn: number, widthIn: number, defects: Defect[]) => ({
  lengthNm: inch(lengthIn),
  widthNm: inch(widthIn),
  defects,
});
const whole = (lengthIn: number, widthIn: number) => ({
  fromNm: 0,
  toNm: inch(lengthIn),
  leftNm: 0,
  rightNm: inch(widthIn),
});
/** What blanks as long as the board must not touch, by quality. */
const blockedBy = (board: ReturnType<typeof face>, endTrimNm: number) =>
  qualities.map((_, quality) => blockedFor(badWoodOf(board, endTrimNm), quality, board.lengthNm));
/** Which qualities must stay clear of a defect. */
const spoils = (one: Defect) =>
  blockedBy(face(96, 8, [one]), 0).flatMap((list, quality) => (list.length > 0 ? [qualities[quality]] : []));

const spot: Box = [30, 32, 2, 4];

test.each<[Defect['kind'], Defect['face'], readonly string[]]>([
  ['rot', 'a', ['clear-both', 'clear-one', 'sound-knots', 'hidden']],
  ['split', 'through', ['clear-both', 'clear-one', 'sound-knots', 'hidden']],
  ['knot-loose', 'b', ['clear-both', 'clear-one', 'sound-knots', 'hidden']],
  ['wane', 'b', ['clear-both', 'clear-one', 'sound-knots', 'hidden']],
  ['pith', 'a', ['clear-both', 'clear-one', 'sound-knots', 'hidden']],
  ['knot-sound', 'a', ['clear-both']],
  ['knot-sound', 'through', ['clear-both', 'clear-one']],
  ['stain', 'a', ['clear-both']],
  ['saw-mark', 'a', ['clear-both', 'sound-knots']],
  ['worm', 'through', ['clear-both', 'clear-one', 'sound-knots']],
  ['check', 'a', ['clear-both', 'sound-knots']],
  // Sound cuttings of the hardwood grading rules take stain and streaks, never shake (from memory); the rest common practice.
  ['shake', 'a', ['clear-both', 'clear-one', 'sound-knots', 'hidden']],
  ['sapwood', 'a', ['clear-both']],
  ['gum', 'through', ['clear-both', 'clear-one']],
  ['bark-pocket', 'through', ['clear-both', 'clear-one', 'sound-knots']],
])('a %s on face %s spoils: %j', (kind, side, spoilt) => {
  expect(spoils(defect(kind, side, spot))).toEqual(spoilt);
});

test('casework takes a check of 3 in, not one of 4 in', () => {
  expect(spoils(defect('check', 'a', [30, 33, 2, 2.25]))).not.toContain('hidden');
  expect(spoils(defect('check', 'a', [30, 34, 2, 2.25]))).toContain('hidden');
});

test.each(['check', 'split'] as const)(
  'blanks keep the end trim clear of a %s along the grain, not across it',
  (kind) => {
    // It runs further than it shows: common practice, no source.
    const crack = defect(kind, 'through', [40, 48, 3, 3.25]);
    const list = blockedBy(face(96, 8, [crack]), inch(1))[qualities.indexOf('hidden')] ?? [];
    expect(list).toEqual([{ ...crack, fromNm: inch(39), toNm: inch(49) }]);
    expect(longestClearNm(whole(96, 8), list, inch(8))).toBe(inch(47));
    // A strip of 4 3/4 in still runs beside it.
    expect(longestClearNm(whole(96, 8), list, inch(4.75))).toBe(inch(96));
  },
);

test('a check at the end of a board ends with it, and a knot stays as it is', () => {
  const atEnd = defect('check', 'a', [92, 96, 3, 3.25]);
  const knot = defect('knot-loose', 'a', [40, 42, 3, 5]);
  expect(blockedBy(face(96, 8, [atEnd, knot]), inch(1))[qualities.indexOf('hidden')]).toEqual([
    { ...atEnd, fromNm: inch(91) },
    knot,
  ]);
});

test('a check that casework takes is judged by what shows of it', () => {
  expect(
    blockedBy(face(96, 8, [defect('check', 'a', [30, 33, 2, 2.25])]), inch(1))[qualities.indexOf('hidden')],
  ).toEqual([]);
});

test('the show face is the one with less of it spoiled', () => {
  const small = defect('knot-sound', 'b', [10, 11, 1, 2]);
  const large = defect('stain', 'a', [40, 60, 0, 4]);
  expect(blockedBy(face(96, 8, [small, large]), inch(1))[qualities.indexOf('clear-one')]).toEqual([small]);
});

describe('one clear face', () => {
  const clearOne = qualities.indexOf('clear-one');
  const stainA = defect('stain', 'a', [4, 20, 0, 4]);
  const knotB = defect('knot-sound', 'b', [70, 72, 2, 4]);
  const bad = badWoodOf(face(96, 8, [stainA, knotB]), 0);

  test('short blanks find it on either face; one that could reach both lies clear of the lesser', () => {
    expect(blockedFor(bad, clearOne, inch(50))).toEqual([]);
    expect(blockedFor(bad, clearOne, inch(50.5))).toEqual([knotB]);
    const at = (from: number, to: number) => ({ fromNm: inch(from), toNm: inch(to), leftNm: 0, rightNm: inch(8) });
    expect(showFaceOf(bad, clearOne, at(0, 40))).toBe('b');
    expect(showFaceOf(bad, clearOne, at(40, 96))).toBe('a');
    expect(showFaceOf(bad, clearOne, at(21, 69))).toBe('either');
    expect(showFaceOf(bad, clearOne, at(0, 96))).toBe('none');
  });

  test('each stretch where bad wood of both faces hangs together has its own show face', () => {
    const pair = (from: number, worse: 'a' | 'b') => [
      defect('stain', worse, [from, from + 10, 0, 4]),
      defect('knot-sound', worse === 'a' ? 'b' : 'a', [from + 12, from + 13, 0, 1]),
    ];
    const [near, far] = [pair(5, 'a'), pair(70, 'b')];
    expect(blockedFor(badWoodOf(face(96, 8, [...near, ...far]), 0), clearOne, inch(30))).toEqual([near[1], far[1]]);
  });

  test('any blank clear of what is blocked for its length has a face without a defect', () => {
    const box = fc
      .tuple(fc.integer({ min: 0, max: 90 }), fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 7 }))
      .map(([from, length, left]): Box => [from, Math.min(96, from + length), left, left + 1]);
    const spots = fc.array(fc.tuple(fc.constantFrom('a' as const, 'b' as const), box), { maxLength: 8 });
    fc.assert(
      fc.property(spots, box, (list, [from, to, left, right]) => {
        const defects = list.map(([side, where]) => defect('stain', side, where));
        const blank = { fromNm: inch(from), toNm: inch(to), leftNm: inch(left), rightNm: inch(right) };
        const touched = (one: Defect) =>
          Math.max(one.fromNm, blank.fromNm) < Math.min(one.toNm, blank.toNm) &&
          Math.max(one.leftNm, blank.leftNm) < Math.min(one.rightNm, blank.rightNm);
        const wood = badWoodOf(face(96, 8, defects), 0);
        if (blockedFor(wood, clearOne, blank.toNm - blank.fromNm).some((one) => touched(one as Defect))) return;
        const shown = showFaceOf(wood, clearOne, blank);
        expect(shown).not.toBe('none');
        if (shown === 'a' || shown === 'b')
          expect(defects.filter((one) => one.face === shown && touched(one))).toEqual([]);
        else expect(defects.filter(touched)).toEqual([]);
      }),
      { numRuns: 2000 },
    );
  });
});

// Red-oak boards of the USDA Forest Service 1998 data bank (NE-245), front faces; clear cuttings as recorded with them.
const WANE_1392 = [
  [0, 8.5, 4.5, 5],
  [8.75, 17, 4.75, 5],
  [0.5, 24, 0, 0.5],
  [24, 40.5, 0, 0.25],
] as const;
const WANE_0390 = [
  [0, 7, 7.5, 8.25],
  [44.5, 54.25, 0, 0.25],
  [0, 15.5, 0, 1.75],
] as const;

test.each<[string, number, number, number, number, readonly Box[]]>([
  ['2396', 49, 4.5, 3.75, 49, [[14, 16, 0, 0.75]]],
  ['1392', 96, 5, 5, 55.5, WANE_1392],
  ['0390', 135, 8.25, 5, 128, WANE_0390],
])('board %s, %d x %d in, gives a clear strip %d in wide of %d in', (_, length, width, strip, clear, boxes) => {
  const blocked = boxes.map((box) => defect('wane', 'a', box));
  expect(longestClearNm(whole(length, width), blocked, inch(strip))).toBeGreaterThanOrEqual(inch(clear));
  expect(longestClearNm(whole(length, width), blocked, inch(width + 0.25))).toBe(0);
});

test('a strip as wide as the board runs between the knots', () => {
  const knots = [defect('knot-sound', 'a', [20, 22, 3, 4]), defect('knot-sound', 'a', [70, 71, 0, 1])];
  expect(longestClearNm(whole(96, 6), knots, inch(6))).toBe(inch(48));
});
