/**
 * One board's layout from the grid back onto the board: exact places, concrete pieces, offcuts told from scrap, cuts in
 * words, drawing and warnings. What the grid rounded away at a board's far edges goes to the piece or rest that lies there.
 */

import type { Drawing } from '../contract/drawing.ts';
import type { Cut, Layout, PlacedPiece, RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { qualityIndex, showFaceOf } from '../takeoff/bad-wood.ts';
import { longestClearNm } from '../takeoff/clear-run.ts';
import { gridNm } from '../takeoff/grid.ts';
import { kerfNm } from '../takeoff/usable-run.ts';
import { replayCuts } from './check-replay.ts';
import { cutsInWords, pieceWithFace } from './cut-words.ts';
import { drawLayout, type LayoutToDraw } from './drawing.ts';
import { presentReserves } from './present-reserve.ts';
import { layoutWarnings, widthWarnings } from './present-warnings.ts';
import type { BoardLayout, Problem, Rect, SawCut } from './problem.ts';
import type { ShopBoard } from './shop-board.ts';
import { unevenEdgesNm } from './shop-edges.ts';
import type { PieceRef, Wanted } from './shop-wanted.ts';
import { shortRipWarnings } from './short-rips.ts';
import { trimReasons } from './trim-reason.ts';

/** Hands out the pieces of each kind one by one, in the order in which they are wanted. */
export type Assign = (blank: number) => PieceRef;

export function inOrderWanted(wanted: readonly Wanted[]): Assign {
  const next = wanted.map(() => 0);
  return (blank) => {
    const at = next[blank] ?? 0;
    next[blank] = at + 1;
    const piece = wanted[blank]?.pieces[at];
    if (!piece) throw new Error(`more of blank ${blank} cut than wanted`);
    return piece;
  };
}

/** A layout on the board itself, before anything is said of it. */
interface OnBoard {
  readonly drawn: Pick<Layout, 'lengthNm' | 'widthNm' | 'pieces' | 'offcuts' | 'scrap' | 'unevenEdges'> &
    Pick<LayoutToDraw, 'cuts'>;
  /** Of each piece. */
  readonly finishedWidthsNm: readonly number[];
  readonly rests: readonly RectNm[];
  readonly toBoard: (rect: Rect) => RectNm;
}

export function presentLayout(
  problem: Problem,
  solved: BoardLayout,
  on: ShopBoard,
  wanted: readonly Wanted[],
  assign: Assign,
  settings: Settings,
): Layout {
  const { board } = on;
  const { drawn, finishedWidthsNm, rests, toBoard } = laidOnBoard(solved, on, wanted, assign, settings);
  const { lengthNm, widthNm, pieces, cuts, offcuts, scrap, unevenEdges } = drawn;
  const steps = cutsInWords(drawn, settings, pieceWithFace, trimReasons(board, settings));
  const reserves = presentReserves(problem, solved, toBoard, { ...drawn, steps }, wanted, settings);
  return {
    boardId: board.id,
    tag: board.tag,
    lengthNm,
    widthNm,
    thicknessNm: board.thicknessNm,
    phase: Math.min(...solved.pieces.map((piece) => wanted[piece.blank]?.tier ?? 1)),
    pieces,
    cuts: cuts.map((cut, index) => ({ ...cut, no: index + 1, words: steps[index]?.words ?? '' })),
    offcuts,
    scrap,
    reserves,
    unevenEdges,
    yieldPercent: (100 * faceM2(pieces)) / faceM2([wholeFace(board)]),
    warnings: [
      ...layoutWarnings(
        on,
        solved.pieces.flatMap((piece) => wanted[piece.blank] ?? []),
        settings,
      ),
      ...shortRipWarnings(cuts, settings),
      ...widthWarnings(on, pieces, finishedWidthsNm, rests, settings),
    ],
    drawing: drawLayout(board, drawn, settings),
  };
}

/** The layout drawn, with nothing said of it. */
export function drawSolved(solved: BoardLayout, on: ShopBoard, wanted: readonly Wanted[], settings: Settings): Drawing {
  return drawLayout(on.board, laidOnBoard(solved, on, wanted, inOrderWanted(wanted), settings).drawn, settings);
}

function laidOnBoard(
  solved: BoardLayout,
  on: ShopBoard,
  wanted: readonly Wanted[],
  assign: Assign,
  settings: Settings,
): OnBoard {
  const toBoard = gridToBoard(on, gridNm(settings));
  const inOrder = [...solved.pieces].sort((a, b) => a.from - b.from || a.left - b.left);
  const finishedWidthsNm: number[] = [];
  const pieces = inOrder.flatMap((piece): PlacedPiece[] => {
    const asks = wanted[piece.blank];
    if (!asks) return [];
    const place = toBoard(piece);
    const showFace = shownOf(on, asks, place);
    const { no, element, attempt } = assign(piece.blank);
    finishedWidthsNm.push(asks.finished.widthNm);
    return [
      {
        ...place,
        partKey: asks.part.key,
        label: asks.part.label,
        no,
        element,
        what: asks.what,
        showFace,
        attempt,
      },
    ];
  });
  const kerf = kerfNm(settings);
  const cuts = [...partingCuts(on, kerf.crosscutNm), ...solved.cuts.map((cut) => cutOnBoard(cut, toBoard, kerf))];
  const rests = restsOf(on, pieces, cuts, kerf);
  const isKept = (rest: RectNm) => isOffcut(rest, on, settings);
  const [offcuts, scrap] = [rests.filter(isKept), rests.filter((rest) => !isKept(rest))];
  const unevenEdges = [...unevenEdgesNm(on)];
  const { lengthNm, widthNm } = on.board;
  return { drawn: { lengthNm, widthNm, pieces, cuts, offcuts, scrap, unevenEdges }, finishedWidthsNm, rests, toBoard };
}

/** Null where both faces will do. */
function shownOf({ board, bad }: ShopBoard, asks: Wanted, place: RectNm): PlacedPiece['showFace'] {
  const face = showFaceOf(bad, asks.quality, place);
  if (face === 'none') throw new Error(`board ${board.tag}: neither face of ${asks.part.label} is as clear as it asks`);
  return face === 'either' ? null : face;
}

const wholeFace = ({ lengthNm, widthNm }: { lengthNm: number; widthNm: number }): RectNm => ({
  fromNm: 0,
  toNm: lengthNm,
  leftNm: 0,
  rightNm: widthNm,
});

export function faceM2(rects: readonly RectNm[]): number {
  return rects.reduce((sum, r) => sum + ((r.toNm - r.fromNm) / 1e9) * ((r.rightNm - r.leftNm) / 1e9), 0);
}

function gridToBoard(on: ShopBoard, stepNm: number): (rect: Rect) => RectNm {
  const { fromNm, toNm } = on.run ?? { fromNm: 0, toNm: 0 };
  const length = Math.floor((toNm - fromNm) / stepNm);
  const width = Math.floor(on.board.widthNm / stepNm);
  const along = (at: number) => (at >= length ? toNm : fromNm + at * stepNm);
  const across = (at: number) => (at >= width ? on.board.widthNm : at * stepNm);
  return (rect) => ({
    fromNm: along(rect.from),
    toNm: along(rect.to),
    leftNm: across(rect.left),
    rightNm: across(rect.right),
  });
}

type BareCut = Omit<Cut, 'no' | 'words'>;

function cutOnBoard(cut: SawCut, toBoard: (rect: Rect) => RectNm, kerf: ReturnType<typeof kerfNm>): BareCut {
  const at = toBoard({ from: cut.at, to: cut.at, left: cut.at, right: cut.at });
  return cut.axis === 'rip'
    ? { axis: 'rip', of: toBoard(cut.of), atNm: at.leftNm, kerfNm: kerf.ripNm }
    : { axis: 'crosscut', of: toBoard(cut.of), atNm: at.fromNm, kerfNm: kerf.crosscutNm };
}

/** Crosscuts that part the run from what other jobs hold, before anything else: no rip ever runs through a held run. */
function partingCuts(on: ShopBoard, crosscutNm: number): readonly BareCut[] {
  const { board, run } = on;
  if (!run) return [];
  const cuts: BareCut[] = [];
  let of = wholeFace(board);
  if (run.toNm < board.lengthNm) {
    cuts.push({ axis: 'crosscut', of, atNm: run.toNm, kerfNm: crosscutNm });
    of = { ...of, toNm: run.toNm };
  }
  if (run.fromNm > 0) cuts.push({ axis: 'crosscut', of, atNm: run.fromNm - crosscutNm, kerfNm: crosscutNm });
  return cuts;
}

/** What lies on the bench beside the pieces after the last cut, exactly. */
function restsOf(
  on: ShopBoard,
  pieces: readonly PlacedPiece[],
  cuts: readonly BareCut[],
  kerf: ReturnType<typeof kerfNm>,
): readonly RectNm[] {
  const sawCuts = cuts.map(({ axis, of, atNm, kerfNm: bladeNm }): SawCut => {
    return { axis, of: rectOf(of), at: atNm, kerf: bladeNm };
  });
  const bench = replayCuts({ length: on.board.lengthNm, width: on.board.widthNm }, sawCuts, {
    rip: kerf.ripNm,
    crosscut: kerf.crosscutNm,
  });
  if (bench.faults.length > 0) throw new Error(`board ${on.board.tag}: ${bench.faults.join('; ')}`);
  const isPiece = new Set(pieces.map(rectKey));
  const rests = bench.left.map((rect) => ({
    fromNm: rect.from,
    toNm: rect.to,
    leftNm: rect.left,
    rightNm: rect.right,
  }));
  const left = rests.filter((rest) => !isPiece.delete(rectKey(rest)));
  if (isPiece.size > 0) throw new Error(`board ${on.board.tag}: the cuts do not free every piece`);
  return left.sort((a, b) => a.fromNm - b.fromNm || a.leftNm - b.leftNm);
}

const rectOf = (r: RectNm): Rect => ({ from: r.fromNm, to: r.toNm, left: r.leftNm, right: r.rightNm });
const rectKey = (r: RectNm): string => `${r.fromNm} ${r.toNm} ${r.leftNm} ${r.rightNm}`;

/** Worth a tag: what casework could still be made of is at least as long and wide as the shop keeps. Held runs are always kept. */
function isOffcut(rest: RectNm, on: ShopBoard, settings: Settings): boolean {
  if (on.run && (rest.toNm <= on.run.fromNm || rest.fromNm >= on.run.toNm)) return true;
  const { lengthNm, widthNm } = settings.offcutMin;
  const spoiled = on.bad.always[qualityIndex('hidden')] ?? [];
  return rest.rightNm - rest.leftNm >= widthNm && longestClearNm(rest, spoiled, widthNm) >= lengthNm;
}
