/** What no plan can beat: the least stock that has to be opened for these very pieces, and by which argument. */
import { coverBoundM3 } from './present-cover.ts';
import { shareBoundM3 } from './present-shares.ts';
import type { Problem } from './problem.ts';

export interface StockFigures {
  readonly usedM3: number;
  readonly boundM3: number;
  readonly boundIs: string;
}

/** under-way: soon told beside a plan that is still searched for; some per cent looser on large yards. */
export type ProofEffort = 'under-way' | 'final';
const COVER_ROUNDS: Readonly<Record<ProofEffort, number>> = { 'under-way': 20, final: 150 };

/**
 * problem: the pieces over every board that can give one of them, with the volume of each board, whole. searchBound: what
 * the search proved of worth less cost over these boards, or null.
 */
export function stockFigures(
  problem: Problem,
  volumesM3: readonly number[],
  placed: readonly number[],
  usedM3: number,
  searchBound: number | null,
  effort: ProofEffort,
): StockFigures {
  const bounds = [
    { m3: shareBoundM3(problem, placed, volumesM3, usedM3), is: BY_SHARES },
    { m3: coverBoundM3(problem, placed, volumesM3, usedM3, COVER_ROUNDS[effort]), is: BY_COVER },
    { m3: searchBound === null ? 0 : worthBoundM3(problem, placed, searchBound, volumesM3), is: BY_SEARCH },
    { m3: largestPieceM3(problem, placed, volumesM3), is: BY_BOARD },
  ];
  const best = bounds.reduce((most, bound) => (bound.m3 > most.m3 ? bound : most));
  const isBest = best.m3 >= usedM3 * (1 - 1e-9);
  return { usedM3, boundM3: Math.min(usedM3, best.m3), boundIs: isBest ? PROVEN : best.is };
}

const PROVEN = 'Proven best: no plan cuts these pieces from less stock.';
const BY_SHARES =
  'Every piece with its saw kerf takes its share of some board that can give it, and no board gives more than itself; no plan opens less.';
const BY_COVER =
  'Reckoned in whole boards: even if each gave the most that any cutting could, less wood would not give all these pieces.';
const BY_SEARCH = 'What the boards could be worth at most however they are cut; no plan opens less.';
const BY_BOARD = 'The smallest board that can give the piece hardest to place; no plan opens less.';

/** At least one board has to be opened that can give it. */
function largestPieceM3(problem: Problem, placed: readonly number[], volumesM3: readonly number[]): number {
  return placed.reduce((most, count, blank) => {
    if (count === 0) return most;
    const homes = problem.boards.flatMap((board, index) => {
      const fits = board.fits ? board.fits[blank] : problem.blanks[blank];
      return fits ? [volumesM3[index] ?? 0] : [];
    });
    return homes.length > 0 ? Math.max(most, Math.min(...homes)) : most;
  }, 0);
}

/** Worth of the pieces less the search's bound is what any plan with these pieces must pay for boards. */
function worthBoundM3(
  problem: Problem,
  placed: readonly number[],
  searchBound: number,
  volumesM3: readonly number[],
): number {
  if (problem.objective !== 'net' || !Number.isFinite(searchBound)) return 0;
  const worth = placed.reduce((sum, count, blank) => sum + count * (problem.blanks[blank]?.value ?? 0), 0);
  const costLeast = worth - searchBound;
  if (costLeast <= 0) return 0;
  const costPerM3Most = Math.max(
    ...problem.boards.map((board, index) => board.cost / Math.max(Number.MIN_VALUE, volumesM3[index] ?? 0)),
  );
  return costLeast / costPerM3Most;
}
