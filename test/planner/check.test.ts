/** A good plan passes the check; a plan damaged in any one way is caught, and the fault says how. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { achievedBy, checkLayout, checkSolution, restWorth } from '../../worker/planner/check.ts';
import { replayCuts } from '../../worker/planner/check-replay.ts';
import type { BoardLayout, Problem, Solution } from '../../worker/planner/problem.ts';
import { sawnBoard } from './check-layouts.ts';

/**
 * A walnut board of 2400 x 200 mm, blade 3: ends trimmed, one length of 900 ripped into two rails, the rest kept. Bad
 * wood for quality 0 near the far end.
 */
const problem: Problem = {
  kerf: { rip: 3, crosscut: 3 },
  maxStages: 2,
  boards: [
    {
      tag: 'W-07',
      length: 2400,
      width: 200,
      count: 1,
      cost: 100,
      blocked: [[{ from: 1500, to: 1600, left: 0, right: 50 }], []],
      fits: [
        { length: 900, width: 90 },
        { length: 500, width: 200 },
      ],
    },
    { tag: 'W-08', length: 1000, width: 150, count: null, cost: 50, blocked: [[], []], fits: null },
  ],
  blanks: [
    { part: 'rail', length: 900, width: 90, quantity: 2, value: 60, tier: 1, quality: 0, matchGroup: null },
    { part: 'shelf', length: 480, width: 190, quantity: 1, value: 40, tier: 2, quality: 1, matchGroup: null },
  ],
  objective: 'net',
  rest: { lengthMin: 300, widthMin: 50, perArea: 0.0001, lengthRef: 300, lengthPower: 1, widthRef: 50, widthPower: 0 },
};
const layout: BoardLayout = {
  board: 0,
  pieces: [
    { blank: 0, from: 28, to: 928, left: 0, right: 90 },
    { blank: 0, from: 28, to: 928, left: 93, right: 183 },
    { blank: 1, from: 931, to: 1431, left: 0, right: 200 },
  ],
  cuts: [
    { axis: 'crosscut', of: { from: 0, to: 2400, left: 0, right: 200 }, at: 25, kerf: 3 },
    { axis: 'crosscut', of: { from: 28, to: 2400, left: 0, right: 200 }, at: 928, kerf: 3 },
    { axis: 'crosscut', of: { from: 931, to: 2400, left: 0, right: 200 }, at: 1431, kerf: 3 },
    { axis: 'rip', of: { from: 28, to: 928, left: 0, right: 200 }, at: 90, kerf: 3 },
    { axis: 'rip', of: { from: 28, to: 928, left: 93, right: 200 }, at: 183, kerf: 3 },
  ],
  rests: [
    { from: 0, to: 25, left: 0, right: 200 },
    { from: 28, to: 928, left: 186, right: 200 },
    { from: 1434, to: 2400, left: 0, right: 200 },
  ],
};
// Worth by hand: 60 + 60 + 40 less 100 for the board, and the rest of 966 x 200 at 0.0001 * 966 / 300 a unit of area.
const worth = 60 + 60 + 40 - 100 + 0.0001 * 966 * 200 * (966 / 300);
const solution: Solution = { layouts: [layout], achieved: worth, bound: worth + 5, placed: [2, 1], steps: 12 };

const withCut = (index: number, change: Partial<BoardLayout['cuts'][number]>): BoardLayout => ({
  ...layout,
  cuts: layout.cuts.map((cut, at) => (at === index ? { ...cut, ...change } : cut)),
});
const withPiece = (index: number, change: Partial<BoardLayout['pieces'][number]>): BoardLayout => ({
  ...layout,
  pieces: layout.pieces.map((piece, at) => (at === index ? { ...piece, ...change } : piece)),
});
const withBoard = (change: Partial<Problem['boards'][number]>): Problem => ({
  ...problem,
  boards: problem.boards.map((board, at) => (at === 0 ? { ...board, ...change } : board)),
});

test('a plan that a saw can make has no faults', () => {
  expect(checkLayout(problem, layout)).toEqual([]);
  expect(checkSolution(problem, solution)).toEqual([]);
  expect(checkSolution({ ...problem, objective: 'value' }, { ...solution, achieved: worth + 100, bound: 999 })).toEqual(
    [],
  );
});

describe('each kind of damage to a layout is named', () => {
  const cases: readonly (readonly [string, BoardLayout, Problem, RegExp])[] = [
    ['a board that is not there', { ...layout, board: 7 }, problem, /board 7: the problem has only 2 boards/],
    ['a place off the grid', withPiece(0, { from: 28.5 }), problem, /28\.5-928 along.* is not a piece of wood/],
    ['a piece turned inside out', withPiece(0, { to: 20 }), problem, /28-20 along.* is not a piece of wood/],
    ['a blank that is not there', withPiece(0, { blank: 9 }), problem, /piece 1 is of blank 9, there are only 2/],
    ['a piece outside the board', withPiece(1, { left: 120, right: 210 }), problem, /outside the board of 2400 x 200/],
    ['a piece of the wrong size', withPiece(2, { to: 1430 }), problem, /shelf .* is 499 x 200, it must be 500 x 200/],
    ['a board that cannot give the part', layout, withBoard({ fits: [null, null] }), /rail .*cannot give it/],
    ['fits that ask for another size', layout, withBoard({ fits: null }), /shelf .* it must be 480 x 190/],
    [
      'a knot in a clear part',
      layout,
      withBoard({ blocked: [[{ from: 900, to: 940, left: 80, right: 92 }], []] }),
      /rail at 28-928 along, 0-90 across touches the bad wood 900-940 along, 80-92 across/,
    ],
    ['nothing known of bad wood', layout, withBoard({ blocked: [[]] }), /what quality 1 must be clear of/],
    ['pieces on top of each other', withPiece(1, { left: 80, right: 170 }), problem, /pieces overlap: 28-928/],
    ['no room for the blade', withPiece(1, { left: 92, right: 182 }), problem, /no room for the blade .* 2 across/],
    [
      'a cut in stock that is gone',
      withCut(4, { of: layout.cuts[3]!.of }),
      problem,
      /cut 5 .*no piece of stock 28-928/,
    ],
    ['cuts out of order', { ...layout, cuts: [...layout.cuts].reverse() }, problem, /cut 1 .*no piece of stock/],
    [
      'a cut along the wrong axis',
      withCut(3, { axis: 'crosscut' }),
      problem,
      /do not free the piece 28-928 along, 0-90 across/,
    ],
    ['a blade of another width', withCut(3, { kerf: 2 }), problem, /blade takes 2, a rip takes 3/],
    ['a blade in thin air', withCut(3, { at: 200 }), problem, /200-203 passes beside the stock 0-200/],
    ['a blade off the grid', withCut(3, { at: 90.5 }), problem, /90\.5 over 3 is not on the grid/],
    [
      'a cut left out',
      { ...layout, cuts: layout.cuts.slice(0, 4) },
      problem,
      /do not free the piece 28-928 along, 93-183/,
    ],
    ['a rest forgotten', { ...layout, rests: layout.rests.slice(1) }, problem, /leave 0-25 along.* does not list/],
    [
      'a rest counted twice',
      { ...layout, rests: [...layout.rests, layout.rests[0]!] },
      problem,
      /do not free the rest/,
    ],
    [
      'wood that does not add up',
      { ...layout, rests: layout.rests.slice(1) },
      problem,
      /480000,.* 5000 unaccounted for/,
    ],
    ['too many stages', layout, { ...problem, maxStages: 1 }, /takes 2 stages of cutting, at most 1/],
  ];
  test.each(cases)('%s', (_, damaged, on, fault) => {
    expect(checkLayout(on, damaged).join('\n')).toMatch(fault);
  });

  test('a piece past any one side of the board', () => {
    for (const [piece, at] of [
      [{ from: -1, to: 899, left: 0, right: 90 }, '-1-899'],
      [{ from: 1501, to: 2401, left: 0, right: 90 }, '1501-2401'],
      [{ from: 0, to: 900, left: -1, right: 89 }, '0-900'],
      [{ from: 0, to: 900, left: 111, right: 201 }, '0-900'],
    ] as const) {
      const off: BoardLayout = { ...layout, pieces: [{ blank: 0, ...piece }] };
      expect(checkLayout(problem, off).join('\n')).toContain(`rail at ${at}`);
      expect(checkLayout(problem, off).join('\n')).toContain('reaches outside');
    }
  });

  test('a piece or rest of no size', () => {
    for (const none of [
      { from: 5, to: 5, left: 0, right: 9 },
      { from: 0, to: 9, left: 5, right: 5 },
    ])
      expect(checkLayout(problem, { ...layout, rests: [none] }).join('\n')).toMatch(/is not a piece of wood/);
  });

  test('a blade that only brushes the stock, or has no width and lies on its edge', () => {
    const of = { from: 0, to: 100, left: 0, right: 50 };
    const sawn = (at: number, kerf: number) =>
      replayCuts({ length: 100, width: 50 }, [{ axis: 'rip', of, at, kerf }], { rip: kerf, crosscut: kerf });
    for (const [at, kerf] of [
      [-3, 3],
      [50, 3],
      [0, 0],
      [50, 0],
    ] as const)
      expect(sawn(at, kerf).faults.join()).toMatch(/passes beside the stock 0-50/);
    expect(sawn(-2, 3)).toMatchObject({ faults: [], left: [{ from: 0, to: 100, left: 1, right: 50 }], kerfArea: 100n });
    expect(sawn(49, 3)).toMatchObject({ faults: [], left: [{ from: 0, to: 100, left: 0, right: 49 }], kerfArea: 100n });
    expect(sawn(20, 0)).toMatchObject({ faults: [], kerfArea: 0n, stages: 1 });
  });

  test('a stage is a change of axis on the way to one piece', () => {
    const board = { length: 100, width: 60 };
    const cuts = [
      { axis: 'crosscut', of: { from: 0, to: 100, left: 0, right: 60 }, at: 20, kerf: 0 },
      { axis: 'crosscut', of: { from: 20, to: 100, left: 0, right: 60 }, at: 40, kerf: 0 },
      { axis: 'crosscut', of: { from: 40, to: 100, left: 0, right: 60 }, at: 60, kerf: 0 },
      { axis: 'rip', of: { from: 20, to: 40, left: 0, right: 60 }, at: 30, kerf: 0 },
      { axis: 'rip', of: { from: 60, to: 100, left: 0, right: 60 }, at: 30, kerf: 0 },
      { axis: 'crosscut', of: { from: 60, to: 100, left: 30, right: 60 }, at: 80, kerf: 0 },
    ] as const;
    const stagesAfter = (count: number) => replayCuts(board, cuts.slice(0, count), { rip: 0, crosscut: 0 }).stages;
    expect([0, 1, 2, 3, 4, 5, 6].map(stagesAfter)).toEqual([0, 1, 1, 1, 2, 2, 3]);
  });

  test('a blade that leaves nothing', () => {
    const sliver: BoardLayout = {
      board: 0,
      pieces: [],
      cuts: [
        { axis: 'crosscut', of: { from: 0, to: 2400, left: 0, right: 200 }, at: 2, kerf: 3 },
        { axis: 'crosscut', of: { from: 0, to: 2, left: 0, right: 200 }, at: -1, kerf: 3 },
      ],
      rests: [{ from: 5, to: 2400, left: 0, right: 200 }],
    };
    expect(checkLayout(problem, sliver).join('\n')).toMatch(/turns all of the stock 0-2 to sawdust/);
  });

  test('a word that is no cut', () => {
    const cut = JSON.parse(JSON.stringify(layout.cuts[0]).replace('crosscut', 'mitre'));
    expect(checkLayout(problem, { ...layout, cuts: [cut] }).join('\n')).toMatch(/not mitre/);
  });
});

describe('each kind of damage to a plan is named', () => {
  const empty: BoardLayout = { board: 1, pieces: [], cuts: [], rests: [{ from: 0, to: 1000, left: 0, right: 150 }] };
  const fewer: BoardLayout = {
    board: 1,
    pieces: [{ blank: 0, from: 0, to: 900, left: 0, right: 90 }],
    cuts: [
      { axis: 'crosscut', of: { from: 0, to: 1000, left: 0, right: 150 }, at: 900, kerf: 3 },
      { axis: 'rip', of: { from: 0, to: 900, left: 0, right: 150 }, at: 90, kerf: 3 },
    ],
    rests: [
      { from: 903, to: 1000, left: 0, right: 150 },
      { from: 0, to: 900, left: 93, right: 150 },
    ],
  };
  const boards: Problem = { ...problem, objective: 'boards' };
  const cases: readonly (readonly [string, Problem, Solution, RegExp])[] = [
    ['a fault in a layout', problem, { ...solution, layouts: [withCut(3, { at: 91 })] }, /W-07: the cuts do not free/],
    [
      'a board used twice',
      problem,
      { ...solution, layouts: [layout, layout] },
      /W-07: cut up 2 times, there are only 1/,
    ],
    ['a board opened for nothing', problem, { ...solution, layouts: [layout, empty] }, /W-08: opened, but nothing/],
    ['more than wanted', problem, { ...solution, layouts: [layout, fewer] }, /rail: 3 placed, only 2 wanted/],
    ['a false count', problem, { ...solution, placed: [2, 0] }, /shelf: 0 stated as placed, the layouts hold 1/],
    ['a count left out', problem, { ...solution, placed: [2] }, /of 1 blanks, there are 2/],
    ['a false figure', problem, { ...solution, achieved: worth + 0.01 }, /as achieved, the layouts come to/],
    ['a figure that is none', problem, { ...solution, achieved: Number.NaN }, /states NaN/],
    ['a bound that is beaten', problem, { ...solution, bound: worth - 0.01 }, /is beaten by/],
    [
      'more boards proven needed than used',
      { ...boards, blanks: [problem.blanks[0]!].map((blank) => ({ ...blank, quantity: 1 })) },
      { layouts: [fewer], achieved: 1, bound: 2, placed: [1], steps: 1 },
      /bound 2 is beaten/,
    ],
    [
      'blanks left over although boards are plenty',
      boards,
      { layouts: [fewer], achieved: 1, bound: 1, placed: [1, 0], steps: 1 },
      /rail: 1 of 2 placed, though W-08 gives as many as needed/,
    ],
  ];
  test.each(cases)('%s', (_, on, damaged, fault) => {
    expect(checkSolution(on, damaged).join('\n')).toMatch(fault);
  });

  test('a blank left over is no fault where no plentiful board surely gives it', () => {
    const none = { layouts: [fewer], achieved: 1, bound: 1, placed: [1, 0], steps: 1 };
    const only = (change: Partial<Problem['boards'][number]>): Problem => ({
      ...boards,
      boards: boards.boards.map((board, at) => (at === 1 ? { ...board, ...change } : board)),
    });
    const leftOver = /as many as needed/;
    const exact = { length: 900, width: 90 };
    expect(checkSolution(boards, none).join('\n')).toMatch(/rail: .*as many as needed/);
    expect(checkSolution(only({ count: 5 }), none).join('\n')).not.toMatch(leftOver);
    expect(checkSolution(only({ fits: [null, null] }), none).join('\n')).not.toMatch(leftOver);
    expect(checkSolution(only({ fits: [exact, null], ...exact }), none).join('\n')).toMatch(/rail: .*as many as/);
    expect(checkSolution(only({ fits: [exact, null], length: 899 }), none).join('\n')).not.toMatch(leftOver);
    expect(checkSolution(only({ fits: [exact, null], width: 89 }), none).join('\n')).not.toMatch(leftOver);
    const knot = { from: 0, to: 1, left: 0, right: 1 };
    expect(checkSolution(only({ fits: [exact, null], blocked: [[knot], []] }), none).join('\n')).not.toMatch(leftOver);
  });

  test('all blanks from two boards is a good plan', () => {
    const rails: Problem = { ...boards, blanks: problem.blanks.slice(0, 1) };
    expect(checkSolution(rails, { layouts: [fewer, fewer], achieved: 2, bound: 2, placed: [2], steps: 1 })).toEqual([]);
  });
});

test('a rest is worth nothing below the smallest size', () => {
  expect(restWorth(problem.rest, { from: 0, to: 299, left: 0, right: 50 })).toBe(0);
  expect(restWorth(problem.rest, { from: 0, to: 300, left: 0, right: 49 })).toBe(0);
  expect(restWorth(problem.rest, { from: 0, to: 300, left: 0, right: 50 })).toBeCloseTo(1.5, 12);
  expect(restWorth(problem.rest, { from: 0, to: 600, left: 0, right: 50 })).toBeCloseTo(6, 12);
  // 0.0001 of 600 x 100, twice as long and twice as wide as the reference: times 2 and times 2 squared.
  const wide = { ...problem.rest!, widthPower: 2 };
  expect(restWorth(wide, { from: 0, to: 600, left: 0, right: 100 })).toBeCloseTo(0.0001 * 600 * 100 * 2 * 4, 12);
  expect(restWorth(null, { from: 0, to: 600, left: 0, right: 50 })).toBe(0);
});

describe('boards sawn at random', () => {
  const statedBy = (sawn: { problem: Problem; layout: BoardLayout }): Solution => {
    const achieved = achievedBy(sawn.problem, [sawn.layout]);
    const placed = sawn.problem.blanks.map(
      (_, blank) => sawn.layout.pieces.filter((piece) => piece.blank === blank).length,
    );
    return { layouts: [sawn.layout], achieved, bound: achieved, placed, steps: 0 };
  };

  test('whatever a saw can do passes', () => {
    fc.assert(
      fc.property(sawnBoard, (sawn) => {
        expect(checkSolution(sawn.problem, statedBy(sawn))).toEqual([]);
      }),
    );
  });

  test('a cut moved, left out, doubled or widened is caught', () => {
    fc.assert(
      fc.property(sawnBoard, fc.nat(), fc.integer({ min: 1, max: 5 }), fc.nat({ max: 4 }), (sawn, pick, by, how) => {
        const { cuts } = sawn.layout;
        fc.pre(cuts.length > 0);
        const index = pick % cuts.length;
        const cut = cuts[index]!;
        const changed =
          how === 0
            ? cuts.with(index, { ...cut, at: cut.at + by })
            : how === 1
              ? cuts.toSpliced(index, 1)
              : how === 2
                ? cuts.toSpliced(index, 0, cut)
                : how === 3
                  ? cuts.with(index, { ...cut, kerf: cut.kerf + by })
                  : cuts.with(index, { ...cut, of: { ...cut.of, to: cut.of.to + by } });
        expect(checkLayout(sawn.problem, { ...sawn.layout, cuts: changed })).not.toEqual([]);
      }),
    );
  });

  test('a piece or rest moved, stretched, dropped or doubled is caught', () => {
    fc.assert(
      fc.property(sawnBoard, fc.nat(), fc.integer({ min: 1, max: 9 }), fc.nat({ max: 3 }), (sawn, pick, by, how) => {
        const { pieces, rests } = sawn.layout;
        const shift = <T extends { from: number; to: number; left: number; right: number }>(
          list: readonly T[],
        ): T[] => {
          const index = pick % list.length;
          const one = list[index]!;
          if (how === 0) return list.with(index, { ...one, from: one.from + by, to: one.to + by });
          if (how === 1) return list.with(index, { ...one, right: one.right + by });
          return how === 2 ? list.toSpliced(index, 1) : list.toSpliced(index, 0, one);
        };
        expect(checkLayout(sawn.problem, { ...sawn.layout, pieces: shift(pieces) })).not.toEqual([]);
        if (rests.length > 0)
          expect(checkLayout(sawn.problem, { ...sawn.layout, rests: shift(rests) })).not.toEqual([]);
      }),
    );
  });
});
