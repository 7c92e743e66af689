/**
 * Whether a crooked board is straightened whole, or crosscut first and each length straightened on its own: short lengths
 * are less hollow, so cutting them first saves width. Decided per board, by what it could then give.
 */
import type { Settings } from '../contract/settings.ts';
import { gridNm, tapeStepNm } from '../takeoff/grid.ts';
import { kerfNm } from '../takeoff/usable-run.ts';
import { NM_PER_INCH } from '../wood/unit.ts';
import { mostWorth } from './most-worth.ts';
import { compare, type Score, scorer } from './plan.ts';
import { crookOverRunNm, straightenedOffNm } from './shop-edges.ts';
import { type Candidate, shopProblem } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';
import { COMMON_WORTH } from './shop-worth.ts';

/** Places looked at on one board, those nearest its middle, where it saves most. */
const PLACES_MOST = 4;
/** Boards looked at: each takes as long as some boards of the search. */
const BOARDS_MOST = 24;
const ROUNDS = 2;
/** A straight line that takes less is not worth another way of cutting. Common practice, no source. */
const TAKES_LITTLE_NM = NM_PER_INCH / 4;

/** The same boards, the crooked ones parted where they then give more of what is wanted. */
export function partedForMost(
  candidates: readonly Candidate[],
  wanted: readonly Wanted[],
  settings: Settings,
): readonly Candidate[] {
  let looked = 0;
  return candidates.map((candidate) => {
    const ways = waysToPart(candidate, settings);
    if (ways.length === 0 || looked >= BOARDS_MOST) return candidate;
    looked++;
    const worthOf = (way: Candidate): Score => {
      const { problem } = shopProblem(wanted, [way], settings, 'value', COMMON_WORTH);
      return scorer(problem)([{ board: 0, pieces: mostWorth(problem, 1, ROUNDS) }]);
    };
    let best = { way: candidate, worth: worthOf(candidate) };
    for (const way of ways) {
      const worth = worthOf(way);
      // Alike, it is better straightened whole: one rip in place of two.
      if (compare(worth, best.worth) > 0) best = { way, worth };
    }
    return best.way;
  });
}

/** Crosscuts that free one of the pieces at the near end; none where straightening the whole board takes little. */
export function waysToPart(candidate: Candidate, settings: Settings): readonly Candidate[] {
  const { on, fits } = candidate;
  const { run, trimmed } = on;
  const crookNm = crookOverRunNm(on);
  if (crookNm === 0 || !run || !trimmed) return [];
  const stepNm = gridNm(settings);
  const takenNm = straightenedOffNm(run, run, crookNm, tapeStepNm(settings));
  const isShutOut = fits.some((fit) => fit && fit.width * stepNm > on.board.widthNm - takenNm);
  if (takenNm < TAKES_LITTLE_NM && !isShutOut) return [];
  const middleNm = (run.fromNm + run.toNm) / 2;
  const startNm = run.fromNm + Math.ceil((trimmed.fromNm - run.fromNm) / stepNm) * stepNm;
  const lengths = [...new Set(fits.flatMap((fit) => fit?.length ?? []))];
  return lengths
    .map((length) => startNm + length * stepNm)
    .filter((atNm) => atNm + kerfNm(settings).crosscutNm < run.toNm)
    .sort((a, b) => Math.abs(a - middleNm) - Math.abs(b - middleNm))
    .slice(0, PLACES_MOST)
    .map((atNm) => ({ ...candidate, partedAtNm: [atNm] }));
}

/** Every board as if its edges were straight: no way of straightening gives more, so a bound for these holds for all. */
export function asIfStraight(candidates: readonly Candidate[]): readonly Candidate[] {
  return candidates.map(({ on, fits }) => {
    const { warp } = on.board;
    return warp ? { fits, on: { ...on, board: { ...on.board, warp: { ...warp, crookNm: 0 } } } } : { fits, on };
  });
}
