/**
 * What lies against the fence or the stop. The side of a cut that matters more is kept between the fence (or stop) and
 * the blade, so that the setting is its size; a thin waste strip falls free on the other side. An edge that is not
 * straight never lies against the fence.
 */
import type { Rect, SawCut, UnevenEdge } from './problem.ts';
import { extent, rectBetween } from './saw-order-tree.ts';

/**
 * What a side of a cut is. onward: stock that is cut again along the same axis, so its size does not matter yet.
 * stock: cut again the other way, so this cut gives it its size.
 */
export type SideIs = 'nothing' | 'waste' | 'onward' | 'offcut' | 'stock' | 'piece';
const MATTERS: Readonly<Record<SideIs, number>> = { nothing: 0, waste: 1, onward: 2, offcut: 3, stock: 4, piece: 5 };

export interface Setting {
  /** near: the tagged end or the left edge lies against the stop or fence; line: measured from there. */
  readonly against: 'near' | 'far';
  readonly near: { readonly rect: Rect | null; readonly is: SideIs };
  readonly far: { readonly rect: Rect | null; readonly is: SideIs };
  /**
   * trim: a bit of waste is cut off the end of stock that goes on, to a mark. set: to a fence or stop. line: a rip of
   * stock with no straight edge, along a line that is snapped on it.
   */
  readonly how: 'set' | 'trim' | 'line';
  /** set: size of what is kept, fence to blade. trim and line: what comes off, blade included. */
  readonly size: number;
}

export function settingOf(
  cut: SawCut,
  whatIs: (rect: Rect) => SideIs,
  unevenEdges: readonly UnevenEdge[],
  boardWidth: number,
): Setting {
  const [nearEdge, farEdge] = extent(cut.of, cut.axis);
  const bladeEnd = cut.at + cut.kerf;
  const side = (start: number, end: number) => {
    const rect = rectBetween(cut.of, cut.axis, start, end);
    return { rect, is: rect ? whatIs(rect) : ('nothing' as const) };
  };
  const near = side(nearEdge, cut.at);
  const far = side(bladeEnd, farEdge);
  const isUneven = (edge: UnevenEdge['side']) =>
    cut.axis === 'rip' && edgeIsUneven(cut.of, edge, unevenEdges, boardWidth);
  const [nearIsUneven, farIsUneven] = [isUneven('left'), isUneven('right')];
  if (nearIsUneven && farIsUneven) {
    const fromNear = bladeEnd - nearEdge <= farEdge - cut.at;
    return {
      against: fromNear ? 'near' : 'far',
      near,
      far,
      how: 'line',
      size: fromNear ? bladeEnd - nearEdge : farEdge - cut.at,
    };
  }
  const likesNear = MATTERS[near.is] >= MATTERS[far.is];
  const keepsNear = likesNear ? !nearIsUneven : farIsUneven;
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

/** Whether a long edge of this stock is the board's own, and not straight there. */
function edgeIsUneven(
  of: Rect,
  edge: UnevenEdge['side'],
  unevenEdges: readonly UnevenEdge[],
  boardWidth: number,
): boolean {
  if (edge === 'left' ? of.left > 0 : of.right < boardWidth) return false;
  return unevenEdges.some(({ side, from, to }) => side === edge && from < of.to && to > of.from);
}
