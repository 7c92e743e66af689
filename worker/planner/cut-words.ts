/**
 * Cuts told to a person at the saw: on which piece of stock, what lies against the fence or stop, the setting as the
 * tape shows it, and what comes off. Stock that is cut again takes the number of the cut that freed it, to be chalked on.
 */
import type { Cut, PlacedPiece, RectNm, UnevenEdgeNm } from '../contract/plan.ts';
import type { Settings } from '../contract/settings.ts';
import { alongStyle } from '../takeoff/grid.ts';
import { lengthText } from '../wood/length.ts';
import { pieceName } from '../wood/piece-name.ts';
import type { Rect, SawCut } from './problem.ts';
import { type SideIs, settingOf } from './saw-order-setting.ts';
import { rectKey } from './saw-order-tree.ts';

/** A layout on the board, in nanometres, its cuts in the order of the saw. */
export interface LayoutToCut {
  readonly lengthNm: number;
  readonly widthNm: number;
  readonly pieces: readonly PlacedPiece[];
  readonly cuts: readonly Omit<Cut, 'no' | 'words'>[];
  readonly offcuts: readonly RectNm[];
  readonly unevenEdges: readonly UnevenEdgeNm[];
}
export type Shown = Pick<Settings, 'shown' | 'denominator'>;

/** off: what comes off by a trim, on the board; sawnAtNm: its end that is sawn. Null where there is nothing to say of it. */
export type TrimReason = (off: RectNm, sawnAtNm: number) => string | null;

export interface CutStep {
  readonly no: number;
  readonly axis: Cut['axis'];
  /** Straight-line rip: along a line, where neither edge is straight. */
  readonly verb: 'Rip' | 'Crosscut' | 'Straight-line rip';
  /** "the board", "length 2" (freed by crosscut 2), "strip 4" (freed by rip 4), "rest of the board". */
  readonly stock: string;
  /** "fence at 4 1/4\"", "stop at 81 1/2\"", "trim 1\"", "line 3/8\" in". */
  readonly setting: string;
  /** Cut to a mark or along a line: fence and stop stay as they are. */
  readonly toMark: boolean;
  /** The edge against the fence, or the end against the stop. */
  readonly against: string;
  /** Why a trim is as long as it is; null where that needs no words. */
  readonly why: string | null;
  /** Finished with the saw, or to be cut again, in the order near side, far side. */
  readonly gives: readonly string[];
  readonly words: string;
}

const NOUN = { crosscut: 'length', rip: 'strip' } as const;
const WHOLE = 'the board';

export const tape = (lengthNm: number, shown: Shown): string => lengthText(lengthNm, alongStyle(shown));

/** As `pieceName`, with the face that is to show where only one is clear. */
export const pieceWithFace = (piece: PlacedPiece): string =>
  piece.showFace === null ? pieceName(piece) : `${pieceName(piece)}, show face ${piece.showFace}`;

export function cutsInWords(
  layout: LayoutToCut,
  shown: Shown,
  nameOf: (piece: PlacedPiece) => string = pieceWithFace,
  reasonOf: TrimReason = () => null,
): CutStep[] {
  const cuts = layout.cuts.map(cutOnGrid);
  const nextAxis = new Map(cuts.map((cut) => [rectKey(cut.of), cut.axis]));
  const pieceAt = new Map(layout.pieces.map((piece) => [rectKey(rectOnGrid(piece)), piece]));
  const offcutAt = new Set(layout.offcuts.map((offcut) => rectKey(rectOnGrid(offcut))));
  const whatIs = (rect: Rect, axis: Cut['axis']): SideIs => {
    const key = rectKey(rect);
    const next = nextAxis.get(key);
    if (next) return next === axis ? 'onward' : 'stock';
    return pieceAt.has(key) ? 'piece' : offcutAt.has(key) ? 'offcut' : 'waste';
  };

  const uneven = layout.unevenEdges.map(({ side, fromNm, toNm }) => ({ side, from: fromNm, to: toNm }));
  const nameOfStock = new Map([[rectKey({ from: 0, to: layout.lengthNm, left: 0, right: layout.widthNm }), WHOLE]]);
  return cuts.map((cut, index) => {
    const no = index + 1;
    const stock = nameOfStock.get(rectKey(cut.of)) ?? WHOLE;
    const setting = settingOf(cut, (rect) => whatIs(rect, cut.axis), uneven, layout.widthNm);

    const gives: string[] = [];
    for (const [side, other, isFar] of [
      [setting.near, setting.far, false],
      [setting.far, setting.near, true],
    ] as const) {
      if (!side.rect) continue;
      const piece = pieceAt.get(rectKey(side.rect));
      if (piece) gives.push(nameOf(piece));
      else if (side.is === 'offcut') gives.push(`an offcut to keep, ${sizeText(side.rect, shown)}`);
      else if (side.is === 'stock' || side.is === 'onward') {
        const keepsName = side.is === 'onward' ? isFar || other.is !== 'onward' : setting.how === 'trim';
        const isChalked = isFar && nameOfStock.get(rectKey(other.rect ?? side.rect)) === `${NOUN[cut.axis]} ${no}`;
        const name = keepsName
          ? stock
          : isChalked
            ? `rest of ${stock.replace(/^rest of /, '')}`
            : `${NOUN[cut.axis]} ${no}`;
        nameOfStock.set(rectKey(side.rect), name);
        if (name !== stock) gives.push(name.startsWith('rest') ? name : `${name} (chalk ${no} on it)`);
      }
    }
    const off = setting.how !== 'trim' ? null : setting.against === 'near' ? setting.near.rect : setting.far.rect;
    const sawnAtNm = setting.against === 'near' ? cut.at : cut.at + cut.kerf;
    const why = off && reasonOf(rectOnBoard(off), sawnAtNm);
    return stepOf({ no, cut, stock, setting, why, gives, lengthNm: layout.lengthNm }, shown);
  });
}

function stepOf(
  step: {
    readonly no: number;
    readonly cut: SawCut;
    readonly stock: string;
    readonly setting: ReturnType<typeof settingOf>;
    readonly why: string | null;
    readonly gives: readonly string[];
    readonly lengthNm: number;
  },
  shown: Shown,
): CutStep {
  const { no, cut, stock, gives, why } = step;
  const isNear = step.setting.against === 'near';
  const end = isNear ? (cut.of.from === 0 ? 'tagged end' : 'end nearer the tag') : 'far end';
  const against = cut.axis === 'rip' ? `${isNear ? 'left' : 'right'} edge` : end;
  const size = tape(step.setting.size, shown);
  const { how } = step.setting;
  const setting = {
    trim: `trim ${size}`,
    line: `line ${size} in`,
    set: `${cut.axis === 'rip' ? 'fence' : 'stop'} at ${size}`,
  }[how];
  const act = {
    trim: `${setting} off the ${against}${why === null ? '' : `, ${why}`}`,
    line: `to a ${setting} from the ${against}`,
    set: cut.axis === 'rip' ? `${setting}, ${against} against it` : `${setting} from the ${against}`,
  }[how];
  const verb = how === 'line' ? 'Straight-line rip' : cut.axis === 'rip' ? 'Rip' : 'Crosscut';
  const result = gives.length > 0 ? `; gives ${gives.join(' and ')}` : '';
  const words = `${verb} ${stock}: ${act}${result}.`;
  return { no, axis: cut.axis, verb, stock, setting, toMark: how !== 'set', against, why, gives, words };
}

/** Across x along, as a shop writes it. */
const sizeText = (rect: Rect, shown: Shown): string =>
  `${tape(rect.right - rect.left, shown)} × ${tape(rect.to - rect.from, shown)}`;

const rectOnGrid = (r: RectNm): Rect => ({ from: r.fromNm, to: r.toNm, left: r.leftNm, right: r.rightNm });
const rectOnBoard = (r: Rect): RectNm => ({ fromNm: r.from, toNm: r.to, leftNm: r.left, rightNm: r.right });
const cutOnGrid = (cut: LayoutToCut['cuts'][number]): SawCut => ({
  axis: cut.axis,
  of: rectOnGrid(cut.of),
  at: cut.atNm,
  kerf: cut.kerfNm,
});
