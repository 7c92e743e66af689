/** What boards cost: what was paid for them, or where that was not written down, what the shop's own prices make of them. */
import type { Settings } from '../contract/settings.ts';
import { priceMinorPerBoardFoot } from '../takeoff/price.ts';
import { woodReader } from '../takeoff/which-wood.ts';
import { callOf } from '../wood/thickness.ts';
import { boardFeet } from '../wood/volume.ts';
import type { ShopBoard } from './shop-board.ts';

/** Minor units; null where neither the board nor the shop has a price. */
export interface BoardCost {
  readonly minor: number;
  readonly isShopPrice: boolean;
}

export type CostOf = (on: Pick<ShopBoard, 'board' | 'wood'>) => BoardCost | null;

/** By the price list the takeoff reckons with. */
export function boardCosts(settings: Pick<Settings, 'prices' | 'ownWoods'>): CostOf {
  const woodOf = woodReader(settings);
  const known = new Map<string, number | null>();
  const perBoardFoot = (woodKey: string, call: string): number | null => {
    const key = `${woodKey} ${call}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const price = priceMinorPerBoardFoot(settings.prices, (species) => woodOf(species).key === woodKey, call);
    known.set(key, price);
    return price;
  };
  return ({ board, wood }) => {
    if (board.costMinor !== null) return { minor: board.costMinor, isShopPrice: false };
    const price = perBoardFoot(wood.key, board.thicknessCall ?? callOf(board.thicknessNm));
    return price === null ? null : { minor: Math.round(price * boardFeet(board)), isShopPrice: true };
  };
}
