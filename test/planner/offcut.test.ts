import { expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { PieceState } from '../../worker/contract/job.ts';
import { homesAnswer, usesAnswer } from '../../worker/contract/plan.ts';
import { homesFor, usesOf } from '../../worker/planner/offcut.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, heldFor, inch, job, part, piece, shopSettings } from '../takeoff/shop-cases.ts';

const sizes = (length: number, width: number, thickness: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(thickness),
});
const offcutOf = (length: number, width: number, tag: string, changes: Partial<BoardView> = {}) =>
  board({
    ...sizes(length, width, 1),
    tag,
    origin: { kind: 'offcut', parentId: 'bd_00000099', sessionId: null },
    ...changes,
  });

const cleat = part({ ...sizes(12, 1.5, 0.75), key: 'cleat', label: 'Cleat', quantity: 20, use: 'hidden' });
const rail = part({ ...sizes(30, 3, 0.75), key: 'rail', label: 'Rail', quantity: 2 });
const bench = job([cleat, rail], { id: 'jb_00000001', name: 'Bench' });
const settings = shopSettings();

function usesOfBoard(stock: BoardView, jobs = [bench]) {
  const answer = usesOf({
    question: { boardId: stock.id },
    snapshot: { worth: COMMON_WORTH, settings, boards: [stock], jobs },
  });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.answer;
}

test('a 27 x 4 in offcut gives four cleats and no rail', () => {
  // Cleats are roughed out at 13 x 1 3/4 in: two along (26 1/8 with the blade), two across (3 5/8).
  const answer = usesOfBoard(offcutOf(27, 4, 'A-1'));
  expect(answer.parts.map((row) => [row.label, row.count, row.wanted])).toEqual([['Cleat', 4, 20]]);
  expect(answer.not).toEqual([{ jobName: 'Bench', label: 'Rail', why: `4" too short: whole piece 27", needs 31"` }]);
  expect(answer.best.layout?.pieces).toHaveLength(4);
  expect(usesAnswer.safeParse(answer).error).toBeUndefined();
});

test('the best mixture takes the rail first, then cleats beside it', () => {
  const answer = usesOfBoard(offcutOf(32, 5.5, 'A-2'));
  const labels = answer.best.layout?.pieces.map((piece) => piece.label) ?? [];
  expect(labels.filter((label) => label === 'Rail')).toHaveLength(1);
  expect(labels.filter((label) => label === 'Cleat')).toHaveLength(2);
  // Alone, one rail of 31 in is worth more than six cleats: long clear wood counts beyond its area.
  expect(answer.parts.map((row) => [row.label, row.count])).toEqual([
    ['Rail', 1],
    ['Cleat', 6],
  ]);
});

test('a count never passes what is still wanted', () => {
  expect(usesOfBoard(offcutOf(96, 10, 'A-3')).parts.find((row) => row.label === 'Rail')?.count).toBe(2);
});

test('a size typed in is taken as a clear piece with sound ends', () => {
  const size = { species: 'oak, white', ...sizes(27, 4, 1), moisturePercent: 8 };
  const answer = usesOf({ question: { size }, snapshot: { worth: COMMON_WORTH, settings, boards: [], jobs: [bench] } });
  expect(answer.ok && answer.answer.parts.map((row) => [row.label, row.count])).toEqual([['Cleat', 4]]);
});

test('another wood makes nothing of it, and says so', () => {
  const walnut = offcutOf(40, 5, 'A-4', { species: 'black-walnut' });
  const answer = usesOfBoard(walnut);
  expect(answer.parts).toEqual([]);
  expect(answer.not[0]?.why).toBe('white oak is asked for, this is black walnut');
  expect(answer.best).toEqual({ layout: null, worthPercent: 0 });
});

test('a held offcut serves only the job that holds it', () => {
  const other = job([rail], { id: 'jb_00000002', name: 'Desk' });
  const held = offcutOf(32, 5.5, 'A-5', { held: [heldFor('jb_00000002', 0, inch(32))] });
  const answer = usesOfBoard(held, [bench, other]);
  expect(answer.parts.map((row) => [row.jobName, row.label])).toEqual([['Desk', 'Rail']]);
  expect(answer.best.layout?.pieces.map((piece) => piece.label)).toEqual(['Rail']);
});

test('a board that is not in stock is not asked', () => {
  const answer = usesOf({
    question: { boardId: 'bd_00000000' },
    snapshot: { worth: COMMON_WORTH, settings, boards: [], jobs: [bench] },
  });
  expect(answer).toMatchObject({ ok: false, refusal: { why: 'not-found' } });
});

function homesOf(boards: readonly BoardView[]) {
  const question = { jobId: bench.id, partKey: 'rail', element: null };
  const answer = homesFor({ question, snapshot: { worth: COMMON_WORTH, settings, boards, jobs: [bench] } });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.answer;
}

test('a rail goes to the near-exact offcut before the larger one, and to a board last', () => {
  const answer = homesOf([
    board({ ...sizes(96, 8, 1), tag: 'whole' }),
    offcutOf(42, 3.5, 'loose'),
    offcutOf(31.5, 3.25, 'snug'),
    offcutOf(30, 4, 'short'),
    board({ ...sizes(96, 8, 1), tag: 'held', held: [heldFor('jb_other', 0, inch(96))] }),
  ]);
  expect(answer.homes.map((home) => home.tag)).toEqual(['snug', 'loose', 'whole']);
  expect(answer.homes.map((home) => home.isOffcut)).toEqual([true, true, false]);
  expect(answer.homes[0]?.why).toBe('an offcut; a near fit, 1/2" longer than needed; leaves nothing to keep');
  expect(answer.not).toEqual([
    // A hold can be released; the short one will never be longer.
    { tag: 'held', why: 'held for Job jb_other' },
    { tag: 'short', why: `1" too short: whole piece 30", needs 31"` },
  ]);
  expect(answer.rough).toEqual(sizes(31, 3.3125, 0.96875));
  expect(homesAnswer.safeParse(answer).error).toBeUndefined();
});

test('each board says what is cut from it: drier wood needs less, and crook is not in the size', () => {
  const dry = [{ moisturePercent: 8, on: '2026-03-01', meter: 'pin' as const }];
  const answer = homesOf([
    board({ ...sizes(96, 8, 1), tag: 'dry', readings: dry }),
    board({
      ...sizes(96, 8, 1),
      tag: 'crooked',
      readings: dry,
      warp: { bowNm: 0, crookNm: inch(1), cupNm: 0, twistNm: 0 },
    }),
  ]);
  // At 8 %, the shop's target, nothing is still to shrink: 3 in and the 1/4 in that ripping takes.
  for (const home of answer.homes) {
    expect([home.tag, home.needs]).toEqual([home.tag, { lengthNm: inch(31), widthNm: inch(3.25) }]);
    expect(answer.rough.widthNm).toBeGreaterThan(home.needs.widthNm);
  }
  expect(answer.homes).toHaveLength(2);
});

test('the piece is cut from an end, so that the rest stays in one length', () => {
  const [home] = homesOf([board({ ...sizes(96, 3.5, 1), tag: 'whole' })]).homes;
  // 96 less an inch of trim that takes its own blade, 31 and a blade.
  expect(home?.why).toBe(`leaves 3 1/2" × 63 7/8" to keep`);
});

test('a layer of a laminated part is asked for by its number', () => {
  const ply = (width: number) => ({ thicknessNm: inch(0.75), widthNm: inch(width), offsetNm: 0 });
  const grooved = part({
    ...sizes(30, 4.5, 2.25),
    lamination: { kind: 'plies', plies: [ply(4.5), ply(3.75), ply(4.5)] },
  });
  const owner = job([grooved]);
  const ask = (element: number | null) =>
    homesFor({
      question: { jobId: owner.id, partKey: 'A', element },
      snapshot: { worth: COMMON_WORTH, settings, boards: [], jobs: [owner] },
    });
  const width = (element: number | null) => {
    const answer = ask(element);
    return answer.ok ? answer.answer.rough.widthNm : answer.refusal.detail;
  };
  expect(width(1)).toBeLessThan(Number(width(0)));
  expect(width(null)).toBe(width(0));
  expect(width(3)).toBe('Part A has no layer 4.');
});

test('a part of which everything is cut has no home to look for, until a piece fails', () => {
  const moved = (states: readonly PieceState[]) => {
    const pieces = states.map((state, at) => piece(1, null, { attempt: at + 1, state }));
    const owner = job([rail], { parts: [{ ...rail, quantity: 1, version: 1, pieces }] });
    return homesFor({
      question: { jobId: owner.id, partKey: 'rail', element: null },
      snapshot: { worth: COMMON_WORTH, settings, boards: [board({ ...sizes(96, 8, 1) })], jobs: [owner] },
    });
  };
  expect(moved(['roughed'])).toMatchObject({ ok: false, refusal: { why: 'nothing-to-cut' } });
  expect(moved(['milled']).ok).toBe(false);
  expect(moved(['planned']).ok).toBe(true);
  expect(moved(['failed', 'wanted']).ok).toBe(true);
});
