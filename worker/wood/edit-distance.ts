/** How many slips of the finger part two words. */

/**
 * Letters added, dropped, changed, or two neighbours swapped (optimal string alignment). "wlanut" is 1 from "walnut".
 */
export function editDistance(one: string, other: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: other.length + 1 }, (_, j) => j);
  for (let i = 1; i <= one.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= other.length; j += 1) {
      const changed = (last[j - 1] ?? 0) + (one[i - 1] === other[j - 1] ? 0 : 1);
      let least = Math.min(changed, (last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1);
      const swapped = i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1];
      if (swapped) least = Math.min(least, (beforeLast[j - 2] ?? 0) + 1);
      row.push(least);
    }
    beforeLast = last;
    last = row;
  }
  return last[other.length] ?? one.length;
}
