/**
 * The order of the saw. Cuts that do not wait for each other are put so that one setting of fence or stop serves as
 * many as possible; otherwise the parts that would be hardest to replace (the lowest tier) come first.
 */
import type { BoardLayout, Problem, Rect, SawCut } from './problem.ts';
import { type SideIs, settingOf } from './saw-order-setting.ts';
import { extent, rectBetween, rectKey, type Stock, sawTree } from './saw-order-tree.ts';

/** Stock on the bench, sawn from its near end or edge: the next blade, and what is still in one piece. */
interface OnBench {
  readonly stock: Stock;
  readonly next: number;
  readonly rest: Rect;
}

/** The same layout with its cuts in the order of the saw. A layout that a saw can make stays one. */
export function orderForSaw(problem: Problem, layout: BoardLayout): BoardLayout {
  const board = problem.boards[layout.board];
  if (!board) return layout;
  const tree = sawTree({ from: 0, to: board.length, left: 0, right: board.width }, layout.cuts);
  if (!tree) return layout;
  const tierOf = new Map(layout.pieces.map((piece) => [rectKey(piece), problem.blanks[piece.blank]?.tier ?? 1]));
  return { ...layout, cuts: inOrder(tree, tierOf) };
}

function inOrder(tree: Stock, tierOf: ReadonlyMap<string, number>): SawCut[] {
  const cuts: SawCut[] = [];
  let bench: OnBench[] = tree.axis ? [{ stock: tree, next: 0, rest: tree.rect }] : [];
  let last: { readonly stock: Stock; readonly cut: SawCut; readonly setting: string } | null = null;
  while (bench.length > 0) {
    let best: { readonly one: OnBench; readonly cut: SawCut; readonly setting: string } | null = null;
    let bestRank: readonly number[] = [];
    for (const one of bench) {
      const cut = nextCut(one);
      const setting = settingKey(one, cut, tierOf);
      const rank = [
        setting === last?.setting ? 0 : 1,
        hardestAhead(one, tierOf),
        cut.axis === last?.cut.axis ? 0 : 1,
        one.stock === last?.stock ? 0 : 1,
        cut.of.from,
        cut.of.left,
      ];
      if (!best || isBefore(rank, bestRank)) {
        best = { one, cut, setting };
        bestRank = rank;
      }
    }
    if (!best) break;
    const { one, cut, setting } = best;
    cuts.push(cut);
    last = { stock: one.stock, cut, setting };
    bench = bench.filter((other) => other !== one).concat(afterCut(one, cut));
  }
  return cuts;
}

function nextCut(one: OnBench): SawCut {
  const blade = one.stock.blades[one.next] ?? { at: 0, kerf: 0 };
  return { axis: one.stock.axis ?? 'rip', of: one.rest, at: blade.at, kerf: blade.kerf };
}

/** What the cut leaves that is cut again: the stock taken off, the rest of the set, and after the last blade both sides. */
function afterCut(one: OnBench, cut: SawCut): OnBench[] {
  const [, far] = extent(cut.of, cut.axis);
  const rest = rectBetween(cut.of, cut.axis, cut.at + cut.kerf, far);
  const opened: OnBench[] = [];
  const open = (stock: Stock | null | undefined) => {
    if (stock?.axis) opened.push({ stock, next: 0, rest: stock.rect });
  };
  open(one.stock.between[one.next]);
  if (one.next + 1 === one.stock.blades.length) open(one.stock.between[one.next + 1]);
  else if (rest) opened.push({ stock: one.stock, next: one.next + 1, rest });
  return opened;
}

function settingKey(one: OnBench, cut: SawCut, tierOf: ReadonlyMap<string, number>): string {
  const setting = settingOf(cut, (rect): SideIs => {
    if (tierOf.has(rectKey(rect))) return 'piece';
    const taken = one.stock.between.find((stock) => stock && rectKey(stock.rect) === rectKey(rect));
    if (!taken) return 'onward';
    return taken.axis === null ? 'waste' : 'stock';
  });
  return `${cut.axis} ${setting.how} ${setting.size}`;
}

/** The lowest tier among the pieces that still wait in this stock. */
function hardestAhead(one: OnBench, tierOf: ReadonlyMap<string, number>): number {
  return Math.min(...one.stock.between.slice(one.next).map((stock) => (stock ? hardest(stock, tierOf) : Infinity)));
}

function hardest(stock: Stock, tierOf: ReadonlyMap<string, number>): number {
  if (stock.axis === null) return tierOf.get(rectKey(stock.rect)) ?? Infinity;
  return Math.min(...stock.between.map((inner) => (inner ? hardest(inner, tierOf) : Infinity)));
}

/** Compares ranks from the first figure on. */
function isBefore(a: readonly number[], b: readonly number[]): boolean {
  for (const [index, figure] of a.entries()) {
    const other = b[index] ?? 0;
    if (figure !== other) return figure < other;
  }
  return false;
}
