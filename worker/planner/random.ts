/** A small seeded generator: the same seed gives the same plan on every machine. */

export interface Random {
  /** 0 <= number < 1. */
  next(): number;
  /** Whole number, 0 <= number < end. */
  below(end: number): number;
}

export function seededRandom(seed: number): Random {
  let state = (seed ^ 0x9e3779b9) >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return { next, below: (end) => Math.floor(next() * end) };
}
