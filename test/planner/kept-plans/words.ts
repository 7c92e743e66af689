/** Plans as lines of text, so that a change of the search shows in a review as what it changes for the shop. */
import type { PlanBody, RectNm } from '../../../worker/contract/plan.ts';
import { drawingSvg } from '../../../worker/planner/drawing-svg.ts';
import type { Problem, Solution } from '../../../worker/planner/problem.ts';
import { nmFromMm } from '../../../worker/wood/unit.ts';

const rounded = (value: number): number => Math.round(value * 1000) / 1000;

export function solutionLines(name: string, problem: Problem, solution: Solution, optimum?: number): string[] {
  const best = optimum === undefined ? '' : `, optimum ${optimum}`;
  const head = `${name}: ${rounded(solution.achieved)}, bound ${rounded(solution.bound)}${best}; ${solution.steps} steps`;
  const boards = solution.layouts.map(({ board, pieces, rests }) => {
    const placed = pieces.map(
      ({ blank, from, to, left, right }) => `${problem.blanks[blank]?.part} ${from}-${to} x ${left}-${right}`,
    );
    return `  ${problem.boards[board]?.tag}: ${placed.join(', ')}; ${rests.length} rests`;
  });
  return [head, ...boards];
}

const mm = (nm: number): number => rounded(nm / nmFromMm(1));
const place = ({ fromNm, toNm, leftNm, rightNm }: RectNm): string =>
  `${mm(fromNm)}-${mm(toNm)} x ${mm(leftNm)}-${mm(rightNm)} mm`;

export function planLines(plan: PlanBody): string[] {
  const { placedCount, wantedCount, yieldPercent, cutCount, settingCount, stockUsedM3, stockBoundM3, gapPercent } =
    plan;
  const figures = [yieldPercent, cutCount, settingCount, stockUsedM3 * 1000, stockBoundM3 * 1000, gapPercent].map(
    rounded,
  );
  return [
    `${plan.aim}: ${placedCount} of ${wantedCount}; yield, cuts, settings, used, least, gap: ${figures.join(', ')}`,
    plan.boundIs,
    ...plan.notes.map((note) => `note: ${note}`),
    ...plan.changes.map((change) => `change: ${change}`),
    ...plan.layouts.flatMap((layout) => [
      `${layout.tag}, phase ${layout.phase}, yield ${rounded(layout.yieldPercent)}`,
      ...layout.pieces.map(
        (p) => `  ${p.label} ${p.no} ${p.what} ${p.element ?? ''} ${p.showFace ?? ''} at ${place(p)}`,
      ),
      ...layout.cuts.map((cut) => `  ${cut.no} ${cut.words}`),
      ...layout.offcuts.map((rest) => `  offcut ${place(rest)}`),
      ...layout.scrap.map((rest) => `  scrap ${place(rest)}`),
      ...layout.reserves.map((strip) => `  reserve after ${strip.afterCut}: ${strip.words}`),
      ...layout.warnings.map((warning) => `  warning: ${warning}`),
    ]),
    ...plan.unplaced.map(
      ({ label, count, why, nearest }) =>
        `no board: ${count} ${label}; ${why} ${nearest?.tag} ${nearest?.failsBy.join(', ')}`,
    ),
  ];
}

/** One element a line. */
export const drawingLines = (layout: PlanBody['layouts'][number]): string[] =>
  drawingSvg(layout.drawing, { idPrefix: 'kept' }).replaceAll('><', '>\n<').split('\n');
