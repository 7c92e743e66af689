/** A hash of its own for each item, so that the hashes of blanks add up to one of the set; the same in every run. */
export function saltsFor(count: number): Int32Array {
  const salts = new Int32Array(count);
  for (let k = 0, state = 0x9e3779b9; k < count; k++) {
    state = (Math.imul(state ^ (state >>> 15), 0x85ebca6b) + 0x6d2b79f5) | 0;
    salts[k] = Math.imul(state ^ (state >>> 13), 0xc2b2ae35);
  }
  return salts;
}
