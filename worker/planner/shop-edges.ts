/**
 * Long edges of a board that are not straight: crooked, or waney. The first rip along such an edge is made to a line and
 * straightens it; what it takes is no board's to give. A crooked board crosscut before it is ripped loses less, since the
 * hollow over a stretch falls with the square of its length.
 */
import type { UnevenEdgeNm } from '../contract/plan.ts';
import type { Run } from '../takeoff/free-run.ts';
import { roundedUpNm } from '../takeoff/grid.ts';
import { CLEANUP_EDGE_NM } from '../wood/warp.ts';
import type { ShopBoard } from './shop-board.ts';

type Edged = Pick<ShopBoard, 'board' | 'run'>;

/** How hollow an edge is over what may be cut up, nanometres; below what jointing takes anyway, nothing. */
export function crookOverRunNm({ board, run }: Edged): number {
  if (!run || !board.warp) return 0;
  const share = (run.toNm - run.fromNm) / board.lengthNm;
  const crookNm = board.warp.crookNm * share * share;
  return crookNm > CLEANUP_EDGE_NM ? crookNm : 0;
}

/** Its edge gets a straightening rip; its pieces need no crook of their own. */
export const isCrooked = (on: Edged): boolean => crookOverRunNm(on) > 0;

/** Stretches that cannot lie against a fence, on the board. */
export function unevenEdgesNm(on: Edged): readonly UnevenEdgeNm[] {
  const { board } = on;
  const whole: Run = { fromNm: 0, toNm: board.lengthNm };
  if (isCrooked(on))
    return [
      { side: 'left', ...whole },
      { side: 'right', ...whole },
    ];
  return board.defects
    .filter(({ kind }) => kind === 'wane')
    .flatMap((wane): UnevenEdgeNm[] => {
      const { fromNm, toNm } = wane;
      return [
        ...(wane.leftNm === 0 ? [{ side: 'left' as const, fromNm, toNm }] : []),
        ...(wane.rightNm >= board.widthNm ? [{ side: 'right' as const, fromNm, toNm }] : []),
      ];
    });
}

/** What a straight line along a section of the run takes, as the saw is set. crookNm: over the whole run. */
export function straightenedOffNm(section: Run, run: Run, crookNm: number, tapeNm: number): number {
  const share = (section.toNm - section.fromNm) / (run.toNm - run.fromNm);
  return roundedUpNm(crookNm * share * share, tapeNm);
}

/** The board's run parted by crosscuts: what lies before, between and behind the blades. partedAtNm: near side of each. */
export function sectionsOf(run: Run, partedAtNm: readonly number[], bladeNm: number): readonly Run[] {
  const ends = [...partedAtNm, run.toNm];
  return ends.map((toNm, at) => ({ fromNm: at === 0 ? run.fromNm : (partedAtNm[at - 1] ?? 0) + bladeNm, toNm }));
}
