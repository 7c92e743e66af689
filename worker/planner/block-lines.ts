import { grown } from './grown.ts';

/** Blocks of one size across, or of one along: the shorter first, with what a join asks first of each. */
class Line {
  size = 0;
  blocks = new Int32Array(4);
  lengths = new Int32Array(4);
  liked = new Float64Array(4);

  add(block: number, length: number, liked: number): void {
    if (this.size === this.blocks.length) {
      this.blocks = grown(this.blocks, new Int32Array(2 * this.size));
      this.lengths = grown(this.lengths, new Int32Array(2 * this.size));
      this.liked = grown(this.liked, new Float64Array(2 * this.size));
    }
    let at = this.size++;
    for (; at > 0 && this.lengths[at - 1]! >= length; at--) {
      this.blocks[at] = this.blocks[at - 1]!;
      this.lengths[at] = this.lengths[at - 1]!;
      this.liked[at] = this.liked[at - 1]!;
    }
    this.blocks[at] = block;
    this.lengths[at] = length;
    this.liked[at] = liked;
  }
}

/** The lines that hold blocks, by ascending number. */
export class Lines {
  readonly numbers: number[] = [];
  readonly lines: Line[] = [];
  readonly #byNumber: (Line | undefined)[];

  constructor(most: number) {
    this.#byNumber = new Array(most);
  }

  add(number: number, block: number, length: number, liked: number): void {
    let line = this.#byNumber[number];
    if (!line) {
      line = new Line();
      this.#byNumber[number] = line;
      let at = this.numbers.length;
      while (at > 0 && this.numbers[at - 1]! > number) at--;
      this.numbers.splice(at, 0, number);
      this.lines.splice(at, 0, line);
    }
    line.add(block, length, liked);
  }
}
