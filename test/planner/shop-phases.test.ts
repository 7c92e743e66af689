/** Layers of one glue-up in the phases of a plan. That they should rest together is common practice, no source. */
import { expect, test } from 'vitest';
import type { BoardView } from '../../worker/contract/board.ts';
import type { Layout } from '../../worker/contract/plan.ts';
import { widthWarnings } from '../../worker/planner/present-warnings.ts';
import { planCutting } from '../../worker/planner/shop.ts';
import { gluedUpTogether } from '../../worker/planner/shop-phases.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { board, inch, job, part, shopSettings } from '../takeoff/shop-cases.ts';

const ply = (label: string, no: number, element: number): Layout['pieces'][number] => ({
  ...{ fromNm: 0, toNm: inch(30), leftNm: 0, rightNm: inch(4) },
  ...{ partKey: label, label, no, element, what: 'ply', showFace: null, attempt: 1 },
});
const on = (tag: string, phase: number, ...pieces: Layout['pieces']): Layout => ({
  ...{ boardId: `bd_${tag}`, tag, lengthNm: inch(96), widthNm: inch(8), thicknessNm: inch(1), phase, pieces },
  ...{ cuts: [], offcuts: [], scrap: [], reserves: [], unevenEdges: [], yieldPercent: 50, warnings: [] },
  drawing: {} as Layout['drawing'],
});
const phases = (layouts: readonly Layout[]) => layouts.map(({ tag, phase }) => `${tag} ${phase}`);

test('one later board comes forward where that brings the glue-up together', () => {
  const first = on('A', 1, ply('Post', 1, 0));
  const later = on('B', 3, ply('Post', 1, 1), ply('Post', 2, 0), ply('Post', 2, 1));
  const together = gluedUpTogether([first, later, on('C', 3, ply('Leg', 1, 0))]);
  expect(phases(together)).toEqual(['A 1', 'B 1', 'C 3']);
  expect(together.flatMap(({ warnings }) => warnings)).toEqual([]);
});

test('boards that would draw others after them stay, and each says what of the glue-up is cut when', () => {
  const boards = [
    on('A', 1, ply('Post', 1, 0)),
    on('B', 3, ply('Post', 1, 1), ply('Post', 2, 0)),
    on('C', 3, ply('Post', 2, 1)),
  ];
  const stay = gluedUpTogether(boards);
  expect(phases(stay)).toEqual(['A 1', 'B 3', 'C 3']);
  expect(stay.map(({ warnings }) => warnings.join())).toEqual([
    'Glue-up in two phases: Post 1, ply 1 is cut here, its other layers after the rest, from B. Keep it stickered until all have rested.',
    'Glue-up in two phases: Post 1, ply 2 is cut here, its other layers before the rest, from A. Keep it stickered until all have rested.',
    '',
  ]);
  // A plan that goes on from another one does not say it twice.
  expect(gluedUpTogether(stay)).toEqual(stay);
});

test('solid parts of one row may lie in two phases', () => {
  const solid = { ...ply('Rail', 1, 0), element: null, what: 'solid' as const };
  const boards = [on('A', 1, solid), on('B', 3, { ...solid, no: 2 })];
  expect(gluedUpTogether(boards)).toEqual(boards);
});

test('two strips that fill a mill board say what jointing costs; an offcut, and one with room, do not', () => {
  // Rough: 61 x 2 3/4 in. Two and a blade of 1/8 in are 5 5/8 in.
  const rail = part({ lengthNm: inch(60), widthNm: inch(2.5), thicknessNm: inch(0.75), label: 'Rail', quantity: 2 });
  const said = (changes: Partial<BoardView>) => {
    const answer = planCutting({
      ...{ job: job([rail]), settings: shopSettings(), effort: 'quick', seed: 1, aim: 'least-cost' },
      ...{ boards: [board({ lengthNm: inch(64), thicknessNm: inch(1), widthNm: inch(5.625), ...changes })] },
      worth: COMMON_WORTH,
    });
    if (!answer.ok) throw new Error(answer.refusal.detail);
    return answer.plan.layouts[0]?.warnings.filter((warning) => warning.startsWith('No width to spare'));
  };
  expect(said({})).toEqual([
    'No width to spare: Rail 1 and Rail 2 fill it, blade included. What is jointed off an edge comes off the strip ripped last; each is 1/4" over finished, so take no more.',
  ]);
  expect(said({ widthNm: inch(6) })).toEqual([]);
  expect(said({ origin: { kind: 'offcut', parentId: 'bd_00000099', sessionId: null } })).toEqual([]);
});

test('all pieces beside each other are named, and what they are over finished is as the tape shows them cut', () => {
  const settings = shopSettings();
  const strip = (label: string, from: number, to: number, left: number, right: number) => ({
    ...ply(label, 1, 0),
    ...{ element: null, what: 'solid' as const },
    ...{ fromNm: inch(from), toNm: inch(to), leftNm: inch(left), rightNm: inch(right) },
  });
  // The middle of the long strip lies beside the rest between the two short ones.
  const pieces = [
    strip('Long', 0, 60, 0, 4.8125),
    strip('Near', 0, 20, 4.9375, 7.5),
    strip('Far', 40, 60, 4.9375, 7.5),
  ];
  const rests = [{ fromNm: inch(20), toNm: inch(40), leftNm: inch(4.9375), rightNm: inch(7.5) }];
  const on = { board: board({ lengthNm: inch(60), widthNm: inch(7.5), thicknessNm: inch(1) }) };
  const said = (...finished: readonly number[]) => widthWarnings(on, pieces, finished.map(inch), rests, settings)[0];
  // 4 13/16 less 4 1/2 is 5/16, and 2 9/16 less 2 1/4 too.
  expect(said(4.5, 2.25, 2.25)).toMatch(/Long 1, Near 1 and Far 1 fill it.*; each is 5\/16" over finished, so/);
  expect(said(4.5, 2.25, 2.3125)).toContain('each is at least 1/4" over finished');
});
