/** Boards and blanks at random, and a short way to write a problem down. */
import * as fc from 'fast-check';
import type { Blank, Problem, Rect, StockBoard } from '../../worker/planner/problem.ts';

export function blankOf(part: string, length: number, width: number, more: Partial<Blank> = {}): Blank {
  return { part, length, width, quantity: 1, value: length * width, tier: 1, quality: 0, matchGroup: null, ...more };
}

export function boardOfSize(tag: string, length: number, width: number, more: Partial<StockBoard> = {}): StockBoard {
  return { tag, length, width, count: 1, cost: 0, blocked: [[], []], fits: null, ...more };
}

export function problemWith(
  boards: readonly StockBoard[],
  blanks: readonly Blank[],
  more: Partial<Problem> = {},
): Problem {
  return { kerf: { rip: 3, crosscut: 3 }, maxStages: null, boards, blanks, objective: 'value', rest: null, ...more };
}

/** Cracks with no width, too. */
const rectIn = (length: number, width: number): fc.Arbitrary<Rect> =>
  fc
    .record({
      from: fc.nat(length - 1),
      left: fc.nat(width - 1),
      long: fc.integer({ min: 0, max: Math.max(1, Math.floor(length / 5)) }),
      wide: fc.integer({ min: 0, max: Math.max(1, Math.floor(width / 3)) }),
    })
    .map(({ from, left, long, wide }) => ({ from, left, to: from + long, right: left + wide }));

/** Knots count against one-face blanks; stain counts only against blanks that show both faces. */
const randomBoard = (tag: string): fc.Arbitrary<StockBoard> =>
  fc
    .record({ length: fc.integer({ min: 300, max: 3000 }), width: fc.integer({ min: 60, max: 300 }) })
    .chain(({ length, width }) =>
      fc
        .record({
          knots: fc.array(rectIn(length, width), { maxLength: 6 }),
          stain: fc.array(rectIn(length, width), { maxLength: 2 }),
          cost: fc.integer({ min: 0, max: 60_000 }),
        })
        .map(({ knots, stain, cost }) =>
          boardOfSize(tag, length, width, { cost, blocked: [knots, [...knots, ...stain]] }),
        ),
    );

const randomBlank = (part: string): fc.Arbitrary<Blank> =>
  fc
    .record({
      length: fc.integer({ min: 40, max: 1500 }),
      width: fc.integer({ min: 20, max: 140 }),
      quantity: fc.integer({ min: 1, max: 6 }),
      quality: fc.nat(1),
      tier: fc.integer({ min: 1, max: 2 }),
    })
    .map(({ length, width, ...more }) => blankOf(part, length, width, more));

export const randomYard = (objective: Problem['objective'], boardsMost: number): fc.Arbitrary<Problem> =>
  fc
    .record({
      boards: fc.integer({ min: 1, max: boardsMost }),
      blanks: fc.integer({ min: 1, max: 6 }),
      rip: fc.integer({ min: 0, max: 4 }),
      crosscut: fc.integer({ min: 0, max: 4 }),
      maxStages: fc.constantFrom(null, null, 4),
    })
    .chain(({ boards, blanks, rip, crosscut, maxStages }) =>
      fc
        .record({
          boards: fc.tuple(...Array.from({ length: boards }, (_, i) => randomBoard(`W-${i + 1}`))),
          blanks: fc.tuple(...Array.from({ length: blanks }, (_, i) => randomBlank(`part ${i + 1}`))),
        })
        .map((made) => problemWith(made.boards, made.blanks, { objective, kerf: { rip, crosscut }, maxStages })),
    );

/** Small enough to try every cut. */
export const smallBoard: fc.Arbitrary<Problem> = fc
  .record({ length: fc.integer({ min: 4, max: 9 }), width: fc.integer({ min: 2, max: 5 }), kerf: fc.nat(1) })
  .chain(({ length, width, kerf }) =>
    fc
      .record({
        knots: fc.array(rectIn(length, width), { maxLength: 2 }),
        blanks: fc.array(
          fc.record({
            long: fc.integer({ min: 2, max: length }),
            wide: fc.integer({ min: 1, max: width }),
            quantity: fc.integer({ min: 1, max: 2 }),
            value: fc.integer({ min: 5, max: 60 }),
          }),
          { minLength: 1, maxLength: 3 },
        ),
      })
      .map(({ knots, blanks }) =>
        problemWith(
          [boardOfSize('W-01', length, width, { blocked: [knots] })],
          blanks.map(({ long, wide, ...more }, i) => blankOf(`part ${i}`, long, wide, more)),
          { kerf: { rip: kerf, crosscut: kerf } },
        ),
      ),
  );
