/**
 * From a mix of patterns to whole boards: the pattern that the mix is surest of is fixed, the rest priced and mixed
 * again, until every board is settled.
 */
import { type Column, isWithin, reducedWorth, take } from './column.ts';
import type { Job } from './job.ts';
import { Master } from './master.ts';
import type { CutBoard, Plan } from './plan.ts';
import { recombined } from './recombine.ts';

export interface DiveOptions {
  /** Patterns of the mix at or above this share are fixed together. */
  readonly sure: number;
  readonly pricingRounds: number;
  readonly depth: 0 | 1 | 2;
  /** From here on no new patterns are priced. */
  readonly workMost: number;
}

/** Beyond so many patterns those are left out that the mix holds to be worth this share less than they cost. */
const PATTERNS_MOST = 500;
const FAR_OFF = 0.1;

/** So many boards at the end are chosen together, in so many looks. */
const LAST_MOST = 10;
const LAST_LOOKS = 30_000;

type Mix = ReturnType<Master['mix']>;

/** Extends `kept` by patterns for `boards`; patterns found on the way are added to the master. */
export function dive(job: Job, master: Master, kept: Plan, boards: readonly number[], options: DiveOptions): Plan {
  const left = job.wanted.slice();
  const stock = new Map<number, number>();
  for (const board of boards) stock.set(board, (stock.get(board) ?? 0) + 1);
  const plan: CutBoard[] = [...kept];
  for (const cut of kept) for (const piece of cut.pieces) left[piece.blank]!--;
  let pool = [...stock.keys()].flatMap((board) => master.of(board));
  let likely: ReadonlySet<Column> = new Set();
  for (let turn = 0; turn < 400; turn++) {
    const open = [...stock].filter(([, count]) => count > 0).map(([board]) => board);
    if (open.length === 0) break;
    const small = new Master(job, left, stock);
    for (const column of pool)
      if (stock.get(column.board)! > 0 && isWithin(column, left)) small.take(column, likely.has(column));
    let mix = small.mix();
    const rounds = job.work < options.workMost ? options.pricingRounds : 0;
    for (let round = 0; round < rounds; round++) {
      const used = new Set(small.columns.filter((_, index) => mix.x[index]! > 1e-6).map((column) => column.board));
      const busy = open.filter((board) => used.has(board) || job.random.below(3) === 0);
      const before = small.columns.length;
      const fresh = small.price(mix.rents, mix.boardRents, busy, options.depth, 1);
      for (const column of small.columns.slice(before)) master.add(column);
      if (fresh === 0) break;
      mix = small.mix();
    }
    likely = new Set(small.inMix());
    pool =
      small.columns.length <= PATTERNS_MOST ? small.columns : small.columns.filter((column) => isNear(column, mix));
    const ranked = small.columns
      .map((column, index) => ({ column, share: mix.x[index]! }))
      .filter((one) => one.share > 1e-6)
      .sort((a, b) => b.share - a.share || b.column.worth - a.column.worth);
    if (ranked.length === 0) break;
    let fixed = 0;
    const fix = (column: Column): void => {
      plan.push({ board: column.board, pieces: column.pieces });
      take(column, left);
      stock.set(column.board, stock.get(column.board)! - 1);
      fixed++;
    };
    const together = lastTogether(job, small, mix, ranked, left, stock);
    if (together) for (const column of together) fix(column);
    for (const { column, share } of ranked) {
      if (together || (fixed > 0 && share < options.sure)) break;
      if ((stock.get(column.board) ?? 0) > 0 && isWithin(column, left)) fix(column);
    }
    if (fixed === 0) break;
  }
  return plan;
}

/** The last boards are chosen together: fixed one by one, they lose most. Null where there are still too many. */
function lastTogether(
  job: Job,
  small: Master,
  mix: Mix,
  ranked: readonly { readonly column: Column; readonly share: number }[],
  left: Int32Array,
  stock: ReadonlyMap<number, number>,
): readonly Column[] | null {
  const shares = new Map<number, number>();
  for (const { column, share } of ranked) shares.set(column.board, (shares.get(column.board) ?? 0) + share);
  const boards = [...shares].flatMap(([board, share]) =>
    Array.from({ length: Math.min(stock.get(board)!, Math.ceil(share - 1e-6)) }, () => board),
  );
  if (boards.length > LAST_MOST) return null;
  return recombined(job, { boards: boards.map((board) => small.of(board)), rents: mix.rents, left }, 0, LAST_LOOKS);
}

function isNear(column: Column, mix: Mix): boolean {
  const reduced = reducedWorth(column, mix.rents) - mix.boardRents[column.board]!;
  return reduced >= -FAR_OFF * Math.abs(column.worth);
}
