/** Pieces that no board gave, why, and the board that came nearest. */
import type { Unplaced } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import type { ShopBoard } from './shop-board.ts';
import { type Fail, type FitOptions, placeOn } from './shop-fit.ts';
import type { Wanted } from './shop-wanted.ts';

/** cutIds: the boards that the plan cuts. */
export function presentUnplaced(
  asks: Wanted,
  count: number,
  stock: readonly ShopBoard[],
  cutIds: ReadonlySet<string>,
  settings: Settings,
  options: FitOptions,
): Unplaced {
  const { part, element } = asks;
  const row = { partKey: part.key, label: part.label, element, count };
  const ofWood = stock.filter((on) => on.wood.key === asks.wood.key);
  if (ofWood.length === 0) return { ...row, why: `No ${asks.wood.name} in stock.`, nearest: null };
  let nearest: { readonly on: ShopBoard; readonly fails: readonly Fail[] } | null = null;
  let usedUp: ShopBoard | null = null;
  for (const on of ofWood) {
    const fit = placeOn(asks, on, settings, options);
    if (fit.ok) {
      if (!cutIds.has(on.board.id)) return { ...row, ...untried(on) };
      usedUp ??= on;
      continue;
    }
    if (nearest === null || distance(fit.fails) < distance(nearest.fails)) nearest = { on, fails: fit.fails };
  }
  if (usedUp) return { ...row, ...wentToOthers(usedUp) };
  if (nearest === null) return { ...row, why: 'No free board can give it.', nearest: null };
  const { on, fails } = nearest;
  return {
    ...row,
    why: `No free ${asks.wood.name} board can give it.`,
    nearest: { boardId: on.board.id, tag: on.board.tag, failsBy: fails.map((fail) => fail.words) },
  };
}

/** No piece lies on it: the search ended before it came to this one. */
function untried({ board: { id, tag } }: ShopBoard): Pick<Unplaced, 'why' | 'nearest'> {
  return {
    why: `${tag} may give it, but no place was found in this search. Plan again, looking longer.`,
    nearest: { boardId: id, tag, failsBy: ['it was not come to in this search'] },
  };
}

function wentToOthers({ board: { id, tag } }: ShopBoard): Pick<Unplaced, 'why' | 'nearest'> {
  return {
    why: `Boards that could give it, such as ${tag}, are used up by pieces cut before it.`,
    nearest: { boardId: id, tag, failsBy: ['its wood went to other pieces'] },
  };
}

/** One thing wrong is nearer than two, however small each is; what can pass is nearer than what this board will never be. */
export function distance(fails: readonly Fail[]): number {
  return fails.reduce((sum, fail) => sum + (fail.passes ? 0.5 : 1) + Math.min(1, Math.max(0, fail.share)), 0);
}
