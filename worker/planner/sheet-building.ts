/**
 * Patterns built from small to large on a clear sheet, several kept for each size, all within the limits: where copies
 * are few and one pattern a size would often ask for the same.
 */
import { firstAtLeast } from './raster.ts';
import type { Sheet } from './sheet.ts';
import { limitsOn, TallyShape } from './tally.ts';
import type { Spot } from './view.ts';

export interface Building {
  readonly spots: readonly Spot[];
  readonly work: number;
}

export interface BuildingTask {
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  /** Patterns kept for each size. */
  readonly keep: number;
  readonly workMost: number;
}

export function buildSheet(sheet: Sheet, { prices, limits, keep, workMost }: BuildingTask): Building {
  const { at: xs, floor: xFloor } = sheet.xs;
  const { at: ys, floor: yFloor } = sheet.ys;
  const rows = ys.length;
  const columns = xs.length;
  const { items } = sheet.view;
  const states = columns * rows;
  const size = new Int32Array(states);
  const worth = new Float64Array(states * keep);
  const first = new Int32Array(states * keep);
  const second = new Int32Array(states * keep);
  const most = limitsOn(sheet.view, limits);
  const shape = new TallyShape(most);
  const { words, guard } = shape;
  const bias = shape.biasOf(most);
  const tallies = new Int32Array(states * keep * words);
  const candidate = new Int32Array(words);
  let answer = EMPTY;
  let work = 0;

  /** One blank (b = ALONE), or two entries. */
  const offer = (state: number, a: number, b: number, sum: number): void => {
    const from = state * keep;
    const held = size[state]!;
    if (b === ALONE) shape.setOne(candidate, 0, items[a]!.blank);
    else {
      let over = 0;
      for (let w = 0, p = a * words, q = b * words; w < words; w++, p++, q++) {
        const copies = tallies[p]! + tallies[q]!;
        over |= (copies + bias[w]!) & guard[w]!;
        candidate[w] = copies;
      }
      if (over !== 0) return;
    }
    work += 4;
    let place = held;
    for (let k = 0; k < held; k++) {
      if (Math.abs(worth[from + k]! - sum) < 1e-9) {
        const other = (from + k) * words;
        let same = true;
        for (let w = 0; w < words && same; w++) same = tallies[other + w] === candidate[w];
        if (same) return;
      }
      if (place === held && worth[from + k]! < sum) place = k;
    }
    if (held < keep) size[state] = held + 1;
    const last = Math.min(held, keep - 1);
    if (place > last) return;
    // Entries are pointed at by larger states only once this one is finished, so they may still move.
    for (let to = from + last; to > from + place; to--) {
      worth[to] = worth[to - 1]!;
      first[to] = first[to - 1]!;
      second[to] = second[to - 1]!;
      for (let i = to * words, end = i + words; i < end; i++) tallies[i] = tallies[i - words]!;
    }
    const to = from + place;
    worth[to] = sum;
    first[to] = a;
    second[to] = b;
    for (let w = 0, at = to * words; w < words; w++) tallies[at + w] = candidate[w]!;
  };

  const pair = (state: number, one: number, other: number): void => {
    const p = one * keep;
    const q = other * keep;
    const last = state * keep + keep - 1;
    for (let a = 0; a < size[one]!; a++) {
      for (let b = 0; b < size[other]!; b++) {
        const sum = worth[p + a]! + worth[q + b]!;
        if (size[state] === keep && sum <= worth[last]!) break;
        work++;
        offer(state, p + a, q + b, sum);
      }
      if (work > workMost) return;
    }
  };

  const inherit = (state: number, smaller: number): void => {
    const from = smaller * keep;
    const last = state * keep + keep - 1;
    for (let k = 0; k < size[smaller]!; k++) {
      const sum = worth[from + k]!;
      if (size[state] === keep && sum <= worth[last]!) break;
      offer(state, from + k, EMPTY, sum);
    }
  };

  const singles = new Map<number, number[]>();
  items.forEach((item, index) => {
    if (prices[item.blank]! <= 0 || limits[item.blank]! <= 0) return;
    const state =
      firstAtLeast(sheet.xs, item.along + sheet.view.kerfAlong) * rows +
      firstAtLeast(sheet.ys, item.across + sheet.view.kerfAcross);
    singles.set(state, [...(singles.get(state) ?? []), index]);
  });
  for (let i = 1; i < columns && work <= workMost; i++) {
    const x = xs[i]!;
    for (let j = 1; j < rows; j++) {
      const state = i * rows + j;
      const y = ys[j]!;
      for (const index of singles.get(state) ?? []) offer(state, index, ALONE, prices[items[index]!.blank]!);
      // A state holds what is just its size, so it need not inherit: larger cuts look up smaller neighbours instead.
      for (let a = 1, half = xFloor[x >> 1]!; a <= half; a++) pair(state, a * rows + j, xFloor[x - xs[a]!]! * rows + j);
      const row = i * rows;
      for (let b = 1, half = yFloor[y >> 1]!; b <= half; b++) pair(state, row + b, row + yFloor[y - ys[b]!]!);
      inherit(state, state - rows);
      inherit(state, state - 1);
      if (worth[state * keep]! > worth[answer]! + 1e-9) answer = state * keep;
    }
  }

  const spots: Spot[] = [];
  const stack: number[] = answer === EMPTY ? [] : [answer, 0, 0];
  while (stack.length > 0) {
    const across = stack.pop()!;
    const along = stack.pop()!;
    const entry = stack.pop()!;
    const a = first[entry]!;
    const b = second[entry]!;
    if (b === ALONE) {
      spots.push({ item: items[a]!, along, across });
      continue;
    }
    stack.push(a, along, across);
    if (b === EMPTY) continue;
    const state = Math.floor(entry / keep);
    const one = Math.floor(a / keep);
    const sameRow = state % rows === one % rows && Math.floor(state / rows) !== Math.floor(one / rows);
    if (sameRow) stack.push(b, along + xs[Math.floor(one / rows)]!, across);
    else stack.push(b, along, across + ys[one % rows]!);
  }
  return { spots, work };
}

/** Entry of the state without size: worth nothing, holds nothing. */
const EMPTY = 0;
const ALONE = -1;
