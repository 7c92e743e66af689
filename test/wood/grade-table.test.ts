/** The grade table row by row, where a surface measure lets an extra cutting in and where it no longer does (grade table, second hand). */
import { describe, expect, test } from 'vitest';
import { gradeAdvice, readGrade } from '../../worker/wood/grade.ts';
import { type FaceGrade, gradeNeeds } from '../../worker/wood/grade-rule.ts';
import { NM_PER_INCH as IN } from '../../worker/wood/unit.ts';

const asks = (grade: FaceGrade, sm: number) =>
  gradeNeeds(grade, sm).map(
    ({ cuttings, units, fullWidth }) => `${cuttings}: ${units}${fullWidth ? ' full width' : ''}`,
  );

describe('basic yield, cuttings SM/4 up to 4, one more for SM 6 to 15, two full-width ones for SM 6 to 12', () => {
  test.each([
    [3, []],
    [4, ['1: 40']],
    [5, ['1: 50']],
    [6, ['1: 60', '2: 66', '2: 69.84 full width']],
    [12, ['3: 120', '4: 132', '2: 139.68 full width']],
    [13, ['3: 130', '4: 143']],
    [15, ['3: 150', '4: 165']],
    [16, ['4: 160']],
    [40, ['4: 400']],
  ])('FAS of %i ft²', (sm, needs) => expect(asks('FAS', sm)).toEqual(needs));
});

describe('two thirds, cuttings (SM + 1)/3 up to 5, one more for SM 3 to 10', () => {
  test.each([
    [1, ['1: 12']],
    [2, ['1: 18']],
    [3, ['1: 24', '2: 27']],
    [10, ['3: 80', '4: 90']],
    [11, ['4: 88']],
    [20, ['5: 160']],
  ])('No. 1 Common of %i ft²', (sm, needs) => expect(asks('No.1C', sm)).toEqual(needs));
});

describe('a half, cuttings SM/2 up to 7, one more for SM 2 to 7', () => {
  test.each([
    [1, ['1: 8']],
    [2, ['1: 12', '2: 16']],
    [7, ['3: 42', '4: 56']],
    [8, ['4: 48']],
    [20, ['7: 120']],
  ])('No. 2A Common of %i ft²', (sm, needs) => expect(asks('No.2A', sm)).toEqual(needs));
});

test('No. 3A Common asks a third in any number of cuttings', () => {
  expect(asks('No.3A', 9)).toEqual(['12: 36']);
});

test("a bill's words for a grade, and words that are none", () => {
  const words = ['FAS', '#1 Com', '2AC', 'Sel & Btr', 'F1F', 'No. 3A Common', 'rustic', ''];
  expect(words.map(readGrade)).toEqual(['FAS', 'No.1C', 'No.2A', 'Selects', 'F1F', 'No.3A', null, null]);
});

describe('limits of FAS on a clear 8 in × 10 ft board, surface measure 7 (grade table, second hand)', () => {
  const board = { widthNm: 8 * IN, lengthNm: 120 * IN };
  const knot = (inches: number) => ({
    face: 'a' as const,
    kind: 'knot-sound' as const,
    ...{ fromNm: 0, toNm: inches * IN, leftNm: 0, rightNm: inches * IN },
  });
  const split = (inches: number) => ({ ...knot(1), kind: 'split' as const, face: 'b' as const, toNm: inches * IN });
  const wane = (fromIn: number, toIn: number, edge: 'left' | 'right') => ({
    face: 'a' as const,
    kind: 'wane' as const,
    ...{ fromNm: fromIn * IN, toNm: toIn * IN },
    ...(edge === 'left' ? { leftNm: 0, rightNm: IN / 2 } : { leftNm: 7.5 * IN, rightNm: 8 * IN }),
  });
  const notes = (...defects: Parameters<typeof gradeAdvice>[1]) => gradeAdvice(board, defects).notes;

  test('a knot up to a third of the surface measure in inches', () => {
    expect(notes(knot(2.25))).toEqual([]);
    expect(notes(knot(2.4)).join()).toContain('a knot is wider than a third of the surface measure in inches (2.3 in)');
  });
  test('splits up to twice the surface measure in inches', () => {
    expect(notes(split(14))).toEqual([]);
    expect(notes(split(14.5)).join()).toContain('splits are longer than 14 in');
  });
  test('wane along half of each edge, the two edges counted apart, other defects not with it', () => {
    expect(notes(wane(0, 60, 'left'), wane(60, 120, 'right'))).toEqual([]);
    expect(notes(wane(0, 30, 'left'), wane(60, 91, 'left')).join()).toContain(
      'wane runs along more than half of an edge',
    );
    expect(notes(wane(0, 30, 'right'), wane(60, 91, 'right')).join()).toContain('wane runs along more than half');
    expect(notes(wane(0, 60, 'left'), { ...wane(60, 80, 'left'), kind: 'stain' })).toEqual([]);
  });
  test('of two faces alike in grade the one with more in its cuttings is the better', () => {
    const shortB = { ...knot(1), face: 'b' as const, toNm: 6 * IN };
    expect([
      gradeAdvice(board, [shortB]).better.face,
      gradeAdvice(board, [{ ...shortB, face: 'a' }]).better.face,
    ]).toEqual(['a', 'b']);
  });
});
