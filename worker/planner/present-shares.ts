/**
 * The least wood that pieces can take, by shares of boards. On one board the shares of its pieces never pass 1, so a
 * piece always costs at least its share of a board, and a board gives no more than itself. Shares are areas with the
 * blade, seen through scales under which nearly full lengths or widths count as full (dual feasible functions; Fekete and
 * Schepers 2004, from memory): what lies beside a nearly full length serves nobody.
 */
import { clearFace } from './present-clear.ts';
import type { Problem } from './problem.ts';

/** Below this share a size counts as nothing, above one less it as full; both ends and all between are tried. */
const SCALES = [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5] as const;
const SCHEMES_REFINED = 4;
const ROUNDS = 120;

interface Kind {
  readonly count: number;
  /** By board, cubic metres; a share is that over the board's volume. Infinite where the board cannot give it. */
  readonly shares: Float64Array;
}

/** towardsM3: what a plan achieved, to steer the search; the answer holds whatever it is. */
export function shareBoundM3(
  problem: Problem,
  placed: readonly number[],
  volumesM3: readonly number[],
  towardsM3: number,
): number {
  const faces = problem.boards.map((board) => clearFace(problem, board));
  const schemes = SCALES.flatMap((along) => SCALES.map((across) => ({ along, across })))
    .map(({ along, across }) => {
      const kinds = kindsUnder(problem, placed, faces, along, across);
      return { kinds, m3: withRents(kinds, volumesM3, null).m3 };
    })
    .sort((a, b) => b.m3 - a.m3);
  return schemes
    .slice(0, SCHEMES_REFINED)
    .reduce((most, { kinds }) => Math.max(most, refined(kinds, volumesM3, towardsM3)), 0);
}

function kindsUnder(
  problem: Problem,
  placed: readonly number[],
  faces: readonly ReturnType<typeof clearFace>[],
  along: number,
  across: number,
): readonly Kind[] {
  const { kerf, boards, blanks } = problem;
  return placed.flatMap((count, blank): Kind[] => {
    if (count === 0) return [];
    const shares = Float64Array.from(boards, (board, index) => {
      const size = board.fits ? board.fits[blank] : blanks[blank];
      const face = faces[index];
      if (!size || !face) return Number.POSITIVE_INFINITY;
      const length = size.length + kerf.crosscut;
      const width = size.width + kerf.rip;
      if (along === 0 && across === 0) return (length * width) / face.area;
      return scaled(length / face.length, along) * scaled(width / face.width, across);
    });
    return [{ count, shares }];
  });
}

function scaled(share: number, scale: number): number {
  if (share > 1 - scale) return 1;
  return share < scale ? 0 : share;
}

interface Priced {
  readonly m3: number;
  /** By board, how many times over it would be used. */
  readonly used: Float64Array;
}

/** Every piece from the board where it costs least, when boards also ask a rent; the rents go back, once a board. */
function withRents(kinds: readonly Kind[], volumesM3: readonly number[], rents: Float64Array | null): Priced {
  const used = new Float64Array(volumesM3.length);
  let m3 = 0;
  for (const { count, shares } of kinds) {
    let least = Number.POSITIVE_INFINITY;
    let home = -1;
    for (let board = 0; board < shares.length; board++) {
      const cost = shares[board]! * (volumesM3[board]! + (rents ? rents[board]! : 0));
      if (cost < least) {
        least = cost;
        home = board;
      }
    }
    if (home < 0) continue;
    m3 += count * least;
    used[home]! += count * shares[home]!;
  }
  if (rents) for (const rent of rents) m3 -= rent;
  return { m3, used };
}

/** Rents on boards that are asked for more than they hold; any rents give a true bound, the search only raises it. */
function refined(kinds: readonly Kind[], volumesM3: readonly number[], towardsM3: number): number {
  const rents = new Float64Array(volumesM3.length);
  let best = 0;
  let stride = 1;
  let idle = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const { m3, used } = withRents(kinds, volumesM3, rents);
    if (m3 > best + 1e-12) {
      best = m3;
      idle = 0;
    } else if (++idle > 6) {
      stride *= 0.6;
      idle = 0;
    }
    let norm = 0;
    for (let board = 0; board < used.length; board++) {
      const over = used[board]! - 1;
      if (over > 0 || rents[board]! > 0) norm += over * over;
    }
    if (norm === 0 || m3 >= towardsM3) break;
    const step = (stride * (towardsM3 - m3)) / norm;
    for (let board = 0; board < used.length; board++)
      rents[board] = Math.max(0, rents[board]! + step * (used[board]! - 1));
  }
  return best;
}
