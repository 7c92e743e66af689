/** What to know before a board goes to the saw, said once on its layout. */
import type { PlacedPiece, RectNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { comparedStyle, tapeStyle } from '../takeoff/grid.ts';
import { canResaw } from '../takeoff/piece-on-board.ts';
import { lengthText } from '../wood/length.ts';
import { pieceName } from '../wood/piece-name.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { boardWarnings } from './board-warnings.ts';
import { listed } from './listed.ts';
import type { ShopBoard } from './shop-board.ts';
import type { Wanted } from './shop-wanted.ts';

export function layoutWarnings(on: ShopBoard, cut: readonly Wanted[], settings: Settings): string[] {
  const warnings = [...boardWarnings(on.board, settings), ...thickWarnings(on, cut, settings)];
  for (const held of on.held) {
    const show = (alongNm: number) => lengthText(alongNm, comparedStyle(held.toNm, settings));
    const run = `${show(held.fromNm)} to ${show(held.toNm)}`;
    warnings.push(`${held.jobName} holds ${run}: part that off first, and tag it.`);
  }
  return warnings;
}

/** A pass or two over the jointer. Common practice, no source. */
const JOINTED_NM = NM_PER_INCH / 8;

/**
 * Blanks that fill the width: what is jointed off an edge, and a blade that runs wide, come out of them. An offcut's edges
 * are sawn. finishedWidthsNm: of each piece in turn.
 */
export function widthWarnings(
  { board }: Pick<ShopBoard, 'board'>,
  pieces: readonly PlacedPiece[],
  finishedWidthsNm: readonly number[],
  rests: readonly RectNm[],
  settings: Settings,
): readonly string[] {
  if (board.origin.kind === 'offcut') return [];
  const across = <T extends RectNm>(rects: readonly T[], atNm: number): readonly T[] =>
    rects.filter((r) => r.fromNm <= atNm && r.toNm > atNm);
  const widthNm = (rects: readonly RectNm[]) => rects.reduce((sum, r) => sum + r.rightNm - r.leftNm, 0);
  const filling = pieces.flatMap((piece) => {
    const atNm = (piece.fromNm + piece.toNm) / 2;
    const beside = across(pieces, atNm);
    return beside.length > 1 && widthNm(across(rests, atNm)) < JOINTED_NM ? beside : [];
  });
  // A long piece's own middle may lie beside a rest where its ends do not: it fills the width all the same.
  const tight = pieces.filter((piece) => filling.includes(piece));
  if (tight.length === 0) return [];
  const names = tight.map(pieceName);
  const which = names.length > 4 ? [...names.slice(0, 3), `${names.length - 3} more`] : names;
  const oversNm = pieces.flatMap((piece, index) =>
    tight.includes(piece) ? [piece.rightNm - piece.leftNm - (finishedWidthsNm[index] ?? 0)] : [],
  );
  const leastNm = Math.min(...oversNm);
  const over = lengthText(leastNm, tapeStyle(settings));
  const each = oversNm.every((nm) => nm === leastNm) ? over : `at least ${over}`;
  return [
    `No width to spare: ${listed(which)} fill it, blade included. What is jointed off an edge comes off the strip ripped last; each is ${each} over finished, so take no more.`,
  ];
}

/** Thick enough for two layers of some piece: sawing it in two first would give twice as many. */
function thickWarnings({ board }: ShopBoard, cut: readonly Wanted[], settings: Settings): readonly string[] {
  const thin = cut.find(({ finished }) => canResaw(board.thicknessNm, finished.thicknessNm, settings));
  return thin ? [`Thick enough to resaw: ${thin.part.label} needs only half of it.`] : [];
}
