/**
 * The order of the saw. Cuts that do not wait for each other are put so that nobody walks to the other saw before all is
 * done at this one, and one setting of fence or stop serves as many as possible; otherwise the parts that would be hardest to replace (the lowest tier) come first. Strips that are
 * the reserve of those parts are cut up last.
 */
import type { BoardLayout, Problem, Rect, SawCut, StockBoard } from './problem.ts';
import { type SideIs, settingOf } from './saw-order-setting.ts';
import { extent, rectBetween, rectKey, type Stock, sawTree } from './saw-order-tree.ts';
import { reservesIn } from './saw-reserve.ts';

/** Stock on the bench, sawn from its near end or edge: the next blade, and what is still in one piece. */
interface OnBench {
  readonly stock: Stock;
  readonly next: number;
  readonly rest: Rect;
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
  countSettings(tree, asks, left);
  let bench: OnBench[] = tree.axis ? [{ stock: tree, next: 0, rest: tree.rect }] : [];
  let last: { readonly stock: Stock; readonly cut: SawCut; readonly setting: string } | null = null;
  while (bench.length > 0) {
    const ready = new Map<string, number>();
    for (const one of bench) for (const key of sameSettingAhead(one, asks)) count(ready, key);
    let best: { readonly one: OnBench; readonly cut: SawCut; readonly setting: string } | null = null;
    let bestRank: readonly number[] = [];
    for (const one of bench) {
      const cut = nextCut(one);
      const setting = settingKey(one, cut, asks);
      const rank = [
        asks.waits(cut.of) ? 1 : 0,
        setting === last?.setting ? 0 : 1,
        // All that can be done at this saw is, before anything is carried to the other.
        cut.axis === last?.cut.axis ? 0 : 1,
        // A setting waits until all the stock that needs it lies on the bench, so that it is set once.
        (ready.get(setting) ?? 0) >= (left.get(setting) ?? 0) ? 0 : 1,
        hardestAhead(one, asks.tierOf),
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
    keys.push(setting);
    left.set(setting, (left.get(setting) ?? 1) - 1);
    last = { stock: one.stock, cut, setting };
    bench = bench.filter((other) => other !== one).concat(afterCut(one, cut));
  }
  return { cuts, keys };
}

const count = (counts: Map<string, number>, key: string): void => {
  counts.set(key, (counts.get(key) ?? 0) + 1);
};

/** How often each setting is needed for all the cuts of a tree. */
function countSettings(stock: Stock, asks: Bench, counts: Map<string, number>): void {
  let one: OnBench | null = stock.axis ? { stock, next: 0, rest: stock.rect } : null;
  while (one) {
    const cut: SawCut = nextCut(one);
    count(counts, settingKey(one, cut, asks));
    one = onward(one, cut);
  }
  for (const inner of stock.between) if (inner) countSettings(inner, asks, counts);
}

/** The next cut's setting, as often as it serves this stock without another between. */
function sameSettingAhead(one: OnBench, asks: Bench): readonly string[] {
  const keys: string[] = [];
  for (let at: OnBench | null = one; at; ) {
    const cut: SawCut = nextCut(at);
    const key = settingKey(at, cut, asks);
    if (keys.length > 0 && key !== keys[0]) break;
    keys.push(key);
    at = onward(at, cut);
  }
  return keys;
}

/** The same stock before the next blade of its set; null after the last. */
function onward(one: OnBench, cut: SawCut): OnBench | null {
  const [, far] = extent(cut.of, cut.axis);
  const rest = rectBetween(cut.of, cut.axis, cut.at + cut.kerf, far);
  return rest && one.next + 1 < one.stock.blades.length ? { stock: one.stock, next: one.next + 1, rest } : null;
}

function nextCut(one: OnBench): SawCut {
  const blade = one.stock.blades[one.next] ?? { at: 0, kerf: 0 };
  return { axis: one.stock.axis ?? 'rip', of: one.rest, at: blade.at, kerf: blade.kerf };
}

/** What the cut leaves that is cut again: the stock taken off, the rest of the set, and after the last blade both sides. */
function afterCut(one: OnBench, cut: SawCut): OnBench[] {
  const opened: OnBench[] = [];
  const open = (stock: Stock | null | undefined) => {
    if (stock?.axis) opened.push({ stock, next: 0, rest: stock.rect });
  };
  open(one.stock.between[one.next]);
  if (one.next + 1 === one.stock.blades.length) open(one.stock.between[one.next + 1]);
  const rest = onward(one, cut);
  return rest ? [...opened, rest] : opened;
}

function settingKey(one: OnBench, cut: SawCut, { tierOf, waits, board }: Bench): string {
  const whatIs = (rect: Rect): SideIs => {
    if (tierOf.has(rectKey(rect))) return 'piece';
    const taken = one.stock.between.find((stock) => stock && rectKey(stock.rect) === rectKey(rect));
    if (!taken) return 'onward';
    return taken.axis === null ? 'waste' : 'stock';
  };
  const setting = settingOf(cut, whatIs, board.edges?.uneven ?? [], board.width);
  return `${waits(cut.of) ? 'later ' : ''}${cut.axis} ${setting.how} ${setting.size}`;
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
