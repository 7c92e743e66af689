/** One piece of wood cut up, as the shop sees it; the pieces are taken in the order in which they are wanted. */
import type { Layout } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import type { OneCut } from './offcut-search.ts';
import { presentLayout } from './present-layout.ts';
import type { ShopBoard } from './shop-board.ts';
import type { PieceRef } from './shop-wanted.ts';

export function presentOneCut({ shop, layout }: OneCut, on: ShopBoard, settings: Settings): Layout {
  const next = shop.wanted.map(() => 0);
  const assign = (blank: number): PieceRef => {
    const at = next[blank] ?? 0;
    next[blank] = at + 1;
    const piece = shop.wanted[blank]?.pieces[at];
    if (!piece) throw new Error(`more of blank ${blank} cut than wanted`);
    return piece;
  };
  return presentLayout(layout, on, shop.wanted, assign, settings);
}
