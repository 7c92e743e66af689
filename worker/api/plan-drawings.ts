/**
 * A plan is kept without its drawings, which are two thirds of its length and follow from the rest: they are made when a
 * plan is read, from its layouts and the defects of its boards as they are known now.
 */
import type { Drawing } from '../contract/drawing.ts';
import type { Layout, Plan, PlanBody } from '../contract/plan.ts';
import { drawLayout } from '../planner/drawing.ts';
import { type Asking, good, type Outcome } from './serve.ts';

const NOT_DRAWN: Drawing = { title: '', description: '', widthMm: 0, heightMm: 0, shapes: [], legend: [] };

export function undrawn(plan: PlanBody): PlanBody {
  return { ...plan, layouts: plan.layouts.map((layout) => ({ ...layout, drawing: NOT_DRAWN })) };
}

/** These layouts with their drawings; those that were kept with one, as earlier versions did, keep it. */
export async function drawn(call: Asking, layouts: readonly Layout[]): Promise<Outcome<Layout[]>> {
  const bare = layouts.filter((layout) => layout.drawing.shapes.length === 0);
  if (bare.length === 0) return good([...layouts]);
  const asked = await call.ask('boards-to-draw', { boardIds: bare.map((layout) => layout.boardId) });
  if (!asked.ok) return asked;
  const { settings, boards } = asked.value ?? { settings: null, boards: [] };
  if (settings === null) return good([...layouts]);
  const byId = new Map(boards.map((board) => [board.id, board]));
  return good(
    layouts.map((layout) => {
      if (layout.drawing.shapes.length > 0) return layout;
      const { tag, lengthNm, widthNm } = layout;
      const face = { tag, lengthNm, widthNm, defects: byId.get(layout.boardId)?.defects ?? [] };
      return { ...layout, drawing: drawLayout(face, layout, settings) };
    }),
  );
}

export async function drawnPlan(call: Asking, plan: Plan): Promise<Outcome<Plan>> {
  const layouts = await drawn(call, plan.layouts);
  return layouts.ok ? good({ ...plan, layouts: layouts.value }) : layouts;
}
