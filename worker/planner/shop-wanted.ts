/**
 * What of a job is still to be cut: its wanted pieces gathered by part and size, hardest to replace first. Laminated
 * parts are cut as their layers.
 */
import type { JobWithParts, Part, PartWithPieces, Piece } from '../contract/job.ts';
import type { Settings } from '../contract/settings.ts';
import { qualityAsked, tierOf } from '../takeoff/asks.ts';
import { moistureLimitPercent } from '../takeoff/dry-enough.ts';
import { type Element, elementKinds } from '../takeoff/elements.ts';
import { type Wood, woodReader } from '../takeoff/which-wood.ts';
import type { Size } from '../wood/unit.ts';

export interface PieceRef {
  readonly no: number;
  readonly element: number | null;
  readonly attempt: number;
}

/** Pieces of one part and one size, cut alike. */
export interface Wanted {
  readonly part: Part;
  readonly wood: Wood;
  readonly what: Element['what'];
  /** Null for solid parts; otherwise the first layer of this size. */
  readonly element: number | null;
  readonly finished: Size;
  readonly pieces: readonly PieceRef[];
  readonly limitPercent: number;
  readonly quality: number;
  readonly tier: number;
}

/** 1 critical parts, 2 visible parts and the layers of critical ones, 3 casework and all other layers. */
export const TIER_WORDS: Readonly<Record<number, string>> = {
  1: 'critical parts',
  2: 'visible parts and the layers of critical ones',
  3: 'casework and other layers',
};

export function wantedOf(
  job: Pick<JobWithParts, 'parts'>,
  settings: Settings,
  partKeys: readonly string[] | undefined,
): readonly Wanted[] {
  return piecesToCut(job, settings, partKeys, (_, piece) => piece.state === 'wanted');
}

/** As `wantedOf`, with the pieces named by the caller in place of those wanted. */
export function piecesToCut(
  job: Pick<JobWithParts, 'parts'>,
  settings: Settings,
  partKeys: readonly string[] | undefined,
  isMeant: (part: Part, piece: Piece) => boolean,
): readonly Wanted[] {
  const only = partKeys && new Set(partKeys);
  const woodOf = woodReader(settings);
  return job.parts
    .filter((part) => !only || only.has(part.key))
    .flatMap((part) => wantedOfPart(part, woodOf(part.species), settings, isMeant))
    .sort((a, b) => a.tier - b.tier || b.finished.lengthNm - a.finished.lengthNm);
}

function wantedOfPart(
  part: PartWithPieces,
  wood: Wood,
  settings: Settings,
  isMeant: (part: Part, piece: Piece) => boolean,
): readonly Wanted[] {
  return elementKinds(part, settings).flatMap(({ what, finished, elements }): Wanted[] => {
    const pieces = part.pieces.filter((piece) => elements.includes(piece.element) && isMeant(part, piece));
    if (pieces.length === 0) return [];
    return [
      { ...kindOfPart(part, wood, what, finished, settings), element: elements[0] ?? null, pieces: refs(pieces) },
    ];
  });
}

/** Everything that decides which wood a piece of this part may come from. */
export function kindOfPart(
  part: Part,
  wood: Wood,
  what: Element['what'],
  finished: Size,
  settings: Settings,
): Omit<Wanted, 'element' | 'pieces'> {
  return {
    part,
    wood,
    what,
    finished,
    limitPercent: moistureLimitPercent(part, what, settings),
    quality: qualityAsked(part, what),
    tier: tierOf(part, what),
  };
}

const refs = (pieces: readonly Piece[]): readonly PieceRef[] =>
  pieces
    .map(({ no, element, attempt }) => ({ no, element, attempt }))
    .sort((a, b) => a.no - b.no || (a.element ?? -1) - (b.element ?? -1));
