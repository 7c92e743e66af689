/** Real boards: each property of a board decides what a plan may take from it. Judged by rules written down here anew. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BoardView, Defect } from '../../worker/contract/board.ts';
import type { Faces, Part } from '../../worker/contract/job.ts';
import type { PlanBody, RectNm } from '../../worker/contract/plan.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { taperSteps } from '../../worker/wood/taper.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
function planOf(rows: readonly Part[], boards: readonly BoardView[]): PlanBody {
  const settings = shopSettings();
  const asked = { job: job(rows), boards, settings, effort: 'quick' as const, seed: 1 };
  const answer = planCutting({ ...asked, aim: 'least-cost', worth: COMMON_WORTH });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}
const placedOn = (plan: PlanBody) =>
  plan.layouts.flatMap((layout) => layout.pieces.map((piece) => `${piece.label} from ${layout.tag}`)).sort();
const piecesOf = (plan: PlanBody) => plan.layouts.flatMap(({ pieces }) => pieces);
const defect = (kind: Defect['kind'], face: Defect['face'], [from, to, left, right]: readonly number[]): Defect => ({
  kind,
  face,
  fromNm: inch(from ?? 0),
  toNm: inch(to ?? 0),
  leftNm: inch(left ?? 0),
  rightNm: inch(right ?? 0),
});
const touches = (a: RectNm, b: RectNm): boolean =>
  a.fromNm < b.toNm && b.fromNm < a.toNm && a.leftNm < b.rightNm && b.leftNm < a.rightNm;
const read = (moisturePercent: number) => [{ moisturePercent, on: '2026-03-01', meter: 'pin' as const }];

describe('taper', () => {
  const tapering = (length: number, width: number, far: number): BoardView => {
    const whole = sizes(length, width, 1);
    const wane = taperSteps(whole, inch(far)).map((step) => ({
      ...step,
      kind: 'wane' as const,
      face: 'through' as const,
    }));
    return board({ ...whole, tag: 'T', defects: wane });
  };

  test('its steps follow the edge: 8 to 6 in over 96 in leaves 7 in at 48 in', () => {
    const steps = taperSteps(sizes(96, 8, 1), inch(6));
    expect(steps).toHaveLength(16);
    expect(steps[7]).toEqual({ fromNm: inch(42), toNm: inch(48), leftNm: inch(7), rightNm: inch(8) });
    expect(steps.at(-1)).toMatchObject({ toNm: inch(96), leftNm: inch(6) });
    expect(taperSteps(sizes(96, 8, 1), inch(8))).toEqual([]);
  });

  test('a wide part comes from the wide end or not at all', () => {
    // 6 3/4 in rough is left up to 60 in from the wide end.
    const wide = part({ ...sizes(50, 6.5, 0.75), label: 'Wide' });
    const [piece] = piecesOf(planOf([wide], [tapering(96, 8, 6)]));
    expect(piece?.toNm).toBeLessThanOrEqual(inch(60));
    expect(planOf([{ ...wide, lengthNm: inch(62) }], [tapering(96, 8, 6)]).unplaced[0]?.nearest?.failsBy[0]).toContain(
      'longest clear run',
    );
  });

  test('whatever the taper, every piece lies in the wood that is there', () => {
    const anyBoard = fc.record({ length: fc.integer({ min: 40, max: 120 }), far: fc.integer({ min: 3, max: 9 }) });
    fc.assert(
      fc.property(anyBoard, fc.integer({ min: 2, max: 7 }), ({ length, far }, width) => {
        const rows = [30, 12, 20].map((long, at) =>
          part({ ...sizes(long, width - at / 2, 0.75), key: String(at), label: `P${at}`, quantity: 5 }),
        );
        const [wideIn, farIn] = [10, far];
        const two = [tapering(length, wideIn, farIn), tapering(length, wideIn, farIn)];
        for (const piece of piecesOf(planOf(rows, two))) {
          const leftAt = inch(wideIn) - ((inch(wideIn) - inch(farIn)) * piece.toNm) / inch(length);
          expect(piece.rightNm).toBeLessThanOrEqual(leftAt + 1);
        }
      }),
      { numRuns: 3, endOnFailure: true },
    );
  }, 120_000);
});

test('mill ends are trimmed; an end that a saw left is not', () => {
  const row = part({ ...sizes(46, 5.5, 0.75), label: 'Shelf' });
  const ends = (one: BoardView) => piecesOf(planOf([row], [one])).map(({ fromNm, toNm }) => [fromNm, toNm]);
  const [mill] = ends(board(sizes(49, 6, 1)));
  expect(mill?.[0]).toBeGreaterThanOrEqual(inch(1));
  expect(mill?.[1]).toBeLessThanOrEqual(inch(48));
  const offcut = { origin: { kind: 'offcut' as const, parentId: 'bd_00000099', sessionId: null } };
  expect(ends(board({ ...sizes(47, 6, 1), ...offcut }))).toEqual([[0, inch(47)]]);
  expect(ends(board(sizes(47, 6, 1)))).toEqual([]);
});

describe('defects on either face against what a part asks of each', () => {
  const never = new Set(['pith', 'rot', 'split', 'knot-loose', 'wane']);
  const sound = new Set(['knot-sound', 'stain']);
  /** The rules of the contract in other words; small checks up to 3 in are casework's. */
  const mayLie = (faces: Faces, under: readonly Defect[]): boolean => {
    if (under.some(({ kind }) => never.has(kind))) return false;
    switch (faces) {
      case 'clear-both':
        return under.length === 0;
      case 'clear-one':
        return (['a', 'b'] as const).some((face) => under.every((one) => one.face !== face && one.face !== 'through'));
      case 'sound-knots':
        return under.every(({ kind }) => sound.has(kind));
      case 'hidden':
        return under.every((one) => {
          if (one.kind !== 'check') return true;
          return one.face !== 'through' && one.toNm - one.fromNm <= inch(3);
        });
    }
  };
  const asks = (faces: Faces) => part({ ...sizes(70, 5.5, 0.75), label: faces, faces });

  test.each<[string, Defect, readonly Faces[]]>([
    ['a sound knot on the back', defect('knot-sound', 'b', [40, 42, 2, 3]), ['clear-one', 'sound-knots', 'hidden']],
    ['a sound knot through', defect('knot-sound', 'through', [40, 42, 2, 3]), ['sound-knots', 'hidden']],
    ['a saw mark on the back', defect('saw-mark', 'b', [40, 42, 2, 3]), ['clear-one', 'hidden']],
    ['a loose knot on the back', defect('knot-loose', 'b', [40, 42, 2, 3]), []],
    ['a check of 2 in on the back', defect('check', 'b', [40, 42, 2, 2.25]), ['clear-one', 'hidden']],
    ['a check of 5 in on the back', defect('check', 'b', [40, 45, 2, 2.25]), []],
  ])('%s', (_, bad, taken) => {
    const all: readonly Faces[] = ['clear-both', 'clear-one', 'sound-knots', 'hidden'];
    // One place only: the part needs the board's whole width and most of its length.
    const got = all.filter(
      (faces) => piecesOf(planOf([asks(faces)], [board({ ...sizes(74, 6, 1), defects: [bad] })])).length,
    );
    expect(got).toEqual(taken);
    for (const faces of got) expect(mayLie(faces, [bad])).toBe(true);
  });

  test('on boards with defects at random no piece lies where its faces forbid', () => {
    const kinds = [
      'knot-sound',
      'knot-loose',
      'split',
      'check',
      'wane',
      'saw-mark',
      'stain',
      'pith',
      'rot',
      'worm',
    ] as const;
    const anyDefect = fc
      .record({
        kind: fc.constantFrom(...kinds),
        face: fc.constantFrom('a' as const, 'b' as const, 'through' as const),
        from: fc.integer({ min: 0, max: 88 }),
        long: fc.integer({ min: 1, max: 8 }),
        left: fc.integer({ min: 0, max: 6 }),
        wide: fc.integer({ min: 1, max: 2 }),
      })
      .map(({ kind, face, from, long, left, wide }) => defect(kind, face, [from, from + long, left, left + wide]));
    fc.assert(
      fc.property(fc.array(anyDefect, { maxLength: 7 }), (defects) => {
        const rows = (['clear-both', 'clear-one', 'sound-knots', 'hidden'] as const).map((faces, at) =>
          part({ ...sizes(18 - 2 * at, 2.5, 0.75), key: faces, label: faces, faces, quantity: 5 }),
        );
        const two = [board({ ...sizes(96, 8, 1), defects }), board({ ...sizes(96, 8, 1), defects })];
        for (const piece of piecesOf(planOf(rows, two))) {
          const under = defects.filter((bad) => touches(bad, piece));
          expect(mayLie(piece.label as Faces, under)).toBe(true);
        }
      }),
      { numRuns: 3, endOnFailure: true },
    );
  }, 120_000);
});

test('warp by the size of the piece: a bowed board gives no long rail, but drawer sides', () => {
  // Bow 3/4 in over 96 in is 3/4 x (21/96)^2 = 0.036 in over 21 in (warp geometry).
  const bowed = board({
    ...sizes(96, 6, 1),
    tag: 'bowed',
    warp: { bowNm: inch(0.75), crookNm: 0, cupNm: 0, twistNm: 0 },
  });
  const flat = board({ ...sizes(96, 6, 1), tag: 'flat' });
  const rail = part({ ...sizes(90, 5.5, 0.75), key: 'R', label: 'Rail' });
  const side = part({ ...sizes(20, 5.5, 0.75), key: 'S', label: 'Side', quantity: 4 });
  expect(placedOn(planOf([rail, side], [bowed, flat]))).toEqual([
    'Rail from flat',
    'Side from bowed',
    'Side from bowed',
    'Side from bowed',
    'Side from bowed',
  ]);
  expect(planOf([rail], [bowed]).unplaced[0]?.nearest?.failsBy.join()).toContain('too thin once flat');
});

test('planing: what must come off both faces decides which thickness serves', () => {
  // 7/8 in finished and 3/16 in off: 1 1/16 in, more than 4/4 has.
  const top = part({ ...sizes(40, 5.5, 0.875), label: 'Top' });
  const boards = [board({ ...sizes(60, 6, 1), tag: 'four' }), board({ ...sizes(60, 6, 1.25), tag: 'five' })];
  expect(placedOn(planOf([top], boards))).toEqual(['Top from five']);
});

test('moisture by use: 11 % serves a shelf, not a critical rail; 14 % only casework', () => {
  const row = (use: Part['use']) => part({ ...sizes(40, 5.5, 0.75), key: use, label: use, use });
  const rows = [row('critical'), row('visible'), row('hidden')];
  const at = (percent: number) =>
    placedOn(planOf(rows, [board({ ...sizes(200, 6, 1), tag: 'W', readings: read(percent) })]));
  expect(at(9)).toEqual(['critical from W', 'hidden from W', 'visible from W']);
  expect(at(11)).toEqual(['hidden from W', 'visible from W']);
  expect(at(14)).toEqual(['hidden from W']);
  expect(at(18)).toEqual([]);
});

test('grain: flat, rift and quarter go where they are asked for, anything where nothing is', () => {
  const row = (grain: Part['grain']) => part({ ...sizes(40, 5.5, 0.75), key: grain, label: grain, grain });
  const boards = (['flat', 'rift', 'quarter', 'unknown'] as const).map((grain) =>
    board({ ...sizes(43, 6, 1), tag: `${grain} board`, grain }),
  );
  expect(placedOn(planOf([row('quarter'), row('rift'), row('flat')], boards))).toEqual([
    'flat from flat board',
    'quarter from quarter board',
    'rift from rift board',
  ]);
  expect(placedOn(planOf([row('unknown')], boards.slice(3)))).toEqual(['unknown from unknown board']);
  expect(placedOn(planOf([row('quarter')], [...boards.slice(0, 2), ...boards.slice(3)]))).toEqual([]);
});
