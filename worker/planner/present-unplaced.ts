/** Pieces that no board gave, why, and the board that came nearest. */
import type { Unplaced } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import type { ShopBoard } from './shop-board.ts';
import { type Fail, type FitOptions, placeOn } from './shop-fit.ts';
import type { Wanted } from './shop-wanted.ts';

export function presentUnplaced(
  asks: Wanted,
  count: number,
  stock: readonly ShopBoard[],
  settings: Settings,
  options: FitOptions,
): Unplaced {
  const { part, element } = asks;
  const row = { partKey: part.key, label: part.label, element, count };
  const ofWood = stock.filter((on) => on.wood.key === asks.wood.key);
  if (ofWood.length === 0) return { ...row, why: `No ${asks.wood.name} in stock.`, nearest: null };
  let nearest: { readonly on: ShopBoard; readonly fails: readonly Fail[] } | null = null;
  for (const on of ofWood) {
    const fit = placeOn(asks, on, settings, options);
    if (fit.ok) {
      const why = `Boards that could give it, such as ${on.board.tag}, are used up by pieces cut before it.`;
      return {
        ...row,
        why,
        nearest: { boardId: on.board.id, tag: on.board.tag, failsBy: ['its wood went to other pieces'] },
      };
    }
    if (nearest === null || distance(fit.fails) < distance(nearest.fails)) nearest = { on, fails: fit.fails };
  }
  if (nearest === null) return { ...row, why: 'No free board can give it.', nearest: null };
  const { on, fails } = nearest;
  return {
    ...row,
    why: `No free ${asks.wood.name} board can give it.`,
    nearest: { boardId: on.board.id, tag: on.board.tag, failsBy: fails.map((fail) => fail.words) },
  };
}

/** One thing wrong is nearer than two, however small each is; what can pass is nearer than what this board will never be. */
export function distance(fails: readonly Fail[]): number {
  return fails.reduce((sum, fail) => sum + (fail.passes ? 0.5 : 1) + Math.min(1, Math.max(0, fail.share)), 0);
}
