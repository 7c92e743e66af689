/**
 * Positions along one side of a sheet that cuts need: sums of blank sizes, thinned to those that can pair with another
 * sum from the far end. Exact: for every pattern one as good keeps to them.
 */

export interface Raster {
  /** Ascending, from 0 to the whole side. */
  readonly at: Int32Array;
  /** Index of the greatest position not beyond a size. */
  readonly floor: Int32Array;
}

/** Sizes and side count the blade behind each blank. */
export function rasterOf(sizes: readonly number[], side: number): Raster {
  const reached = new Uint8Array(side + 1);
  reached[0] = 1;
  for (const size of new Set(sizes)) {
    for (let at = size; at <= side; at++) if (reached[at - size] === 1) reached[at] = 1;
  }
  const below = new Int32Array(side + 1);
  for (let at = 1; at <= side; at++) below[at] = reached[at] === 1 ? at : below[at - 1]!;
  const kept = new Uint8Array(side + 1);
  for (let at = 0; at <= side; at++) if (reached[at] === 1) kept[below[side - at]!] = 1;
  kept[0] = 1;
  kept[side] = 1;
  const list: number[] = [];
  const floor = new Int32Array(side + 1);
  for (let at = 0; at <= side; at++) {
    if (kept[at] === 1) list.push(at);
    floor[at] = list.length - 1;
  }
  return { at: Int32Array.from(list), floor };
}

/** Index of the first position that is not before a size. */
export function firstAtLeast(raster: Raster, size: number): number {
  const index = raster.floor[size]!;
  return raster.at[index] === size ? index : index + 1;
}
