import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { JobWithParts, Part } from '../../worker/contract/job.ts';
import { type PlanBody, planBody } from '../../worker/contract/plan.ts';
import { type CuttingInput, planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, heldFor, inch, job, mm, part, piece, shopSettings } from '../takeoff/shop-cases.ts';
import { planFaults } from './shop-plan-check.ts';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
function answerTo(owner: JobWithParts, boards: readonly BoardView[], more: Partial<CuttingInput> = {}) {
  return planCutting({
    job: owner,
    boards,
    settings: shopSettings(),
    effort: 'quick',
    seed: 1,
    aim: 'least-cost',
    worth: COMMON_WORTH,
    ...more,
  });
}
function planOf(rows: readonly Part[], boards: readonly BoardView[], more: Partial<CuttingInput> = {}): PlanBody {
  const answer = answerTo(job(rows), boards, more);
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}
const placedOn = (plan: PlanBody) =>
  plan.layouts.map((layout) => [layout.tag, layout.pieces.map((p) => `${p.label} ${p.no}`).sort()]);

const shelf = part({ ...sizes(40, 5.5, 0.75), label: 'Shelf', quantity: 2 });

describe('a plan on one board', () => {
  const plank = board({ ...sizes(96, 8, 1), tag: 'JB-1' });
  const plan = planOf([shelf], [plank]);

  test('places both shelves and says it cannot be done from less', () => {
    expect(placedOn(plan)).toEqual([['JB-1', ['Shelf 1', 'Shelf 2']]]);
    expect([plan.placedCount, plan.wantedCount, plan.unplaced]).toEqual([2, 2, []]);
    // One board of 96 x 8 x 1 in, opened whole: 5.33 bf of 0.002359737 m3.
    expect(plan.stockUsedM3).toBeCloseTo((96 * 8) / 144 / 423.776, 6);
    expect(plan.gapPercent).toBe(0);
    expect(plan.boundIs).toContain('Proven best');
  });

  test('counts yield as blanks over the board: 2 x 41 x 5 3/4 of 96 x 8 in', () => {
    expect(plan.yieldPercent).toBeCloseTo((100 * 2 * 41 * 5.75) / (96 * 8), 6);
  });

  test('keeps what is worth a tag and scraps the rest', () => {
    const [layout] = plan.layouts;
    for (const offcut of layout?.offcuts ?? []) {
      expect(offcut.toNm - offcut.fromNm).toBeGreaterThanOrEqual(inch(12));
      expect(offcut.rightNm - offcut.leftNm).toBeGreaterThanOrEqual(inch(2));
    }
    expect(layout?.scrap.length).toBeGreaterThan(0);
  });

  test('comes out at the saw as drawn, clear of the trimmed ends', () => {
    const trims = [
      { fromNm: 0, toNm: inch(1), leftNm: 0, rightNm: inch(8) },
      { fromNm: inch(95), toNm: inch(96), leftNm: 0, rightNm: inch(8) },
    ];
    expect(planFaults(plan, [plank], () => trims)).toEqual([]);
    expect(plan.layouts[0]?.cuts.every((cut) => cut.words.length > 10)).toBe(true);
  });

  test('is what the wire promises', () => {
    expect(planBody.safeParse(plan).error).toBeUndefined();
    expect(plan.boardVersions).toEqual({ [plank.id]: 1 });
  });
});

test('only what is still wanted is planned, under its own number and attempt', () => {
  const owner = job([{ ...shelf, quantity: 3 }]);
  const [row] = owner.parts;
  if (!row) throw new Error('no row');
  const pieces = [
    piece(1, null, { state: 'roughed' }),
    piece(2, null, { state: 'failed' }),
    piece(2, null, { attempt: 2 }),
    piece(3, null, { state: 'planned', planId: 'pl_00000009' }),
  ];
  const answer = answerTo({ ...owner, parts: [{ ...row, pieces }] }, [board(sizes(96, 8, 1))]);
  if (!answer.ok) throw new Error(answer.refusal.detail);
  expect(answer.plan.layouts.flatMap((l) => l.pieces.map((p) => [p.no, p.attempt]))).toEqual([[2, 2]]);
});

test('a laminated rail is cut as its layers, the narrow one narrower', () => {
  const ply = (width: number) => ({ thicknessNm: inch(0.75), widthNm: inch(width), offsetNm: 0 });
  const rail = part({
    ...sizes(30, 4.5, 2.25),
    label: 'Rail',
    lamination: { kind: 'plies', plies: [ply(4.5), ply(3.75), ply(4.5)] },
  });
  const plan = planOf([rail], [board(sizes(72, 10, 1))]);
  const widths = plan.layouts.flatMap((l) => l.pieces.map((p) => [p.element, p.rightNm - p.leftNm] as const));
  expect(widths.sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0))).toEqual([
    [0, inch(4.75)],
    [1, inch(4)],
    [2, inch(4.75)],
  ]);
});

test('the critical part gets the one long board, though shelves could use it too', () => {
  const rail = part({ ...sizes(90, 5.5, 0.75), key: 'rail', label: 'Rail', use: 'critical' });
  const long = board({ ...sizes(96, 6.5, 1), tag: 'long' });
  const plan = planOf([{ ...shelf, quantity: 4 }, rail], [long, board({ ...sizes(45, 6.5, 1), tag: 'short' })]);
  expect(placedOn(plan)).toContainEqual(['long', ['Rail 1']]);
  expect(plan.layouts.map((layout) => layout.phase)).toEqual([1, 2]);
  expect(plan.unplaced).toMatchObject([{ label: 'Shelf', count: 3 }]);
});

test('an old offcut is used before a whole board', () => {
  const offcut = board({
    ...sizes(45, 6.5, 1),
    tag: 'offcut',
    origin: { kind: 'offcut', parentId: 'bd_00000099', sessionId: null },
  });
  const plan = planOf([{ ...shelf, quantity: 1 }], [board({ ...sizes(96, 6.5, 1), tag: 'whole' }), offcut]);
  expect(placedOn(plan)).toEqual([['offcut', ['Shelf 1']]]);
});

test('a board that another job holds is named before one that is a little too narrow, unless its knots spoil it too', () => {
  const rows = [part({ ...sizes(60, 5, 0.75), label: 'Stretcher' })];
  const narrow = board({ ...sizes(96, 5, 1), tag: 'narrow' });
  const held = board({ ...sizes(80, 8, 1), tag: 'held', held: [heldFor('jb_other', 0, inch(80))] });
  const spoiled = {
    ...held,
    defects: [
      {
        kind: 'knot-loose' as const,
        face: 'through' as const,
        fromNm: inch(35),
        toNm: inch(45),
        leftNm: 0,
        rightNm: inch(8),
      },
    ],
  };
  const nearestOf = (boards: readonly BoardView[]) => planOf(rows, boards).unplaced[0]?.nearest;
  expect(nearestOf([narrow, held])).toMatchObject({ tag: 'held', failsBy: ['held for Job jb_other'] });
  expect(nearestOf([narrow, spoiled])).toMatchObject({ tag: 'narrow' });
  expect(nearestOf([spoiled])?.failsBy).toEqual([
    'held for Job jb_other',
    expect.stringContaining('longest clear run'),
  ]);
});

test('what cannot be placed names the nearest board and by how much it fails', () => {
  const top = part({ ...sizes(100, 5.5, 0.75), label: 'Top' });
  const plan = planOf([top], [board({ ...sizes(60, 8, 1), tag: 'far' }), board({ ...sizes(96, 8, 1), tag: 'near' })]);
  expect(plan.layouts).toEqual([]);
  expect(plan.unplaced).toMatchObject([
    { label: 'Top', count: 1, nearest: { tag: 'near', failsBy: [`7" too short: trimmed 7' 10", needs 8' 5"`] } },
  ]);
  const walnut = planOf([{ ...top, species: 'black-walnut' }], [board(sizes(120, 8, 1))]);
  expect(walnut.unplaced[0]).toMatchObject({ why: 'No black walnut in stock.', nearest: null });
});

test('pieces that lose their wood to others are told so', () => {
  const plan = planOf([{ ...shelf, quantity: 3 }], [board({ ...sizes(96, 6.5, 1), tag: 'only' })]);
  expect(plan.unplaced[0]).toMatchObject({ count: 1, nearest: { tag: 'only' } });
  expect(plan.unplaced[0]?.why).toContain('used up');
});

test('wet and twisted boards carry their caution to the saw', () => {
  const bad = board({
    ...sizes(96, 8, 1.25),
    warp: { bowNm: 0, crookNm: 0, cupNm: 0, twistNm: inch(0.25) },
    readings: [{ moisturePercent: 14, on: '2026-03-01', meter: 'pin' }],
  });
  const [layout] = planOf([{ ...shelf, use: 'hidden' }], [bad]).layouts;
  expect(layout?.warnings.join(' ')).toMatch(/Wet stock, 14 % MC: .*band saw/);
  expect(layout?.warnings.join(' ')).toContain('Not flat (twist 1/4")');
});

describe('holds', () => {
  const held = (changes: Partial<BoardView>) => board({ ...sizes(96, 6.5, 1), ...changes });

  test('a run that another job holds is parted first and stays whole', () => {
    const shared = held({ held: [heldFor('jb_other', inch(44), inch(96))] });
    const plan = planOf([{ ...shelf, quantity: 1 }], [shared]);
    const [layout] = plan.layouts;
    expect(layout?.cuts[0]).toMatchObject({ axis: 'crosscut', atNm: inch(44) - inch(1 / 8) });
    expect(layout?.offcuts).toContainEqual({ fromNm: inch(44), toNm: inch(96), leftNm: 0, rightNm: inch(6.5) });
    expect(layout?.warnings.join()).toContain(`Job jb_other holds 3' 8" to 8'`);
  });

  test('a run this job holds is free for it', () => {
    const mine = held({ held: [heldFor('jb_00000001', 0, inch(96))] });
    expect(planOf([shelf], [mine]).placedCount).toBe(2);
  });

  test('a run that an earlier plan of this job still needs is not planned twice', () => {
    const owner = job([shelf]);
    const [row] = owner.parts;
    if (!row) throw new Error('no row');
    const pieces = [piece(1, null, { state: 'planned', planId: 'pl_00000001' }), piece(2, null)];
    const mine = held({ held: [heldFor('jb_00000001', 0, inch(96), 'pl_00000001')] });
    const answer = answerTo({ ...owner, parts: [{ ...row, pieces }] }, [mine]);
    expect(answer.ok && answer.plan.unplaced[0]?.nearest?.failsBy).toEqual(['held for Job jb_00000001']);
  });
});

test('nothing to plan is said, with the way out', () => {
  const done = job([shelf], { state: 'done' });
  expect(answerTo(done, [])).toMatchObject({ ok: false, refusal: { why: 'job-not-open' } });
  expect(answerTo(job([]), [])).toMatchObject({ ok: false, refusal: { why: 'nothing-to-cut' } });
  const stock = [board(sizes(96, 8, 1))];
  expect(answerTo(job([shelf]), stock, { partKeys: ['Z'] })).toMatchObject({ refusal: { why: 'not-found' } });
  expect(answerTo(job([shelf]), stock, { boardIds: ['bd_nowhere0'] })).toMatchObject({ refusal: { why: 'not-found' } });
});

test('the same question gets the same plan', () => {
  const boards = [board(sizes(96, 8, 1)), board(sizes(80, 6.5, 1)), board(sizes(120, 7, 1))];
  const rows = [{ ...shelf, quantity: 5 }, part({ ...sizes(21, 2.5, 0.75), key: 'b', label: 'Cleat', quantity: 8 })];
  expect(planOf(rows, boards)).toEqual(planOf(rows, boards));
});

const anyBoard = fc
  .record({
    lengthMm: fc.integer({ min: 700, max: 3300 }),
    tenths: fc.nat(9),
    widthMm: fc.integer({ min: 90, max: 320 }),
    knot: fc.option(fc.record({ at: fc.integer({ min: 5, max: 90 }), across: fc.integer({ min: 0, max: 80 }) })),
    hold: fc.option(fc.record({ from: fc.nat(100), share: fc.integer({ min: 1, max: 100 }) })),
  })
  .map(({ lengthMm, tenths, widthMm, knot, hold }) => {
    const lengthNm = mm(lengthMm + tenths / 10);
    const fromNm = hold ? Math.floor((lengthNm * hold.from) / 110) : 0;
    const toNm = hold ? Math.min(lengthNm, fromNm + Math.ceil((lengthNm * hold.share) / 100)) : 0;
    return board({
      lengthNm,
      widthNm: mm(widthMm),
      thicknessNm: inch(1),
      held: hold ? [heldFor('jb_other', fromNm, toNm)] : [],
      defects: knot
        ? [
            {
              kind: 'knot-loose',
              face: 'a',
              fromNm: Math.floor((lengthNm * knot.at) / 100),
              toNm: Math.floor((lengthNm * knot.at) / 100) + mm(40),
              leftNm: mm(knot.across),
              rightNm: mm(knot.across + 30),
            },
          ]
        : [],
    });
  });
const anyRow = fc.record({
  quantity: fc.integer({ min: 1, max: 6 }),
  lengthNm: fc.integer({ min: 200, max: 2000 }).map(mm),
  widthNm: fc.integer({ min: 30, max: 150 }).map(mm),
  use: fc.constantFrom('critical' as const, 'visible' as const, 'hidden' as const),
});

test('any plan comes apart at the saw to the last nanometre, clear of knots and of what others hold', () => {
  fc.assert(
    fc.property(
      fc.array(anyBoard, { minLength: 1, maxLength: 4 }),
      fc.array(anyRow, { minLength: 1, maxLength: 4 }),
      fc.constantFrom('in' as const, 'mm' as const),
      (boards, rows, shown) => {
        const parts = rows.map((row, index) =>
          part({ ...row, key: String(index), label: `Part ${index}`, thicknessNm: inch(0.75) }),
        );
        const plan = planOf(parts, boards, { settings: shopSettings({ shown }) });
        const faults = planFaults(plan, boards, (one) => [
          ...one.defects,
          ...one.held.map((h) => ({ fromNm: h.fromNm, toNm: h.toNm, leftNm: 0, rightNm: one.widthNm })),
        ]);
        expect(faults).toEqual([]);
        const unplaced = plan.unplaced.reduce((sum, row) => sum + row.count, 0);
        expect(plan.placedCount + unplaced).toBe(plan.wantedCount);
        expect(plan.stockBoundM3).toBeLessThanOrEqual(plan.stockUsedM3);
        for (const layout of plan.layouts) {
          const one = boards.find((each) => each.id === layout.boardId);
          for (const held of one?.held ?? []) for (const cut of layout.cuts) expect(cutsInto(cut, held)).toBe(false);
        }
        const keys = plan.layouts.flatMap((l) => l.pieces.map((p) => `${p.partKey} ${p.no} ${p.element}`));
        expect(new Set(keys).size).toBe(keys.length);
      },
    ),
    { numRuns: 8, endOnFailure: true },
  );
});

/** Whether the blade takes wood from a run: a rip along any of it, or a crosscut within it. */
function cutsInto(
  cut: { axis: string; atNm: number; kerfNm: number; of: { fromNm: number; toNm: number } },
  run: { fromNm: number; toNm: number },
): boolean {
  const [from, to] = cut.axis === 'rip' ? [cut.of.fromNm, cut.of.toNm] : [cut.atNm, cut.atNm + cut.kerfNm];
  return Math.max(from, run.fromNm) < Math.min(to, run.toNm);
}

test('each piece with one clear face shows the face that is clear where it lies', () => {
  const knot = (face: 'a' | 'b', from: number) => ({
    kind: 'knot-sound' as const,
    face,
    fromNm: inch(from),
    toNm: inch(from + 2),
    leftNm: inch(1),
    rightNm: inch(3),
  });
  // Two blanks of 19 in on 41 in: each must lie over one of the knots.
  const plank = board({ ...sizes(41, 4, 1), tag: 'JB-1', defects: [knot('a', 4), knot('b', 36)] });
  const plan = planOf([part({ ...sizes(18, 3.5, 0.75), label: 'Front', quantity: 2, faces: 'clear-one' })], [plank]);
  expect(plan.placedCount).toBe(2);
  expect(plan.layouts[0]?.pieces.map(({ showFace }) => showFace)).toEqual(['b', 'a']);
  expect(plan.layouts[0]?.cuts.map(({ words }) => words).join()).toContain('Front 1, show face b');
  expect(plan.notes.join()).toContain('chalk it on the piece');
});
