/** What a planned board would have left over, taken as stock: a piece of the board with its own place on it. */
import type { BoardView } from '../contract/board.ts';
import type { Cut, Layout, PlanBody, RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { warpOver } from '../wood/warp.ts';
import { rectText, replayCuts } from './check-replay.ts';
import { cutsInWords, pieceWithFace } from './cut-words.ts';
import { drawLayout } from './drawing.ts';
import { faceM2 } from './present-layout.ts';
import type { Rect } from './problem.ts';
import type { ShopBoard } from './shop-board.ts';
import { trimReasons } from './trim-reason.ts';

export interface Region {
  /** The rest as if it were a board; it bears an id of its own. */
  readonly stock: ShopBoard;
  readonly on: ShopBoard;
  readonly rect: RectNm;
}

/** The offcuts that a layout leaves of what may be cut. */
export function regionsOf(layout: Layout, on: ShopBoard): readonly Region[] {
  const { run } = on;
  if (!run) return [];
  return layout.offcuts
    .filter((rect) => rect.fromNm >= run.fromNm && rect.toNm <= run.toNm)
    .map((rect, at) => ({ on, rect, stock: asStock(on, rect, at) }));
}

function asStock(on: ShopBoard, rect: RectNm, at: number): ShopBoard {
  const { board } = on;
  const size = sizeOf(rect);
  const clipped = <R extends RectNm>(rects: readonly R[]): R[] => rects.flatMap((one) => within(one, rect) ?? []);
  const run = { fromNm: 0, toNm: size.lengthNm };
  return {
    ...on,
    board: {
      ...board,
      ...size,
      id: `${board.id} rest ${at + 1}`,
      defects: clipped(board.defects),
      warp: board.warp ? { ...rounded(warpOver(board.warp, board, size)), crookNm: crookOf(board, rect) } : null,
      origin: { kind: 'offcut', parentId: board.id, sessionId: null },
      held: [],
    },
    run,
    trimmed: run,
    held: [],
    isOurs: true,
    isOpened: true,
    bad: {
      always: on.bad.always.map(clipped),
      ofShowFace: { a: clipped(on.bad.ofShowFace.a), b: clipped(on.bad.ofShowFace.b) },
    },
  };
}

/** A rest that a rip has freed is straight; one that still has the board's own edge may be as hollow as the board. */
function crookOf({ warp, lengthNm, widthNm }: BoardView, rect: RectNm): number {
  if (!warp || rect.leftNm > 0) return 0;
  if (rect.rightNm < widthNm) return warp.crookNm;
  return Math.ceil(warpOver(warp, { lengthNm, widthNm }, sizeOf(rect)).crookNm);
}

const sizeOf = (rect: RectNm) => ({ lengthNm: rect.toNm - rect.fromNm, widthNm: rect.rightNm - rect.leftNm });

function rounded(warp: ReturnType<typeof warpOver>): ReturnType<typeof warpOver> {
  const { bowNm, crookNm, cupNm, twistNm } = warp;
  return {
    bowNm: Math.ceil(bowNm),
    crookNm: Math.ceil(crookNm),
    cupNm: Math.ceil(cupNm),
    twistNm: Math.ceil(twistNm),
  };
}

function within<R extends RectNm>(one: R, rect: RectNm): R | null {
  const fromNm = Math.max(one.fromNm, rect.fromNm) - rect.fromNm;
  const toNm = Math.min(one.toNm, rect.toNm) - rect.fromNm;
  const leftNm = Math.max(one.leftNm, rect.leftNm) - rect.leftNm;
  const rightNm = Math.min(one.rightNm, rect.rightNm) - rect.leftNm;
  return fromNm < toNm && leftNm < rightNm ? { ...one, fromNm, toNm, leftNm, rightNm } : null;
}

/** Whether a piece lies wholly in a rest. */
export const lies = (one: RectNm, rect: RectNm): boolean =>
  one.fromNm >= rect.fromNm && one.toNm <= rect.toNm && one.leftNm >= rect.leftNm && one.rightNm <= rect.rightNm;

/** Its place on the rest. */
export const inside = <R extends RectNm>(one: R, rect: RectNm): R => ({
  ...one,
  fromNm: one.fromNm - rect.fromNm,
  toNm: one.toNm - rect.fromNm,
  leftNm: one.leftNm - rect.leftNm,
  rightNm: one.rightNm - rect.leftNm,
});

/** A layout with one of its offcuts cut up further. Replayed as a whole before it is given back. */
export function withRegionCut(
  layout: Layout,
  region: Region,
  cutUp: Layout,
  kerf: PlanBody['kerf'],
  settings: Settings,
) {
  const { rect, on } = region;
  const moved = <R extends RectNm>(one: R): R => ({
    ...one,
    fromNm: one.fromNm + rect.fromNm,
    toNm: one.toNm + rect.fromNm,
    leftNm: one.leftNm + rect.leftNm,
    rightNm: one.rightNm + rect.leftNm,
  });
  const movedCut = (cut: Cut): Cut => ({
    ...cut,
    of: moved(cut.of),
    atNm: cut.atNm + (cut.axis === 'rip' ? rect.leftNm : rect.fromNm),
  });
  const cuts = [...layout.cuts, ...cutUp.cuts.map(movedCut)];
  const pieces = [...layout.pieces, ...cutUp.pieces.map(moved)].sort(
    (a, b) => a.fromNm - b.fromNm || a.leftNm - b.leftNm,
  );
  const offcuts = [...layout.offcuts.filter((one) => key(one) !== key(rect)), ...cutUp.offcuts.map(moved)];
  const scrap = [...layout.scrap, ...cutUp.scrap.map(moved)];
  const { lengthNm, widthNm, unevenEdges } = layout;
  const whole = { lengthNm, widthNm, pieces, cuts, offcuts, unevenEdges };
  const steps = cutsInWords(whole, settings, pieceWithFace, trimReasons(on.board, settings));
  const merged: Layout = {
    ...layout,
    phase: Math.min(layout.phase, cutUp.phase),
    pieces,
    cuts: cuts.map((cut, index) => ({ ...cut, no: index + 1, words: steps[index]?.words ?? '' })),
    offcuts,
    scrap,
    yieldPercent: (100 * faceM2(pieces)) / faceM2([{ fromNm: 0, toNm: lengthNm, leftNm: 0, rightNm: widthNm }]),
    warnings: [...new Set([...layout.warnings, ...cutUp.warnings])],
    drawing: drawLayout(on.board, { ...whole, scrap }, settings),
  };
  const faults = replayFaults(merged, kerf);
  if (faults.length > 0) throw new Error(`board ${layout.tag} cut further fails its check: ${faults.join('; ')}`);
  return merged;
}

/** Whether the cuts free exactly what the layout says, to the nanometre. */
function replayFaults(layout: Layout, kerf: PlanBody['kerf']): readonly string[] {
  const cuts = layout.cuts.map(({ axis, of, atNm, kerfNm }) => ({ axis, of: rectOf(of), at: atNm, kerf: kerfNm }));
  const bench = replayCuts({ length: layout.lengthNm, width: layout.widthNm }, cuts, {
    rip: kerf.ripNm,
    crosscut: kerf.crosscutNm,
  });
  const left = new Set(bench.left.map(rectText));
  const stated = [...layout.pieces, ...layout.offcuts, ...layout.scrap].map((one) => rectText(rectOf(one)));
  const missing = stated.filter((text) => !left.delete(text)).map((text) => `the cuts do not free ${text}`);
  return [...bench.faults, ...missing, ...[...left].map((text) => `the cuts leave ${text}, which is not listed`)];
}

const rectOf = (r: RectNm): Rect => ({ from: r.fromNm, to: r.toNm, left: r.leftNm, right: r.rightNm });
const key = (r: RectNm): string => rectText(rectOf(r));
