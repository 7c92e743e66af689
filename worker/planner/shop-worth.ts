/**
 * What a rest is worth, learned from the yard: how the offcuts it kept were used, and what its open cut lists ask for.
 * Until there is enough of either, common practice decides.
 */

/** What the yard knows of it. */
export interface WorthFacts {
  /** Offcuts that came to an end: cut up for a part, or thrown out. */
  readonly offcuts: readonly { readonly lengthNm: number; readonly widthNm: number; readonly isUsed: boolean }[];
  /** Finished sizes on open cut lists. */
  readonly sizes: readonly { readonly lengthNm: number; readonly widthNm: number; readonly count: number }[];
}

/** Worth for one unit of area grows by these powers of length and width, above nothing below the smallest size kept. */
export interface Worth {
  readonly lengthPower: number;
  readonly widthPower: number;
  /** Of new wood of the largest size: 0 to 1. */
  readonly share: number;
  /** How it was found, for the notes of a plan; null where nothing was learned. */
  readonly words: string | null;
}

/** Long clear pieces serve more parts than short ones of the same area. Common practice, no source. */
export const COMMON_WORTH: Worth = { lengthPower: 0.3, widthPower: 0.3, share: 0.5, words: null };

/** What common practice counts against what was seen: so many offcuts or pieces weigh as much as it. */
const COMMON_WEIGHT = 30;
/** No source counts for more than so many. */
const WEIGHT_MOST = 150;
/** So few say nothing. */
const FEWEST = 8;

export function learnedWorth({ offcuts, sizes }: WorthFacts): Worth {
  const pieces = sizes.reduce((sum, { count }) => sum + count, 0);
  const isPast = offcuts.length >= FEWEST;
  const isAsked = pieces >= FEWEST;
  if (!isPast && !isAsked) return COMMON_WORTH;
  const power = (side: 'lengthNm' | 'widthNm', common: number) =>
    blended(common, [
      isPast ? { value: growthOfUse(offcuts, side), weight: offcuts.length } : null,
      isAsked ? { value: growthOfDemand(sizes, pieces, side), weight: pieces } : null,
    ]);
  const used = offcuts.filter(({ isUsed }) => isUsed).length;
  const seen = [
    isPast ? `${offcuts.length} offcuts of this yard, of which ${used} were used` : '',
    isAsked ? `the ${pieces} pieces on open cut lists` : '',
  ];
  return {
    lengthPower: power('lengthNm', COMMON_WORTH.lengthPower),
    widthPower: power('widthNm', COMMON_WORTH.widthPower),
    share: blended(COMMON_WORTH.share, [
      isPast ? { value: within(used / offcuts.length, 0.1, 0.9), weight: offcuts.length } : null,
    ]),
    words: `What is left is valued by ${seen.filter(Boolean).join(' and ')}.`,
  };
}

interface Seen {
  readonly value: number | null;
  readonly weight: number;
}

function blended(common: number, seen: readonly (Seen | null)[]): number {
  let sum = common * COMMON_WEIGHT;
  let weights = COMMON_WEIGHT;
  for (const one of seen) {
    if (!one || one.value === null) continue;
    const weight = Math.min(WEIGHT_MOST, one.weight);
    sum += one.value * weight;
    weights += weight;
  }
  return sum / weights;
}

/** From how much more often the larger half of the offcuts was used than the smaller half. */
function growthOfUse(offcuts: WorthFacts['offcuts'], side: 'lengthNm' | 'widthNm'): number | null {
  const sorted = [...offcuts].sort((a, b) => a[side] - b[side]);
  const half = sorted.length >> 1;
  const [small, large] = [sorted.slice(0, half), sorted.slice(sorted.length - half)];
  const mean = (some: typeof sorted) => some.reduce((sum, one) => sum + one[side], 0) / some.length;
  // One more of each kind than were seen, so that no share is nothing.
  const shareUsed = (some: typeof sorted) => (some.filter(({ isUsed }) => isUsed).length + 1) / (some.length + 2);
  const larger = mean(large) / mean(small);
  return larger < 1.05 ? null : within(Math.log(shareUsed(large) / shareUsed(small)) / Math.log(larger), 0, 1);
}

/** A rest as large as the middle piece serves half of them: the power that says so, against the largest piece. */
function growthOfDemand(sizes: WorthFacts['sizes'], pieces: number, side: 'lengthNm' | 'widthNm'): number | null {
  const sorted = [...sizes].sort((a, b) => a[side] - b[side]);
  let before = 0;
  const middle = sorted.find(({ count }) => {
    before += count;
    return 2 * before >= pieces;
  });
  const share = middle ? middle[side] / (sorted.at(-1)?.[side] ?? 1) : 1;
  return share > 0.95 ? null : within(Math.log(0.5) / Math.log(share), 0, 1);
}

const within = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));
