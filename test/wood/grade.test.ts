import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FaceRect } from '../../worker/wood/face-rect.ts';
import { type GradeDefect, type GradeDefectKind, gradeAdvice, isLarge } from '../../worker/wood/grade.ts';
import { bestCuttings, cuttingUnits, totalUnits } from '../../worker/wood/grade-cuttings.ts';
import { gradeNeeds, gradeRules, SELECTS_BOARD_MIN } from '../../worker/wood/grade-rule.ts';
import { NM_PER_FOOT as FT, NM_PER_INCH as IN } from '../../worker/wood/unit.ts';
import { surfaceMeasure, surfaceMeasureUnrounded } from '../../worker/wood/volume.ts';

const rect = (from: number, left: number, to: number, right: number): FaceRect => ({
  fromNm: from * IN,
  toNm: to * IN,
  leftNm: left * IN,
  rightNm: right * IN,
});
const board = (widthInch: number, lengthInch: number) => ({ widthNm: widthInch * IN, lengthNm: lengthInch * IN });
type At = readonly [from: number, left: number, to: number, right: number];
const on = (face: 'a' | 'b', kind: GradeDefectKind, ...at: readonly At[]): GradeDefect[] =>
  at.map((places) => ({ face, kind, ...rect(...places) }));

describe('what a grade asks (grade table, second hand)', () => {
  test.each([
    {
      row: '21',
      grade: 'FAS',
      sm: 8,
      asks: [
        [2, 80],
        [3, 88],
      ],
    },
    {
      row: '22',
      grade: 'FAS',
      sm: 10,
      asks: [
        [2, 100],
        [3, 110],
      ],
    },
    { row: '24', grade: 'FAS', sm: 20, asks: [[4, 200]] },
    {
      row: '26',
      grade: 'No.2A',
      sm: 6,
      asks: [
        [3, 36],
        [4, 48],
      ],
    },
    {
      row: 'in the text',
      grade: 'No.1C',
      sm: 5,
      asks: [
        [2, 40],
        [3, 45],
      ],
    },
  ] as const)('check value $row: $grade of $sm ft²', ({ grade, sm, asks }) => {
    const asked = gradeNeeds(grade, sm).filter((n) => !n.fullWidth);
    expect(asked.map((n) => [n.cuttings, n.units])).toEqual(asks);
  });
  test('check value 23: FAS of 5 ft² is one cutting of 50 units and no extra one', () => {
    expect(gradeNeeds('FAS', 5)).toEqual([{ cuttings: 1, units: 50, fullWidth: false }]);
  });
  test('check value 27: 5 in × 10 ft is too narrow for FAS', () => {
    expect(isLarge(board(5, 120), gradeRules.FAS.boardMin)).toBe(false);
    expect(gradeAdvice(board(5, 120), [])).toMatchObject({ grade: 'Selects' });
  });
  test('check value 28: 4 in × 6 ft is large enough for Selects', () => {
    expect(isLarge(board(4, 72), SELECTS_BOARD_MIN)).toBe(true);
    expect(isLarge(board(4, 71.9), SELECTS_BOARD_MIN)).toBe(false);
  });
  test('check value 29: a cutting of 3 in × 6 ft does not count for FAS, 3 in × 7 ft does', () => {
    const strip = (feet: number) =>
      bestCuttings({ widthNm: 3 * IN, lengthNm: feet * FT }, [], gradeRules.FAS.cuttingMins, 1);
    expect(strip(6)[0]).toEqual([]);
    expect(totalUnits(strip(7)[0] ?? [])).toBe(21);
  });
});

describe('graded boards of the 1998 red-oak data bank (read)', () => {
  test('check value 31: board 0063, 5¾ × 96½ in: one cutting 5¾ in × 7 ft is 40.25 units, FAS needs 40', () => {
    expect(cuttingUnits(rect(0, 0, 84, 5.75))).toBeCloseTo(40.25, 10);
    const graded = gradeAdvice(board(5.75, 96.5), on('a', 'check', [84, 0, 96.5, 5.75]));
    expect(graded).toMatchObject({
      grade: 'FAS',
      surfaceMeasure: 4,
      poorer: { face: 'a', need: { cuttings: 1, units: 40 } },
    });
  });
  test.each([
    [32, 6.25, 168.75, 7, 78.46, 2],
    [33, 12.25, 121, 10, 112.48, 3],
  ])(
    'check value %i: a board %d × %d in has surface measure %d, and %d units in %d cuttings make FAS',
    (_, width, length, sm, units, cuttings) => {
      expect(surfaceMeasure(board(width, length))).toBe(sm);
      expect(gradeNeeds('FAS', sm).some((n) => n.cuttings === cuttings && n.units <= units)).toBe(true);
    },
  );
  test('board 0649, 13 × 192¾ in: surface measure 17, and its 181.94 units in 3 cuttings make FAS (170 in up to 4)', () => {
    expect(surfaceMeasure(board(13, 192.75))).toBe(17);
    expect(gradeNeeds('FAS', 17)).toEqual([{ cuttings: 4, units: 170, fullWidth: false }]);
  });
  test('check value 34: board 0145 is FAS only if its 4.5 ft² counts as 4', () => {
    expect(surfaceMeasureUnrounded(board(6, 108.75))).toBe(4.5);
    expect(surfaceMeasure(board(6, 108.75))).toBe(4);
    expect(gradeNeeds('FAS', 4)[0]?.units).toBeLessThanOrEqual(42.53);
    expect(gradeNeeds('FAS', 5)[0]?.units).toBeGreaterThan(42.53);
  });
  test('check value 36: board 0390 is FAS, and the search finds at least the 83.21 units recorded', () => {
    const defects = [
      ...on('a', 'wane', [0, 7.5, 7, 8.25], [44.5, 0, 54.25, 0.25], [0, 0, 15.5, 1.75]),
      ...on('b', 'check', [96, 6.75, 96.25, 7]),
    ];
    expect(totalUnits([rect(0, 0, 128, 5), rect(0, 5, 119.5, 8)])).toBeCloseTo(83.21, 2);
    const front = bestCuttings(
      board(8.25, 135),
      defects.filter((d) => d.face === 'a'),
      gradeRules.FAS.cuttingMins,
      2,
    );
    expect(totalUnits(front[1] ?? [])).toBeGreaterThanOrEqual(83.2);
    expect(gradeAdvice(board(8.25, 135), defects).grade).toBe('FAS');
    expect(surfaceMeasure(board(8.25, 135))).toBe(8);
  });
  test('board 1392, 5 × 96 in with wane on both edges of one face: graded No.1 Common or better', () => {
    const wane = on('a', 'wane', [0, 4.5, 8.5, 5], [8.75, 4.75, 17, 5], [0.5, 0, 24, 0.5], [24, 0, 40.5, 0.25]);
    const front = bestCuttings(board(5, 96), wane, gradeRules['No.1C'].cuttingMins, 2);
    expect(totalUnits(front[1] ?? [])).toBeGreaterThanOrEqual(36.62 - 0.01);
    expect(['No.1C', 'Selects']).toContain(gradeAdvice(board(5, 96), wane).grade);
  });
  test('board 1279, 8 × 74¼ in, clear on one face and decayed at the end of the other: Selects, as recorded', () => {
    const back = [
      ...on('b', 'wane', [0, 0, 0.5, 2.75], [0.5, 0, 1.5, 2.25], [1.5, 0, 2, 2], [2, 0, 3, 1], [3, 0, 3.5, 0.25]),
      ...on('b', 'rot', [59.25, 0.25, 61, 0.75]),
      ...on('b', 'knot-loose', [67.75, 4, 68, 5], [69, 4.5, 69.75, 5.5], [70.25, 5.25, 70.75, 6]),
      ...on('b', 'knot-loose', [69.5, 4, 70.5, 5], [70.5, 4, 71.5, 5.25], [71.5, 5, 72.5, 5.75]),
    ];
    expect(gradeAdvice(board(8, 74.25), back)).toMatchObject({ grade: 'Selects', better: { face: 'a' } });
    const cut = bestCuttings(board(8, 74.25), back, gradeRules['No.1C'].cuttingMins, 2);
    expect(totalUnits(cut[1] ?? [])).toBeGreaterThanOrEqual(42.16);
  });
  test('board 2396, 4½ × 49 in with one unsound knot: the recorded 15.31 units are found', () => {
    const knot = on('a', 'knot-loose', [14, 0, 16, 0.75]);
    const best = bestCuttings(board(4.5, 49), knot, gradeRules['No.2A'].cuttingMins, 1);
    expect(totalUnits(best[0] ?? [])).toBeCloseTo(15.31, 2);
  });
});

describe('grading a board', () => {
  test('a clear board is FAS', () => {
    expect(gradeAdvice(board(8, 120), [])).toMatchObject({ grade: 'FAS', surfaceMeasure: 7, notes: [] });
  });
  test('clear on one face and No.1 Common on the other is F1F', () => {
    const knots = on('b', 'knot-sound', [40, 3, 42, 5], [80, 3, 82, 5]);
    expect(gradeAdvice(board(8, 120), knots)).toMatchObject({
      grade: 'F1F',
      better: { face: 'a' },
      poorer: { face: 'b' },
    });
  });
  test('long wane on one face keeps a board out of FAS, says why, and leaves F1F', () => {
    const graded = gradeAdvice(board(8, 120), on('a', 'wane', [0, 0, 70, 0.25]));
    expect(graded).toMatchObject({ grade: 'F1F', better: { face: 'b' } });
    expect(graded.notes).toEqual(['wane runs along more than half of an edge']);
  });
  test.each([
    ['pith longer than the surface measure in inches', 'pith', [0, 3.9, 8, 4.1], /pith is longer than 7 in/],
    ['a knot over a third of the surface measure', 'knot-sound', [0, 0, 2.5, 2.5], /wider than a third/],
    ['long splits', 'split', [0, 3.9, 15, 4.1], /splits are longer than 14 in/],
  ] as const)('%s on both faces is No.1 Common at best', (_, kind, at, note) => {
    const graded = gradeAdvice(board(8, 120), [...on('a', kind, at), ...on('b', kind, at)]);
    expect(graded.grade).toBe('No.1C');
    expect(graded.notes.join()).toMatch(note);
  });
  test('wane wider than a third of the other face, along more than half of it, leaves no F1F', () => {
    const graded = gradeAdvice(board(8, 120), on('a', 'wane', [0, 0, 70, 2.75]));
    expect(graded.grade).toBe('No.1C');
  });
  test('rot through the whole board leaves no grade', () => {
    const rot = { face: 'through', kind: 'rot', ...rect(0, 0, 120, 8) } as const;
    expect(gradeAdvice(board(8, 120), [rot])).toMatchObject({ grade: 'below No.3A', poorer: { cuttings: [] } });
  });

  test('cuttings lie in the board, clear of what blocks them and of each other; more cuttings never hold less', () => {
    const inch = (max: number) => fc.integer({ min: 0, max: max * 4 }).map((q) => q / 4);
    const defect = fc
      .tuple(inch(116), inch(7), inch(20), inch(3))
      .map(([from, left, long, wide]) =>
        rect(from, left, Math.min(120, from + 0.25 + long), Math.min(8, left + 0.25 + wide)),
      );
    const apart = (a: FaceRect, b: FaceRect) =>
      a.toNm <= b.fromNm || b.toNm <= a.fromNm || a.rightNm <= b.leftNm || b.rightNm <= a.leftNm;
    fc.assert(
      fc.property(fc.array(defect, { maxLength: 6 }), (blocked) => {
        const found = bestCuttings(board(8, 120), blocked, gradeRules['No.2A'].cuttingMins, 4);
        for (const [at, cuttings] of found.entries()) {
          expect(cuttings.length).toBeLessThanOrEqual(at + 1);
          for (const cutting of cuttings) {
            expect(
              cutting.fromNm >= 0 && cutting.toNm <= 120 * IN && cutting.leftNm >= 0 && cutting.rightNm <= 8 * IN,
            ).toBe(true);
            expect(blocked.every((b) => apart(cutting, b))).toBe(true);
            expect(cuttings.every((other) => other === cutting || apart(cutting, other))).toBe(true);
          }
          expect(totalUnits(cuttings)).toBeGreaterThanOrEqual(totalUnits(found[at - 1] ?? []));
        }
      }),
      { numRuns: 60 },
    );
  });
});
