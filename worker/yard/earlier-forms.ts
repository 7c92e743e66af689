/**
 * Things as earlier versions wrote them, brought into today's form whenever they are read: the journal itself is never
 * rewritten, so what it says of an old thing and what the tables hold both pass through here.
 */
import type { EntityKind } from '../contract/movement.ts';
import type { Plan } from '../contract/plan.ts';
import type { Entities } from './state.ts';

/** Plans of before they could follow another carry neither field. */
type EarlierPlan = Omit<Plan, 'continues' | 'changes'> & Partial<Pick<Plan, 'continues' | 'changes'>>;

function planNow(plan: EarlierPlan): Plan {
  return { ...plan, continues: plan.continues ?? null, changes: plan.changes ?? [] };
}

export function inTodaysForm<K extends EntityKind>(kind: K, thing: Entities[K]): Entities[K] {
  return kind === 'plan' ? (planNow(thing as Plan) as Entities[K]) : thing;
}
