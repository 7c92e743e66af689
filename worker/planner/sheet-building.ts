/**
 * Patterns built from small to large on a clear sheet, several kept for each size, all within the limits. A pattern
 * that cannot beat the best known, whatever is put beside it, is dropped; when nothing else had to be dropped, the
 * answer is the best there is.
 */
import type { Sheet } from './sheet.ts';
import type { Spot } from './view.ts';

export interface Building {
  readonly spots: readonly Spot[] | null;
  readonly exact: boolean;
  readonly work: number;
}

export interface BuildingTask {
  readonly prices: Float64Array;
  readonly limits: Int32Array;
  readonly rents: Float64Array;
  /** Most worth that may stand beside a pattern of a state's size, at prices less rents. */
  readonly beside: Float64Array;
  /** A pattern must be worth more than this. */
  readonly floor: number;
  /** Patterns kept for each size. */
  readonly keep: number;
  readonly workMost: number;
  /** Patterns are ranked by price less this share of the rents. */
  readonly share: number;
}

export function buildSheet(sheet: Sheet, task: BuildingTask): Building {
  const { prices, limits, rents, keep, share } = task;
  const kinds = prices.length;
  const { at: xs, floor: xFloor } = sheet.xs;
  const { at: ys, floor: yFloor } = sheet.ys;
  const rows = ys.length;
  const columns = xs.length;
  const { items } = sheet.view;
  const states = columns * rows;
  const size = new Int32Array(states);
  const rank = new Float64Array(states * keep);
  const worth = new Float64Array(states * keep);
  const first = new Int32Array(states * keep);
  const second = new Int32Array(states * keep);
  const counts = new Uint8Array(states * keep * kinds);
  const credit = rents.reduce((sum, rent, blank) => sum + (rent > 0 ? rent * limits[blank]! : 0), 0);
  const reduced = prices.map((price, blank) => price - rents[blank]!);
  const ranking = prices.map((price, blank) => price - share * rents[blank]!);
  let floor = task.floor;
  let answer = -1;
  let exact = true;
  let work = 0;
  const candidate = new Uint8Array(kinds);

  const offer = (state: number, a: number, b: number, ranked: number): void => {
    const from = state * keep;
    const held = size[state]!;
    if (held === keep && ranked <= rank[from + keep - 1]!) {
      exact = false;
      return;
    }
    let sum = 0;
    let reducedSum = 0;
    if (b === -1) {
      candidate.fill(0);
      const blank = items[a]!.blank;
      candidate[blank] = 1;
      sum = prices[blank]!;
      reducedSum = reduced[blank]!;
    } else {
      for (let k = 0, p = a * kinds, q = b * kinds; k < kinds; k++, p++, q++) {
        const copies = counts[p]! + counts[q]!;
        if (copies > limits[k]!) return;
        candidate[k] = copies;
        if (copies > 0) reducedSum += copies * reduced[k]!;
      }
      sum = worth[a]! + worth[b]!;
    }
    work += 4;
    if (sum > floor + 1e-9) {
      floor = sum;
      answer = -2;
    }
    if (answer !== -2 && reducedSum + task.beside[state]! + credit <= floor + 1e-9) return;
    let place = held;
    for (let k = 0; k < held; k++) {
      if (Math.abs(rank[from + k]! - ranked) < 1e-9) {
        const other = (from + k) * kinds;
        let same = true;
        for (let i = 0; i < kinds && same; i++) same = counts[other + i] === candidate[i];
        if (same) {
          if (answer === -2) answer = from + k;
          return;
        }
      }
      if (place === held && rank[from + k]! < ranked) place = k;
    }
    if (held === keep) exact = false;
    else size[state] = held + 1;
    const last = Math.min(held, keep - 1);
    if (place > last) {
      if (answer === -2) place = last;
      else return;
    }
    // Entries are pointed at by larger states only once this one is finished, so they may still move.
    for (let k = last; k > place; k--) {
      const to = from + k;
      rank[to] = rank[to - 1]!;
      worth[to] = worth[to - 1]!;
      first[to] = first[to - 1]!;
      second[to] = second[to - 1]!;
      for (let i = to * kinds, end = i + kinds; i < end; i++) counts[i] = counts[i - kinds]!;
      if (answer === to - 1) answer = to;
    }
    const to = from + place;
    rank[to] = ranked;
    worth[to] = sum;
    first[to] = a;
    second[to] = b;
    for (let i = 0, at = to * kinds; i < kinds; i++) counts[at + i] = candidate[i]!;
    if (answer === -2) answer = to;
  };

  const pair = (state: number, one: number, other: number): void => {
    const p = one * keep;
    const q = other * keep;
    const from = state * keep;
    for (let a = 0; a < size[one]!; a++) {
      for (let b = 0; b < size[other]!; b++) {
        const ranked = rank[p + a]! + rank[q + b]!;
        if (size[state] === keep && ranked <= rank[from + keep - 1]!) {
          exact = false;
          break;
        }
        work++;
        offer(state, p + a, q + b, ranked);
      }
      if (work > task.workMost) return;
    }
  };

  const singles = new Map<number, number[]>();
  items.forEach((item, index) => {
    if (prices[item.blank]! <= 0 || limits[item.blank]! <= 0) return;
    const state =
      ceilIndex(xs, xFloor, item.along + sheet.view.kerfAlong) * rows +
      ceilIndex(ys, yFloor, item.across + sheet.view.kerfAcross);
    singles.set(state, [...(singles.get(state) ?? []), index]);
  });
  for (let i = 1; i < columns && work <= task.workMost; i++) {
    const x = xs[i]!;
    for (let j = 1; j < rows; j++) {
      const state = i * rows + j;
      const y = ys[j]!;
      for (const index of singles.get(state) ?? []) offer(state, index, -1, ranking[items[index]!.blank]!);
      // A state holds what is just its size, so it need not inherit: larger cuts look up smaller neighbours instead.
      for (let a = 1, half = xFloor[x >> 1]!; a <= half; a++) pair(state, a * rows + j, xFloor[x - xs[a]!]! * rows + j);
      const row = i * rows;
      for (let b = 1, half = yFloor[y >> 1]!; b <= half; b++) pair(state, row + b, row + yFloor[y - ys[b]!]!);
      inherit(state, state - rows);
      inherit(state, state - 1);
    }
  }
  if (work > task.workMost) exact = false;

  function inherit(state: number, smaller: number): void {
    const from = smaller * keep;
    for (let k = 0; k < size[smaller]!; k++) {
      const entry = from + k;
      const place = state * keep;
      if (size[state] === keep && rank[entry]! <= rank[place + keep - 1]!) {
        exact = false;
        break;
      }
      offer(state, entry, EMPTY, rank[entry]!);
    }
  }

  const spots: Spot[] = [];
  if (answer < 0) return { spots: null, exact, work };
  const stack: number[] = [answer, 0, 0];
  while (stack.length > 0) {
    const across = stack.pop()!;
    const along = stack.pop()!;
    const entry = stack.pop()!;
    const a = first[entry]!;
    const b = second[entry]!;
    if (b === -1) {
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
  return { spots, exact, work };
}

/** Entry of the state without size: worth nothing, holds nothing. */
const EMPTY = 0;

function ceilIndex(at: Int32Array, floor: Int32Array, size: number): number {
  const index = floor[size]!;
  return at[index] === size ? index : index + 1;
}

/**
 * For each state the most that can stand beside it in the sheet, by the exact unlimited worth of every size. Whatever
 * surrounds a pattern is cut off it in strips, outermost last.
 */
export function worthBeside(sheet: Sheet, unlimited: Float64Array): Float64Array {
  const { at: xs, floor: xFloor } = sheet.xs;
  const { at: ys, floor: yFloor } = sheet.ys;
  const rows = ys.length;
  const columns = xs.length;
  const beside = new Float64Array(columns * rows);
  for (let i = columns - 1; i >= 0; i--) {
    for (let j = rows - 1; j >= 0; j--) {
      let most = 0;
      for (let a = i + 1; a < columns; a++) {
        const strip = ceilIndex(xs, xFloor, xs[a]! - xs[i]!);
        const value = beside[a * rows + j]! + unlimited[strip * rows + j]!;
        if (value > most) most = value;
      }
      for (let b = j + 1; b < rows; b++) {
        const strip = ceilIndex(ys, yFloor, ys[b]! - ys[j]!);
        const value = beside[i * rows + b]! + unlimited[i * rows + strip]!;
        if (value > most) most = value;
      }
      beside[i * rows + j] = most;
    }
  }
  return beside;
}
