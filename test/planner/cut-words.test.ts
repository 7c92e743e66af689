/** What the card tells a person at the saw: every setting is measured on the stock that lies there. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkLayout } from '../../worker/planner/check.ts';
import { cutsInWords } from '../../worker/planner/cut-words.ts';
import type { BoardLayout, Problem, Rect, SawCut } from '../../worker/planner/problem.ts';
import { orderForSaw } from '../../worker/planner/saw-order.ts';
import { pieceName } from '../../worker/wood/piece-name.ts';
import { sawnBoard } from './check-layouts.ts';
import { onTheBoard } from './cut-words-board.ts';

const shown = { shown: 'in', denominator: 16 } as const;
const blank = (part: string, tier: number, length: number, width: number): Problem['blanks'][number] => ({
  part,
  length,
  width,
  quantity: null,
  value: 1,
  tier,
  quality: 0,
  matchGroup: null,
});

/**
 * 10 ft x 8 in walnut, blade 1/8 in; sixteenths. One inch off the tagged end, then 81 1/2 in ripped into two rails of
 * 3 3/4 in, 20 in ripped into two slats of 3 3/4 in, and what is left is kept.
 */
const board = { tag: 'W-07', length: 1920, width: 128, count: 1, cost: 0, blocked: [[]], fits: null };
const problem: Problem = {
  kerf: { rip: 2, crosscut: 2 },
  maxStages: null,
  boards: [board],
  blanks: [blank('Slat', 2, 320, 60), blank('Rail', 1, 1304, 60)],
  objective: 'value',
  rest: null,
};
const r = (from: number, to: number, left: number, right: number): Rect => ({ from, to, left, right });
const cut = (axis: SawCut['axis'], of: Rect, at: number): SawCut => ({ axis, of, at, kerf: 2 });
const layout: BoardLayout = {
  board: 0,
  pieces: [
    { blank: 1, ...r(16, 1320, 0, 60) },
    { blank: 1, ...r(16, 1320, 62, 122) },
    { blank: 0, ...r(1322, 1642, 0, 60) },
    { blank: 0, ...r(1322, 1642, 62, 122) },
  ],
  cuts: [
    cut('crosscut', r(0, 1920, 0, 128), 14),
    cut('crosscut', r(16, 1920, 0, 128), 1642),
    cut('crosscut', r(16, 1642, 0, 128), 1320),
    cut('rip', r(1322, 1642, 0, 128), 60),
    cut('rip', r(16, 1320, 0, 128), 60),
    cut('rip', r(16, 1320, 62, 128), 122),
    cut('rip', r(1322, 1642, 62, 128), 122),
  ],
  rests: [r(0, 14, 0, 128), r(1644, 1920, 0, 128), r(16, 1320, 124, 128), r(1322, 1642, 124, 128)],
};
const label = (piece: { blank: number }) => problem.blanks[piece.blank]!.part;

describe('the words of a cut', () => {
  const steps = cutsInWords(onTheBoard(orderForSaw(problem, layout), board, label), shown);
  test('read in the order of the saw', () => {
    expect(steps.map((step) => `${step.no} ${step.words}`)).toEqual([
      '1 Crosscut the board: trim 1" off the tagged end.',
      '2 Crosscut the board: stop at 81 1/2" from the end nearer the tag; gives length 2 (chalk 2 on it).',
      '3 Crosscut the board: stop at 20" from the end nearer the tag; gives length 3 (chalk 3 on it) and an offcut to keep, 8" × 17 1/4".',
      '4 Rip length 2: fence at 3 3/4", left edge against it; gives Rail 1.',
      '5 Rip length 2: fence at 3 3/4", left edge against it; gives Rail 2.',
      '6 Rip length 3: fence at 3 3/4", left edge against it; gives Slat 1.',
      '7 Rip length 3: fence at 3 3/4", left edge against it; gives Slat 2.',
    ]);
  });
  test('carry the setting and what lies against the fence apart, for the card', () => {
    expect(steps[4]).toMatchObject({
      stock: 'length 2',
      setting: 'fence at 3 3/4"',
      against: 'left edge',
      gives: ['Rail 2'],
    });
    expect(steps[2]).toMatchObject({ stock: 'the board', setting: 'stop at 20"', against: 'end nearer the tag' });
  });
  test('are in millimetres where the shop measures so', () => {
    const words = cutsInWords(onTheBoard(layout, board, label), { shown: 'mm', denominator: 16 }).map((s) => s.words);
    // 60 sixteenths of an inch are 95.25 mm; a metric tape shows whole millimetres, half a tenth is read as about.
    expect(words[3]).toMatch(/^Rip .* fence at ≈ 95\.[23] mm, left edge against it/);
  });
});

test('the kept piece lies between fence and blade, the waste falls free', () => {
  const one = (pieces: BoardLayout['pieces'], at: number, axis: SawCut['axis']) =>
    cutsInWords(
      onTheBoard({ board: 0, pieces, cuts: [cut(axis, r(0, 1920, 0, 128), at)], rests: [] }, board, label),
      shown,
    )[0]!.words;
  expect(one([{ blank: 1, ...r(0, 1920, 32, 128) }], 30, 'rip')).toBe(
    'Rip the board: fence at 6", right edge against it; gives Rail 1.',
  );
  expect(one([{ blank: 1, ...r(0, 1920, 0, 96) }], 96, 'rip')).toBe(
    'Rip the board: fence at 6", left edge against it; gives Rail 1.',
  );
  expect(one([{ blank: 1, ...r(1600, 1920, 0, 128) }], 1598, 'crosscut')).toBe(
    'Crosscut the board: stop at 20" from the far end; gives Rail 1.',
  );
});

test('stock that goes on is not measured: an offcut is, and waste is trimmed to a mark', () => {
  const words = (rests: Rect[], first: number) => {
    const pieces = [
      { blank: 0, ...r(first + 2, first + 322, 0, 128) },
      { blank: 0, ...r(first + 324, 1920, 0, 128) },
    ];
    const cuts = [cut('crosscut', r(0, 1920, 0, 128), first), cut('crosscut', r(first + 2, 1920, 0, 128), first + 322)];
    return cutsInWords(onTheBoard({ board: 0, pieces, cuts, rests }, board, label), shown)[0]!.words;
  };
  expect(words([r(0, 320, 0, 128)], 320)).toBe(
    'Crosscut the board: stop at 20" from the tagged end; gives an offcut to keep, 8" × 20".',
  );
  expect(words([r(0, 30, 0, 128)], 30)).toBe('Crosscut the board: trim 2" off the tagged end.');
  // A length that is ripped next is trimmed where it keeps the board's own end, and measured where both ends are sawn.
  const section = (keepsFarEnd: boolean) => {
    const [length, waste] = keepsFarEnd
      ? [r(32, 1920, 0, 128), r(0, 30, 0, 128)]
      : [r(0, 1600, 0, 128), r(1602, 1920, 0, 128)];
    const pieces = [{ blank: 0, ...length, right: 60 }];
    const cuts = [cut('crosscut', r(0, 1920, 0, 128), keepsFarEnd ? 30 : 1600), cut('rip', length, 60)];
    const rests = [waste, { ...length, left: 62 }];
    const onBoard = { ...onTheBoard({ board: 0, pieces, cuts, rests }, board, label), offcuts: [] };
    return cutsInWords(onBoard, shown)[0]!.words;
  };
  expect(section(true)).toBe('Crosscut the board: trim 2" off the tagged end.');
  expect(section(false)).toBe(
    'Crosscut the board: stop at 8\' 4" from the tagged end; gives length 1 (chalk 1 on it).',
  );
});

test('a replacement and a layer are named as such', () => {
  expect(pieceName({ label: 'Rail', no: 2, element: null, what: 'solid', attempt: 1 })).toBe('Rail 2');
  expect(pieceName({ label: 'Rail', no: 2, element: null, what: 'solid', attempt: 2 })).toBe('Rail 2 again');
  expect(pieceName({ label: 'Post', no: 1, element: 2, what: 'ply', attempt: 1 })).toBe('Post 1, ply 3');
});

describe('the order of the saw', () => {
  const axes = (cuts: readonly SawCut[]) => cuts.map((c) => `${c.axis} ${c.of.from} ${c.at}`);
  test('a rip width is set once for all the lengths that need it', () => {
    expect(axes(orderForSaw(problem, layout).cuts)).toEqual([
      'crosscut 0 14',
      'crosscut 16 1320',
      'crosscut 1322 1642',
      'rip 16 60',
      'rip 16 122',
      'rip 1322 60',
      'rip 1322 122',
    ]);
  });
  test('where settings differ the hardest parts come first', () => {
    // The slats ripped at 56 in place of 60.
    const narrower = { ...problem, blanks: [{ ...problem.blanks[0]!, width: 56 }, problem.blanks[1]!] };
    const slats = [r(1322, 1642, 0, 56), r(1322, 1642, 58, 114)].map((piece) => ({ blank: 0, ...piece }));
    const cuts = layout.cuts.map((one) => {
      if (one.axis !== 'rip' || one.of.from !== 1322) return one;
      return one.at === 60 ? { ...one, at: 56 } : { ...one, of: { ...one.of, left: 58 }, at: 114 };
    });
    const rests = [...layout.rests.slice(0, 3), r(1322, 1642, 116, 128)];
    const mixed = { ...layout, pieces: [...layout.pieces.slice(0, 2), ...slats], cuts, rests };
    expect(checkLayout(narrower, mixed)).toEqual([]);
    const rips = axes(orderForSaw(narrower, mixed).cuts).filter((one) => one.startsWith('rip'));
    expect(rips).toEqual(['rip 16 60', 'rip 16 122', 'rip 1322 56', 'rip 1322 114']);
  });
  test('settings come back less often than in the order of the search', () => {
    const comesBack = (cuts: readonly SawCut[]) => {
      const keys = cuts.map((c) => `${c.axis} ${c.at - (c.axis === 'rip' ? c.of.left : c.of.from)}`);
      return keys.filter((key, at) => key !== keys[at - 1] && keys.slice(0, at).includes(key)).length;
    };
    let before = 0;
    let after = 0;
    for (const sawn of fc.sample(sawnBoard, { numRuns: 300, seed: 7 })) {
      before += comesBack(sawn.layout.cuts);
      after += comesBack(orderForSaw(sawn.problem, sawn.layout).cuts);
    }
    expect(after).toBeLessThan(before);
  });
  test('with no part harder than another, crosscuts all lengths before it rips at one fence setting', () => {
    const alike = { ...problem, blanks: problem.blanks.map((b) => ({ ...b, tier: 1 })) };
    expect(axes(orderForSaw(alike, layout).cuts).map((c) => c.split(' ')[0])).toEqual([
      'crosscut',
      'crosscut',
      'crosscut',
      'rip',
      'rip',
      'rip',
      'rip',
    ]);
  });
  test('finishes one strip before the next where nothing else decides', () => {
    const strips: BoardLayout = {
      board: 0,
      pieces: [0, 62].flatMap((left) =>
        [0, 322, 644].map((from) => ({ blank: 0, ...r(from, from + 320, left, left + 60) })),
      ),
      cuts: [
        cut('rip', r(0, 1920, 0, 128), 60),
        cut('rip', r(0, 1920, 62, 128), 122),
        ...[0, 322, 644].flatMap((from) =>
          [0, 62].map((left) => cut('crosscut', r(from, 1920, left, left + 60), from + 320)),
        ),
      ],
      rests: [r(0, 1920, 124, 128), r(966, 1920, 0, 60), r(966, 1920, 62, 122)],
    };
    expect(checkLayout(problem, strips)).toEqual([]);
    const lefts = orderForSaw(problem, strips)
      .cuts.slice(2)
      .map((c) => c.of.left);
    expect(lefts).toEqual([0, 0, 0, 62, 62, 62]);
  });
  test('whatever the layout, the same pieces come off and a saw can make it', () => {
    fc.assert(
      fc.property(sawnBoard, (sawn) => {
        const ordered = orderForSaw(sawn.problem, sawn.layout);
        expect(checkLayout(sawn.problem, ordered)).toEqual([]);
        expect(ordered.cuts.length).toBe(sawn.layout.cuts.length);
      }),
      { numRuns: 500 },
    );
  });
  test('sorting twice changes nothing', () => {
    fc.assert(
      fc.property(sawnBoard, (sawn) => {
        const once = orderForSaw(sawn.problem, sawn.layout);
        expect(orderForSaw(sawn.problem, once).cuts).toEqual(once.cuts);
      }),
    );
  });
});

test('on any board each piece that a cut frees is named once, by the cut that frees it', () => {
  fc.assert(
    fc.property(sawnBoard, (sawn) => {
      const steps = cutsInWords(
        onTheBoard(sawn.layout, sawn.problem.boards[0]!, () => 'Part'),
        { shown: 'in', denominator: 16 },
      );
      const named = steps.flatMap((step) => step.gives).filter((text) => /^Part \d+$/.test(text));
      const freed = sawn.layout.cuts.length === 0 ? 0 : sawn.layout.pieces.length;
      expect(new Set(named).size).toBe(freed);
    }),
  );
});
