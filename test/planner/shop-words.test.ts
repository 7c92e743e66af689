/** What a plan tells besides its cuts: why a trim is as long as it is, which settings boards share, what the boards cost. */
import { describe, expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Layout, PlanBody } from '../../worker/contract/plan.ts';
import type { Settings } from '../../worker/contract/settings.ts';
import { planNotes } from '../../worker/planner/present-notes.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { trimReasons } from '../../worker/planner/trim-reason.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

const sizes = (length: number, width: number) => ({
  lengthNm: inch(length),
  widthNm: inch(width),
  thicknessNm: inch(1),
});
const shelf = part({ lengthNm: inch(40), widthNm: inch(5.5), thicknessNm: inch(0.75), label: 'Shelf' });

function planOf(boards: readonly BoardView[], settings: Settings = shopSettings(), quantity = boards.length): PlanBody {
  const answer = planCutting({
    job: job([{ ...shelf, quantity }]),
    boards,
    settings,
    effort: 'quick',
    seed: 1,
    aim: 'least-cost',
    worth: COMMON_WORTH,
  });
  if (!answer.ok) throw new Error(answer.refusal.detail);
  return answer.plan;
}

describe('a trim', () => {
  const settings = shopSettings();
  const split = { kind: 'split' as const, face: 'through' as const, ...at(0, 3, 0, 8), note: '' };
  const knot = { kind: 'knot-sound' as const, face: 'a' as const, ...at(4, 4.5, 2, 3), note: '' };
  function at(from: number, to: number, left: number, right: number) {
    return { fromNm: inch(from), toNm: inch(to), leftNm: inch(left), rightNm: inch(right) };
  }
  const reasonOf = (defects: BoardView['defects'], off: ReturnType<typeof at>, sawn: number) =>
    trimReasons({ lengthNm: inch(100), defects }, settings)(off, inch(sawn));

  test('of a mill end needs no reason', () => {
    expect(reasonOf([], at(0, 1, 0, 8), 1)).toBeNull();
    expect(reasonOf([split], at(99, 100, 0, 8), 99)).toBeNull();
  });

  test('says what it clears, at either end and in the middle of a board', () => {
    expect(reasonOf([split], at(0, 4, 0, 8), 4)).toBe('to clear the split');
    expect(reasonOf([{ ...split, ...at(97, 100, 0, 8) }], at(96, 100, 0, 8), 96)).toBe('to clear the split');
    expect(reasonOf([split, knot, { ...knot, ...at(4, 4.5, 5, 6) }], at(0, 4.5, 0, 8), 4.5)).toBe(
      'to clear the sound knots',
    );
    expect(reasonOf([{ ...split, ...at(40, 43, 0, 8) }], at(39, 44, 0, 8), 44)).toBe('to clear the split');
  });

  test('says that it is waste where nothing is in the way', () => {
    expect(reasonOf([], at(0, 5.875, 0, 8), 5.875)).toBe('waste, too short to keep');
    expect(reasonOf([split], at(0, 11, 0, 8), 11)).toBe('waste, too short to keep');
    expect(reasonOf([], at(0, 20, 0, 8), 20)).toBe('waste');
  });

  test('stands with its reason in the steps of a plan', () => {
    // 45 in with a split at the tagged end: 41 in of shelf fit only behind it, 1 in from where it shows to end.
    const steps = planOf([board({ ...sizes(50, 6.5), defects: [{ ...split, ...at(0, 4, 0, 6.5) }] })])
      .layouts.flatMap(({ cuts }) => cuts)
      .map(({ words }) => words);
    expect(steps.join(' ')).toMatch(/trim 5" off the tagged end, to clear the split\./);
  });
});

test('a setting that two phases share is told for each of them', () => {
  const layoutOf = (tag: string, phase: number): Layout => {
    const [layout] = planOf([board({ ...sizes(60, 8), tag })]).layouts;
    if (!layout) throw new Error('no layout');
    return { ...layout, tag, phase };
  };
  const notes = (...phases: number[]) =>
    planNotes(
      phases.map((phase, index) => layoutOf(`B-${index + 1}`, phase)),
      shopSettings(),
      null,
    ).find((note) => note.startsWith('Boards that share')) ?? '';
  expect(notes(1, 1)).toBe('Boards that share a setting, to be ripped one after the other: fence at 5 3/4": B-1, B-2.');
  expect(notes(1, 1, 2, 2)).toBe(
    'Boards that share a setting, to be ripped one after the other: in phase 1 fence at 5 3/4": B-1, B-2; in phase 2 fence at 5 3/4": B-3, B-4.',
  );
});

describe('what the boards of a plan cost', () => {
  const prices: Settings['prices'] = [
    { species: 'white oak', thicknessCall: null, minorPerBoardFoot: 900 },
    { species: 'white oak', thicknessCall: '4/4', minorPerBoardFoot: 600 },
  ];
  const settings = { ...shopSettings(), prices };
  const paid = board({ ...sizes(48, 6), tag: 'paid', costMinor: 1500 });
  const unpriced = board({ ...sizes(48, 6), tag: 'unpriced', costMinor: null });

  test('is what was paid, and else the shop’s price, counted beside it', () => {
    // 48 x 6 in of 4/4 are 2 bf, at 6.00 a board foot of that thickness.
    expect(planOf([paid, unpriced], settings).cost).toEqual({ minor: 2700, unpricedCount: 0, shopPricedCount: 1 });
    expect(planOf([paid, unpriced], { ...settings, prices: [] }).cost).toEqual({
      minor: 1500,
      unpricedCount: 1,
      shopPricedCount: 0,
    });
  });

  test('decides between boards: one without a price of its own is not taken for cheap', () => {
    const cheap = { ...paid, tag: 'cheap', costMinor: 300 };
    const tagsOf = (minorPerBoardFoot: number, other: BoardView) =>
      planOf([unpriced, other], { ...settings, prices: [{ ...prices[1]!, minorPerBoardFoot }] }, 1).layouts.map(
        ({ tag }) => tag,
      );
    expect(tagsOf(600, cheap)).toEqual(['cheap']);
    expect(tagsOf(100, { ...paid, tag: 'dear' })).toEqual(['unpriced']);
  });
});
