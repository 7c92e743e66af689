/**
 * Things as earlier versions wrote them, brought into today's form whenever they are read: the journal itself is never
 * rewritten, so what it says of an old thing and what the tables hold both pass through here.
 */
import type { EntityKind } from '../contract/movement.ts';
import type { Layout, PlacedPiece, Plan, WoodCost } from '../contract/plan.ts';
import type { Entities } from './state.ts';

/** What a plan says since it can follow another, and since there is more than one aim. */
type LaterOfPlan = 'continues' | 'changes' | 'aim' | 'cutCount' | 'settingCount' | 'cost';
/** Strips are left as a reserve, and edges straightened, since layouts say so; pieces say what they are of their part. */
type LaterOfLayout = 'reserves' | 'unevenEdges';
type LaterOfPiece = 'what' | 'showFace';
type EarlierPiece = Omit<PlacedPiece, LaterOfPiece> & Partial<Pick<PlacedPiece, LaterOfPiece>>;
type EarlierLayout = Omit<Layout, LaterOfLayout | 'pieces'> &
  Partial<Pick<Layout, LaterOfLayout>> & { readonly pieces: readonly EarlierPiece[] };
/** Boards without a price were left out of the cost before the shop's prices were asked. */
type EarlierCost = Omit<WoodCost, 'shopPricedCount'> & Partial<WoodCost>;
type EarlierPlan = Omit<Plan, LaterOfPlan | 'layouts' | 'cost'> &
  Partial<Pick<Plan, Exclude<LaterOfPlan, 'cost'>>> & {
    readonly layouts: readonly EarlierLayout[];
    readonly cost?: EarlierCost | null;
  };

function planNow(plan: EarlierPlan): Plan {
  const cutCount = plan.cutCount ?? plan.layouts.reduce((sum, layout) => sum + layout.cuts.length, 0);
  return {
    ...plan,
    layouts: plan.layouts.map((layout) => ({
      ...layout,
      reserves: layout.reserves ?? [],
      unevenEdges: layout.unevenEdges ?? [],
      pieces: layout.pieces.map((piece) => ({
        ...piece,
        what: piece.what ?? (piece.element === null ? 'solid' : 'ply'),
        showFace: piece.showFace ?? null,
      })),
    })),
    continues: plan.continues ?? null,
    changes: plan.changes ?? [],
    aim: plan.aim ?? 'least-cost',
    cutCount,
    // Not counted then: each cut with a setting of its own is the most that it can have been.
    settingCount: plan.settingCount ?? cutCount,
    cost: plan.cost ? { ...plan.cost, shopPricedCount: plan.cost.shopPricedCount ?? 0 } : null,
  };
}

export function inTodaysForm<K extends EntityKind>(kind: K, thing: Entities[K]): Entities[K] {
  return kind === 'plan' ? (planNow(thing as Plan) as Entities[K]) : thing;
}
