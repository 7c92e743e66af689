/**
 * Proven least number of boards. Sizes are rounded by functions that never let a set that fits seem not to fit; the
 * rounded area then needs so many boards. For one kind of clear board; otherwise clear area alone.
 */
import type { Job } from './job.ts';

export function fewestBound(job: Job): number {
  const { problem, wanted } = job;
  const total = wanted.reduce((sum, copies) => sum + copies, 0);
  if (total === 0) return 0;
  const { kerf } = problem;
  // One enlarged board that holds whatever any board holds.
  const along = Math.max(...problem.boards.map((board) => board.length)) + kerf.crosscut;
  const across = Math.max(...problem.boards.map((board) => board.width)) + kerf.rip;
  const sizes = problem.blanks.map((blank, index) => {
    const least = leastSize(job, index);
    return { along: least.length + kerf.crosscut, across: least.width + kerf.rip, copies: wanted[index]!, blank };
  });
  let least = 1;
  const ways = (side: number, list: readonly number[]): Rounding[] => roundings(side, list);
  const alongWays = ways(
    along,
    sizes.map((size) => size.along),
  );
  const acrossWays = ways(
    across,
    sizes.map((size) => size.across),
  );
  for (const a of alongWays) {
    const rounded = sizes.map((size) => a.of(size.along) * size.copies);
    for (const b of acrossWays) {
      let sum = 0;
      for (let i = 0; i < sizes.length; i++) sum += rounded[i]! * b.of(sizes[i]!.across);
      const needed = Math.ceil(sum / (a.whole * b.whole) - 1e-6);
      if (needed > least) least = needed;
    }
  }
  job.work += alongWays.length * acrossWays.length * sizes.length;
  return least;
}

interface Rounding {
  readonly whole: number;
  readonly of: (size: number) => number;
}

/** Dual feasible functions with whole values: identity, Fekete-Schepers cuts, and counting by fractions. */
function roundings(side: number, sizes: readonly number[]): Rounding[] {
  const list: Rounding[] = [{ whole: side, of: (size) => size }];
  const distinct = [...new Set(sizes)].sort((a, b) => a - b);
  const thresholds = distinct.filter((size) => 2 * size <= side);
  for (const cut of thin([0, ...thresholds.map((size) => size + 1)], 40)) {
    if (cut === 0 || 2 * cut > side) continue;
    list.push({ whole: side, of: (size) => (size > side - cut ? side : size < cut ? 0 : size) });
  }
  for (const cut of thin(thresholds, 40)) {
    const per = Math.floor(side / cut);
    list.push({
      whole: 2 * per,
      of: (size) =>
        2 * size > side
          ? 2 * (per - Math.floor((side - size) / cut))
          : 2 * size === side
            ? per
            : 2 * Math.floor(size / cut),
    });
  }
  for (let k = 1; k <= 12; k++) {
    // (k + 1) * size / side rounded down unless whole: the classic fraction rounding, in units of side * k.
    list.push({
      whole: side * k,
      of: (size) => (((k + 1) * size) % side === 0 ? size * k : Math.floor(((k + 1) * size) / side) * side),
    });
  }
  return list;
}

function thin(list: readonly number[], most: number): number[] {
  return list.length <= most ? [...list] : list.filter((_, i) => (i * most) % list.length < most);
}

function leastSize(job: Job, blank: number): { length: number; width: number } {
  let least = null as { length: number; width: number } | null;
  for (const board of job.problem.boards) {
    const size = board.fits === null ? job.problem.blanks[blank]! : board.fits[blank];
    if (!size) continue;
    least = least
      ? { length: Math.min(least.length, size.length), width: Math.min(least.width, size.width) }
      : { length: size.length, width: size.width };
  }
  return least ?? { length: 0, width: 0 };
}
