/** Joins waiting to be made, by classes of areas: in each class the best so many, and nothing that no longer has room. */

/** Classes of areas in an octave: 2 to this power. */
const FINE = 4;
const IN_OCTAVE = 1 << FINE;

/** Blocks a class may keep, by how many octaves its areas lie below the whole sheet's. */
export type KeepBy = (octavesBelow: number) => number;

/** As many of every size. */
export function keepEvenly(keep: number): KeepBy {
  return () => keep;
}

/**
 * More of the large ones, of which few can be told apart by waste alone, and few of the small ones, of which all that
 * matter waste nothing.
 */
export function keepMostlyLarge(keep: number): KeepBy {
  return (octavesBelow) =>
    Math.max(1, Math.round(keep * Math.max(SMALL_SHARE, WHOLE_SHARE * 2 ** (-FALL * octavesBelow))));
}

const WHOLE_SHARE = 3;
const SMALL_SHARE = 0.25;
const FALL = 0.4;

export class BlockQueue {
  readonly classes: number;
  /** Nothing is taken in that does not rank above this, by class. */
  readonly bar: Float64Array;
  /** Areas are multiplied by this before they are classed, so that small ones are told apart as finely as large ones. */
  readonly scale: number;
  /** Blocks that a class may still make. */
  readonly room: Int32Array;
  readonly size: Int32Array;
  readonly rank: Float64Array;
  readonly first: Int32Array;
  readonly second: Int32Array;
  readonly shape: Int32Array;
  /** Of the blanks held: the same for the same blanks. */
  readonly hash: Int32Array;
  /** Where a class's entries begin. */
  readonly #start: Int32Array;
  /** Something had to go for want of room. */
  dropped = false;

  constructor(areaMost: number, keepBy: KeepBy) {
    this.scale = areaMost < 1 << 27 ? IN_OCTAVE : 1;
    this.classes = classOf(areaMost * this.scale) + 1;
    this.#start = new Int32Array(this.classes);
    this.room = new Int32Array(this.classes);
    let entries = 0;
    for (let cls = 0; cls < this.classes; cls++) {
      this.#start[cls] = entries;
      this.room[cls] = keepBy((this.classes - cls) / IN_OCTAVE);
      entries += this.room[cls]!;
    }
    this.bar = new Float64Array(this.classes).fill(Number.NEGATIVE_INFINITY);
    this.size = new Int32Array(this.classes);
    this.rank = new Float64Array(entries);
    this.first = new Int32Array(entries);
    this.second = new Int32Array(entries);
    this.shape = new Int32Array(entries);
    this.hash = new Int32Array(entries);
  }

  /** Blocks that this class and all larger ones may still make. */
  roomFrom(lowest: number): number {
    return this.room.subarray(lowest).reduce((sum, room) => sum + room, 0);
  }

  /** Takes in a join that ranks above the bar of its class, unless the same is waiting. */
  offer(cls: number, rank: number, shape: number, first: number, second: number, hash: number): void {
    const from = this.#start[cls]!;
    const size = this.size[cls]!;
    const end = from + size;
    const ranks = this.rank;
    let at = from;
    for (let top = end; at < top; ) {
      const middle = (at + top) >> 1;
      if (ranks[middle]! < rank) at = middle + 1;
      else top = middle;
    }
    for (let k = at; k < end && ranks[k]! < rank + 1e-9; k++) if (this.#is(k, shape, hash)) return;
    for (let k = at - 1; k >= from && ranks[k]! > rank - 1e-9; k--) if (this.#is(k, shape, hash)) return;
    if (size >= this.room[cls]!) {
      // The worst goes.
      this.dropped = true;
      at--;
      this.#shift(from, from + 1, at + 1);
    } else {
      this.#shift(at + 1, at, end);
      this.size[cls] = size + 1;
    }
    ranks[at] = rank;
    this.first[at] = first;
    this.second[at] = second;
    this.shape[at] = shape;
    this.hash[at] = hash;
    if (this.size[cls]! >= this.room[cls]!) this.bar[cls] = ranks[from]!;
  }

  /** Index of the best that waits in a class, taken out; -1 when none does or none may be made any more. */
  take(cls: number): number {
    if (this.size[cls] === 0) return -1;
    if (this.room[cls] === 0) {
      this.dropped = true;
      return -1;
    }
    return this.#start[cls]! + --this.size[cls]!;
  }

  #is(entry: number, shape: number, hash: number): boolean {
    return this.hash[entry] === hash && this.shape[entry] === shape;
  }

  /** Moves entries, of which there are few: a loop is faster than a copy of each list. */
  #shift(to: number, from: number, end: number): void {
    const { rank, first, second, shape, hash } = this;
    const step = to < from ? 1 : -1;
    const by = to - from;
    for (let k = step > 0 ? from : end - 1; step > 0 ? k < end : k >= from; k += step) {
      rank[k + by] = rank[k]!;
      first[k + by] = first[k]!;
      second[k + by] = second[k]!;
      shape[k + by] = shape[k]!;
      hash[k + by] = hash[k]!;
    }
  }
}

/** Grows with the area, from one class to the next by about a twentieth. */
export function classOf(scaledArea: number): number {
  const octave = 31 - Math.clz32(scaledArea);
  return (octave << FINE) | ((scaledArea >> (octave - FINE)) & (IN_OCTAVE - 1));
}
