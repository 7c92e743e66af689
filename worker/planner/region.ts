/**
 * A region of a layout: a rectangle that cuts free of the rest, with the blanks in it. What lies in a region may be cut
 * anew in any way, and the whole stays cuttable.
 */
import type { Kerf, PlacedBlank, Rect, SawCut } from './problem.ts';
import type { Random } from './random.ts';
import { groupsAlong } from './saw-cuts.ts';

export interface Region {
  readonly at: Rect;
  readonly pieces: readonly PlacedBlank[];
}

/** Some region with at most so many blanks: cuts are followed at random, neighbours kept together at random. */
export function randomRegion(
  whole: Rect,
  pieces: readonly PlacedBlank[],
  kerf: Kerf,
  piecesMost: number,
  random: Random,
): Region {
  let at = whole;
  let inside = pieces;
  let axis: SawCut['axis'] = random.below(2) === 0 ? 'rip' : 'crosscut';
  let stuck = 0;
  while (inside.length > piecesMost && stuck < 2) {
    const groups = groupsAlong(inside, kerf, axis);
    const low = axis === 'rip' ? 'left' : 'from';
    const high = axis === 'rip' ? 'right' : 'to';
    if (groups.length > 1) {
      stuck = 0;
      const first = random.below(groups.length);
      let last = first;
      let count = groups[first]!.pieces.length;
      // Neighbours join as long as the region stays small; a large group is parted further instead.
      while (last + 1 < groups.length && count + groups[last + 1]!.pieces.length <= piecesMost) {
        last++;
        count += groups[last]!.pieces.length;
      }
      at = {
        ...at,
        [low]: first === 0 ? at[low] : groups[first - 1]!.high + kerf[axis],
        [high]: last === groups.length - 1 ? at[high] : groups[last + 1]!.low - kerf[axis],
      };
      inside = groups.slice(first, last + 1).flatMap((group) => group.pieces);
    } else {
      stuck++;
    }
    axis = axis === 'rip' ? 'crosscut' : 'rip';
  }
  return { at, pieces: inside };
}
