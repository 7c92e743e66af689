/** One piece of wood cut up, as the shop sees it. */
import type { Drawing } from '../contract/drawing.ts';
import type { Layout } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import type { OneCut } from './offcut-search.ts';
import { drawSolved, inOrderWanted, presentLayout } from './present-layout.ts';
import type { ShopBoard } from './shop-board.ts';

export function presentOneCut({ shop, layout }: OneCut, on: ShopBoard, settings: Settings): Layout {
  return presentLayout(shop.problem, layout, on, shop.wanted, inOrderWanted(shop.wanted), settings);
}

export function drawOneCut({ shop, layout }: OneCut, on: ShopBoard, settings: Settings): Drawing {
  return drawSolved(layout, on, shop.wanted, settings);
}
