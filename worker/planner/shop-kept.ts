/**
 * What of an earlier plan still holds: boards whose every piece is wanted as planned, fits there as it did, and lies clear
 * of what is known of the board today.
 */
import type { Layout, PlacedPiece, Plan } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { showFaceOf } from '../takeoff/bad-wood.ts';
import { overlaps } from '../wood/face-rect.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import type { ShopBoard } from './shop-board.ts';
import { placeOn } from './shop-fit.ts';
import type { Wanted } from './shop-wanted.ts';

export interface Kept {
  readonly kept: readonly Layout[];
  readonly broken: readonly { readonly layout: Layout; readonly why: string }[];
}

/** A blank larger than it must be by less than this is left as it is: what a grid and a changed reading make. */
const LARGER_MOST_NM = NM_PER_INCH / 2;

export const pieceKey = (piece: Pick<PlacedPiece, 'partKey' | 'no' | 'element' | 'attempt'>): string =>
  `${piece.partKey}\n${piece.no}\n${piece.element}\n${piece.attempt}`;

/** open: what may be cut now, the plan's own pieces among it. passed: boards at the saw, which stay out of this. */
export function keptOf(
  plan: Pick<Plan, 'layouts'>,
  open: readonly Wanted[],
  stock: readonly ShopBoard[],
  passed: ReadonlySet<string>,
  settings: Settings,
): Kept {
  const asksOf = new Map(
    open.flatMap((asks) => asks.pieces.map((ref) => [pieceKey({ partKey: asks.part.key, ...ref }), asks] as const)),
  );
  const kept: Layout[] = [];
  const broken: { layout: Layout; why: string }[] = [];
  for (const layout of plan.layouts) {
    if (passed.has(layout.boardId)) continue;
    const here = layout.pieces.filter((piece) => asksOf.has(pieceKey(piece)));
    // Cut already, or nothing of it is asked for any more.
    if (here.length === 0) continue;
    const on = stock.find(({ board }) => board.id === layout.boardId);
    const why = on ? whyBroken(layout, on, asksOf, settings) : 'it is no longer in stock';
    if (why === null) kept.push(layout);
    else broken.push({ layout, why });
  }
  return { kept, broken };
}

function whyBroken(
  layout: Layout,
  on: ShopBoard,
  asksOf: ReadonlyMap<string, Wanted>,
  settings: Settings,
): string | null {
  const { board, run } = on;
  const sizes = ['lengthNm', 'widthNm', 'thicknessNm'] as const;
  if (sizes.some((size) => board[size] !== layout[size])) return 'it was measured anew';
  for (const piece of layout.pieces) {
    const name = `${piece.label} ${piece.no}`;
    const asks = asksOf.get(pieceKey(piece));
    if (!asks) return `${name} is no longer wanted as planned`;
    if (!run || piece.fromNm < run.fromNm || piece.toNm > run.toNm) return `another job holds the place of ${name}`;
    const fit = placeOn(asks, on, settings, { evenIfThick: true });
    if (!fit.ok) return `${name}: ${fit.fails.map((fail) => fail.words).join('; ')}`;
    const [lengthNm, widthNm] = [piece.toNm - piece.fromNm, piece.rightNm - piece.leftNm];
    if (!isAbout(lengthNm, fit.lengthNm) || !isAbout(widthNm, fit.cutWidthNm)) return `${name} needs another size now`;
    if (isSpoilt(on, asks.quality, piece)) return `bad wood was found where ${name} was to come from`;
  }
  return null;
}

const isAbout = (hasNm: number, neededNm: number): boolean => hasNm >= neededNm && hasNm < neededNm + LARGER_MOST_NM;

const isSpoilt = ({ bad }: ShopBoard, quality: number, piece: PlacedPiece): boolean =>
  (bad.always[quality] ?? []).some((rect) => overlaps(rect, piece)) || showFaceOf(bad, quality, piece) === 'none';
