import type { View } from './view.ts';

/**
 * How many copies of each blank a set holds, packed into words of 31 bits: two sets are added, compared and held against
 * limits a word at a time. Above the bits of each blank stands a guard bit, clear in every tally.
 */
export class TallyShape {
  readonly words: number;
  readonly guard: Int32Array;
  /** By word and guard bit, 32 to a word: whose copies that bit guards. */
  readonly blankAt: Int32Array;
  readonly #wordOf: Int32Array;
  readonly #shiftOf: Int32Array;
  readonly #bitsOf: Int32Array;

  /** most: the most copies of each blank that a set will ever hold, below 2^30. */
  constructor(most: Int32Array) {
    this.#wordOf = new Int32Array(most.length);
    this.#shiftOf = new Int32Array(most.length);
    this.#bitsOf = Int32Array.from(most, (copies) => 32 - Math.clz32(copies));
    const guard: number[] = [0];
    let bit = 0;
    for (let k = 0; k < most.length; k++) {
      const bits = this.#bitsOf[k]! + 1;
      if (bit + bits > WORD_BITS) {
        guard.push(0);
        bit = 0;
      }
      const word = guard.length - 1;
      this.#wordOf[k] = word;
      this.#shiftOf[k] = bit;
      guard[word]! |= 1 << (bit + bits - 1);
      bit += bits;
    }
    this.blankAt = new Int32Array(guard.length << 5).fill(-1);
    for (let k = 0; k < most.length; k++)
      this.blankAt[(this.#wordOf[k]! << 5) + this.#shiftOf[k]! + this.#bitsOf[k]!] = k;
    this.words = guard.length;
    this.guard = Int32Array.from(guard);
  }

  /**
   * What carries into a guard bit, added to the sum of two sets within these limits, where the sum is not within them; or
   * added to one set of any size. limits: none above the most given.
   */
  biasOf(limits: Int32Array): Int32Array {
    const bias = new Int32Array(this.words);
    for (let k = 0; k < limits.length; k++)
      bias[this.#wordOf[k]!]! += ((1 << this.#bitsOf[k]!) - 1 - limits[k]!) << this.#shiftOf[k]!;
    return bias;
  }

  /** Whether the set at `from` and what `bias` stands for, another set or none, are within the limits it was made for. */
  isWithin(tally: Int32Array, from: number, bias: Int32Array): boolean {
    const { guard } = this;
    let over = 0;
    for (let w = 0, at = from; w < guard.length; w++, at++) over |= (tally[at]! + bias[w]!) & guard[w]!;
    return over === 0;
  }

  /** Copies of a blank in a word that holds it: a sum of two sets may reach into the guard bit. */
  copiesIn(word: number, blank: number): number {
    return (word >>> this.#shiftOf[blank]!) & ((2 << this.#bitsOf[blank]!) - 1);
  }

  /** What so many copies of a blank are in its word. */
  inWord(copies: number, blank: number): number {
    return copies << this.#shiftOf[blank]!;
  }

  /** Writes a set of one copy at `from`. */
  setOne(tally: Int32Array, from: number, blank: number): void {
    tally.fill(0, from, from + this.words);
    tally[from + this.#wordOf[blank]!] = 1 << this.#shiftOf[blank]!;
  }

  /** Copies of each blank in the set at `from`. */
  copies(tally: Int32Array, from: number): Int32Array {
    return this.#bitsOf.map((bits, k) => (tally[from + this.#wordOf[k]!]! >>> this.#shiftOf[k]!) & ((1 << bits) - 1));
  }
}

const WORD_BITS = 31;

/** Limits no higher than the blanks that lie on a board at most: what is wanted without end takes no more bits than that. */
export function limitsOn({ items, along, across, kerfAlong, kerfAcross }: View, limits: Int32Array): Int32Array {
  const areas = new Float64Array(limits.length).fill(Number.POSITIVE_INFINITY);
  for (const item of items)
    areas[item.blank] = Math.min(areas[item.blank]!, (item.along + kerfAlong) * (item.across + kerfAcross));
  const area = (along + kerfAlong) * (across + kerfAcross);
  return limits.map((limit, blank) => Math.max(0, Math.min(limit, Math.floor(area / areas[blank]!))));
}
