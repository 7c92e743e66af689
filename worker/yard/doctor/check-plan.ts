/** Whether a kept plan lies on its boards. Plain geometry, apart from the planner and its own check. */
import type { Layout, Plan } from '../../contract/plan.ts';

interface Rect {
  readonly fromNm: number;
  readonly toNm: number;
  readonly leftNm: number;
  readonly rightNm: number;
}

function within(inner: Rect, layout: Layout): boolean {
  return (
    inner.fromNm >= 0 &&
    inner.fromNm < inner.toNm &&
    inner.toNm <= layout.lengthNm &&
    inner.leftNm >= 0 &&
    inner.leftNm < inner.rightNm &&
    inner.rightNm <= layout.widthNm
  );
}

function overlap(a: Rect, b: Rect): boolean {
  return a.fromNm < b.toNm && b.fromNm < a.toNm && a.leftNm < b.rightNm && b.leftNm < a.rightNm;
}

function layoutFaults(layout: Layout): readonly string[] {
  const faults: string[] = [];
  const placed: readonly Rect[] = [...layout.pieces, ...layout.offcuts];
  if (!placed.every((rect) => within(rect, layout))) faults.push(`a piece or offcut leaves ${layout.tag}`);
  for (const [at, one] of placed.entries()) {
    if (!placed.slice(at + 1).some((other) => overlap(one, other))) continue;
    faults.push(`two pieces or offcuts of ${layout.tag} overlap`);
    break;
  }
  return faults;
}

export function planFaults(plan: Plan): readonly string[] {
  const faults = plan.layouts.flatMap(layoutFaults);
  const placed = plan.layouts.reduce((sum, layout) => sum + layout.pieces.length, 0);
  if (placed !== plan.placedCount) faults.push(`it says ${plan.placedCount} pieces and places ${placed}`);
  const boards = plan.layouts.map((layout) => layout.boardId);
  if (new Set(boards).size !== boards.length) faults.push('a board is laid out twice');
  if (boards.some((boardId) => plan.boardVersions[boardId] === undefined)) {
    faults.push('a board has no version that it was planned on');
  }
  return faults;
}
