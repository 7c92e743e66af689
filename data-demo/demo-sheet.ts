/** How a sheet of the invented shop is written down here: cell values row by row, texts that start with "=" are formulas. */
export interface DemoSheet {
  readonly name: string;
  readonly rows: readonly (readonly (string | number | null)[])[];
  /** In screen pixels, from the first column. */
  readonly columnWidths?: readonly number[];
  /** 0-based areas that the shop has merged. */
  readonly merged?: readonly {
    readonly row: number;
    readonly column: number;
    readonly rowCount: number;
    readonly columnCount: number;
  }[];
  /** 0-based rows that the shop has hidden. */
  readonly hiddenRows?: readonly number[];
  /** Number formats of single cells, 0-based: the dates that once were fractions. */
  readonly formats?: readonly { readonly row: number; readonly column: number; readonly format: string }[];
}
