/**
 * Small problems solved the slow way, for comparison: every edge-to-edge cut of every rectangle is tried, on whole
 * units, with every way to share the copies wanted. Shares nothing with the search.
 */
import type { Problem, Rect } from '../../worker/planner/problem.ts';

/** A rectangle in the saw's hands: cut along this axis now, with so many stages to come. */
interface Stock extends Rect {
  readonly axis: 'rip' | 'crosscut';
  readonly stagesToCome: number;
}

/** The greatest worth from one small board of `value` problems within `maxStages`; copies wanted must be few. */
export function bestWorth(problem: Problem): number {
  const wanted = problem.blanks.map((blank) => blank.quantity ?? 0);
  const none = wanted.map(() => 0).join(',');
  const memo = new Map<string, Map<string, number>>();

  /** For every count of blanks that a rectangle can give: worth follows from counts, so counts are enough. */
  const cuttings = (stock: Stock): Map<string, number> => {
    const key = keyOf(stock);
    const known = memo.get(key);
    if (known) return known;
    const found = new Map<string, number>([[none, 0]]);
    memo.set(key, found);
    const keep = (counts: readonly number[]) => {
      if (counts.some((count, blank) => count > wanted[blank]!)) return;
      found.set(
        counts.join(','),
        counts.reduce((sum, count, blank) => sum + count * problem.blanks[blank]!.value, 0),
      );
    };
    problem.blanks.forEach((_, index) => {
      if (isBlank(problem, index, stock)) keep(wanted.map((_, other) => (other === index ? 1 : 0)));
    });
    for (const parts of waysToGoOn(problem, stock)) {
      const [a, b] = parts.map((part) => cuttings(part));
      for (const one of a!.keys()) {
        if (!b) keep(one.split(',').map(Number));
        for (const other of b?.keys() ?? []) {
          const more = other.split(',').map(Number);
          keep(one.split(',').map((count, blank) => Number(count) + more[blank]!));
        }
      }
    }
    return found;
  };

  return Math.max(...starts(problem).flatMap((stock) => [...cuttings(stock).values()]));
}

/** The same where as many copies as fit may be cut, whatever `quantity` says. */
export function bestWorthUnlimited(problem: Problem): number {
  const memo = new Map<string, number>();
  const worthOf = (stock: Stock): number => {
    const key = keyOf(stock);
    const known = memo.get(key);
    if (known !== undefined) return known;
    memo.set(key, 0);
    let worth = 0;
    problem.blanks.forEach((blank, index) => {
      if (isBlank(problem, index, stock)) worth = Math.max(worth, blank.value);
    });
    for (const parts of waysToGoOn(problem, stock))
      worth = Math.max(
        worth,
        parts.reduce((sum, part) => sum + worthOf(part), 0),
      );
    memo.set(key, worth);
    return worth;
  };
  return Math.max(...starts(problem).map(worthOf));
}

function starts(problem: Problem): Stock[] {
  const board = problem.boards[0]!;
  const whole = { from: 0, to: board.length, left: 0, right: board.width };
  const stagesToCome = problem.maxStages === null ? Number.POSITIVE_INFINITY : problem.maxStages - 1;
  return (['rip', 'crosscut'] as const).map((axis) => ({ ...whole, axis, stagesToCome }));
}

/** Any number of stages: the axis tells nothing. */
function keyOf({ from, to, left, right, axis, stagesToCome }: Stock): string {
  return `${from} ${to} ${left} ${right} ${stagesToCome === Number.POSITIVE_INFINITY ? '' : axis + stagesToCome}`;
}

function isBlank(problem: Problem, index: number, { from, to, left, right }: Rect): boolean {
  const { length, width, quality } = problem.blanks[index]!;
  if (to - from !== length || right - left !== width) return false;
  return !problem.boards[0]!.blocked[quality]!.some(
    (rect) => rect.from < to && rect.to > from && rect.left < right && rect.right > left,
  );
}

/** What may become of a rectangle next: each way the one or two rectangles left of it. */
function* waysToGoOn(problem: Problem, stock: Stock): Generator<Stock[]> {
  const { rip, crosscut } = problem.kerf;
  const free = stock.stagesToCome === Number.POSITIVE_INFINITY;
  if (!free && stock.stagesToCome > 0)
    yield [{ ...stock, axis: stock.axis === 'rip' ? 'crosscut' : 'rip', stagesToCome: stock.stagesToCome - 1 }];
  // A blade of k units may stand from k - 1 before the near side to one unit before the far side.
  if (free || stock.axis === 'crosscut') {
    for (let at = stock.from - Math.max(crosscut - 1, -1); at < stock.to; at++) {
      const parts: Stock[] = [];
      if (at > stock.from) parts.push({ ...stock, to: at });
      if (at + crosscut < stock.to) parts.push({ ...stock, from: at + crosscut });
      if (parts.length > 0) yield parts;
    }
  }
  if (free || stock.axis === 'rip') {
    for (let at = stock.left - Math.max(rip - 1, -1); at < stock.right; at++) {
      const parts: Stock[] = [];
      if (at > stock.left) parts.push({ ...stock, right: at });
      if (at + rip < stock.right) parts.push({ ...stock, left: at + rip });
      if (parts.length > 0) yield parts;
    }
  }
}
