/**
 * A delivery measured against what the supplier states: by surface measure as hardwood is sold, and what the difference
 * costs.
 */
import { requireWithin } from './result.ts';
import { bundleTally, type Face, tallyBoardFeet } from './volume.ts';

export interface DeliveredBoard extends Face {
  /** The call as rough thickness: 5/4 is 1¼ in. */
  readonly callRoughNm: number;
}

export interface DeliveryCheck {
  /** Whole board feet by surface measure, call by call. */
  readonly tallyBf: number;
  /** Board feet with every fraction of width and length, for comparison. */
  readonly exactBf: number;
  readonly statedBf: number;
  /** Stated less tallied: above zero, more was billed than came. */
  readonly overstatedBf: number;
  /** Of the tally, per cent. */
  readonly overstatedPercent: number;
  /** What the difference costs at the price agreed, minor units of money; null without a price. */
  readonly overstatedMinor: number | null;
}

/**
 * Compares the boards with the stated tally. Both must be on one basis: a tally taken before kiln drying reads some per
 * cent more than the dry boards, and hardwood sold dry is measured dry with nothing added (trade article, second hand).
 * Twelve layers of 40 bf billed as 502 bf are overstated by 22 bf, 4.58 %.
 */
export function deliveryCheck(
  boards: readonly DeliveredBoard[],
  stated: { readonly boardFeet: number; readonly minorPerBoardFoot: number | null },
): DeliveryCheck {
  requireWithin('board feet on the bill', stated.boardFeet, 0, 1e9);
  requireWithin('price', stated.minorPerBoardFoot ?? 0, 0, 1e12);
  const calls = new Map<number, DeliveredBoard[]>();
  for (const board of boards) calls.set(board.callRoughNm, [...(calls.get(board.callRoughNm) ?? []), board]);
  const tallyBf = [...calls].reduce((sum, [callNm, ofCall]) => sum + bundleTally(ofCall, callNm).boardFeet, 0);
  const exactBf = boards.reduce((sum, board) => sum + tallyBoardFeet(board), 0);
  const overstatedBf = stated.boardFeet - tallyBf;
  return {
    tallyBf,
    exactBf,
    statedBf: stated.boardFeet,
    overstatedBf,
    overstatedPercent: tallyBf === 0 ? 0 : (overstatedBf / tallyBf) * 100,
    overstatedMinor: stated.minorPerBoardFoot === null ? null : Math.round(overstatedBf * stated.minorPerBoardFoot),
  };
}
