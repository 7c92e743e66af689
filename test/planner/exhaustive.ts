/**
 * Small problems solved the slow way, for comparison: every edge-to-edge cut of every rectangle is tried, on whole
 * units, with every way to share the copies wanted. Shares nothing with the search.
 */
import type { Problem } from '../../worker/planner/problem.ts';

/** The greatest worth from one small board of `value` problems; copies wanted must be few. */
export function bestWorth(problem: Problem): number {
  const board = problem.boards[0]!;
  const { rip, crosscut } = problem.kerf;
  const wanted = problem.blanks.map((blank) => blank.quantity ?? 0);
  const memo = new Map<string, Map<string, number>>();

  /** For every count of blanks that a rectangle can give: worth follows from counts, so counts are enough. */
  const cuttings = (from: number, to: number, left: number, right: number): Map<string, number> => {
    const key = `${from} ${to} ${left} ${right}`;
    const known = memo.get(key);
    if (known) return known;
    const found = new Map<string, number>([[wanted.map(() => 0).join(','), 0]]);
    memo.set(key, found);
    const keep = (counts: readonly number[]) => {
      if (counts.some((count, blank) => count > wanted[blank]!)) return;
      found.set(
        counts.join(','),
        counts.reduce((sum, count, blank) => sum + count * problem.blanks[blank]!.value, 0),
      );
    };
    problem.blanks.forEach((blank, index) => {
      if (to - from !== blank.length || right - left !== blank.width) return;
      const hit = board.blocked[blank.quality]!.some(
        (rect) => rect.from < to && rect.to > from && rect.left < right && rect.right > left,
      );
      if (!hit) keep(wanted.map((_, other) => (other === index ? 1 : 0)));
    });
    const join = (a: Map<string, number>, b: Map<string, number>) => {
      for (const one of a.keys()) {
        for (const other of b.keys()) {
          const more = other.split(',').map(Number);
          keep(one.split(',').map((count, blank) => Number(count) + more[blank]!));
        }
      }
    };
    const empty = new Map<string, number>([[wanted.map(() => 0).join(','), 0]]);
    // A blade of k units may stand from k - 1 before the near side to one unit before the far side.
    for (let at = from - Math.max(crosscut - 1, -1); at < to; at++) {
      const before = at > from ? cuttings(from, at, left, right) : empty;
      const after = at + crosscut < to ? cuttings(at + crosscut, to, left, right) : empty;
      join(before, after);
    }
    for (let at = left - Math.max(rip - 1, -1); at < right; at++) {
      const before = at > left ? cuttings(from, to, left, at) : empty;
      const after = at + rip < right ? cuttings(from, to, at + rip, right) : empty;
      join(before, after);
    }
    return found;
  };

  return Math.max(...cuttings(0, board.length, 0, board.width).values());
}
