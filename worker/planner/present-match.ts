/** What became of parts that should come from one board, in words. */
import type { MatchOutcome, SolvedPlan } from './present.ts';
import type { ShopBoard } from './shop-board.ts';
import { isSister } from './shop-match.ts';

/** One note a group: its board, or its boards and why they are more than one. */
export function matchNotes(plan: SolvedPlan, stock: readonly ShopBoard[]): readonly string[] {
  return plan.matches.map((match) => matchNote(match, plan, stock));
}

function matchNote(
  { group, isKept, hasHome }: MatchOutcome,
  { shop, solution }: SolvedPlan,
  stock: readonly ShopBoard[],
) {
  const from = solution.layouts.flatMap((layout) => {
    const count = layout.pieces.filter(({ blank }) => group.kinds.includes(blank)).length;
    const on = shop.boards[layout.board];
    return count > 0 && on ? [{ on, count }] : [];
  });
  const placed = from.reduce((sum, { count }) => sum + count, 0);
  const missing = group.pieceCount - placed;
  const name = `Match group ${group.name}`;
  const lacking = missing > 0 ? ` ${missing} of its ${group.pieceCount} find no wood.` : '';
  const [only] = from;
  if (!only) return `${name}: no board gives any of it.`;
  if (from.length === 1) {
    const pieces = placed === 1 ? 'its piece comes' : `its ${placed} pieces come`;
    return `${name}: ${pieces} from ${only.on.board.tag}${afterEarlier(only.on, group, stock)}.${lacking}`;
  }
  const list = from.map(({ on, count }) => `${on.board.tag} (${count})`).join(', ');
  const why = hasHome && !isKept ? 'from one board, other pieces would find no wood' : 'no board gives all of it';
  return `${name}: its pieces come from ${from.length} boards, ${list}; ${why}.${lacking}`;
}

/** Where pieces of the group were cut before, and whether this is the same wood. */
function afterEarlier(on: ShopBoard, group: MatchOutcome['group'], stock: readonly ShopBoard[]): string {
  if (group.cutFrom.size === 0) return '';
  if (isSister(on, group.cutFrom)) return ', the same wood as the pieces cut before';
  const tags = stock.filter(({ board }) => group.cutFrom.has(board.id)).map(({ board }) => board.tag);
  return `; the pieces cut before came from ${tags.length > 0 ? tags.join(', ') : 'other boards'}`;
}
