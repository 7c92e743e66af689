/**
 * From placed blanks to the saw: parts the board by edge-to-edge cuts until each blank lies alone at its size. Blanks of
 * any cuttable pattern stay cuttable whichever dividing cut is made first, so the search need not keep its own cuts.
 */
import type { Kerf, PlacedBlank, Rect, SawCut } from './problem.ts';

export interface CutUp {
  readonly cuts: readonly SawCut[];
  readonly rests: readonly Rect[];
  readonly stages: number;
}

type Axis = SawCut['axis'];

/** null when the blanks do not come apart by edge-to-edge cuts with this kerf. */
export function cutUp(board: Rect, pieces: readonly PlacedBlank[], kerf: Kerf, preferred: Axis | null): CutUp | null {
  const axes: Axis[] = preferred === 'crosscut' ? ['crosscut', 'rip'] : ['rip', 'crosscut'];
  const tried = axes.map((axis) => parted(board, pieces, kerf, axis));
  const [first, second] = tried;
  if (!first || !second) return first ?? second ?? null;
  if (second.stages < first.stages) return second;
  if (preferred !== null || second.stages > first.stages) return first;
  return second.cuts.length < first.cuts.length ? second : first;
}

function parted(stock: Rect, pieces: readonly PlacedBlank[], kerf: Kerf, axis: Axis): CutUp | null {
  if (pieces.length === 0)
    return { cuts: [], rests: stock.from < stock.to && stock.left < stock.right ? [stock] : [], stages: 0 };
  if (pieces.length === 1 && isSame(stock, pieces[0]!)) return { cuts: [], rests: [], stages: 0 };
  const cuts: SawCut[] = [];
  const rests: Rect[] = [];
  const groups = groupsAlong(pieces, kerf, axis);
  const other: Axis = axis === 'rip' ? 'crosscut' : 'rip';
  const parts: { stock: Rect; pieces: readonly PlacedBlank[] }[] = [];
  const low = axis === 'rip' ? 'left' : 'from';
  const high = axis === 'rip' ? 'right' : 'to';
  const blade = kerf[axis];
  let rest = stock;
  const saw = (at: number): Rect | null => {
    cuts.push({ axis, of: rest, at, kerf: blade });
    const before = at > rest[low] ? { ...rest, [high]: at } : null;
    rest = { ...rest, [low]: Math.min(at + blade, rest[high]) };
    return before;
  };
  for (const group of groups) {
    if (group.low > rest[low]) {
      const trim = saw(group.low - blade);
      if (trim) rests.push(trim);
    }
    if (group.high < rest[high]) {
      const part = saw(group.high);
      if (!part) return null;
      parts.push({ stock: part, pieces: group.pieces });
    } else {
      parts.push({ stock: rest, pieces: group.pieces });
      rest = { ...rest, [low]: rest[high] };
    }
  }
  if (rest[low] < rest[high]) rests.push(rest);
  if (cuts.length === 0 && groups.length === 1) {
    // Nothing to do this way; the caller's other way must divide it.
    const turned = groupsAlong(pieces, kerf, other);
    const tight = turned.length === 1 && turned[0]!.low === stock[axis === 'rip' ? 'from' : 'left'];
    if (tight && turned[0]!.high === stock[axis === 'rip' ? 'to' : 'right']) return null;
    return parted(stock, pieces, kerf, other);
  }
  let deeper = 0;
  for (const part of parts) {
    const below = parted(part.stock, part.pieces, kerf, other);
    if (!below) return null;
    cuts.push(...below.cuts);
    rests.push(...below.rests);
    deeper = Math.max(deeper, below.stages);
  }
  return { cuts, rests, stages: deeper + 1 };
}

export interface Group {
  readonly low: number;
  high: number;
  readonly pieces: PlacedBlank[];
}

/** Pieces that no cut along this axis parts, in turn from the near side. */
export function groupsAlong(pieces: readonly PlacedBlank[], kerf: Kerf, axis: Axis): Group[] {
  const low = axis === 'rip' ? 'left' : 'from';
  const high = axis === 'rip' ? 'right' : 'to';
  const blade = kerf[axis];
  const sorted = [...pieces].sort((a, b) => a[low] - b[low] || a[high] - b[high]);
  const groups: Group[] = [];
  for (const piece of sorted) {
    const group = groups.at(-1);
    if (group && piece[low] < group.high + blade) {
      group.pieces.push(piece);
      group.high = Math.max(group.high, piece[high]);
    } else {
      groups.push({ low: piece[low], high: piece[high], pieces: [piece] });
    }
  }
  return groups;
}

function isSame(a: Rect, b: Rect): boolean {
  return a.from === b.from && a.to === b.to && a.left === b.left && a.right === b.right;
}
