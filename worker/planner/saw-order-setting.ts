/**
 * What lies against the fence or the stop. The side of a cut that matters more is kept between the fence (or stop) and
 * the blade, so that the setting is its size; a thin waste strip falls free on the other side.
 */
import type { Rect, SawCut } from './problem.ts';
import { extent, rectBetween } from './saw-order-tree.ts';

/**
 * What a side of a cut is. onward: stock that is cut again along the same axis, so its size does not matter yet.
 * stock: cut again the other way, so this cut gives it its size.
 */
export type SideIs = 'nothing' | 'waste' | 'onward' | 'offcut' | 'stock' | 'piece';
const MATTERS: Readonly<Record<SideIs, number>> = { nothing: 0, waste: 1, onward: 2, offcut: 3, stock: 4, piece: 5 };

export interface Setting {
  /** near: the tagged end or the left edge lies against the stop or fence. */
  readonly against: 'near' | 'far';
  readonly near: { readonly rect: Rect | null; readonly is: SideIs };
  readonly far: { readonly rect: Rect | null; readonly is: SideIs };
  /** trim: a bit of waste is cut off the end of stock that goes on, to a mark. set: to a fence or stop. */
  readonly how: 'set' | 'trim';
  /** set: size of what is kept, fence to blade. trim: what comes off, blade included. */
  readonly size: number;
}

export function settingOf(cut: SawCut, whatIs: (rect: Rect) => SideIs): Setting {
  const [nearEdge, farEdge] = extent(cut.of, cut.axis);
  const bladeEnd = cut.at + cut.kerf;
  const side = (start: number, end: number) => {
    const rect = rectBetween(cut.of, cut.axis, start, end);
    return { rect, is: rect ? whatIs(rect) : ('nothing' as const) };
  };
  const near = side(nearEdge, cut.at);
  const far = side(bladeEnd, farEdge);
  const keepsNear = MATTERS[near.is] >= MATTERS[far.is];
  const [kept, falls] = keepsNear ? [near, far] : [far, near];
  const isTrim = kept.is === 'onward' || (kept.is === 'stock' && !keepsNear);
  if (cut.axis === 'crosscut' && isTrim && MATTERS[falls.is] <= MATTERS.waste) {
    const comesOff = keepsNear ? farEdge - cut.at : bladeEnd - nearEdge;
    return { against: keepsNear ? 'far' : 'near', near, far, how: 'trim', size: comesOff };
  }
  return {
    against: keepsNear ? 'near' : 'far',
    near,
    far,
    how: 'set',
    size: keepsNear ? cut.at - nearEdge : farEdge - bladeEnd,
  };
}
