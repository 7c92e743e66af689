/**
 * Prices from all boards together: a linear program mixes the patterns found so far, its duals say what a blank and a
 * board are worth to the rest of the plan, and boards are priced again at those figures until nothing new pays.
 */
import { boardOf, type Job, sharedTables } from './job.ts';
import type { Depth } from './one-board.ts';
import type { CutBoard, Plan } from './plan.ts';
import { Simplex } from './simplex.ts';

export interface Column extends CutBoard {
  readonly key: string;
  readonly worth: number;
  /** Blank and copies, in turn. */
  readonly counts: Int32Array;
}

export class Master {
  readonly columns: Column[] = [];
  readonly #byBoard: Column[][];
  readonly #known = new Set<string>();
  readonly #job: Job;
  readonly #left: Int32Array;
  #simplex: Simplex;
  #fed = 0;

  /** Blanks left to cut, and boards of each kind to cut them from. */
  constructor(job: Job, left: Int32Array, stock: ReadonlyMap<number, number>) {
    this.#job = job;
    this.#left = left.slice();
    this.#byBoard = job.problem.boards.map(() => []);
    const limits = new Float64Array(left.length + job.problem.boards.length);
    limits.set(left);
    const total = left.reduce((sum, copies) => sum + copies, 0);
    for (const [board, count] of stock) limits[left.length + board] = Math.min(count, total);
    this.#simplex = new Simplex(limits);
  }

  of(board: number): readonly Column[] {
    return this.#byBoard[board]!;
  }

  add(cut: CutBoard): Column | null {
    if (cut.pieces.length === 0) return null;
    const tally = new Map<number, number>();
    for (const piece of cut.pieces) tally.set(piece.blank, (tally.get(piece.blank) ?? 0) + 1);
    const sorted = [...tally].sort((a, b) => a[0] - b[0]);
    const key = `${cut.board} ${sorted.join(' ')}`;
    if (this.#known.has(key)) return null;
    const column: Column = {
      board: cut.board,
      pieces: cut.pieces,
      key,
      worth: worthOf(this.#job, cut),
      counts: Int32Array.from(sorted.flat()),
    };
    this.take(column);
    return column;
  }

  /** A column that is known to be new here. */
  take(column: Column): void {
    this.#known.add(column.key);
    this.columns.push(column);
    this.#byBoard[column.board]!.push(column);
  }

  addPlan(plan: Plan): void {
    for (const cut of plan) this.add(cut);
  }

  /** Best mix; x by column, then what one more blank and one more board would be worth. */
  mix(): { value: number; x: Float64Array; rents: Float64Array; boardRents: Float64Array } {
    const blanks = this.#job.wanted.length;
    for (; this.#fed < this.columns.length; this.#fed++) {
      const column = this.columns[this.#fed]!;
      const size = column.counts.length / 2;
      const rows = new Int32Array(size + 1);
      const amounts = new Float64Array(size + 1);
      for (let k = 0; k < size; k++) {
        rows[k] = column.counts[2 * k]!;
        amounts[k] = column.counts[2 * k + 1]!;
      }
      rows[size] = blanks + column.board;
      amounts[size] = 1;
      this.#simplex.add({ worth: column.worth, rows, amounts });
    }
    const before = this.#simplex.work;
    this.#simplex.run(3000);
    this.#job.work += Math.round((this.#simplex.work - before) / 2);
    const { value, x, duals } = this.#simplex.answer();
    return { value, x, rents: duals.slice(0, blanks), boardRents: duals.slice(blanks) };
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

function worthOf(job: Job, cut: CutBoard): number {
  let worth = 0;
  for (const piece of cut.pieces) worth += job.weights[piece.blank]!;
  return job.problem.objective === 'net' ? worth - job.problem.boards[cut.board]!.cost : worth;
}
