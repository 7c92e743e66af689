/**
 * The order of the saw. Cuts that do not wait for each other are put so that nobody walks to the other saw before all is
 * done at this one, and one setting of fence or stop serves as many as possible; otherwise the parts that would be hardest to replace (the lowest tier) come first. Strips that are
 * the reserve of those parts are cut up last.
 */
import type { BoardLayout, Problem, Rect, SawCut, StockBoard } from './problem.ts';
import { type SideIs, settingOf } from './saw-order-setting.ts';
import { extent, rectBetween, rectKey, type Stock, sawTree } from './saw-order-tree.ts';
import { reservesIn } from './saw-reserve.ts';

/** Stock on the bench, sawn from its near end or edge: the next cut, and the same stock after it. */
interface OnBench {
  readonly stock: Stock;
  readonly next: number;
  readonly cut: SawCut;
  /** What fence or stop is set to for the cut. */
  readonly setting: string;
  /** The lowest tier among the pieces that still wait in this stock. */
  readonly hardest: number;
  /** Null after the last blade of the set. */
  readonly onward: OnBench | null;
}

/** The same layout with its cuts in the order of the saw. A layout that a saw can make stays one. */
export const orderForSaw = (problem: Problem, layout: BoardLayout): BoardLayout => sawOrder(problem, layout).layout;

export interface SawOrder {
  readonly layout: BoardLayout;
  /** How often fence or stop is set; what is cut to a mark or along a line leaves them as they are. */
  readonly settings: number;
  /** How often one walks from one saw to the other. */
  readonly walks: number;
  readonly reserves: number;
}

export function sawOrder(problem: Problem, layout: BoardLayout): SawOrder {
  const asItIs = { layout, settings: layout.cuts.length, walks: layout.cuts.length, reserves: 0 };
  const board = problem.boards[layout.board];
  if (!board) return asItIs;
  const tree = sawTree({ from: 0, to: board.length, left: 0, right: board.width }, layout.cuts);
  if (!tree) return asItIs;
  const strips = reservesIn(problem, layout).map(({ strip }) => strip);
  const { cuts, keys } = inOrder(tree, {
    tierOf: new Map(layout.pieces.map((piece) => [rectKey(piece), problem.blanks[piece.blank]?.tier ?? 1])),
    waits: (of) => strips.some((strip) => isWithin(of, strip)),
    board,
  });
  const set = keys.filter((key) => key.includes(' set '));
  return {
    layout: { ...layout, cuts },
    settings: set.filter((key, at) => key !== set[at - 1]).length,
    walks: cuts.filter(({ axis }, at) => at > 0 && axis !== cuts[at - 1]?.axis).length,
    reserves: strips.length,
  };
}

const isWithin = (a: Rect, b: Rect): boolean =>
  a.from >= b.from && a.to <= b.to && a.left >= b.left && a.right <= b.right;

interface Bench {
  /** By place of a piece. */
  readonly tierOf: ReadonlyMap<string, number>;
  /** Stock that is part of a reserve. */
  readonly waits: (of: Rect) => boolean;
  readonly board: StockBoard;
}

/** keys: each cut's setting. */
function inOrder(tree: Stock, asks: Bench): { readonly cuts: SawCut[]; readonly keys: string[] } {
  const cuts: SawCut[] = [];
  const keys: string[] = [];
  const left = new Map<string, number>();
  const opening = new Map<Stock, OnBench>();
  for (const stock of stocksOf(tree)) {
    const first = onBench(stock, 0, stock.rect, asks);
    if (!first) continue;
    opening.set(stock, first);
    for (let one: OnBench | null = first; one; one = one.onward) count(left, one.setting);
  }
  const whole = opening.get(tree);
  let bench: OnBench[] = whole ? [whole] : [];
  let last: OnBench | null = null;
  while (bench.length > 0) {
    const ready = new Map<string, number>();
    for (const one of bench)
      for (let at: OnBench | null = one; at?.setting === one.setting; at = at.onward) count(ready, one.setting);
    let best: OnBench | null = null;
    let bestRank: readonly number[] = [];
    for (const one of bench) {
      const { cut, setting } = one;
      const rank = [
        asks.waits(cut.of) ? 1 : 0,
        setting === last?.setting ? 0 : 1,
        // All that can be done at this saw is, before anything is carried to the other.
        cut.axis === last?.cut.axis ? 0 : 1,
        // A setting waits until all the stock that needs it lies on the bench, so that it is set once.
        (ready.get(setting) ?? 0) >= (left.get(setting) ?? 0) ? 0 : 1,
        one.hardest,
        one.stock === last?.stock ? 0 : 1,
        cut.of.from,
        cut.of.left,
      ];
      if (!best || isBefore(rank, bestRank)) {
        best = one;
        bestRank = rank;
      }
    }
    if (!best) break;
    const done: OnBench = best;
    cuts.push(done.cut);
    keys.push(done.setting);
    left.set(done.setting, (left.get(done.setting) ?? 1) - 1);
    last = done;
    bench = bench.filter((other) => other !== done).concat(afterCut(done, opening));
  }
  return { cuts, keys };
}

const count = (counts: Map<string, number>, key: string): void => {
  counts.set(key, (counts.get(key) ?? 0) + 1);
};

/** A piece of stock and all that is cut from it, stage by stage. */
function* stocksOf(stock: Stock): Generator<Stock> {
  yield stock;
  for (const inner of stock.between) if (inner) yield* stocksOf(inner);
}

/** Stock at its next blade, with all that follows; null where nothing is left to cut. */
function onBench(stock: Stock, next: number, rest: Rect, asks: Bench): OnBench | null {
  const blade = stock.blades[next];
  if (!stock.axis || !blade) return null;
  const cut: SawCut = { axis: stock.axis, of: rest, at: blade.at, kerf: blade.kerf };
  const [, far] = extent(rest, stock.axis);
  const after = rectBetween(rest, stock.axis, blade.at + blade.kerf, far);
  const tiers = stock.between.slice(next).map((inner) => (inner ? hardest(inner, asks.tierOf) : Infinity));
  return {
    stock,
    next,
    cut,
    setting: settingKey(stock, cut, asks),
    hardest: Math.min(...tiers),
    onward: after ? onBench(stock, next + 1, after, asks) : null,
  };
}

/** What the cut leaves that is cut again: the stock taken off, the rest of the set, and after the last blade both sides. */
function afterCut({ stock, next, onward }: OnBench, opening: ReadonlyMap<Stock, OnBench>): OnBench[] {
  const sides = [stock.between[next], next + 1 === stock.blades.length ? stock.between[next + 1] : null];
  const opened = sides.flatMap((side) => (side && opening.get(side)) ?? []);
  return onward ? [...opened, onward] : opened;
}

function settingKey(stock: Stock, cut: SawCut, { tierOf, waits, board }: Bench): string {
  const whatIs = (rect: Rect): SideIs => {
    if (tierOf.has(rectKey(rect))) return 'piece';
    const taken = stock.between.find((inner) => inner && rectKey(inner.rect) === rectKey(rect));
    if (!taken) return 'onward';
    return taken.axis === null ? 'waste' : 'stock';
  };
  const setting = settingOf(cut, whatIs, board.edges?.uneven ?? [], board.width);
  return `${waits(cut.of) ? 'later ' : ''}${cut.axis} ${setting.how} ${setting.size}`;
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
