/** A finished plan looked at from outside: every board replayed at full precision, in nanometres, from what the plan says. */
import type { BoardView } from '../../worker/contract/board.ts';
import type { Layout, PlanBody, RectNm } from '../../worker/contract/plan.ts';
import { checkLayout } from '../../worker/planner/check.ts';
import type { BoardLayout, Problem, Rect } from '../../worker/planner/problem.ts';
import { CLEANUP_EDGE_NM } from '../../worker/wood/warp.ts';

const rect = (r: RectNm): Rect => ({ from: r.fromNm, to: r.toNm, left: r.leftNm, right: r.rightNm });

/** Faults of the plan's boards; what no piece may touch is given by the case. */
export function planFaults(
  plan: PlanBody,
  boards: readonly BoardView[],
  forbidden: (board: BoardView) => readonly RectNm[],
): string[] {
  return plan.layouts.flatMap((layout) => {
    const board = boards.find((each) => each.id === layout.boardId);
    return board
      ? checkLayout(asProblem(plan, layout, board, forbidden(board)), asLayout(layout))
      : [`no board ${layout.tag}`];
  });
}

function asProblem(plan: PlanBody, layout: Layout, board: BoardView, forbidden: readonly RectNm[]): Problem {
  const crookNm = board.warp?.crookNm ?? 0;
  return {
    kerf: { rip: plan.kerf.ripNm, crosscut: plan.kerf.crosscutNm },
    maxStages: null,
    boards: [
      {
        tag: layout.tag,
        length: layout.lengthNm,
        width: layout.widthNm,
        count: 1,
        cost: 0,
        blocked: [forbidden.map(rect)],
        fits: null,
        edges: { crook: crookNm > CLEANUP_EDGE_NM ? crookNm : 0, uneven: [], partedAt: [] },
      },
    ],
    blanks: layout.pieces.map((piece) => ({
      part: piece.label,
      length: piece.toNm - piece.fromNm,
      width: piece.rightNm - piece.leftNm,
      quantity: 1,
      value: 1,
      tier: 1,
      quality: 0,
      matchGroup: null,
    })),
    objective: 'value',
    rest: null,
  };
}

const asLayout = (layout: Layout): BoardLayout => ({
  board: 0,
  pieces: layout.pieces.map((piece, blank) => ({ ...rect(piece), blank })),
  cuts: layout.cuts.map((cut) => ({ axis: cut.axis, of: rect(cut.of), at: cut.atNm, kerf: cut.kerfNm })),
  rests: [...layout.offcuts, ...layout.scrap].map(rect),
});
