import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { JobWithParts, Part } from '../../worker/contract/job.ts';
import type { PlanBody } from '../../worker/contract/plan.ts';
import { checkSolution } from '../../worker/planner/check.ts';
import type { Solution } from '../../worker/planner/problem.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, piece, shopSettings } from '../takeoff/shop-cases.ts';
import { blankOf, boardOfSize, problemWith } from './solve-cases.ts';

const sizes = (length: number, width: number, thickness = 0.75) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
function planFor(owner: JobWithParts, boards: readonly BoardView[]): PlanBody {
  const answer = planCutting({
    job: owner,
    boards,
    settings: shopSettings(),
    effort: 'quick',
    seed: 1,
    aim: 'least-cost',
    worth: COMMON_WORTH,
  });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}
const planOf = (rows: readonly Part[], boards: readonly BoardView[]) => planFor(job(rows), boards);
const tagsOf = (plan: PlanBody, key: string) =>
  plan.layouts.filter((l) => l.pieces.some((p) => p.partKey === key)).map((l) => l.tag);
const aboutMatches = (plan: PlanBody) => plan.notes.filter((note) => note.startsWith('Match group'));

// A front needs 21 x 7 1/4 in rough.
const fronts = part({ ...sizes(20, 7), key: 'F', label: 'Front', quantity: 4, matchGroup: 'A' });
const rail = part({ ...sizes(60, 2.5), key: 'R', label: 'Rail', quantity: 1 });
const plank = (tag: string, length: number, width = 8) => board({ ...sizes(length, width, 1), tag });

describe('parts that match come from one board', () => {
  test('though two short boards would waste less', () => {
    // Two boards of 47 in give two fronts each and open 94 in; only the long one gives all four.
    const plan = planOf([fronts], [plank('S1', 47), plank('S2', 47), plank('L', 130)]);
    expect(tagsOf(plan, 'F')).toEqual(['L']);
    expect(aboutMatches(plan)).toEqual(['Match group A: its 4 pieces come from L.']);
    const free = planOf([{ ...fronts, matchGroup: null }], [plank('S1', 47), plank('S2', 47), plank('L', 130)]);
    expect(tagsOf(free, 'F')).toEqual(['S1', 'S2']);
  });

  test('though other parts go elsewhere for it', () => {
    // Each board alone would take fronts and half of the shelves; the group takes one whole.
    const shelves = part({ ...sizes(42, 7), key: 'S', label: 'Shelf', quantity: 2, use: 'critical' });
    const plan = planOf([fronts, shelves], [plank('P', 92), plank('Q', 92)]);
    expect(plan.unplaced).toEqual([]);
    expect(tagsOf(plan, 'F')).toHaveLength(1);
  });

  test('parts of different sizes in one group too, and two groups each on its own', () => {
    const side = part({ ...sizes(20, 7), key: 'G', label: 'Side', quantity: 4, matchGroup: 'B' });
    const plan = planOf([fronts, { ...rail, matchGroup: 'A' }, side], [plank('W', 150, 8), plank('V', 160, 8)]);
    expect(plan.unplaced).toEqual([]);
    // Either group may have either board.
    const [one, other] = [tagsOf(plan, 'F'), tagsOf(plan, 'G')];
    expect(tagsOf(plan, 'R')).toEqual(one);
    expect([...one, ...other].sort()).toEqual(['V', 'W']);
  });
});

describe('where they cannot', () => {
  test('the fewest boards give them, and the plan says that none gives all', () => {
    const plan = planOf([fronts], [plank('S1', 25), plank('S2', 25), plank('S3', 25), plank('M', 69)]);
    expect(plan.unplaced).toEqual([]);
    expect(tagsOf(plan, 'F')).toHaveLength(2);
    expect(tagsOf(plan, 'F')).toContain('M');
    expect(aboutMatches(plan)[0]).toMatch(/from 2 boards, .*M \(3\).*; no board gives all of it\.$/);
  });

  test('no piece is lost for a match: the group is cut apart and the plan says why', () => {
    // The long rail has only the long board, and that one has no room for four fronts beside it.
    const long = part({ ...sizes(124, 7), key: 'T', label: 'Top', quantity: 1 });
    const plan = planOf([fronts, long], [plank('S1', 47), plank('S2', 47), plank('L', 130)]);
    expect(plan.unplaced).toEqual([]);
    expect(tagsOf(plan, 'F')).toEqual(['S1', 'S2']);
    expect(aboutMatches(plan)[0]).toContain('from one board, other pieces would find no wood');
  });

  test('pieces that find no wood are counted', () => {
    const plan = planOf([fronts], [plank('S1', 47)]);
    expect(aboutMatches(plan)).toEqual(['Match group A: its 2 pieces come from S1. 2 of its 4 find no wood.']);
  });
});

test('a replacement comes from an offcut of the board that gave the others', () => {
  const owner = job([{ ...fronts, quantity: 3 }]);
  const [row] = owner.parts;
  if (!row) throw new Error('no row');
  const roughed = { state: 'roughed' as const, boardId: 'bd_00000777' };
  const pieces = [
    piece(1, null, roughed),
    piece(2, null, { ...roughed, state: 'failed' }),
    piece(2, null, { attempt: 2 }),
  ];
  const sister = board({
    ...sizes(40, 9, 1),
    tag: 'sister',
    origin: { kind: 'offcut', parentId: 'bd_00000777', sessionId: null },
  });
  const snug = board({
    ...sizes(22, 8, 1),
    tag: 'snug',
    origin: { ...sister.origin, parentId: 'bd_00000888' } as never,
  });
  const plan = planFor({ ...owner, parts: [{ ...row, pieces: [...pieces, piece(3, null, roughed)] }] }, [snug, sister]);
  expect(tagsOf(plan, 'F')).toEqual(['sister']);
  expect(aboutMatches(plan)).toEqual([
    'Match group A: its piece comes from sister, the same wood as the pieces cut before.',
  ]);
});

describe('pieces cut before', () => {
  const roughed = (boardId: string) => ({ state: 'roughed' as const, boardId });
  const withPieces = (pieces: ReturnType<typeof piece>[], changes: Partial<Part> = {}) => {
    const owner = job([{ ...fronts, quantity: 3, ...changes }]);
    const [row] = owner.parts;
    if (!row) throw new Error('no row');
    return { ...owner, parts: [{ ...row, pieces }] };
  };
  test('from a board that is still in the rack: its other end comes first, though another fits nearer', () => {
    const opened = board({ ...sizes(60, 9, 1), tag: 'opened' });
    const owner = withPieces([piece(1, null, roughed(opened.id)), piece(2, null), piece(3, null)]);
    const plan = planFor(owner, [plank('snug', 47), opened]);
    expect(tagsOf(plan, 'F')).toEqual(['opened']);
    expect(aboutMatches(plan)).toEqual([
      'Match group A: its 2 pieces come from opened, the same wood as the pieces cut before.',
    ]);
  });

  test('where that board has no room, the plan names it', () => {
    const opened = board({ ...sizes(15, 9, 1), tag: 'opened' });
    const owner = withPieces([piece(1, null, roughed(opened.id)), piece(2, null), piece(3, null)]);
    const plan = planFor(owner, [plank('snug', 47), opened]);
    expect(aboutMatches(plan)).toEqual([
      'Match group A: its 2 pieces come from snug; the pieces cut before came from opened.',
    ]);
  });

  test('from a board that is gone: other boards, unnamed', () => {
    const owner = withPieces([piece(1, null, roughed('bd_00000777')), piece(2, null), piece(3, null)]);
    expect(aboutMatches(planFor(owner, [plank('snug', 47)]))).toEqual([
      'Match group A: its 2 pieces come from snug; the pieces cut before came from other boards.',
    ]);
  });

  test('and thrown out since do not bind the others', () => {
    const failed = { ...roughed('bd_00000777'), state: 'failed' as const };
    const owner = withPieces([piece(1, null, failed), piece(1, null, { attempt: 2 }), piece(2, null), piece(3, null)]);
    expect(aboutMatches(planFor(owner, [plank('long', 70)]))).toEqual(['Match group A: its 3 pieces come from long.']);
  });

  test('a single piece is no group, unless others of it are cut', () => {
    const single = { ...fronts, quantity: 1 };
    expect(aboutMatches(planOf([single], [plank('long', 70)]))).toEqual([]);
    const owner = withPieces([piece(1, null, roughed('bd_00000777')), piece(2, null)], { quantity: 2 });
    expect(aboutMatches(planFor(owner, [plank('long', 70)]))).toHaveLength(1);
  });
});

test('a group of two sizes shared by three boards is counted board by board', () => {
  // A front takes 21 in of an 8 in board, a post 45: one post and a front to a board of 69, the last front alone.
  const post = part({ ...sizes(44, 7), key: 'P', label: 'Post', quantity: 2, matchGroup: 'A' });
  const three = { ...fronts, quantity: 3 };
  const plan = planOf([three, post], [plank('M1', 69), plank('M2', 69), plank('S', 24)]);
  expect(plan.unplaced).toEqual([]);
  expect(aboutMatches(plan)[0]).toMatch(
    /^Match group A: its pieces come from 3 boards, (M1 \(2\), M2 \(2\)|M2 \(2\), M1 \(2\)), S \(1\); no board gives all of it\.$/,
  );
});

test('the same letter in two woods is two groups', () => {
  const walnut = part({
    ...sizes(20, 7),
    key: 'W',
    label: 'Tray',
    species: 'black-walnut',
    quantity: 2,
    matchGroup: 'A',
  });
  const plan = planOf(
    [{ ...fronts, quantity: 2 }, walnut],
    [plank('O', 50), board({ ...sizes(50, 8, 1), tag: 'N', species: 'black-walnut' })],
  );
  expect(plan.unplaced).toEqual([]);
  expect(aboutMatches(plan)).toEqual([
    'Match group A: its 2 pieces come from O.',
    'Match group A: its 2 pieces come from N.',
  ]);
});

test('no board gives any of a group: the plan says so', () => {
  expect(aboutMatches(planOf([fronts, rail], [plank('narrow', 70, 4)]))).toEqual([
    'Match group A: no board gives any of it.',
  ]);
});

test('the check refuses a plan that scatters a group', () => {
  const problem = problemWith(
    [boardOfSize('P', 100, 50), boardOfSize('Q', 100, 50)],
    [blankOf('front', 100, 50, { quantity: 2, value: 1, matchGroup: 'A' })],
  );
  const whole = { from: 0, to: 100, left: 0, right: 50 };
  const on = (index: number) => ({ board: index, pieces: [{ ...whole, blank: 0 }], cuts: [], rests: [] });
  const solution: Solution = { layouts: [on(0), on(1)], achieved: 2, bound: 2, placed: [2], steps: 0 };
  expect(checkSolution(problem, solution)).toEqual(['match group A comes from 2 boards (P, Q), it must come from one']);
  const loose = { ...problem, blanks: problem.blanks.map((blank) => ({ ...blank, matchGroup: null })) };
  expect(checkSolution(loose, solution)).toEqual([]);
});

test('matching never costs a piece, whatever the stock', () => {
  const anyBoard = fc.record({ length: fc.integer({ min: 24, max: 110 }), width: fc.integer({ min: 4, max: 12 }) });
  const anyRow = fc.record({
    quantity: fc.integer({ min: 1, max: 4 }),
    length: fc.integer({ min: 8, max: 60 }),
    width: fc.integer({ min: 2, max: 7 }),
    matchGroup: fc.constantFrom('A', 'B', null),
  });
  fc.assert(
    fc.property(
      fc.array(anyBoard, { minLength: 1, maxLength: 4 }),
      fc.array(anyRow, { minLength: 1, maxLength: 4 }),
      (stock, rows) => {
        const boards = stock.map(({ length, width }, at) => plank(`P${at}`, length, width));
        const parts = rows.map(({ length, width, ...row }, at) =>
          part({ ...sizes(length, width), ...row, key: String(at), label: `Part ${at}` }),
        );
        const kept = planOf(parts, boards);
        const free = planOf(
          parts.map((row) => ({ ...row, matchGroup: null })),
          boards,
        );
        // Within a twentieth: the two searches are not the same.
        expect(kept.placedCount).toBeGreaterThanOrEqual(Math.floor(free.placedCount * 0.95));
        expect(kept.stockBoundM3).toBeLessThanOrEqual(kept.stockUsedM3);
        for (const note of aboutMatches(kept)) {
          const [, name = ''] = /^Match group (.):/.exec(note) ?? [];
          const keys = new Set(parts.filter((row) => row.matchGroup === name).map((row) => row.key));
          const from = kept.layouts.filter((layout) => layout.pieces.some((placed) => keys.has(placed.partKey)));
          expect(note.includes(`${from.length} boards`)).toBe(from.length > 1);
        }
      },
    ),
    { numRuns: 6, endOnFailure: true },
  );
}, 90_000);
