/** Sheets without waste, mixed in fractions: how many it takes for all that is left, and what each blank costs then. */
import { CoverLp } from './cover-lp.ts';
import type { Spot } from './view.ts';

export interface SheetFound {
  /** Copies of each item. */
  readonly counts: Int32Array;
  readonly spots: readonly Spot[];
}

/** One entry looked at in the linear program takes as long as this share of a step. */
const LP_STEP = 1 / 8;

export class SheetMix {
  readonly #left: Int32Array;
  /** Items that are left. */
  readonly #rows: readonly number[];
  readonly #rowOf = new Map<number, number>();
  readonly #sheets: SheetFound[] = [];
  readonly #lp: CoverLp;
  work = 0;

  /** Of the sheets known those that fit what is left; a blank that is on none of them takes a sheet of its own. */
  constructor(left: Int32Array, known: readonly SheetFound[]) {
    this.#left = left;
    const rows: number[] = [];
    left.forEach((copies, item) => {
      if (copies > 0) this.#rowOf.set(item, rows.push(item) - 1);
    });
    this.#rows = rows;
    this.#lp = new CoverLp(
      Int32Array.from(rows, (item) => left[item]!),
      new Int32Array(rows.length).fill(1),
    );
    for (const sheet of known) if (sheet.counts.every((copies, item) => copies <= left[item]!)) this.add(sheet);
    this.work = known.length * 10;
  }

  get sheets(): readonly SheetFound[] {
    return this.#sheets;
  }

  add(sheet: SheetFound): void {
    const pattern: number[] = [];
    sheet.counts.forEach((copies, item) => {
      if (copies > 0) pattern.push(this.#rowOf.get(item)!, copies);
    });
    this.#sheets.push(sheet);
    this.#lp.add(pattern);
  }

  /** Sheets needed, in fractions. */
  solve(): number {
    const before = this.#lp.work;
    this.#lp.solve();
    this.work += (this.#lp.work - before) * LP_STEP;
    return this.#rows.reduce((sum, item, row) => sum + this.#lp.duals[row]! * this.#left[item]!, 0);
  }

  /** What each item costs in the best mix, by item; 0 for those that are not left. */
  prices(): Float64Array {
    const prices = new Float64Array(this.#left.length);
    this.#rows.forEach((item, row) => {
      prices[item] = Math.max(0, this.#lp.duals[row]!);
    });
    return prices;
  }

  /** Sheets in the best mix with their shares. */
  used(): { readonly sheet: SheetFound; readonly share: number }[] {
    const used = this.#lp.used();
    const list: { sheet: SheetFound; share: number }[] = [];
    for (let k = 0; k < used.length; k += 2) {
      const sheet = this.#sheets[used[k]! - this.#rows.length];
      if (sheet) list.push({ sheet, share: used[k + 1]! });
    }
    return list;
  }
}
