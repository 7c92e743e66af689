/**
 * The least wood that pieces can take, by whole boards. At any prices of pieces no cutting of a board is worth more than
 * its bars say, so the boards opened must be worth all pieces together; the cheapest set of whole boards that is, is a
 * knapsack. Prices are moved towards those that prove most.
 */
import { BarBound } from './bar-bound.ts';
import type { Problem } from './problem.ts';

/** Steps into which all pieces' worth is parted for the knapsack; boards round up, so the bound holds. */
const STEPS = 2000;

/**
 * Boards one of each. towardsM3: what a plan achieved, to steer the search, and rounds: how often prices are moved; the
 * answer holds whatever they are.
 */
export function coverBoundM3(
  problem: Problem,
  placed: readonly number[],
  volumesM3: readonly number[],
  towardsM3: number,
  rounds: number,
): number {
  if (problem.boards.some((board) => board.count !== 1)) return 0;
  const limits = Int32Array.from(placed);
  const blanks = problem.blanks.map((blank, index) => ({ ...blank, quantity: placed[index] ?? 0 }));
  const bars = new BarBound({ ...problem, blanks, rest: null });
  const prices = firstPrices(problem, limits, towardsM3);
  const use = new Float64Array(prices.length);
  let best = 0;
  let proven = 0;
  let stride = 1;
  let idle = 0;
  for (let round = 0; round < rounds && best < towardsM3 * (1 - 1e-9); round++) {
    const found = bars.boards(prices, limits);
    const asked = prices.reduce((sum, price, blank) => sum + price * limits[blank]!, 0);
    let relaxed = asked;
    use.fill(0);
    found.least.forEach((most, board) => {
      const over = most - volumesM3[board]!;
      if (over <= 0) return;
      relaxed -= over;
      bars.addUse(found, board, 1, use);
    });
    if (round % 5 === 0 || relaxed > proven) best = Math.max(best, cheapestCover(found.least, volumesM3, asked));
    if (relaxed > proven + 1e-12) {
      proven = relaxed;
      idle = 0;
    } else if (++idle > 5) {
      stride *= 0.6;
      idle = 0;
    }
    let norm = 0;
    for (let blank = 0; blank < use.length; blank++) norm += (limits[blank]! - use[blank]!) ** 2;
    if (norm === 0) break;
    const step = (stride * Math.max(towardsM3 - relaxed, 0.02 * towardsM3)) / norm;
    for (let blank = 0; blank < use.length; blank++)
      prices[blank] = Math.max(0, prices[blank]! + step * (limits[blank]! - use[blank]!));
  }
  return best * (1 - 1e-6);
}

/** Shared out by area. */
function firstPrices({ blanks }: Problem, limits: Int32Array, towardsM3: number): Float64Array {
  const areas = Float64Array.from(blanks, (blank) => blank.length * blank.width);
  const total = areas.reduce((sum, area, blank) => sum + area * limits[blank]!, 0);
  return areas.map((area) => (total === 0 ? 0 : (area / total) * towardsM3));
}

/** The least volume of whole boards whose worths reach what is asked; infinite where all together do not. */
function cheapestCover(worths: Float64Array, volumesM3: readonly number[], asked: number): number {
  if (asked <= 0) return 0;
  const least = new Float64Array(STEPS + 1).fill(Number.POSITIVE_INFINITY);
  least[0] = 0;
  worths.forEach((worth, board) => {
    if (worth <= 0) return;
    const steps = Math.min(STEPS, Math.ceil((worth / asked) * STEPS * (1 + 1e-9)));
    const volume = volumesM3[board]!;
    for (let at = STEPS; at > 0; at--) {
      const reached = least[Math.max(0, at - steps)]! + volume;
      if (reached < least[at]!) least[at] = reached;
    }
  });
  return Number.isFinite(least[STEPS]!) ? least[STEPS]! : 0;
}
