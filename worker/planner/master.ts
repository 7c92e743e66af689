/**
 * Prices from all boards together: a linear program mixes the patterns found so far, its duals say what a blank and a
 * board are worth to the rest of the plan, and boards are priced again at those figures until nothing new pays.
 */
import { type Column, worthOf } from './column.ts';
import { boardOf, type Job, sharedTables } from './job.ts';
import type { LpColumn } from './lp.ts';
import type { Depth } from './one-board.ts';
import type { CutBoard, Plan } from './plan.ts';
import { Simplex } from './simplex.ts';
import { tidyCut } from './tidy-cut.ts';

/** Never reached but where rounding turns in circles. */
const PIVOTS_MOST = 3000;

export class Master {
  readonly columns: Column[] = [];
  readonly #byBoard = new Map<number, Column[]>();
  readonly #known = new Set<string>();
  readonly #job: Job;
  readonly #left: Int32Array;
  /** Rows of the program: blanks that are left, then boards there are; -1 for those that are not. */
  readonly #blankRow: Int32Array;
  readonly #boardRow: Int32Array;
  readonly #simplex: Simplex;
  #fed = 0;
  /** Columns likely to be in the best mix. */
  readonly #likely: number[] = [];

  /** Blanks left to cut, and boards of each kind to cut them from. */
  constructor(job: Job, left: Int32Array, stock: ReadonlyMap<number, number>) {
    this.#job = job;
    this.#left = left.slice();
    this.#blankRow = new Int32Array(left.length).fill(-1);
    this.#boardRow = new Int32Array(job.problem.boards.length).fill(-1);
    const total = left.reduce((sum, copies) => sum + copies, 0);
    const limits: number[] = [];
    left.forEach((copies, blank) => {
      if (copies > 0) this.#blankRow[blank] = limits.push(copies) - 1;
    });
    for (const [board, count] of stock) {
      if (count > 0) this.#boardRow[board] = limits.push(Math.min(count, total)) - 1;
    }
    this.#simplex = new Simplex(Float64Array.from(limits));
  }

  of(board: number): readonly Column[] {
    return this.#byBoard.get(board) ?? [];
  }

  add(cut: CutBoard): Column | null {
    if (cut.pieces.length === 0) return null;
    const tally = new Map<number, number>();
    for (const piece of cut.pieces) tally.set(piece.blank, (tally.get(piece.blank) ?? 0) + 1);
    const sorted = [...tally].sort((a, b) => a[0] - b[0]);
    const key = `${cut.board} ${sorted.join(' ')}`;
    if (this.#known.has(key)) return null;
    const tidy = tidyCut(this.#job.problem, cut);
    const column: Column = {
      board: cut.board,
      pieces: tidy.pieces,
      key,
      worth: worthOf(this.#job, tidy),
      counts: Int32Array.from(sorted.flat()),
    };
    this.take(column);
    return column;
  }

  /** A column that is known to be new here. isLikely: it was in the best mix of a program much like this one. */
  take(column: Column, isLikely = false): void {
    this.#known.add(column.key);
    if (isLikely) this.#likely.push(this.columns.length);
    this.columns.push(column);
    const known = this.#byBoard.get(column.board);
    if (known) known.push(column);
    else this.#byBoard.set(column.board, [column]);
  }

  addPlan(plan: Plan): void {
    for (const cut of plan) this.add(cut);
  }

  /** Best mix; x by column, then what one more blank and one more board would be worth. */
  mix(): { value: number; x: Float64Array; rents: Float64Array; boardRents: Float64Array } {
    const { work } = this.#simplex;
    for (; this.#fed < this.columns.length; this.#fed++) this.#simplex.add(this.#columnOf(this.columns[this.#fed]!));
    this.#simplex.run(PIVOTS_MOST, this.#likely);
    const { value, x, duals } = this.#simplex.answer();
    this.#job.work += Math.round((this.#simplex.work - work) / 2);
    const rentOf = (row: number) => (row < 0 ? 0 : duals[row]!);
    return {
      value,
      x,
      rents: Float64Array.from(this.#blankRow, rentOf),
      boardRents: Float64Array.from(this.#boardRow, rentOf),
    };
  }

  /** Columns in the mix, and those that are there at nothing. */
  inMix(): readonly Column[] {
    return this.#simplex.used().map((index) => this.columns[index]!);
  }

  #columnOf({ worth, board, counts }: Column): LpColumn {
    const size = counts.length / 2;
    const rows = new Int32Array(size + 1);
    const amounts = new Float64Array(size + 1);
    for (let k = 0; k < size; k++) {
      rows[k] = this.#blankRow[counts[2 * k]!]!;
      amounts[k] = counts[2 * k + 1]!;
    }
    rows[size] = this.#boardRow[board]!;
    amounts[size] = 1;
    return { worth, rows, amounts };
  }

  /** One round of pricing; how many new patterns promised more than they cost. */
  price(rents: Float64Array, boardRents: Float64Array, boards: readonly number[], depth: Depth, trust: number): number {
    const job = this.#job;
    const prices = job.weights.map((weight, blank) => weight - rents[blank]!);
    const shared = sharedTables(job, prices, this.#left);
    let fresh = 0;
    for (const board of boards) {
      const search = boardOf(job, board);
      const before = search.work + shared.work;
      const found = search.unlimited(prices, this.#left, depth, shared);
      job.work += search.work + shared.work - before;
      const cost = job.problem.objective === 'net' ? job.problem.boards[board]!.cost : 0;
      if (found.value - cost - boardRents[board]! * trust <= 1e-7 * Math.max(1, found.value)) continue;
      if (this.add(search.withinLimits(found.pieces, prices, this.#left, job.random))) fresh++;
    }
    return fresh;
  }
}
