/**
 * Plans kept word for word: the same job, effort and seed give the same plan on any machine, and a change of the search
 * shows here as what it changes. After a change that was meant: the same command with `-u`, and read the difference.
 * Beside the boards of the literature stands their optimum, or the best known: no bound excludes it.
 */
import { describe, expect, test } from 'vitest';
import type { PlanAim, PlanBody } from '../../worker/contract/plan.ts';
import { checkSolution } from '../../worker/planner/check.ts';
import { homesFor, usesOf } from '../../worker/planner/offcut.ts';
import type { Problem } from '../../worker/planner/problem.ts';
import { type CuttingInput, planCutting, planSteps } from '../../worker/planner/shop.ts';
import { replanCutting } from '../../worker/planner/shop-replan.ts';
import { COMMON_WORTH } from '../../worker/planner/shop-worth.ts';
import { solve } from '../../worker/planner/solve.ts';
import { job, piece, shopSettings } from '../takeoff/shop-cases.ts';
import { knownInstances } from './kept-plans/instances.ts';
import { benchParts, longBars, oneBoard, rack, racks, unlikeBoards, wideBoard, yard } from './kept-plans/made.ts';
import { drawingLines, planLines, solutionLines } from './kept-plans/words.ts';
import { boardOfSize } from './solve-cases.ts';

const kept = (name: string) => `kept-plans/${name}.txt`;
const asText = (lines: readonly string[]) => `${lines.join('\n')}\n`;

function quickly(problem: Problem, workMost?: number) {
  const solution = solve(problem, { effort: 'quick', seed: 1, ...(workMost === undefined ? {} : { workMost }) });
  expect(checkSolution(problem, solution)).toEqual([]);
  return solution;
}

test.each(knownInstances())('of the literature: $name', async ({ name, problem, optimum }) => {
  const solution = quickly(problem);
  if (problem.objective === 'boards') expect(solution.bound).toBeLessThanOrEqual(optimum);
  else expect(solution.bound).toBeGreaterThanOrEqual(optimum);
  const lines = solutionLines(name, problem, solution, optimum);
  await expect(asText(lines)).toMatchFileSnapshot(kept(`literature-${name}`));
});

describe('made yards', () => {
  const cases: Readonly<Record<string, Problem>> = {
    'four boards': yard(1, 4, 6),
    'seven boards, two stages': yard(2, 7, 8, { maxStages: 2 }),
    'three boards, three stages, no blade': yard(3, 3, 7, { maxStages: 3, kerf: { rip: 0, crosscut: 0 } }),
    'five boards, rip and crosscut unlike': yard(4, 5, 6, { kerf: { rip: 5, crosscut: 2 } }),
    'sizes by board, rests worth keeping': unlikeBoards(5, 6, 7),
    'racks of three kinds': racks(7, 3, 7),
    'racks of one kind, four stages': racks(8, 1, 6, { maxStages: 4 }),
    'long bars in fine units': longBars(14, 9),
    'one long bar in fine units': { ...longBars(15, 7), objective: 'value', boards: [boardOfSize('B-1', 62_000, 90)] },
    'one wide board with knots, as many as pay': wideBoard(16, 2),
    'one board, a few of each': oneBoard(9, 0, 1),
    'one board with knots, a few of each': oneBoard(10, 4, 1),
    'one board, as many as pay': oneBoard(11, 0, null),
    'one board with knots, as many as pay': oneBoard(12, 3, null),
    'one board with knots, three stages': oneBoard(13, 3, 1, { maxStages: 3 }),
  };
  test.each(Object.entries(cases))('%s', async (name, problem) => {
    const lines = solutionLines(name, problem, quickly(problem, 2_000_000));
    await expect(asText(lines)).toMatchFileSnapshot(kept(name.replaceAll(/\W+/g, '-')));
  });
});

describe('a small bench from a rack of rough white oak', () => {
  const boards = rack(21, 14);
  const owner = job(benchParts());
  const input = (aim: PlanAim): CuttingInput => ({
    job: owner,
    boards,
    settings: shopSettings(),
    effort: 'quick',
    seed: 1,
    aim,
    worth: COMMON_WORTH,
  });
  function planned(aim: PlanAim): PlanBody {
    const answer = planCutting(input(aim));
    if (!answer.ok) throw new Error(answer.refusal.detail);
    return answer.plan;
  }
  const first = planned('least-cost');

  test.each(['least-cost', 'fewest-boards', 'fewest-cuts'] as const)('%s', async (aim) => {
    await expect(asText(planLines(planned(aim)))).toMatchFileSnapshot(kept(`bench-${aim}`));
  });

  test('its drawings', async () => {
    await expect(asText(first.layouts.flatMap(drawingLines))).toMatchFileSnapshot(kept('bench-drawings'));
  });

  test('stopped at its second look, the best so far is what is kept', async () => {
    const steps = planSteps(input('least-cost'));
    let looked = steps.next();
    for (let look = 1; look < 2 && !looked.done; look += 1) looked = steps.next();
    if (looked.done) throw new Error('The search was through before.');
    const { best, placedCount, boardCount } = looked.value.look();
    const answer = planCutting({ ...input('least-cost'), taken: best });
    if (!answer.ok) throw new Error(answer.refusal.detail);
    expect(answer.plan.placedCount).toBe(placedCount);
    // The last look may do with a board less.
    expect(answer.plan.layouts.length).toBeLessThanOrEqual(boardCount);
    await expect(asText(planLines(answer.plan))).toMatchFileSnapshot(kept('bench-stopped'));

    const moved = best.map(({ boardId, pieces: [one, ...others] }) => ({
      boardId,
      pieces: one ? [{ ...one, from: one.from + 100_000 }, ...others] : others,
    }));
    const refused = planCutting({ ...input('least-cost'), taken: moved });
    expect(refused.ok ? null : refused.refusal.why).toBe('boards-changed');
  });

  test.each([
    ['bench-again', []],
    ['bench-again-beside-the-saw', first.layouts.filter((_, no) => no !== 1).map(({ boardId }) => boardId)],
  ])('%s: a board went bad and a rail failed', async (name, boardIds) => {
    const atTheSaw = new Set(boardIds);
    const gone = first.layouts[1]?.boardId;
    const rails = owner.parts.map((row) =>
      row.key === 'R' ? { ...row, pieces: [piece(1, null, { state: 'wanted', attempt: 2 }), piece(2, null)] } : row,
    );
    // One front is cut already: the others of its match group want the same board.
    const cut = piece(1, null, { state: 'roughed', boardId: first.layouts.at(-1)?.boardId ?? null });
    const parts = rails.map((row) =>
      row.key === 'D' ? { ...row, pieces: [cut, piece(2, null), piece(3, null)] } : row,
    );
    const answer = replanCutting({
      ...input('least-cost'),
      job: { ...owner, parts },
      boards: boards.filter((each) => each.id !== gone),
      plan: { ...first, id: 'pl_00000001', state: 'reserved', madeAtMs: 0, version: 1 },
      atTheSaw,
    });
    if (!answer.ok) throw new Error(answer.refusal.detail);
    await expect(asText(planLines(answer.plan))).toMatchFileSnapshot(kept(name));
  });

  test('from more boards than are searched', async () => {
    const answer = planCutting({ ...input('least-cost'), boards: rack(22, 400), job: job(benchParts().slice(2, 4)) });
    if (!answer.ok) throw new Error(answer.refusal.detail);
    await expect(asText(planLines(answer.plan))).toMatchFileSnapshot(kept('bench-from-many'));
  });

  test('what a board still makes, and where a part is best cut', async () => {
    const snapshot = { settings: shopSettings(), boards, jobs: [owner], worth: COMMON_WORTH };
    const without = (key: string, value: unknown) => (key === 'drawing' ? undefined : value);
    const asked = [
      ...boards.slice(0, 3).map(({ id }) => usesOf({ question: { boardId: id }, snapshot })),
      ...['R', 'L', 'C'].map((key) =>
        homesFor({ question: { jobId: owner.id, partKey: key, element: null }, snapshot }),
      ),
    ];
    const lines = asked.map((answer) => JSON.stringify(answer, without, 1));
    await expect(asText(lines)).toMatchFileSnapshot(kept('bench-offcuts'));
  });
});
