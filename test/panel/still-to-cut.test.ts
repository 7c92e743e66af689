/** What the Cuts screen leads with once part of a plan is cut. */
import { expect, test } from 'vitest';
import { cutAndNot, doneBoards, isNarrowerThanTakenOff } from '../../addon/panel/screens/plan.tsx';
import { wantedLines } from '../../addon/panel/screens/still-to-cut.tsx';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { takeoff } from '../../worker/takeoff/takeoff.ts';
import { board, inch, job, part, piece, shopSettings } from '../takeoff/shop-cases.ts';

const sizes = { lengthNm: inch(40), widthNm: inch(5.5), thicknessNm: inch(0.75) };
const rail = part({ ...sizes, key: 'R', label: 'Rail', quantity: 2, grain: 'flat' });
const settings = shopSettings();
const boards = ['A', 'B'].map((tag, at) =>
  board({
    ...{ id: `bd_0000000${at + 1}`, tag, grain: 'flat', lengthNm: inch(44), widthNm: inch(6.5), thicknessNm: inch(1) },
    readings: [{ moisturePercent: 8, on: '2026-11-01', meter: 'pin' }],
  }),
);

test('wanted pieces by part; plies each for themselves, staves together, what is planned or cut left out', () => {
  const ply = { thicknessNm: inch(0.75), widthNm: inch(3), offsetNm: 0 };
  const post = part({ ...sizes, key: 'P', label: 'Post', lamination: { kind: 'plies', plies: [ply, ply] } });
  const top = part({ ...sizes, key: 'T', label: 'Top', lamination: { kind: 'staves', count: 3 } });
  const cut = [piece(1, null, { state: 'roughed' }), piece(2, null, { state: 'planned' })];
  expect(wantedLines(job([rail, post, top]))).toEqual([
    '2 × Rail',
    '1 × Post, ply 1',
    '1 × Post, ply 2',
    '3 × Top, staves',
  ]);
  expect(wantedLines({ parts: [{ ...rail, version: 1, pieces: cut }] })).toEqual([]);
});

test('a board of a plan at the saw is done once no piece is planned on it', () => {
  const owner = job([rail]);
  const input = {
    job: owner,
    boards,
    settings,
    effort: 'quick',
    seed: 1,
    aim: 'least-cost',
    worth: COMMON_WORTH,
  } as const;
  const answer = planCutting(input);
  if (!answer.ok) throw new Error(answer.refusal.detail);
  const facts = { id: 'pl_00000001', state: 'cutting', madeAtMs: 0, version: 1 } as const;
  const plan = { ...answer.plan, ...facts };
  expect(plan.layouts).toHaveLength(2);
  const planned = (no: number) =>
    piece(no, null, { state: 'planned', planId: plan.id, boardId: plan.layouts[no - 1]?.boardId ?? null });
  const at = (pieces: readonly ReturnType<typeof piece>[]) =>
    job([rail], { parts: [{ ...rail, version: 1, pieces: [...pieces] }] });
  expect([...doneBoards(plan, at([planned(1), planned(2)]))]).toEqual([]);
  const one = doneBoards(plan, at([piece(1, null, { state: 'roughed' }), planned(2)]));
  expect([...one]).toEqual([plan.layouts[0]?.boardId]);
  // Of the second board nothing came: released or written off, it is not counted as cut.
  const [first] = plan.layouts;
  const fromFirst = piece(1, null, { state: 'roughed', planId: plan.id, boardId: first?.boardId ?? null });
  const rest = at([fromFirst, piece(2, null)]);
  expect(doneBoards(plan, rest).size).toBe(2);
  expect(cutAndNot(plan, plan.layouts, rest)).toEqual({
    cutCount: 1,
    cut: '1 of 2 boards',
    notCut: [plan.layouts[1]?.tag],
  });
  expect([...doneBoards({ ...plan, state: 'reserved' }, at([planned(1), planned(2)]))]).toEqual([]);
  // The takeoff sizes for 12 %, the boards are at 8 %.
  const taken = takeoff({ parts: [rail], boards, settings, jobId: owner.id });
  expect(isNarrowerThanTakenOff(plan, taken)).toBe(true);
  expect(isNarrowerThanTakenOff(plan, { ...taken, jobId: 'jb_00000009' })).toBe(false);
  const dry = shopSettings({ moistureMax: { critical: 8, visible: 8, hidden: 8, layer: 8 } });
  expect(isNarrowerThanTakenOff(plan, takeoff({ parts: [rail], boards, settings: dry, jobId: owner.id }))).toBe(false);
});
