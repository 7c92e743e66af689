/**
 * Out of a large stock, the boards worth searching: for each wanted piece, hardest to replace first, those that would
 * waste least on it, offcuts before whole boards, until there are enough for every copy several times over.
 */
import type { Candidate } from './shop-problem.ts';
import type { Wanted } from './shop-wanted.ts';

/** Boards that a search looks at, at most. */
export const BOARDS_MOST = 160;
/** For each copy wanted this many boards at least, as far as there are any. */
const BOARDS_A_COPY = 3;
const BOARDS_A_KIND = 8;

export function shortlisted(candidates: readonly Candidate[], wanted: readonly Wanted[]): readonly Candidate[] {
  if (candidates.length <= BOARDS_MOST) return candidates;
  const picked = new Set<number>();
  const ranked = wanted.map((_, kind) => rankedFor(candidates, kind));
  for (const [kind, asks] of wanted.entries()) {
    const enough = Math.max(BOARDS_A_KIND, BOARDS_A_COPY * asks.pieces.length);
    for (const index of (ranked[kind] ?? []).slice(0, enough)) if (picked.size < BOARDS_MOST) picked.add(index);
  }
  for (let rank = 0; picked.size < BOARDS_MOST && rank < candidates.length; rank++)
    for (const list of ranked) {
      const index = list[rank];
      if (index !== undefined && picked.size < BOARDS_MOST) picked.add(index);
    }
  return candidates.filter((_, index) => picked.has(index));
}

/** Boards that can give a kind, least left over first. */
function rankedFor(candidates: readonly Candidate[], kind: number): readonly number[] {
  return candidates
    .flatMap(({ on, fits }, index) => {
      const fit = fits[kind];
      if (!fit || !on.trimmed) return [];
      const isShared = on.held.length > 0 ? 1 : 0;
      const isWhole = on.board.origin.kind === 'offcut' ? 0 : 1;
      return [{ index, isShared, isWhole, volume: on.board.lengthNm * 1e-9 * on.board.widthNm * on.board.thicknessNm }];
    })
    .sort((a, b) => a.isShared - b.isShared || a.isWhole - b.isWhole || a.volume - b.volume || a.index - b.index)
    .map(({ index }) => index);
}
