/** Chop tables for the strips of a board: one for each quality of clear wood, shared by boards that ask the same sizes. */
import { type ChopTable, chopTable, exactChopTable } from './chop-table.ts';
import type { Item, View } from './view.ts';

export interface Tables {
  /** For each quality the table of blanks that its clear wood suits; the last one holds all blanks. */
  readonly chops: readonly ChopTable[];
}

type TableMaker = typeof exactChopTable;

/** For strips that take whatever is no wider than they are; a narrower blank is ripped once more. */
export function tablesFor(view: View, priceOf: Float64Array, limitOf: Int32Array): Tables {
  return tablesBy(chopTable, view, priceOf, limitOf);
}

/** For strips of just the blanks' size: one stage of cutting less. */
export function exactTablesFor(view: View, priceOf: Float64Array, limitOf: Int32Array): Tables {
  return tablesBy(exactChopTable, view, priceOf, limitOf);
}

function tablesBy(make: TableMaker, view: View, priceOf: Float64Array, limitOf: Int32Array): Tables {
  const capacity = view.along + view.kerfAlong;
  return tablesOf(view, view.items, (items) => make(items, priceOf, limitOf, view.kerfAlong, capacity));
}

function tablesOf(view: View, all: readonly Item[], table: (items: readonly Item[]) => ChopTable): Tables {
  const whole = table(all);
  if (view.blocked.length <= 1) return { chops: [whole, whole] };
  const chops = view.blocked.map((_, quality) => table(all.filter((item) => view.tolerates[quality]![item.quality]!)));
  return { chops: [...chops, whole] };
}

/** Tables at one set of prices and limits, for all boards on which blanks need the same sizes. */
export class SharedTables {
  readonly #priceOf: Float64Array;
  readonly #limitOf: Int32Array;
  readonly #longest: number;
  readonly #widest: number;
  readonly #made = new Map<string, Tables>();
  work = 0;

  /** longest and widest of all the boards. */
  constructor(priceOf: Float64Array, limitOf: Int32Array, longest: number, widest: number) {
    this.#priceOf = priceOf.slice();
    this.#limitOf = limitOf.slice();
    this.#longest = longest;
    this.#widest = widest;
  }

  /** As tablesFor. */
  of({ view, kind }: { readonly view: View; readonly kind: string }): Tables {
    const known = this.#made.get(kind);
    if (known) return known;
    const capacity = (view.turned ? this.#widest : this.#longest) + view.kerfAlong;
    const made = tablesOf(view, view.suited, (items) => {
      this.work += (items.length * capacity) >> 2;
      return chopTable(items, this.#priceOf, this.#limitOf, view.kerfAlong, capacity);
    });
    this.#made.set(kind, made);
    return made;
  }
}
