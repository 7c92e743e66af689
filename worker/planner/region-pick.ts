/**
 * The pieces of a layout in flat arrays, and a region of it chosen by chance: a rectangle that cuts free of the rest, so
 * that what lies in it may be cut anew in any way and the whole stays cuttable. The same as region.ts, for searches that
 * choose some hundred thousand of them.
 */
import { grown } from './grown.ts';
import type { Kerf, PlacedBlank, Rect } from './problem.ts';
import type { Random } from './random.ts';

export class RegionPick {
  /** The region chosen last. */
  from = 0;
  to = 0;
  left = 0;
  right = 0;
  /** Its pieces, by their index: `insideCount` of them from `insideFrom` on. */
  inside: Int32Array = new Int32Array(64);
  insideFrom = 0;
  insideCount = 0;
  /** Pieces there are, and for each what it is and where. */
  count = 0;
  item: Int32Array = new Int32Array(64);
  #froms: Int32Array = new Int32Array(64);
  #tos: Int32Array = new Int32Array(64);
  #lefts: Int32Array = new Int32Array(64);
  #rights: Int32Array = new Int32Array(64);
  /** Groups that cuts part: where their pieces begin, and how far they reach. */
  #groupAt: Int32Array = new Int32Array(64);
  #groupLow: Int32Array = new Int32Array(64);
  #groupHigh: Int32Array = new Int32Array(64);
  readonly #whole: Rect;
  readonly #kerf: Kerf;

  constructor(whole: Rect, kerf: Kerf) {
    this.#whole = whole;
    this.#kerf = kerf;
  }

  add(item: number, from: number, to: number, left: number, right: number): void {
    const at = this.count++;
    if (at + 2 > this.item.length) this.#grow();
    this.item[at] = item;
    this.#froms[at] = from;
    this.#tos[at] = to;
    this.#lefts[at] = left;
    this.#rights[at] = right;
  }

  /** Some region with at most so many pieces; the steps that took. */
  choose(piecesMost: number, random: Random): number {
    const inside = this.inside;
    const groupAt = this.#groupAt;
    const count = this.count;
    for (let at = 0; at < count; at++) inside[at] = at;
    this.from = this.#whole.from;
    this.to = this.#whole.to;
    this.left = this.#whole.left;
    this.right = this.#whole.right;
    let begin = 0;
    let end = count;
    let isRip = random.below(2) === 0;
    let stuck = 0;
    let looked = 0;
    while (end - begin > piecesMost && stuck < 2) {
      looked += (end - begin) * 2;
      const blade = isRip ? this.#kerf.rip : this.#kerf.crosscut;
      const groups = this.#group(
        begin,
        end,
        isRip ? this.#lefts : this.#froms,
        isRip ? this.#rights : this.#tos,
        blade,
      );
      if (groups > 1) {
        stuck = 0;
        const first = random.below(groups);
        let last = first;
        // Neighbours join as long as the region stays small; a large group is parted further instead.
        while (last + 1 < groups && groupAt[last + 2]! - groupAt[first]! <= piecesMost) last++;
        if (first > 0) {
          const near = this.#groupHigh[first - 1]! + blade;
          if (isRip) this.left = near;
          else this.from = near;
        }
        if (last < groups - 1) {
          const far = this.#groupLow[last + 1]! - blade;
          if (isRip) this.right = far;
          else this.to = far;
        }
        begin = groupAt[first]!;
        end = groupAt[last + 1]!;
      } else {
        stuck++;
      }
      isRip = !isRip;
    }
    this.insideFrom = begin;
    this.insideCount = end - begin;
    return looked;
  }

  /** Sorts the pieces along one axis and parts them into groups; how many. */
  #group(begin: number, end: number, lows: Int32Array, highs: Int32Array, blade: number): number {
    const inside = this.inside;
    for (let at = begin + 1; at < end; at++) {
      const piece = inside[at]!;
      const low = lows[piece]!;
      let to = at;
      for (; to > begin && lows[inside[to - 1]!]! > low; to--) inside[to] = inside[to - 1]!;
      inside[to] = piece;
    }
    let groups = 0;
    let high = Number.NEGATIVE_INFINITY;
    for (let at = begin; at < end; at++) {
      const piece = inside[at]!;
      if (lows[piece]! >= high + blade) {
        this.#groupAt[groups] = at;
        this.#groupLow[groups++] = lows[piece]!;
        high = highs[piece]!;
      } else if (highs[piece]! > high) high = highs[piece]!;
      this.#groupHigh[groups - 1] = high;
    }
    this.#groupAt[groups] = end;
    return groups;
  }

  /** Takes out the pieces of the region; those added since close up. */
  dropInside(): void {
    const { inside, insideFrom, insideCount } = this;
    for (let at = 0; at < insideCount; at++) this.item[inside[insideFrom + at]!] = -1;
    let kept = 0;
    for (let at = 0; at < this.count; at++) {
      if (this.item[at]! < 0) continue;
      if (kept < at) {
        this.item[kept] = this.item[at]!;
        this.#froms[kept] = this.#froms[at]!;
        this.#tos[kept] = this.#tos[at]!;
        this.#lefts[kept] = this.#lefts[at]!;
        this.#rights[kept] = this.#rights[at]!;
      }
      kept++;
    }
    this.count = kept;
  }

  /** Pieces as they are placed, their blanks by item. */
  placed(blanks: Int32Array): PlacedBlank[] {
    return Array.from({ length: this.count }, (_, at) => ({
      blank: blanks[this.item[at]!]!,
      from: this.#froms[at]!,
      to: this.#tos[at]!,
      left: this.#lefts[at]!,
      right: this.#rights[at]!,
    }));
  }

  #grow(): void {
    const larger = (list: Int32Array) => grown(list, new Int32Array(2 * list.length));
    this.inside = larger(this.inside);
    this.item = larger(this.item);
    this.#froms = larger(this.#froms);
    this.#tos = larger(this.#tos);
    this.#lefts = larger(this.#lefts);
    this.#rights = larger(this.#rights);
    this.#groupAt = larger(this.#groupAt);
    this.#groupLow = larger(this.#groupLow);
    this.#groupHigh = larger(this.#groupHigh);
  }
}
