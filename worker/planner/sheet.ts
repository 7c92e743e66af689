/**
 * Best cutting of a clear sheet by any number of stages: every size that can arise is a state, and a state is one
 * blank, or two states parted by a cut. Exact where copies are unlimited, and so a bound where they are limited.
 */
import { firstAtLeast, type Raster, rasterOf } from './raster.ts';
import { limitsOn, TallyShape } from './tally.ts';
import type { Item, Spot, View } from './view.ts';

export class Sheet {
  readonly view: View;
  readonly xs: Raster;
  readonly ys: Raster;
  readonly states: number;
  /** Steps that one pass takes. */
  readonly passWork: number;
  readonly #value: Float64Array;
  readonly #turned: Float64Array;
  /** How a state is made: 0 nothing, 1.. blank, otherwise a cut or a smaller state. */
  readonly #how: Int32Array;
  /** Copies in the pattern of each state, packed. */
  #tallies = new Int32Array(0);

  constructor(view: View) {
    this.view = view;
    this.xs = rasterOf(
      view.items.map((item) => item.along + view.kerfAlong),
      view.along + view.kerfAlong,
    );
    this.ys = rasterOf(
      view.items.map((item) => item.across + view.kerfAcross),
      view.across + view.kerfAcross,
    );
    const columns = this.xs.at.length;
    const rows = this.ys.at.length;
    this.states = columns * rows;
    this.passWork = (this.states * (columns + rows)) / 4;
    this.#value = new Float64Array(this.states);
    this.#turned = new Float64Array(this.states);
    this.#how = new Int32Array(this.states);
  }

  /** Exact worth of the sheet when each blank may be cut without limit. */
  unlimited(prices: Float64Array): { value: number; spots: Spot[] } {
    const rows = this.ys.at.length;
    const columns = this.xs.at.length;
    const value = this.#value;
    const turned = this.#turned;
    const how = this.#how;
    const { at: xs, floor: xFloor } = this.xs;
    const { at: ys, floor: yFloor } = this.ys;
    this.#base(prices, null);
    for (let i = 1; i < columns; i++) {
      const x = xs[i]!;
      const half = xFloor[x >> 1]!;
      for (let j = 1; j < rows; j++) {
        const state = i * rows + j;
        let best = value[state]!;
        let made = how[state]!;
        const left = value[state - rows]!;
        if (left > best) {
          best = left;
          made = -1;
        }
        const below = value[state - 1]!;
        if (below > best) {
          best = below;
          made = -2;
        }
        const column = j * columns;
        for (let a = 1; a <= half; a++) {
          const sum = turned[column + a]! + turned[column + xFloor[x - xs[a]!]!]!;
          if (sum > best) {
            best = sum;
            made = -3 - 2 * a;
          }
        }
        const y = ys[j]!;
        const row = i * rows;
        for (let b = 1, middle = yFloor[y >> 1]!; b <= middle; b++) {
          const sum = value[row + b]! + value[row + yFloor[y - ys[b]!]!]!;
          if (sum > best) {
            best = sum;
            made = -4 - 2 * b;
          }
        }
        value[state] = best;
        turned[column + i] = best;
        how[state] = made;
      }
    }
    return { value: value[this.states - 1]!, spots: this.#spots(columns - 1, rows - 1) };
  }

  /** A good pattern within the limits: each state keeps one, and what a cut would join too often is left out. */
  limited(prices: Float64Array, limits: Int32Array): Spot[] {
    const rows = this.ys.at.length;
    const columns = this.xs.at.length;
    const value = this.#value;
    const turned = this.#turned;
    const how = this.#how;
    const most = limitsOn(this.view, limits);
    const shape = new TallyShape(most);
    const { words, guard, blankAt } = shape;
    const bias = shape.biasOf(most);
    if (this.#tallies.length < this.states * words) this.#tallies = new Int32Array(this.states * words);
    else this.#tallies.fill(0);
    const tallies = this.#tallies;
    const { at: xs, floor: xFloor } = this.xs;
    const { at: ys, floor: yFloor } = this.ys;
    this.#base(prices, limits);
    const joined = (a: number, b: number, floor: number): number => {
      const both = value[a]! + value[b]!;
      let lost = 0;
      for (let w = 0, p = a * words, q = b * words; w < words; w++, p++, q++) {
        const sum = tallies[p]! + tallies[q]!;
        for (let over = (sum + bias[w]!) & guard[w]!; over !== 0; ) {
          const bit = 31 - Math.clz32(over);
          over ^= 1 << bit;
          const blank = blankAt[(w << 5) + bit]!;
          lost += (shape.copiesIn(sum, blank) - most[blank]!) * prices[blank]!;
          if (both - lost <= floor) return floor;
        }
      }
      return both - lost;
    };
    for (let i = 1; i < columns; i++) {
      const x = xs[i]!;
      const half = xFloor[x >> 1]!;
      for (let j = 1; j < rows; j++) {
        const state = i * rows + j;
        let best = value[state]!;
        let made = how[state]!;
        let one = -1;
        let other = -1;
        if (value[state - rows]! > best) {
          one = state - rows;
          best = value[one]!;
          made = -1;
        }
        if (value[state - 1]! > best) {
          one = state - 1;
          best = value[one]!;
          made = -2;
        }
        const column = j * columns;
        for (let a = 1; a <= half; a++) {
          const rest = xFloor[x - xs[a]!]!;
          if (turned[column + a]! + turned[column + rest]! <= best + 1e-9) continue;
          const sum = joined(a * rows + j, rest * rows + j, best);
          if (sum > best + 1e-9) {
            best = sum;
            made = -3 - 2 * a;
            one = a * rows + j;
            other = rest * rows + j;
          }
        }
        const y = ys[j]!;
        const row = i * rows;
        for (let b = 1, middle = yFloor[y >> 1]!; b <= middle; b++) {
          const rest = yFloor[y - ys[b]!]!;
          if (value[row + b]! + value[row + rest]! <= best + 1e-9) continue;
          const sum = joined(row + b, row + rest, best);
          if (sum > best + 1e-9) {
            best = sum;
            made = -4 - 2 * b;
            one = row + b;
            other = row + rest;
          }
        }
        value[state] = best;
        turned[column + i] = best;
        how[state] = made;
        const to = state * words;
        if (one < 0) {
          if (made > 0) shape.setOne(tallies, to, this.view.items[made - 1]!.blank);
        } else if (other < 0) {
          for (let w = 0, p = one * words; w < words; w++, p++) tallies[to + w] = tallies[p]!;
        } else {
          for (let w = 0, p = one * words, q = other * words; w < words; w++, p++, q++) {
            let sum = tallies[p]! + tallies[q]!;
            for (let over = (sum + bias[w]!) & guard[w]!; over !== 0; ) {
              const bit = 31 - Math.clz32(over);
              over ^= 1 << bit;
              const blank = blankAt[(w << 5) + bit]!;
              sum -= shape.inWord(shape.copiesIn(sum, blank) - most[blank]!, blank);
            }
            tallies[to + w] = sum;
          }
        }
      }
    }
    return this.#spots(columns - 1, rows - 1);
  }

  /** Worth of every state after the last search, x by x. */
  get worths(): Float64Array {
    return this.#value;
  }

  /** Each state starts as the best single blank of just its size; smaller ones are inherited. */
  #base(prices: Float64Array, limits: Int32Array | null): void {
    const rows = this.ys.at.length;
    this.#value.fill(0);
    this.#turned.fill(0);
    this.#how.fill(0);
    const { view, xs, ys } = this;
    view.items.forEach((item, index) => {
      if (prices[item.blank]! <= 0 || (limits && limits[item.blank]! <= 0)) return;
      // The first state that holds the blank: positions were thinned, so it may be larger.
      const i = firstAtLeast(xs, item.along + view.kerfAlong);
      const j = firstAtLeast(ys, item.across + view.kerfAcross);
      const state = i * rows + j;
      if (prices[item.blank]! <= this.#value[state]!) return;
      this.#value[state] = prices[item.blank]!;
      this.#how[state] = index + 1;
    });
  }

  #spots(columnLast: number, rowLast: number): Spot[] {
    const rows = this.ys.at.length;
    const { at: xs, floor: xFloor } = this.xs;
    const { at: ys, floor: yFloor } = this.ys;
    const spots: Spot[] = [];
    const stack: number[] = [columnLast, rowLast, 0, 0];
    while (stack.length > 0) {
      const across = stack.pop()!;
      const along = stack.pop()!;
      const j = stack.pop()!;
      const i = stack.pop()!;
      if (i === 0 || j === 0) continue;
      const made = this.#how[i * rows + j]!;
      if (made === 0) continue;
      if (made > 0) spots.push({ item: this.view.items[made - 1] as Item, along, across });
      else if (made === -1) stack.push(i - 1, j, along, across);
      else if (made === -2) stack.push(i, j - 1, along, across);
      else if (made % 2 !== 0) {
        const a = (-3 - made) / 2;
        stack.push(a, j, along, across, xFloor[xs[i]! - xs[a]!]!, j, along + xs[a]!, across);
      } else {
        const b = (-4 - made) / 2;
        stack.push(i, b, along, across, i, yFloor[ys[j]! - ys[b]!]!, along, across + ys[b]!);
      }
    }
    return spots;
  }
}
